"""End rafters and the outlookers that cross them: in pockets, over a dropped end rafter, or as a ladder beside it.

pocket   the end rafter is like the others; outlookers lie flat in its top edge
dropped  the end rafter is ripped shallower by the outlookers' depth and keeps its underside, so that bird's mouth,
         tail and gable studs stay where they are; outlookers run over it on edge
ladder   blocks on edge between the end rafter and the barge; nothing crosses it
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import cos
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import Profile, profile, profiles
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.covered import sheet_edges
from takeoff.framing.outlooker_places import crossings_on_edge, flat_pockets
from takeoff.framing.plumb_ends import PlumbEnds
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.rafters import Placed, RafterRow
    from takeoff.framing.slope import RafterCuts, Slope
    from takeoff.geometry.rafter import Pocket, RafterGeometry
    from takeoff.model.member import EndCut
    from takeoff.plan.roof import Outlookers, Roof
    from takeoff.plan.schema import Building

LEAST_LEFT_IN = 1.5
"""Least depth that is left of a dropped end rafter over the plate and in its tail, and of one under a pocket where it
tapers onto another roof [in]. Common practice, no source."""

Places = Callable[[float, "RafterGeometry"], "tuple[Pocket, ...]"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """How an end rafter makes room for the outlookers over it."""

    profile: Profile
    """What it is ripped from."""
    by: float
    """How much lower its top edge is, square to the slope [in]."""


def carried(roof: Roof) -> Outlookers | None:
    """The outlookers, if there is a rake for them."""
    return roof.outlookers if roof.overhang.rake else None


def pockets_of(building: Building, slope: Slope) -> Places:
    """What gives an end rafter its pockets; none unless outlookers lie in them."""
    outlookers = carried(building.roof)
    if not outlookers or outlookers.method != "pocket":
        return lambda u, geometry: ()
    lines, size, spacing = _lines(building, slope), profile(outlookers.size), outlookers.spacing

    def places(u: float, geometry: RafterGeometry) -> tuple[Pocket, ...]:
        rake = slope.rake_length(u)
        pockets = flat_pockets(size, geometry, spacing=spacing, lines=lines, rake=rake)
        return tuple(pocket for pocket in pockets if _has_depth(geometry, pocket))

    return places


def _has_depth(geometry: RafterGeometry, pocket: Pocket) -> bool:
    """Whether enough of the rafter is left under a pocket; where it tapers onto another roof it may not be."""
    edges = (
        geometry.start + (pocket.centre + half) * cos(geometry.angle) for half in (-pocket.width / 2, pocket.width / 2)
    )
    left = min(geometry.top_at(h) - geometry.surface_at(h) for h in edges) * cos(geometry.angle)
    return left >= pocket.depth + LEAST_LEFT_IN


def with_rakes(building: Building, row: RafterRow, written: Callable[[str], Place]) -> RafterRow:
    """The row with its end rafters made ready for outlookers that do not lie in pockets.

    Raises:
        PlanError: too little would be left of a dropped end rafter.
    """
    outlookers = carried(building.roof)
    if not outlookers or outlookers.method == "pocket":
        return row
    size, lines = profile(outlookers.size), _lines(building, row.slope)

    def ready(one: Placed) -> Placed:
        if one.role != "end-rafter":
            return one
        places = crossings_on_edge(
            size, one.cuts.geometry, spacing=outlookers.spacing, lines=lines, rake=row.slope.rake_length(one.u)
        )
        over = tuple(place for place in places if _has_depth(one.cuts.geometry, place))
        if outlookers.method == "ladder":
            return replace(one, crossed=over)
        faults = tuple(_too_little(one.cuts.geometry, size))
        if faults:
            place = written("roof.outlookers.size")
            raise PlanError(
                [Finding(rule="frame.end-rafter", severity=Severity.ERROR, message=m, place=place) for m in faults]
            )
        drop = Drop(profile=_ripped_from(row.profile, row.profile.depth_in - size.depth_in), by=size.depth_in)
        return replace(one, crossed=over, drop=drop, cuts=dropped(one.cuts, size.depth_in))

    return replace(row, placed=tuple(ready(one) for one in row.placed))


def _lines(building: Building, slope: Slope) -> tuple[float, ...]:
    """Edges of the sheets' courses, measured along the slope from the tail cut [in]."""
    tail = slope.common.overhang / slope.level
    return tuple(v + tail for v in sheet_edges(building, slope))


def _too_little(geometry: RafterGeometry, outlooker: Profile) -> Iterator[str]:
    """What of a dropped end rafter would be left too shallow, in a builder's words."""
    square = geometry.plumb_depth / geometry.depth
    left = {"over the plate": geometry.height_above_plate / square - outlooker.depth_in}
    if geometry.overhang:
        tail = geometry.tail_depth_cut
        if geometry.tail_level_drop is not None:
            tail = min(tail, geometry.tail_level_drop / square)
        left["in its tail"] = tail - outlooker.depth_in
    for where, depth in left.items():
        if depth < LEAST_LEFT_IN:
            yield (
                f"{outlooker.name} on edge leaves {format_length(max(depth, 0.0))} of the dropped end rafter {where}, "
                f"expected at least {format_length(LEAST_LEFT_IN)}; take shallower outlookers, or write method: pocket"
            )


def _ripped_from(rafter: Profile, depth: float) -> Profile:
    """The least size as thick as the rafters that a stick of this depth can be ripped from."""
    sizes = [p for p in profiles() if p.kind == rafter.kind and p.thickness_in == rafter.thickness_in]
    return min((p for p in sizes if p.depth_in >= depth), key=lambda p: p.depth_in, default=rafter)


def dropped(cuts: RafterCuts, by: float) -> RafterCuts:
    """A rafter's cuts with its top edge lower by so much, square to the slope; its underside stays.

    The stick's axes start at its own tail, so the planes of its ends are moved along by what that has moved.
    """
    base = cuts.geometry
    plumb = by * base.plumb_depth / base.depth
    overhang = base.overhang - base.tail_lean * plumb / (1 + base.tail_lean * base.slope)
    geometry = replace(
        base,
        depth=base.depth - by,
        stand=base.height_above_plate - plumb,
        overhang=overhang,
        tail_depth=None if base.tail_depth is None else base.tail_depth - by,
        tail_level_drop=None if base.tail_level_drop is None else base.tail_level_drop - plumb,
    )
    along = (base.start - geometry.start) * base.plumb_depth / base.depth + by * base.slope
    ends = PlumbEnds(
        tuple(_moved(cut, along) for cut in cuts.ends.lower), tuple(_moved(cut, along) for cut in cuts.ends.upper)
    )
    return replace(cuts, geometry=geometry, ends=ends)


def _moved(cut: EndCut, along: float) -> EndCut:
    if cut.through is None:
        return cut
    x, y, z = cut.through
    return replace(cut, through=(x + along, y, z))
