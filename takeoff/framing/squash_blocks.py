"""Squash blocks: uprights through the depth of a floor's joists under posts and packs, from deck to sill or girder.

::

    | post |          seen along the joists: a block stands on each side of the joist that passes under the post,
  ==+======+==  deck  nailed to it, a sixteenth longer than the joist is deep, so that it takes the load, not the joist
     # || #
  ---+====+---  girder or sill
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import Profile, profile
from takeoff.findings import Finding, Severity
from takeoff.framing.floor_plan import floor_plan
from takeoff.framing.point_loads import PlanBox, PointLoad, plan_box, point_loads
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP, cross
from takeoff.measure import format_length
from takeoff.plan.floors import usual_grade

if TYPE_CHECKING:
    from takeoff.findings import Place
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

Span = tuple[float, float]

PROUD_IN = 1 / 16
"""Longer than the joists are deep, so that the block takes the load [in]. Common practice, no source."""

SLIVER_IN = 0.5
"""What is narrower under a post is left without a block [in]. Common practice, no source."""

SIZES = ("2x4", "2x6", "2x8", "2x10", "2x12")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Under:
    """What is in the depth of the joists, and what is right below it."""

    within: tuple[PlanBox, ...]
    carriers: tuple[PlanBox, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Block:
    box: PlanBox
    size: Profile
    turned: bool
    """Whether its thickness lies along v."""


def under_posts(
    building: Building, ground: Footprint, written: Callable[[str], Place], members: Sequence[Member]
) -> tuple[tuple[Member, ...], tuple[Finding, ...]]:
    """Squash blocks of the main floor, and what there is to say of each place that a point load comes down on.

    Args:
        building: as the plan writes it; without a framed main floor it has none.
        ground: its footprint.
        written: gives the place in the plan of a path.
        members: all sticks of the building, those of its floors included.
    """
    if building.floors.main is None:
        return (), ()
    plan = floor_plan(building, ground, building.floors.main, written("floors.main"))
    made: list[Member] = []
    findings: list[Finding] = []
    under = _under(plan, members)
    for load in point_loads(members, plan.bench.placement):
        blocks = _blocks(load.box, under)
        made += (_stick(plan, block) for block in blocks)
        findings.append(_told(plan, load, blocks, under))
        under = replace(under, within=(*under.within, *(block.box for block in blocks)))
    return tuple(made), tuple(findings)


def _under(plan: FloorPlan, members: Sequence[Member]) -> _Under:
    low = -plan.joist.depth_in
    within, carriers = [], []
    for stick in members:
        box, (bottom, top) = plan_box(stick, plan.bench.placement)
        if bottom > -TOLERANCE.mark:
            continue  # over the deck
        if top > low + TOLERANCE.mark:
            within.append(box)
        elif abs(top - low) < TOLERANCE.mark:
            carriers.append(box)
    return _Under(within=tuple(within), carriers=tuple(carriers))


def _blocks(load: PlanBox, under: _Under) -> tuple[_Block, ...]:
    """The blocks that stand best under a load: their thickness across the joists, or along them."""
    ways = []
    for turned in (False, True):
        box = load.turned if turned else load
        within = [each.turned if turned else each for each in under.within]
        made = [
            _Block(box=each.turned if turned else each, size=size, turned=turned)
            for each, size in _plies(box, within)
            if not any(each.meets(other) for other in within)
        ]
        ways.append(tuple(block for block in made if _carried(block.box, under)))
    # The first unless the other is clearly better: joists are what blocks are nailed to.
    return ways[1] if _under_load(ways[1], load) > 1.1 * _under_load(ways[0], load) else ways[0]


def _under_load(blocks: Sequence[_Block], load: PlanBox) -> float:
    return sum(block.box.shared(load) for block in blocks)


def _carried(box: PlanBox, under: _Under) -> bool:
    """Whether half of it at least stands on something."""
    return sum(box.shared(other) for other in under.carriers) > box.area / 2


def _plies(load: PlanBox, within: Sequence[PlanBox]) -> Iterator[tuple[PlanBox, Profile]]:
    """Blocks with their thickness along u, beside the sticks that pass along v and clear of those that cross."""
    near = [box for box in within if box.meets(load)]
    crossing = [box.v for box in near if box.u[1] - box.u[0] > box.v[1] - box.v[0]]
    free = max(_free(load.v, crossing), key=lambda span: round(span[1] - span[0], 6), default=(0.0, 0.0))
    if free[1] - free[0] < SLIVER_IN:
        return
    size = _size(free[1] - free[0])
    v = _set(free, load.v, size.depth_in)
    beside = [
        box.u for box in near if box.v[1] - box.v[0] >= box.u[1] - box.u[0] and box.v[0] < v[1] and box.v[1] > v[0]
    ]
    t = size.thickness_in
    for span in _free(load.u, beside):
        wide = span[1] - span[0]
        count = ceil((wide - SLIVER_IN) / t - TOLERANCE.length)
        if count < 1:
            continue
        if span[0] > load.u[0] and span[1] < load.u[1]:
            count = floor(wide / t + TOLERANCE.length)  # between two sticks
        start = _set(span, load.u, count * t)[0]
        for k in range(count):
            yield PlanBox(u=(start + k * t, start + (k + 1) * t), v=v), size


def _size(wanted: float) -> Profile:
    """The least stock that leaves no more than a sliver of a width [in] open; the widest where none does."""
    sizes = [profile(name) for name in SIZES]
    return next((size for size in sizes if size.depth_in >= wanted - SLIVER_IN), sizes[-1])


def _set(free: Span, whole: Span, length: float) -> Span:
    """A length set against what bounds a free span within a whole one; in its middle where nothing does."""
    if free[0] > whole[0] + TOLERANCE.length:
        return free[0], free[0] + length
    if free[1] < whole[1] - TOLERANCE.length:
        return free[1] - length, free[1]
    middle = (free[0] + free[1]) / 2
    return middle - length / 2, middle + length / 2


def _free(span: Span, taken: Sequence[Span]) -> list[Span]:
    """What of a span nothing takes."""
    free, start = [], span[0]
    for low, high in sorted(taken):
        if low > start:
            free.append((start, min(low, span[1])))
        start = max(start, high)
    return [*free, (start, span[1])] if start < span[1] else free


def _stick(plan: FloorPlan, block: _Block) -> Member:
    """Upright on what carries the joists."""
    u, v = (sum(block.box.u) / 2, sum(block.box.v) / 2)
    at = plan.bench.placement
    along = at.y if not block.turned else at.x
    half = block.size.depth_in / 2
    x, y, _ = at.to_world((u, v, 0.0))
    origin = (x + along[0] * half, y + along[1] * half, at.origin[2])
    bench = replace(plan.bench, placement=Placement(origin, cross(UP, along), UP))
    low = -plan.joist.depth_in
    return bench.along_v("squash-block", block.size, usual_grade(block.size.name), u=0.0, v=(low, PROUD_IN))


def _told(plan: FloorPlan, load: PointLoad, blocks: Sequence[_Block], under: _Under) -> Finding:
    x, y, _ = plan.bench.placement.to_world((sum(load.box.u) / 2, sum(load.box.v) / 2, 0.0))
    where = f"the {load.what} at [{format_length(x)}, {format_length(y)}]"
    severity = Severity.NOTE
    wood = min(sum(load.box.shared(box) for box in under.within), load.box.area)
    borne = sum(load.box.shared(box) for box in under.carriers) > load.box.area / 4
    if blocks:
        length = format_length(plan.joist.depth_in + PROUD_IN)
        message = (
            f"{len(blocks)} squash block{'s' if len(blocks) > 1 else ''} of {blocks[0].size.name}, {length} long,"
            f" under {where}: upright between deck and girder or sill, nailed to the joists beside"
        )
    elif not borne and not _hung(wood, load):
        severity = Severity.WARNING
        message = (
            f"{where} stands on the deck between sill and girder: nothing under the joists there takes its load; put a"
            " girder or a post with a footing under it, and squash blocks from it to the deck"
        )
    elif _hung(wood, load):
        message = f"no squash block under {where}: joists, a rim or a girder fill the floor's depth there already"
    else:
        severity = Severity.WARNING
        message = f"no squash block has room under {where}; move the joist beside it, or block it on the site"
    return Finding(
        rule="frame.squash-block",
        severity=severity,
        message=message,
        place=plan.bench.written,
        building=plan.bench.building,
        where=plan.name,
    )


def _hung(wood: float, load: PointLoad) -> bool:
    """Whether the sticks in the floor's depth fill most of what is under a load."""
    return wood > 0.6 * load.box.area
