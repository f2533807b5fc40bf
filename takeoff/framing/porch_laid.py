r"""A porch roof that runs on over the main eave and is laid on the main slope, on sleepers on its sheathing.

::

                                ,-'  main slope
        porch rafters        ,-'
      ______-------======S,-'      S: sleeper, flat on the sheathing; the rafters' ends are cut along the main slope
     |               ,-'|
    beam          ,-'   | wall
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.findings import Place
from takeoff.framing.laid_ends import LAID
from takeoff.framing.laid_over import height_over, laid_over, trimmed
from takeoff.framing.part import Part
from takeoff.framing.roof_members import longest_of, refused
from takeoff.framing.splices import spliced
from takeoff.framing.stick import Bench
from takeoff.framing.valley_plates import flat_boards, in_lengths, laid_runs, strip, valley_strips
from takeoff.geometry.outline import cut_off
from takeoff.geometry.placement import Placement
from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import Pitch, format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.minor import Host
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.framing.slope import Slope
    from takeoff.geometry.outline import Edge
    from takeoff.model.member import Member
    from takeoff.plan.porches import Porch

Point = tuple[float, float]


def main_slope(host: Host, porch: Porch, place: Place) -> Slope:
    """The slope of the main roof that starts at the porch's side.

    Raises:
        PlanError: none does, or the porch's roof is too steep to meet it.
    """
    for slope in host.roof.plan.slopes:
        if slope.side == porch.side:
            break
    else:
        raise refused(
            "frame.porch-room",
            place,
            f"no slope of the main roof starts on the {porch.side} side: write meets: wall, or take another",
        )
    if porch.shape == "shed" and slope.common.slope <= porch.pitch.slope + TOLERANCE.length:
        raise refused(
            "frame.porch-room",
            place,
            f"a porch of {porch.pitch} never meets the main slope of {Pitch(slope.common.slope * 12)}: take a flatter "
            "pitch, or write meets: wall",
        )
    return slope


def sleeper_plane(host: Host, porch: Porch, slope: Slope) -> Placement:
    """The main slope in the tops of the sleepers: what the porch's rafters are laid on."""
    return _above(slope, _sheet(host) + profile(porch.sleeper).thickness_in)


def _sheet(host: Host) -> float:
    return sheet_product(host.building.roof.sheathing.field).thickness_in


def _above(slope: Slope, by: float) -> Placement:
    face = slope.bench.placement
    return Placement(face.to_world((0.0, 0.0, by)), face.x, face.y)


def reshaped(host: Host, porch: Porch, plan: RoofPlan, place: Place) -> RoofPlan:
    """The porch's roof as laid out, cut off along the main slope.

    Raises:
        PlanError: it has no room over the main eave, or meets no wood of the main slope.
    """
    slope = main_slope(host, porch, place)
    laid = laid_over(plan, sleeper_plane(host, porch, slope))
    for fault in (*_into_the_eave(host, porch, slope, laid), *_beyond_the_slope(host, slope, laid)):
        raise refused("frame.porch-room", place, fault)
    if porch.ceiling != "open":
        return laid
    shown = tuple(replace(one, open_below=tuple(_before_the_eave(host, porch, one))) for one in laid.slopes)
    return replace(laid, slopes=shown)


def _before_the_eave(host: Host, porch: Porch, slope: Slope) -> Iterator[tuple[Point, ...]]:
    """What of a slope of the porch stands before the main eave, where its underside shows."""
    (x, y), (nx, ny) = host.ground.side(porch.side).start, host.ground.side(porch.side).normal

    def out(u: float, v: float) -> float:
        px, py, _ = slope.bench.placement.to_world((u, v, 0.0))
        return (px - x) * nx + (py - y) * ny

    least = out(0.0, 0.0)
    away = (out(1.0, 0.0) - least, out(0.0, 1.0) - least)
    edges = cut_off(slope.outline.edges, away, main_eave(host, porch) - least, "open")
    if edges:
        yield tuple(edge.a for edge in edges)


def trimmed_part(host: Host, porch: Porch, part: Part, place: Place) -> Part:
    """The porch's roof with all its sticks cut off along the sleepers."""
    plane = sleeper_plane(host, porch, main_slope(host, porch, place))
    whole = (m if m.rafter and m.rafter.surface else trimmed(m, plane) for m in part.members)
    return replace(part, members=tuple(filter(None, whole)))


def sleepers(host: Host, porch: Porch, roof: RoofFrame, bench: Bench) -> Iterator[Member]:
    """The sleepers under the porch's upper edge, joined over the main rafters where they are longer than stock."""
    slope = main_slope(host, porch, bench.written)
    plane = sleeper_plane(host, porch, slope)
    rafters = next(row.centres for row in host.roof.rows if row.slope.name == slope.name)
    size, grade = profile(porch.sleeper), host.building.roof.rafters.grade
    runs = laid_runs(roof, plane)
    if porch.shape == "gable":
        whole = _on_sheathing(host, porch, valley_strips(runs, size.depth_in), bench.written)
        longest = longest_of(size, grade)
        shapes = tuple(piece for shape in whole for piece in in_lengths(shape, longest, rafters))
        yield from flat_boards(bench, plane, shapes, size, grade, "sleeper")
        return
    for run in runs:
        (a, v), (b, _) = run
        pieces = spliced((min(a, b), max(a, b)), longest_of(size, grade), rafters)
        shapes = tuple(strip(((lo, v), (hi, v)) if a < b else ((hi, v), (lo, v)), size.depth_in) for lo, hi in pieces)
        yield from flat_boards(bench, plane, shapes, size, grade, "sleeper")


def _on_sheathing(host: Host, porch: Porch, shapes: tuple[Polygon, ...], place: Place) -> Iterator[Polygon]:
    """What of the sleepers' outlines lies on the main sheathing, inside of its edge at the eave."""
    from shapely import box

    slope = main_slope(host, porch, place)
    above = _sheet(host) + profile(porch.sleeper).thickness_in
    edge = above * slope.common.slope - main_eave(host, porch) / slope.level
    for shape in shapes:
        u0, _, u1, v1 = shape.bounds
        yield from cleaned(shape.intersection(box(u0 - 1, edge, u1 + 1, v1 + 1)))


def meeting(roof: RoofFrame) -> tuple[float, float]:
    """Where a porch's roof meets the sleepers highest: level from the front of its beam, and over the deck [in]."""
    front = roof.plan.lines[0].side
    (x, y), (nx, ny) = front.start, front.normal
    spots = [
        row.slope.bench.placement.to_world((*spot, 0.0))
        for row in roof.rows
        for edge in row.slope.outline.edges_with(LAID)
        for spot in (edge.a, edge.b)
    ]
    px, py, height = max(spots, key=lambda spot: spot[2])
    return (x - px) * nx + (y - py) * ny, height


def main_eave(host: Host, porch: Porch) -> float:
    """From the outside of the wall framing to the face of the main fascia, or of the tails without one [in]."""
    fascia = host.building.roof.fascia
    return host.roof.plan.line(porch.side).out + (profile(fascia.size).thickness_in if fascia else 0.0)


def _into_the_eave(host: Host, porch: Porch, slope: Slope, plan: RoofPlan) -> Iterator[str]:
    """The porch's rafters pass over the outer edge of the main sheathing."""
    if porch.shape == "gable":
        return  # its eaves end on the main slope, or in front of it
    out = main_eave(host, porch)
    (own,) = plan.slopes
    inward = porch.depth - out
    x, y, _ = own.bench.placement.to_world((porch.width / 2, inward / own.level, 0.0))
    under = plan.line(own.side).plate + own.common.underside_at(inward)
    short = height_over(_above(slope, _sheet(host)), x, y) - under
    if short > TOLERANCE.length:
        yield (
            f"over the main eave, {format_length(out)} out from the wall, the porch's rafters pass "
            f"{format_length(short)} into the main roof: raise beam_height by that at least, or bring the porch under "
            "the eave (meets: wall)"
        )


def _beyond_the_slope(host: Host, slope: Slope, plan: RoofPlan) -> Iterator[str]:
    """Inside of the main eave all of the porch's roof lies over the main slope, clear of openings, hips and rakes."""
    from shapely import Polygon

    main = _in_plan(slope, holes=True)
    side = host.ground.side(slope.side)
    (x, y), (dx, dy), (nx, ny) = side.start, side.direction, side.normal
    far, out = 1e4, slope.common.overhang
    corners = ((-far, out), (far, out), (far, -far), (-far, -far))
    inside = Polygon([(x + dx * a + nx * b, y + dy * a + ny * b) for a, b in corners])
    over = [_in_plan(own, holes=False).intersection(inside) for own in plan.slopes]
    if any(part.difference(main).area > TOLERANCE.length for part in over):
        yield (
            "the porch's roof runs past the main slope that it is laid on, or over an opening in it: move it, make it "
            "narrower, or lower its beams"
        )


def _in_plan(slope: Slope, *, holes: bool) -> Polygon:
    from shapely import Polygon

    def ring(edges: tuple[Edge, ...]) -> list[tuple[float, float]]:
        return [slope.bench.placement.to_world((*edge.a, 0.0))[:2] for edge in edges]

    inner = [ring(opening.hole) for opening in slope.openings] if holes else []
    return Polygon(ring(slope.outline.edges), inner)
