"""What was decided of tails, soffits, end rafters and outlookers, in a builder's words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, Severity
from takeoff.framing.rake_ends import carried
from takeoff.framing.soffits import SoffitBox, soffit_boxes
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.schema import Building


def eaves_decided(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Finding]:
    """Notes on the eaves and rakes of a roof that are not the plain ones, each said once for all alike."""
    groups: dict[_Said, list[str]] = {}
    for said, side in _all_said(building, frame, written("roof.soffit")):
        groups.setdefault(said, []).append(side)
    for said, sides in groups.items():
        named = ", ".join(dict.fromkeys(sides))
        yield Finding(
            rule=said.rule,
            severity=said.severity,
            message=said.message,
            place=written(said.path),
            building=building.name,
            where=f"{named} {said.part}",
        )


@dataclass(frozen=True, slots=True)
class _Said:
    """What there is to say of one side, but for the side's name."""

    rule: str
    part: str
    message: str
    path: str
    severity: Severity = Severity.NOTE


def _all_said(building: Building, frame: RoofFrame, place: Place) -> Iterator[tuple[_Said, str]]:
    boxed = building.roof.soffit.kind == "boxed"
    for row in frame.rows:
        if row.slope.outline.edges_with("eave") and row.slope.common.overhang and (message := _tail(row)):
            idle = row.slope.common.tail_level_drop is not None and not _level_cut(row) and not boxed
            severity = Severity.WARNING if idle else Severity.NOTE
            yield _Said("frame.tail", "eave", message, "roof.tail", severity), row.slope.side
    for box in soffit_boxes(building, frame.rows, place):
        yield _Said("frame.soffit", "eave", _boxed(box), "roof.soffit"), box.row.slope.side
    outlookers = carried(building.roof)
    for row in frame.rows:
        for message in _dropped(row):
            yield _Said("frame.end-rafter", "slope, end rafters", message, "roof.outlookers"), row.slope.side
        if outlookers and outlookers.spacing is None and (message := _places(row)):
            yield _Said("frame.outlookers", "slope, outlookers", message, "roof.outlookers"), row.slope.side


def _boxed(box: SoffitBox) -> str:
    return (
        f"the soffit lies {_under(box.low)} of the wall, on lookouts {format_length(box.outer - box.inner)} long; "
        "the boxes end at the end walls, and air for the blocks over the plate has to come in through the soffit"
    )


def _under(height: float) -> str:
    return f"{format_length(abs(height))} {'over' if height > 0 else 'under'} the top"


def _level_cut(row: RafterRow) -> bool:
    """Whether a level cut takes anything off the tails."""
    common = row.slope.common
    drop = common.tail_level_drop
    return drop is not None and drop < common.tail_depth_cut / row.slope.level


def _tail(row: RafterRow) -> str:
    common = row.slope.common
    if common.tail_lean:
        return "tails are cut square to the rafters' edges; the overhang is measured to the top of the cut"
    if common.tail_level_drop is None:
        return ""
    drop = format_length(common.tail_level_drop)
    if _level_cut(row):
        return f"tails are cut level {drop} plumb below the top of their tail cuts"
    deep = format_length(common.tail_depth_cut / row.slope.level)
    return f"the tails are {deep} deep, measured plumb, and don't reach down to a level cut at {drop}"


def _dropped(row: RafterRow) -> Iterator[str]:
    for one in row.placed:
        if one.drop:
            cut = one.cuts.geometry
            yield (
                f"end rafters are ripped to {format_length(cut.depth)} from {one.drop.profile.name} and stand "
                f"{format_length(cut.height_above_plate)} over the plate, "
                f"{format_length(one.drop.by / row.slope.level)} lower than the others; their bird's mouth is the same"
            )


def _places(row: RafterRow) -> str:
    """Where outlookers lie along the rake, from the tail cut."""
    found = next((one.cuts.geometry.pockets or one.crossed for one in row.placed if one.role == "end-rafter"), ())
    if len(found) < 3:
        return "no level edge of the sheets lies between the outlookers at eave and ridge" if found else ""
    places = ", ".join(format_length(at.centre) for at in found[1:-1])
    return f"outlookers between eave and ridge lie under the level edges of the sheets, from the tail cut at {places}"
