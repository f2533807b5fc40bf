"""Whether a porch roof has room: under the main roof's eave, on the wall, over the wall's openings."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.findings import Place
from takeoff.framing.gable_walls import rake_line
from takeoff.framing.openings import rough_opening
from takeoff.framing.porch_ledger import ledger_reach
from takeoff.framing.roof_members import refused
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.minor import Host
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.model.member import Member
    from takeoff.plan.porches import Porch


def refuse_without_room(host: Host, porch: Porch, roof: RoofFrame, place: Place) -> None:
    """Refuse a porch roof that the wall, its openings or the main roof have no room for.

    Raises:
        PlanError: what is in the way, and by how much.
    """
    for fault in (*_over_the_wall(host, porch, roof), *_over_openings(host, porch, roof), *_in_the_roof(host, roof)):
        raise refused("frame.porch-room", place, fault)


def _over_the_wall(host: Host, porch: Porch, roof: RoofFrame) -> Iterator[str]:
    """The ledger, or the end of the ridge, has studs behind it: the wall reaches up to its top."""
    line = host.roof.plan.line(porch.side)
    left, right = porch.across_in
    reach = ledger_reach(roof)
    what = "ledger" if reach else "ridge"
    top = reach[1] if reach else max(end.ridge.bottom + end.ridge.profile.depth_in for end in roof.ridge_ends)
    spots = (left, right) if reach else ((left + right) / 2,)
    studs = profile(host.building.walls.for_side(porch.side).studs)
    rake = None if line.bears else rake_line(host.roof, line, studs)
    low = min(rake.at(u) if rake else line.plate for u in spots)
    if top > low + TOLERANCE.length:
        yield (
            f"the {what}'s top is {format_length(top)} over the deck, {format_length(top - low)} over the top of the "
            f"{porch.side} wall's framing there ({format_length(low)}); lower the porch's roof by that, or flatten it"
        )


def _over_openings(host: Host, porch: Porch, roof: RoofFrame) -> Iterator[str]:
    """What is fixed to the wall crosses no window or door."""
    left, right = porch.across_in
    for opening in map(rough_opening, (o for o in host.building.walls.openings if o.side == porch.side)):
        u0, u1 = max(opening.u[0], left), min(opening.u[1], right)
        if u1 <= u0:
            continue
        reach = ledger_reach(roof)
        low, high = reach if reach else _gable_reach(roof, u0 - left, u1 - left)
        if opening.v[0] < high and opening.v[1] > low + TOLERANCE.length:
            yield (
                f"the porch's roof meets the wall down to {format_length(low)} over the deck and crosses the "
                f"{opening.what}, whose top is {format_length(opening.v[1])}, by {format_length(opening.v[1] - low)}; "
                "raise the roof, or move the opening"
            )


def _gable_reach(roof: RoofFrame, u0: float, u1: float) -> tuple[float, float]:
    """Lowest underside and highest top of a gabled porch's rafters at the wall, between two places along it [in]."""
    heights = []
    for slope in (row.slope for row in roof.rows):
        plate, run = roof.plan.line(slope.side).plate, slope.common.run
        from_left = slope.side.endswith("left")
        for u in (u0, u1):
            h = u if from_left else 2 * run - u
            if h <= run:
                heights.append((plate + slope.common.underside_at(h), plate + slope.common.top_at(h)))
    return min(low for low, _ in heights), max(high for _, high in heights)


def _in_the_roof(host: Host, roof: RoofFrame) -> Iterator[str]:
    """The main roof's overhang clears the porch's sheathing."""
    sheet = sheet_product(host.building.roof.sheathing.exposed_product).thickness_in
    found: list[tuple[float, Member]] = []
    for slope in (row.slope for row in roof.rows):
        region = _in_plan(slope)
        for member in host.part.members:
            found += [(gap, member) for gap in _gaps(member, slope, region)]
    if not found:
        return
    gap, member = min(found, key=lambda pair: pair[0])
    if gap < sheet - TOLERANCE.length:
        yield (
            f"the porch's roof stands {format_length(sheet - gap)} into the main roof's {member.name.lower()} "
            f"({member.face}); lower roof_height or beam_height by that at least, or take a shorter overhang"
        )


def _in_plan(slope: Slope) -> Polygon:
    from shapely import Polygon

    spots = (slope.bench.placement.to_world((*edge.a, 0.0)) for edge in slope.outline.edges)
    return Polygon([(x, y) for x, y, _ in spots])


def _gaps(member: Member, slope: Slope, region: Polygon) -> Iterator[float]:
    """Plumb distances from a slope's rafter tops up to the edges of a stick that cross over or under it [in]."""
    from shapely import LineString, get_coordinates

    half = member.profile.thickness_in / 2
    ring = [(float(x), float(y)) for x, y in member.side.exterior.coords]
    faces = [[member.placement.to_world((x, y, z)) for x, y in ring] for z in (-half, half)]
    x0, y0, x1, y1 = region.bounds
    spots = [spot for face in faces for spot in face]
    if all(s[0] <= x0 for s in spots) or all(s[0] >= x1 for s in spots):
        return
    if all(s[1] <= y0 for s in spots) or all(s[1] >= y1 for s in spots):
        return
    edges = [edge for face in faces for edge in pairwise(face)]
    for edge in (*edges, *zip(*faces, strict=True)):
        inside = LineString(edge).intersection(region.buffer(-TOLERANCE.length))
        for spot in get_coordinates(inside, include_z=True):
            yield slope.bench.placement.from_world((float(spot[0]), float(spot[1]), float(spot[2])))[2] / slope.level
