"""How few sheets there could be, in words."""

from __future__ import annotations

from takeoff.model.stock import SheetProof


def sheet_proof_words(proof: SheetProof) -> str:
    """``cdx-5/8: 20 sheets, 1 over the 19 that these pieces take at the least, however cut``."""
    sheets = f"{' + '.join(proof.products)}: {proof.sheets} sheet{'' if proof.sheets == 1 else 's'}"
    if proof.over <= 0:
        return f"{sheets}: these pieces can't be cut from fewer."
    return f"{sheets}, {proof.over} over the {proof.sheet_bound} that these pieces take at the least, however cut."
