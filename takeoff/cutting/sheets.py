"""The cutting of sheets: one question, answered by the cutter that is in use."""

from __future__ import annotations

from takeoff.cutting.sheet.cutter import cut_exactly
from takeoff.cutting.sheet_problem import PanelPiece, SheetCutter, SheetOffer, SheetProblem
from takeoff.cutting.stop import MaxRounds, StopRule
from takeoff.model.stock import SheetCutting

__all__ = ["PanelPiece", "SheetCutter", "SheetOffer", "SheetProblem", "cut_sheets"]

_CUTTER: SheetCutter = cut_exactly


def cut_sheets(problem: SheetProblem, *, stop: StopRule | None = None, seed: int = 0) -> SheetCutting:
    """Sheets for all panels of a problem, with the least number of them that the area allows.

    Panels keep their strength axis along the sheet and share a sheet only within a product. A sheet is ripped into
    rows, and each row is crosscut, as a crew does it.

    Panels are laid with a gap (or sheets made scant) as wide as the saw cuts, so a panel that covers a length takes
    just that length of its sheet: there is no kerf between pieces unless it is wider than the gap.

    Args:
        problem: what to cut, and from what.
        stop: when to be content with what is found; without it, after ``MaxRounds()``.
        seed: start of any chance the cutter takes.

    Raises:
        ValueError: a panel is larger than every sheet of its product.
    """
    return _CUTTER(problem, stop=stop or MaxRounds(), seed=seed)
