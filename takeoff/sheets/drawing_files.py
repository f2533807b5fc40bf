"""The folder of drawings: plans, walls and sheathing; for each rafter mark its drawing and its full-size pattern."""

from __future__ import annotations

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.dxf import dxf
from takeoff.sheets.pattern import rafter_pattern
from takeoff.sheets.patterns import patterns_pdf
from takeoff.sheets.sheet_boards import sheet_boards
from takeoff.sheets.sheet_drawings import SheetDrawings
from takeoff.sheets.svg import svg
from takeoff.sheets.title_block import titled

FOLDER = "drawings"

MARGIN_MM = 5.0
"""White paper around a drawing that stands alone [mm]."""


def drawing_files(takeoff: Takeoff, drawings: SheetDrawings) -> dict[str, bytes]:
    """Bytes by file name.

    ``wall-plan-cabin``, ``roof-plan-cabin``, ``part-plan-cabin-south-dormer``, ``section-cabin-R1``,
    ``wall-cabin-south``, ``sheathing-cabin-south``, all of them as ``.svg`` and as ``.dxf``; ``sheet-3A1.svg`` for each
    way that sheets are cut, ``sheets-3-cdx-5-8.dxf`` for all ways of a load and product; to be looked at alone
    ``frame-cabin.svg``; ``rafter-R1.svg`` and ``pattern-R1.dxf`` for each mark of a rafter, ``patterns.pdf`` for all of
    them on letter paper.
    """
    files: dict[str, bytes] = {}
    of_buildings = [drawing for _, drawing in (*drawings.grounds, *drawings.plans, *drawings.parts, *drawings.sections)]
    of_faces = [each.drawing for each in (*drawings.walls, *drawings.maps)]
    for drawing in (*of_buildings, *of_faces):
        files[f"{FOLDER}/{drawing.name}.svg"] = svg(titled(drawing, takeoff), margin_mm=MARGIN_MM)
        files[f"{FOLDER}/{drawing.name}.dxf"] = dxf(titled(drawing, takeoff))
    for board in sheet_boards(takeoff, drawings.sheets):
        files[f"{FOLDER}/{board.name}.dxf"] = dxf(titled(board, takeoff))
    for view in (*drawings.sheets.values(), *drawings.frames.values()):
        files[f"{FOLDER}/{view.name}.svg"] = svg(titled(view, takeoff), margin_mm=MARGIN_MM)
    for marked in rafter_marks(takeoff):
        drawing = drawings.rafters[marked.member.mark]
        pattern = rafter_pattern(marked.member, denominator=takeoff.settings.denominator)
        files[f"{FOLDER}/{drawing.name}.svg"] = svg(titled(drawing, takeoff), margin_mm=MARGIN_MM)
        files[f"{FOLDER}/{pattern.name}.dxf"] = dxf(pattern)
    patterns = patterns_pdf(takeoff)
    if patterns is not None:
        files[f"{FOLDER}/patterns.pdf"] = patterns
    return files
