"""The folder of drawings: plans, walls and sheathing; for each rafter mark its drawing and its full-size pattern."""

from __future__ import annotations

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.dxf import dxf
from takeoff.sheets.pattern import rafter_pattern
from takeoff.sheets.patterns import patterns_pdf
from takeoff.sheets.sheet_drawings import SheetDrawings
from takeoff.sheets.svg import svg
from takeoff.sheets.title_block import titled

FOLDER = "drawings"

MARGIN_MM = 5.0
"""White paper around a drawing that stands alone [mm]."""


def drawing_files(takeoff: Takeoff, drawings: SheetDrawings) -> dict[str, bytes]:
    """Bytes by file name.

    ``wall-plan-cabin``, ``roof-plan-cabin``, ``part-plan-cabin-south-dormer``, ``section-cabin-R1``,
    ``wall-cabin-south``, ``sheathing-cabin-south``, and ``sheet-3A1`` for each way that sheets are cut, all of them as
    ``.svg`` and as ``.dxf``; to be looked at alone ``frame-cabin.svg``; ``rafter-R1.svg`` and ``pattern-R1.dxf`` for
    each mark of a rafter, ``patterns.pdf`` for all of them on letter paper.
    """
    files: dict[str, bytes] = {}
    of_buildings = [drawing for _, drawing in (*drawings.grounds, *drawings.plans, *drawings.parts, *drawings.sections)]
    of_faces = [each.drawing for each in (*drawings.walls, *drawings.maps)]
    for drawing in (*of_buildings, *of_faces, *drawings.sheets.values()):
        files[f"{FOLDER}/{drawing.name}.svg"] = svg(titled(drawing, takeoff), margin_mm=MARGIN_MM)
        files[f"{FOLDER}/{drawing.name}.dxf"] = dxf(titled(drawing, takeoff))
    for view in drawings.frames.values():
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
