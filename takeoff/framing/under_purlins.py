r"""Purlins on edge under the rafters of a gable roof, and the struts that carry them from a bearing wall.

_,-'
_,-'  _,-'     rafter, whole: nothing is notched
_,-'  _,-'[\        purlin, square to the rafters, its edge on their undersides
_,-'  \ \           strut, its head on the purlin's lower edge, cut along the slope
\ \
          ===\_\===      its foot level, on the plate of a bearing wall
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import Profile, profile
from takeoff.catalog.roles import role
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.cross_section import cross_section
from takeoff.framing.splices import spliced
from takeoff.framing.tie_spots import chosen
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP, add, scale
from takeoff.measure import format_length
from takeoff.model.member import EndCut, Member

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.purlins import Purlins
    from takeoff.plan.schema import Building

LEAST_STEEP = 1 / 2
"""Sine of the least angle between a strut and the slope over it: flatter, its head would be cut to a feather."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrutLine:
    """Axis of a strut across the slope: level distances from the outside of the wall, heights over the deck [in]."""

    foot: tuple[float, float]
    head: tuple[float, float]
    slope: float
    """Rise over run of the slope that its head is cut along."""

    @property
    def length(self) -> float:
        """On the axis [in]."""
        return hypot(self.head[0] - self.foot[0], self.head[1] - self.foot[1])

    @property
    def direction(self) -> tuple[float, float]:
        """Unit vector from foot to head: inward, up."""
        return (self.head[0] - self.foot[0]) / self.length, (self.head[1] - self.foot[1]) / self.length

    @property
    def facing(self) -> tuple[float, float]:
        """The slope's outward normal, along the strut and square to it (to the left, looking along it)."""
        (c, z), across = self.direction, hypot(1, self.slope)
        nc, nz = -self.slope / across, 1 / across
        return nc * c + nz * z, nc * -z + nz * c

    def ends_at(self, y: float) -> tuple[float, float]:
        """Where a line beside the axis, ``y`` to its left, starts and stops, measured along it from the foot."""
        (c, z), (a, b) = self.direction, self.facing
        return -y * c / z, self.length - y * b / a


def purlin_members(
    building: Building, frame: RoofFrame, ties: Sequence[Member], written: Callable[[str], Place]
) -> tuple[tuple[Member, ...], tuple[Finding, ...]]:
    """Purlins and struts of all slopes, and what there is to say of them.

    Args:
        building: as the plan writes it.
        frame: its roof.
        ties: ties and joists, which purlins keep clear of.
        written: gives the place in the plan of a path.

    Raises:
        PlanError: they have no room where the plan puts them.
    """
    told = building.roof.purlins
    if told is None:
        return (), ()
    members: list[Member] = []
    findings: list[Finding] = []
    for row in frame.rows:
        place = written("roof.purlins")
        line = _strut_line(building, frame, row, told)
        for fault in _faults(row, line, told):
            raise PlanError([_finding(building, row, Severity.ERROR, fault, place)])
        run = _between_walls(building, frame, row)
        # On one wall in the middle the struts of the two slopes stand beside each other: each a little to its right.
        aside = profile(told.struts.size).thickness_in / 2 if _meet(frame, told) else 0.0
        stands = [u + aside for u in chosen(tuple(_bays(row, run)), told.struts.spacing)]
        made = (*_purlin(row, told, run, stands), *_struts(row, line, told, stands))
        for tie in ties:
            if _crosses(tie, made[0]):
                words = tie.role.words.split(",")[0]
                message = f"the purlins cross the {words}s: put the purlins higher or lower, or the {words}s"
                raise PlanError([_finding(building, row, Severity.ERROR, message, place)])
        members += made
        findings.append(_finding(building, row, Severity.WARNING, _said(line, told, len(stands)), place))
    return tuple(members), tuple(findings)


def _meet(frame: RoofFrame, told: Purlins) -> bool:
    """Whether the feet of struts of opposite slopes would stand in each other."""
    return 2 * told.struts.wall + 2 * profile(told.struts.size).depth_in > cross_section(frame).span


def _at(row: RafterRow, told: Purlins) -> float:
    common = row.slope.common
    return (common.run - common.ridge_half) / 2 if told.at is None else told.at


def _size(row: RafterRow, told: Purlins) -> Profile:
    return profile(told.size) if told.size else row.profile


def _middle(row: RafterRow, told: Purlins) -> float:
    """V of the purlin's middle [in]: square under where it touches the undersides of the rafters."""
    common = row.slope.common
    return _at(row, told) / row.slope.level - common.depth * common.slope


def _strut_line(building: Building, frame: RoofFrame, row: RafterRow, told: Purlins) -> StrutLine:
    common, level = row.slope.common, row.slope.level
    v, down = _middle(row, told), common.depth + _size(row, told).depth_in
    rise = common.slope * level
    top = row.slope.bench.placement.origin[2]
    base = frame.plan.line(row.slope.side).plate if told.struts.height is None else told.struts.height
    head = (v * level + down * rise, top + v * rise - down * level)
    return StrutLine(foot=(told.struts.wall, base), head=head, slope=common.slope)


def _faults(row: RafterRow, line: StrutLine, told: Purlins) -> Iterator[str]:
    """Why purlins or struts can't be placed, in a builder's words."""
    common, size = row.slope.common, _size(row, told)
    reach = size.depth_in * common.slope * row.slope.level
    most = common.run - common.ridge_half - reach - size.thickness_in
    if not common.seat < _at(row, told) <= most + TOLERANCE.length:
        yield (
            f"purlins {format_length(_at(row, told))} in from the {row.slope.side} wall have no room between wall and"
            f" ridge; put them between {format_length(common.seat)} and {format_length(most)}"
        )
    elif line.head[1] - line.foot[1] < profile(told.struts.size).depth_in:
        yield (
            f"the struts would start {format_length(line.foot[1])} over the deck, and the purlin's lower edge is"
            f" {format_length(line.head[1])} over it; put the purlins higher up the slope, or leave the struts out"
        )
    elif line.facing[0] < LEAST_STEEP:
        yield (
            f"struts from a wall {format_length(line.foot[0])} in would lie along the {row.slope.name}; stand them on a"
            " wall nearer to the purlin"
        )


def _between_walls(building: Building, frame: RoofFrame, row: RafterRow) -> tuple[float, float]:
    """Inner faces of the gable walls, along the eave [in]."""
    names = [line.side.name for line in frame.plan.lines]
    here = names.index(row.slope.side)
    left, right = (
        profile(building.walls.for_side(names[k]).studs).depth_in for k in (here - 1, (here + 1) % len(names))
    )
    return row.slope.walls[0] + left, row.slope.walls[1] - right


def _bays(row: RafterRow, run: tuple[float, float]) -> Iterator[float]:
    """Middles of the bays between rafters, where neither joists nor ties lie."""
    for a, b in pairwise(row.centres):
        if run[0] < (a + b) / 2 < run[1]:
            yield (a + b) / 2


def _purlin(row: RafterRow, told: Purlins, run: tuple[float, float], stands: Sequence[float]) -> Iterator[Member]:
    """Its pieces, joined over struts."""
    size, bench = _size(row, told), row.slope.bench
    under = bench.placement.to_world((0.0, 0.0, -row.slope.common.depth))
    lowered = replace(
        bench,
        face=f"{row.slope.name}, purlin",
        placement=replace(bench.placement, origin=under),
    )
    lengths = stock_lengths(size, told.grade)
    for part in spliced(run, lengths[-1] if lengths else float("inf"), stands):
        yield lowered.standing_along_u("purlin", size, told.grade, u=part, v=_middle(row, told))


def _struts(row: RafterRow, line: StrutLine, told: Purlins, stands: Sequence[float]) -> Iterator[Member]:
    from shapely import Polygon

    size, bench = profile(told.struts.size), row.slope.bench
    half, (c, z) = size.depth_in / 2, line.direction
    (f0, h0), (f1, h1) = line.ends_at(-half), line.ends_at(half)
    start = min(f0, f1)
    side = Polygon([(f0 - start, 0.0), (h0 - start, 0.0), (h1 - start, 2 * half), (f1 - start, 2 * half)])
    x, y, _ = bench.placement.y
    level = hypot(x, y)
    inward = (x / level, y / level, 0.0)
    along = add(scale(inward, c), scale(UP, z))
    beside = add(scale(inward, -z), scale(UP, c))
    cuts = (EndCut((-z, -c, 0.0)), EndCut((line.facing[0], line.facing[1], 0.0)))
    for u in stands:
        wx, wy, _ = bench.placement.to_world((u, 0.0, 0.0))
        foot = add((wx, wy, line.foot[1]), scale(inward, line.foot[0]))
        origin = add(add(foot, scale(along, start)), scale(beside, -half))
        yield Member(
            building=bench.building,
            face=f"{row.slope.name}, purlin",
            role=role("strut"),
            profile=size,
            grade=told.struts.grade,
            side=side,
            placement=Placement(origin, along, beside),
            cuts=cuts,
            written=bench.written,
        )


def _crosses(tie: Member, purlin: Member) -> bool:
    """Whether a level stick across the building is as high as a purlin somewhere."""
    depth, half = purlin.profile.depth_in, purlin.profile.thickness_in / 2
    heights = [purlin.placement.to_world((0.0, y, z))[2] for y in (0.0, depth) for z in (-half, half)]
    low = tie.placement.origin[2]
    return low < max(heights) - TOLERANCE.length and low + tie.profile.depth_in > min(heights) + TOLERANCE.length


def _said(line: StrutLine, told: Purlins, count: int) -> str:
    return (
        f"{count} struts carry the purlin; they stand on a bearing wall {format_length(line.foot[0])} in, its plate"
        f" {format_length(line.foot[1])} over the deck: that wall and what it stands on are not in this take-off"
    )


def _finding(building: Building, row: RafterRow, severity: Severity, message: str, place: Place) -> Finding:
    return Finding(
        rule="frame.purlins",
        severity=severity,
        message=message,
        place=place,
        building=building.name,
        where=f"{row.slope.name}, purlin",
    )
