"""Pony walls: from a stepped foundation to the joists of the main floor, in place of a part of the mud sill.

::

    ======== cap plate, top plate, under the joists ========
      |    |    |    ||    |    |    |    |    |    |    ||
    --+----+----+----+|    |    |    |    |    |    |    ||     bottom plates, treated
    foundation       ||    |    |    |    |    |    |    ||
                     ++----+----+----+----+----+----+----++
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.findings import Finding, PlanError, Severity
from takeoff.framing.floor_lap import lapped
from takeoff.framing.floor_sticks import girder_gaps, longest_sold, sill_run
from takeoff.framing.spacing import clear_of, layout_positions
from takeoff.framing.splices import spliced
from takeoff.framing.stick import Bench
from takeoff.geometry.outline import Outline, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.rake_line import RakeLine
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.measure import format_length
from takeoff.model.face import Cover, Face, Supports
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.plan.rules_pony import pony_size

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pony:
    """A pony wall ready to be framed; u along its side, v above its lowest part [in]."""

    side: Side
    bench: Bench
    size: Profile
    grade: str
    plates_grade: str
    sheathing: str | None
    run: tuple[float, float]
    """From where to where it runs [in]."""
    cap: tuple[float, float]
    """The same of its cap plate, which laps over the pony wall that it meets."""
    steps: tuple[tuple[Point, Point], ...]
    """Level parts of the foundation's top, left to right."""
    high: float
    """Underside of the joists [in]."""
    covered: float
    """Where the sheets of the wall over it end, which lap its plates [in]."""
    centres: tuple[float, ...]
    """Of its studs [in]."""
    from_right: bool

    @property
    def name(self) -> str:
        """What it is called."""
        return f"{self.side.name} pony"


def ponies(building: Building, ground: Footprint, plan: FloorPlan) -> Mapping[int, Pony]:
    """The pony walls under a main floor, by the number of their side.

    Raises:
        PlanError: a girder ends in one.
    """
    asked = building.walls.pony
    return {k: _pony(building, ground, plan, k) for k, side in enumerate(ground.sides) if side.name in asked}


def _pony(building: Building, ground: Footprint, plan: FloorPlan, k: int) -> Pony:
    side, size = ground.sides[k], profile(pony_size(building))
    asked, above = building.walls.pony[side.name], building.walls.for_side(side.name)
    line = RakeLine(points=asked.bottom)
    start, end = sill_run(plan, k, size)
    run = max(start, asked.bottom[0][0]), min(end, asked.bottom[-1][0])
    bottom = min(v for _, v in asked.bottom)
    under = plan.bench.placement.origin[2] - plan.joist.depth_in
    steps = tuple(((a[0], a[1] - bottom), (b[0], b[1] - bottom)) for a, b in line.runs(run))
    from_right = k >= len(ground.sides) // 2
    t = size.thickness_in
    fixed = [u for a, b in steps for u in (a[0] + t / 2, b[0] - t / 2)]
    layout = layout_positions(side.length_in, asked.spacing or above.spacing_in, from_right=from_right)
    inside = [u for u in layout if run[0] + t / 2 <= u <= run[1] - t / 2]
    name = f"{side.name} pony"
    at = Placement((*side.start, bottom), (*side.direction, 0.0), UP)
    _refuse_girders(plan, k, name, run, size)
    return Pony(
        side=side,
        bench=Bench(building=building.name, face=name, placement=at, written=plan.bench.written),
        size=size,
        grade=asked.grade or above.grade,
        plates_grade=above.plates_grade,
        sheathing=above.sheathing,
        run=run,
        cap=_cap(building, ground, k, run, (start, end), size),
        steps=steps,
        high=under - bottom,
        covered=min(under, -lapped(building, side.name)) - bottom,
        centres=tuple(sorted((*fixed, *clear_of(inside, fixed, t)))),
        from_right=from_right,
    )


def _cap(
    building: Building, ground: Footprint, k: int, run: tuple[float, float], sill: tuple[float, float], size: Profile
) -> tuple[float, float]:
    """At a square corner with another pony wall the cap plates run the other way than the plates under them."""
    side, count = ground.sides[k], len(ground.sides)
    left, right = run
    for other, at_end in ((ground.sides[k - 1], False), (ground.sides[(k + 1) % count], True)):
        met = building.walls.pony.get(other.name)
        first, second = (side, other) if at_end else (other, side)
        turn = first.direction[0] * second.direction[1] - first.direction[1] * second.direction[0]
        if met is None or abs(abs(turn) - 1.0) > TOLERANCE.length:
            continue
        reaches = other.length_in - met.bottom[-1][0] if not at_end else met.bottom[0][0]
        if reaches > TOLERANCE.mark:
            continue
        deep = size.depth_in if turn > 0 else -size.depth_in
        if at_end and abs(run[1] - sill[1]) < TOLERANCE.length:
            right = side.length_in - (deep - (side.length_in - run[1]))
        elif not at_end and abs(run[0] - sill[0]) < TOLERANCE.length:
            left = deep - run[0]
    return left, right


def _refuse_girders(plan: FloorPlan, k: int, name: str, run: tuple[float, float], size: Profile) -> None:
    v = -plan.joist.depth_in - size.thickness_in
    for low, high in girder_gaps(plan, plan.sill_edges[k], run, v, size):
        message = (
            f"a girder ends in the {name} wall, {format_length(high - low)} of it, at {format_length(low)} from the"
            " left end of its side; end the girder inside the wall, on a post of its own"
        )
        place = plan.bench.written
        raise PlanError([Finding(rule="frame.pony", severity=Severity.ERROR, message=message, place=place)])


def pony_members(wall: Pony) -> Iterator[Member]:
    """Plates and studs of a pony wall."""
    bench, size, t = wall.bench, wall.size, wall.size.thickness_in
    treated = longest_sold(size, "treated")
    for (u0, v), (u1, _) in wall.steps:
        for run in spliced((u0, u1), treated, wall.centres):
            yield bench.flat_along_u("bottom-plate", size, "treated", u=run, v=v)
        for u in wall.centres:
            if u0 < u < u1:
                yield bench.along_v("stud", size, wall.grade, u=u, v=(v + t, wall.high - 2 * t))
    longest = longest_sold(size, wall.plates_grade)
    top = spliced(wall.run, longest, wall.centres)
    joints = tuple(run[1] for run in top[:-1])
    cap = spliced(wall.cap, longest, wall.centres, away_from=joints, offset=rule("plate.joint-offset").value)
    for run in top:
        yield bench.flat_along_u("top-plate", size, wall.plates_grade, u=run, v=wall.high - 2 * t)
    for run in cap:
        yield bench.flat_along_u("cap-plate", size, wall.plates_grade, u=run, v=wall.high - t)


def pony_line(wall: Pony, start: str) -> LayoutLine:
    """Studs on the plates of a pony wall, and the steps, from its left end seen from outside."""
    left = wall.run[0]
    studs = {(round(u - left, 6), "X", "stud") for u in wall.centres}
    steps = {(round(a[0] - left, 6), "|", "step of the foundation") for a, _ in wall.steps[1:]}
    return LayoutLine(
        name=f"{wall.name} wall plates",
        start=start,
        length_in=wall.run[1] - left,
        marks=tuple(LayoutMark(*mark) for mark in sorted(studs | steps)),
        load=1,
    )


def pony_face(wall: Pony) -> Face:
    """The outside of a pony wall, from the foundation to the sheets of the wall over it."""
    low = [corner for step in wall.steps for corner in step]
    roles = ["bottom" if b[0] - a[0] > TOLERANCE.length else "end" for a, b in pairwise(low)]
    points = [*low, (wall.run[1], wall.covered), (wall.run[0], wall.covered)]
    return Face(
        kind="wall",
        name=wall.name,
        outline=Outline(ring(points, [*roles, "end", "top", "end"])),
        placement=wall.bench.placement,
        supports=Supports(centres=wall.centres, thickness=wall.size.thickness_in, rows=(), from_right=wall.from_right),
        cover=Cover(field=wall.sheathing, exposed=wall.sheathing) if wall.sheathing else None,
        shown=None,
        written=wall.bench.written,
    )


def pony_told(wall: Pony) -> Iterator[Finding]:
    """How it is braced, where its studs are very low or high."""
    heights = [wall.high - a[1] for a, _ in wall.steps]
    plates = 3 * wall.size.thickness_in
    low, tall = rule("pony.low-stud"), rule("pony.tall")

    def say(severity: Severity, message: str) -> Finding:
        return Finding(
            rule="frame.pony",
            severity=severity,
            message=message,
            place=wall.bench.written,
            building=wall.bench.building,
            where=f"{wall.name} wall",
        )

    least, most = (format_length(h) for h in (min(heights), max(heights)))
    high = least if least == most else f"{least} to {most}"
    yield say(
        Severity.NOTE,
        f"{high} high from the foundation to the joists: it is braced as the wall over it, its sheets nailed to the mud"
        " plate and to both top plates",
    )
    if min(heights) - plates < low.value - TOLERANCE.length:
        yield say(
            Severity.WARNING,
            f"studs of {format_length(min(heights) - plates)}, under {format_length(low.value)}: sheathe that part"
            f" without a break, or fill it with solid blocks (section {low.section}, recalled, to be looked up)",
        )
    if max(heights) > tall.value + TOLERANCE.length:
        yield say(
            Severity.WARNING,
            f"{format_length(max(heights))} high, over {format_length(tall.value)}: its studs are to be as for one more"
            f" story (section {tall.section}, recalled, to be looked up)",
        )
