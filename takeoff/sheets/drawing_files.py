"""The folder of drawings: for each rafter mark its dimensioned drawing and its full-size pattern."""

from __future__ import annotations

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.dxf import dxf
from takeoff.sheets.pattern import rafter_pattern
from takeoff.sheets.rafter_drawing import rafter_drawing
from takeoff.sheets.svg import svg

FOLDER = "drawings"


def drawing_files(takeoff: Takeoff) -> dict[str, bytes]:
    """Bytes by file name: ``drawings/rafter-R1.svg`` and ``drawings/pattern-R1.dxf`` for each mark."""
    files: dict[str, bytes] = {}
    for marked in rafter_marks(takeoff):
        drawing = rafter_drawing(marked.member, denominator=takeoff.settings.denominator)
        pattern = rafter_pattern(marked.member, denominator=takeoff.settings.denominator)
        files[f"{FOLDER}/{drawing.name}.svg"] = svg(drawing)
        files[f"{FOLDER}/{pattern.name}.dxf"] = dxf(pattern)
    return files
