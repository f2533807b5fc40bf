"""Boxed eaves: level lookouts beside the rafters' tails, from a ledger on the wall sheathing to the tail cuts.

                   ,-'
fascia   __     ,-'
        |  | ,-'   |     |
        |  |-'_____|_____|
        |  |  lookout |L||  wall      L: ledger; the soffit is nailed under lookouts, ledger and fascia
        |__|__________|_||
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import Profile, profile
from takeoff.catalog.sheets import sheet_product
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.eaves import upright_bench
from takeoff.framing.mouth import EAVE_VALLEY
from takeoff.framing.splices import spliced
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.stick import Bench
    from takeoff.geometry.outline import Edge, Point
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

LEAST_LOOKOUT_IN = 3.0
"""Shortest lookout that is worth nailing [in]. Common practice, no source."""

LEAST_HOLD_IN = 1.5
"""Least height of the ledger that lies on the wall, under the top of its plates [in]. Common practice, no source."""

LEAST_HEIGHT_IN = 1.5
"""Least height of a lookout's outer end, under the roof or under an outlooker [in]. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoffitBox:
    """The box under one eave. Heights are over the plate, level distances outward from the wall framing [in]."""

    row: RafterRow
    lookout: Profile
    ledger: Profile
    grade: str
    low: float
    """Of the soffit: the level cuts of the tails."""
    wall: float
    """Face of the wall sheathing."""
    rake: float
    """Overhang of the rakes."""

    @property
    def inner(self) -> float:
        """Outer face of the ledger, which the lookouts butt."""
        return self.wall + self.ledger.thickness_in

    @property
    def outer(self) -> float:
        """Back of the fascia."""
        return self.row.slope.common.overhang

    @property
    def bench(self) -> Bench:
        """The plumb plane over the outside of the wall framing, v up from the plate."""
        return replace(upright_bench(self.row.slope), face=f"{self.row.slope.side} soffit")


def soffit_boxes(building: Building, rows: tuple[RafterRow, ...], place: Place) -> tuple[SoffitBox, ...]:
    """The boxes of a building's eaves; none where they are open.

    Raises:
        PlanError: there is no room for one.
    """
    if building.roof.soffit.kind != "boxed":
        return ()
    eaves = [row for row in rows if row.slope.outline.edges_with("eave")]
    boxes = tuple(_box(building, row) for row in eaves)
    faults = [message for box in boxes if (message := _fault(box))]
    if faults:
        raise PlanError([Finding(rule="frame.soffit", severity=Severity.ERROR, message=m, place=place) for m in faults])
    return boxes


def _box(building: Building, row: RafterRow) -> SoffitBox:
    soffit, common = building.roof.soffit, row.slope.common
    sheet = building.walls.for_side(row.slope.side).sheathing
    return SoffitBox(
        row=row,
        lookout=profile(soffit.lookouts),
        ledger=profile(soffit.ledger),
        grade=soffit.grade,
        low=common.top_at(-common.overhang) - (common.tail_level_drop or 0.0),
        wall=sheet_product(sheet).thickness_in if sheet else 0.0,
        rake=building.roof.overhang.rake,
    )


def _fault(box: SoffitBox) -> str | None:
    side = box.row.slope.side
    if box.outer - box.inner < LEAST_LOOKOUT_IN:
        least = format_length(box.inner + LEAST_LOOKOUT_IN)
        return (
            f"the {side} eave stands out {format_length(box.outer)}, which leaves no room for lookouts"
            f" beyond the ledger, expected at least {least}"
        )
    if box.low > -LEAST_HOLD_IN:
        height = f"{format_length(abs(box.low))} {'over' if box.low > 0 else 'under'} the top of the wall"
        return (
            f"the soffit of the {side} eave comes {height}, where its ledger has nothing to hold on to;"
            " take a deeper fascia, a larger soffit_drop or a wider overhang"
        )
    return None


def soffit_members(box: SoffitBox, longest: float) -> tuple[Member, ...]:
    """Ledger and lookouts of one slope's eaves; a slope has several where a wing parts its wall."""
    edges = box.row.slope.outline.edges
    return tuple(
        member
        for index, edge in enumerate(edges)
        if edge.role == "eave"
        for member in (*_ledgers(box, _run(box, index), longest), *_lookouts(box, edge))
    )


def _ledgers(box: SoffitBox, run: tuple[float, float], longest: float) -> Iterator[Member]:
    """In one line under the rafters' tails; where these hang lower, in pieces between them."""
    if run[1] - run[0] < LEAST_LOOKOUT_IN:
        return
    half = box.row.profile.thickness_in / 2
    passing = [one for one in box.row.placed if one.cuts.geometry.start < -box.wall and run[0] < one.u < run[1]]
    if all(_underside(one, box) >= box.low + box.ledger.depth_in - TOLERANCE.length for one in passing):
        parts = spliced(run, longest, (one.u for one in passing))
    else:
        stops = (run[0], *(e for one in passing for e in (one.u - half, one.u + half)), run[1])
        parts = tuple((a, b) for a, b in zip(stops[::2], stops[1::2], strict=True) if b - a > LEAST_LOOKOUT_IN)
    for part in parts:
        yield box.bench.edge_along_u("soffit-ledger", box.ledger, box.grade, u=part, v=box.low, outward=box.inner)


def _underside(one: Placed, box: SoffitBox) -> float:
    """Height of a rafter's underside where the ledger passes it [in]; that of its slope, for a dropped one as well."""
    common = box.row.slope.common
    tail = common.top_at(-box.inner) - common.tail_depth_cut / box.row.slope.level
    return tail if one.cuts.geometry.foot is None else min(tail, common.underside_at(-box.inner))


def _run(box: SoffitBox, index: int) -> tuple[float, float]:
    """Ends of the ledger of one eave: at the ends of its wall, short of the hips or valleys over its corners."""
    edges = box.row.slope.outline.edges
    eave, before, after = edges[index], edges[index - 1], edges[(index + 1) % len(edges)]
    left = _wall_end(box, eave.a, before, 1.0) + _clear(box, before)
    return left, _wall_end(box, eave.b, after, -1.0) - _clear(box, after)


def _wall_end(box: SoffitBox, end: Point, beside: Edge, inward: float) -> float:
    """Where the wall under an eave ends [in] along u: under the hip or valley, or inside the rake by its overhang."""
    if beside.role in ("hip", "valley", EAVE_VALLEY):
        return end[0] - end[1] / beside.slope
    return end[0] + inward * box.rake if beside.role == "rake" else end[0]


def _clear(box: SoffitBox, beside: Edge) -> float:
    """How far the stick over a wall's corner reaches along the wall, with the other wall's ledger at an inner one."""
    slope = box.row.slope
    if beside.role not in ("hip", "valley", EAVE_VALLEY):
        return 0.0
    half = slope.halves.of(beside.role) * hypot(1, 1 / (beside.slope * slope.level))
    return half if beside.role == "hip" else half + box.inner


def _lookouts(box: SoffitBox, eave: Edge) -> Iterator[Member]:
    """One to the right of each rafter that ends on the eave, to the left of the last, wherever the bay has room."""
    t = box.row.profile.thickness_in
    feet = [one for one in box.row.placed if one.seated and "eave" in one.cuts.lower and eave.a[0] < one.u < eave.b[0]]
    need = box.lookout.thickness_in + t - TOLERANCE.length
    for number, (one, after) in enumerate(pairwise(feet)):
        last = number == len(feet) - 2
        room = after.u - one.u
        beside = (t + box.lookout.thickness_in) / 2
        if room >= need:
            yield from _lookout(box, one.u + beside, (one, after))
        if last and room >= need + box.lookout.thickness_in:
            yield from _lookout(box, after.u - beside, (one, after))


def _lookout(box: SoffitBox, u: float, bay: tuple[Placed, Placed]) -> Iterator[Member]:
    side = _side(box, _over(box, bay))
    if side is not None:
        yield box.bench.out_of_face("lookout", box.lookout, box.grade, u=u, v=box.low, outward=box.inner, side=side)


def _over(box: SoffitBox, bay: tuple[Placed, Placed]) -> float:
    """Plumb depth of the outlookers that cross a bay over its eave [in]; 0 where none does."""
    common, level = box.row.slope.common, box.row.slope.level
    depths = [at.depth / level for end in bay for at in end.outlookers if at.centre - at.width / 2 < common.tail]
    return max(depths, default=0.0)


def _side(box: SoffitBox, over: float) -> Polygon | None:
    """Outline of a lookout: its upper corner cut to the slope where it would stand through it."""
    from shapely import Polygon
    from shapely import box as rectangle

    length, common = box.outer - box.inner, box.row.slope.common
    top = [common.top_at(-h) - over - box.low for h in (box.inner, box.outer)]
    if top[1] < LEAST_HEIGHT_IN:
        return None
    whole = rectangle(0.0, 0.0, length, box.lookout.depth_in)
    under = Polygon([(0.0, 0.0), (length, 0.0), (length, top[1]), (0.0, top[0])])
    cut = whole.intersection(under)
    return cut if isinstance(cut, Polygon) else None
