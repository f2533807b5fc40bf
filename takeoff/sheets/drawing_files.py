"""The folder of drawings: framing plans of roofs, and for each rafter mark its drawing and its full-size pattern."""

from __future__ import annotations

from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.dxf import dxf
from takeoff.sheets.folds import facts_in
from takeoff.sheets.pattern import rafter_pattern
from takeoff.sheets.rafter_drawing import rafter_drawing
from takeoff.sheets.rafter_tops import top_of
from takeoff.sheets.rafter_whole import STEP_RUN_IN
from takeoff.sheets.roof_drawing import roof_drawing
from takeoff.sheets.slug import slugs
from takeoff.sheets.svg import svg

FOLDER = "drawings"

MARGIN_MM = 5.0
"""White paper around a drawing that stands alone [mm]."""


def sheet_drawing(member: Member, takeoff: Takeoff) -> Drawing:
    """The drawing of a rafter as the sheets have it, its steps those of its fold if it runs along one."""
    facts = facts_in(takeoff.buildings, member)
    step_in = facts.step_in if facts else STEP_RUN_IN
    top = top_of(member, takeoff.buildings)
    return rafter_drawing(member, denominator=takeoff.settings.denominator, step_in=step_in, top=top)


def roof_drawings(takeoff: Takeoff) -> tuple[tuple[FramedBuilding, Drawing], ...]:
    """The framing plan of each building that has a roof."""
    names = slugs(building.name for building in takeoff.buildings)
    drawn = (
        (b, roof_drawing(b, name=f"roof-plan-{names[b.name]}", denominator=takeoff.settings.denominator))
        for b in takeoff.buildings
    )
    return tuple((building, drawing) for building, drawing in drawn if drawing is not None)


def drawing_files(takeoff: Takeoff) -> dict[str, bytes]:
    """Bytes by file name.

    ``drawings/roof-plan-cabin.svg`` and ``.dxf`` for each building, ``drawings/rafter-R1.svg`` and
    ``drawings/pattern-R1.dxf`` for each mark of a rafter.
    """
    files: dict[str, bytes] = {}
    for _, plan in roof_drawings(takeoff):
        files[f"{FOLDER}/{plan.name}.svg"] = svg(plan, margin_mm=MARGIN_MM)
        files[f"{FOLDER}/{plan.name}.dxf"] = dxf(plan)
    for marked in rafter_marks(takeoff):
        drawing = sheet_drawing(marked.member, takeoff)
        pattern = rafter_pattern(marked.member, denominator=takeoff.settings.denominator)
        files[f"{FOLDER}/{drawing.name}.svg"] = svg(drawing, margin_mm=MARGIN_MM)
        files[f"{FOLDER}/{pattern.name}.dxf"] = dxf(pattern)
    return files
