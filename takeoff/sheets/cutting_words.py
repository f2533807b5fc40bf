"""What is known of how cheap the cutting of boards is, in words; and where cuts begin that aren't side by side."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, isfinite

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.stock import Board, CostProof, LumberCutting

_TENTHS = 10


def proof_words(proof: CostProof) -> str:
    """``cheapest possible``, ``within 0.4 % of the cheapest possible``, or nothing where nothing is known."""
    if proof.proven:
        return "cheapest possible"
    if not proof.gap_pct or not isfinite(proof.gap_pct):  # without a price there is neither cost nor bound
        return ""
    tenths = ceil(proof.gap_pct * _TENTHS - TOLERANCE.length)
    return f"within {tenths / _TENTHS:g} % of the cheapest possible"


def proven(lumber: LumberCutting) -> Iterator[tuple[CostProof, str]]:
    """Proofs that say something, each with its words, in the order of the cutting."""
    for proof in lumber.proofs:
        words = proof_words(proof)
        if words:
            yield proof, words


def begins_within(board: Board) -> tuple[bool, ...]:
    """For each piece on a board, whether it begins in the slant of the one before, one saw cut making both ends."""
    return tuple(cut.lap_in > TOLERANCE.length for cut in board.cuts)
