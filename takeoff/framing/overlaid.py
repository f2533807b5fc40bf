r"""Wings whose roofs are laid over the main one, which runs straight on past their mouths.

Seen from above, a roof laid out with valleys (left), and with the wing laid over it (right)::

        ____ridge____                  ____ridge____
              ,                              ,
            ,'|`.  valley                  .'|`.   laid: the wing's slopes end on the valley plates
          ,'  |  `.                      .'  |  `.
     ___,'    |    `.___            ____:____|____:____   mouth: the main rafters end on the beam
        |     |     |  eave             |    |    |

The valley's line is where both roofs' tops meet, as with valley rafters; the valley plates lie under it. Outside of the
walls, where there is no main roof to lie on, both eaves end on the line from the eaves' corner to the walls'.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.laid_ends import LAID
from takeoff.framing.laid_over import shortened, surface_of
from takeoff.framing.mouth import EAVE_VALLEY, MOUTH, SEAM, STEP, Mouth
from takeoff.framing.slope import NODE_IN
from takeoff.geometry.outline import Edge, Outline, Point
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_plan import Fold, RoofPlan
    from takeoff.framing.slope import Slope
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building


class OverlayError(ValueError):
    """Why a wing's roof can't be laid over the main one."""


def overlaid(plan: RoofPlan, building: Building, ground: Footprint) -> RoofPlan:
    """A roof laid out with valleys, its wings laid over the main roof where the plan asks for it.

    Of the two slopes of a valley, that with the higher top is the main one; of two as high, that of the longer ridge;
    of two as long, that of the side written first.

    Raises:
        OverlayError: a wing's roof can't be laid over another.
    """
    valleys = [fold for fold in plan.folds if fold.kind == "valley"]
    if building.roof.overlaid is None or not valleys:
        return plan
    layer, half = _layer(building), profile(building.roof.rafters.size).thickness_in / 2
    pairs = [_main_first(plan, fold) for fold in valleys]
    _refuse_chains(plan, pairs)
    slopes, mouths = list(plan.slopes), []
    for main in sorted({main for main, _ in pairs}):
        at = _above(plan.slopes[main], layer)
        corners = {wing: _corner(plan, main, wing) for m, wing in pairs if m == main}
        outline, spans = _through(plan.slopes[main], tuple(corners.values()))
        slopes[main] = replace(
            plan.slopes[main], outline=outline, beside=tuple(_beside_seams(plan.slopes[main], outline, half))
        )
        for span in spans:
            wings = tuple(wing for wing, u in corners.items() if span[0] - NODE_IN < u < span[1] + NODE_IN)
            for wing in wings:
                slopes[wing] = _laid(plan, main, wing, at, half)
            mouths.append(_mouth(plan, ground, main, wings, span, at))
    _refuse_narrow_courts(building, slopes)
    laid = {wing: mouth.plane for mouth in mouths for wing in mouth.wings}
    folds = tuple(_fold(fold, laid) for fold in plan.folds if fold.kind != "valley")
    return replace(plan, slopes=tuple(slopes), folds=folds, mouths=tuple(mouths))


def _layer(building: Building) -> float:
    """From the tops of the main rafters to the tops of the valley plates, square to the slope [in]."""
    written = building.roof.overlaid
    assert written is not None  # asked for by `overlaid`
    sheet = sheet_product(building.roof.sheathing.field).thickness_in
    return sheet + profile(written.plate_size).thickness_in


def _above(slope: Slope, by: float) -> Placement:
    face = slope.bench.placement
    return Placement(face.to_world((0.0, 0.0, by)), face.x, face.y)


def _main_first(plan: RoofPlan, valley: Fold) -> tuple[int, int]:
    one, other = valley.slopes
    ranks = {k: _rank(plan, k) for k in valley.slopes}
    return (one, other) if ranks[one] >= ranks[other] else (other, one)


def _rank(plan: RoofPlan, k: int) -> tuple[float, float, int]:
    """Height of a slope's top and length of its ridge line [in], in sixteenths; the first written goes before."""
    slope = plan.slopes[k]
    top = max(slope.bench.placement.to_world((*edge.a, 0.0))[2] for edge in slope.outline.edges)
    ridges = [fold for fold in plan.folds if fold.kind == "ridge"]
    lines = [sum(dist(f.low, f.high) for f in ridges if _in_line(f, own)) for own in ridges if k in own.slopes]
    return round(top * 16), round(max(lines, default=0.0) * 16), -k


def _in_line(one: Fold, other: Fold) -> bool:
    """Whether two level folds are parts of one line."""
    (dx, dy), (x, y, z) = other.direction, other.low
    return all(
        abs((px - x) * dy - (py - y) * dx) < NODE_IN and abs(pz - z) < NODE_IN for px, py, pz in (one.low, one.high)
    )


def _refuse_chains(plan: RoofPlan, pairs: Sequence[tuple[int, int]]) -> None:
    """No slope is laid on one slope and carries another; none is laid on two."""
    for main, wing in pairs:
        names = f"the {plan.slopes[wing].name} would be laid on the {plan.slopes[main].name}"
        (ax, ay, _), (bx, by, _) = (plan.slopes[k].bench.placement.x for k in (main, wing))
        if abs(ax * bx + ay * by) > TOLERANCE.length:
            raise OverlayError(
                f"{names}, whose eave isn't square to its own: overlaid valleys are framed at square inner corners only"
            )
        if any(wing == other for other, _ in pairs):
            raise OverlayError(f"{names} and have another laid on itself; write method: supporting")
        if sum(wing == other for _, other in pairs) > 1:
            raise OverlayError(
                f"{names} and on another one at its other end: both stand higher than it; write method: supporting, or "
                "give them flatter pitches"
            )


def _refuse_narrow_courts(building: Building, slopes: Sequence[Slope]) -> None:
    """Between two wings there is an eave left, longer than the corners of their fascias take up."""
    fascia = profile(building.roof.fascia.size).thickness_in if building.roof.fascia else 0.0
    for slope in slopes:
        edges = slope.outline.edges
        for index, edge in enumerate(edges):
            corners = [edges[index - 1].role, edges[(index + 1) % len(edges)].role].count(EAVE_VALLEY)
            if edge.role == "eave" and edge.b[0] - edge.a[0] < corners * fascia + TOLERANCE.length:
                raise OverlayError(
                    f"the eave of the {slope.name} is {format_length(edge.b[0] - edge.a[0])} long between the eaves of "
                    "its wings, shorter than the corners of the fascias: move the wings apart, or give the eaves less "
                    "overhang"
                )


def _through(slope: Slope, corners: Sequence[float]) -> tuple[Outline, tuple[tuple[float, float], ...]]:
    """A main slope run on past the mouths of its wings, and from where to where those are along u.

    Args:
        slope: with valleys.
        corners: u of the wings' walls, at the inner corners [in].
    """
    edges, made, spans = slope.outline.edges, [], []
    first = next(k for k, edge in enumerate(edges) if edge.role == "eave")
    ring = [*edges[first:], *edges[:first]]
    while ring:
        edge = ring.pop(0)
        if edge.role != "valley":
            made.append(edge)
            continue
        up = edge if edge.b[1] > edge.a[1] else None
        down = None if up else edge
        if up and ring and ring[0].role == "valley":
            down = ring.pop(0)
        chain, span = _mouth_edges(up, down, corners)
        made += chain
        spans.append(span)
    return replace(slope.outline, edges=tuple(made)), tuple(spans)


def _mouth_edges(
    up: Edge | None, down: Edge | None, corners: Sequence[float]
) -> tuple[tuple[Edge, ...], tuple[float, float]]:
    """What takes the place of the valleys on one wing: in to the corner, along the wall, and up beside a ridge."""
    node = (up or down, up is not None)
    left, before = _from_eave(up.a, corners) if up else _from_node(node)
    right, after = _from_eave(down.b, corners) if down else _from_node(node)
    outward = tuple(Edge(edge.role, edge.b, edge.a) for edge in after)
    return (*before, Edge(MOUTH, left, right), *outward), (left[0], right[0])


def _from_eave(foot: Point, corners: Sequence[float]) -> tuple[Point, tuple[Edge, ...]]:
    """The inner corner of two walls, and the line to it from the corner of their eaves."""
    corner = (min(corners, key=lambda u: abs(u - foot[0])), 0.0)
    return corner, (Edge(EAVE_VALLEY, foot, corner),) if dist(foot, corner) > TOLERANCE.length else ()


def _from_node(valley: tuple[Edge | None, bool]) -> tuple[Point, tuple[Edge, ...]]:
    """The place on the wall under a wing's ridge that ends the slope, and the line down to it."""
    edge, rises = valley
    if edge is None:
        raise ValueError("a mouth has a valley on one side at least")
    node = edge.b if rises else edge.a
    return (node[0], 0.0), (Edge(SEAM, node, (node[0], 0.0)),)


def _beside_seams(slope: Slope, outline: Outline, half: float) -> Iterator[float]:
    """A rafter, of half that thickness, stands on each side of a wing's ridge that ends a main slope."""
    off = slope.halves.ridge + half
    for edge in outline.edges_with(SEAM):
        yield edge.a[0] + (off if edge.b[1] < edge.a[1] else -off)


def _corner(plan: RoofPlan, slope: int, other: int) -> float:
    """U of an inner corner on a slope, where the other's wall meets its own [in]."""
    return plan.slopes[slope].bench.placement.from_world(plan.slopes[other].bench.placement.origin)[0]


def _laid(plan: RoofPlan, main: int, wing: int, plane: Placement, half: float) -> Slope:
    """A wing's slope, cut off along the valley plates inside of the mouth, whole outside of it."""
    slope = plan.slopes[wing]
    surface, clear, least = surface_of(slope, plan.under(slope).plate, plane)
    edges = slope.outline.edges
    index = next(k for k, edge in enumerate(edges) if edge.role == "valley")
    valley = edges[index]
    at_left = valley.b[1] < valley.a[1]
    low, foot = valley.b if at_left else valley.a, (_corner(plan, wing, main), 0.0)
    start = (foot[0], (least - clear[0] * foot[0]) / clear[1])
    beside = edges[index - 1] if at_left else edges[(index + 1) % len(edges)]
    over_a, over_b = (clear[0] * u + clear[1] * v - least for u, v in (beside.a, beside.b))
    if beside.role != "ridge" or over_a * over_b >= 0 or start[1] >= beside.a[1]:
        raise OverlayError(
            f"the {slope.name} has no ridge of its own over the mouth of its wing to be laid up to: "
            "write method: supporting, or make the wing longer"
        )
    outer = beside.a[0] if at_left else beside.b[0]
    short = (foot[0] - outer) * (1.0 if at_left else -1.0)
    if short > TOLERANCE.length:
        raise OverlayError(
            f"the ridge over the {slope.name} ends {format_length(short)} inside of the mouth of its wing, where hips "
            "come down from it into the main roof: make the wing that much longer, give it a gable, or write method: "
            "supporting"
        )
    share = over_a / (over_a - over_b)
    end = (beside.a[0] + share * (beside.b[0] - beside.a[0]), beside.a[1] + share * (beside.b[1] - beside.a[1]))
    outside = (Edge(EAVE_VALLEY, low, foot),) if dist(low, foot) > TOLERANCE.length else ()
    run = (*outside, Edge(STEP, foot, start), Edge(LAID, start, end))
    if at_left:
        run = tuple(Edge(edge.role, edge.b, edge.a) for edge in reversed(run))
    made = list(edges)
    made[index : index + 1] = run
    trimmed = [
        Edge(edge.role, edge.a, end)
        if edge is beside and at_left
        else Edge(edge.role, end, edge.b)
        if edge is beside
        else edge
        for edge in made
    ]
    within = (float("-inf"), foot[0]) if at_left else (foot[0], float("inf"))
    return replace(
        slope,
        outline=Outline(tuple(trimmed), slope.outline.holes),
        surface=replace(surface, within=within),
        beside=(foot[0] + (half if at_left else -half),),
    )


def _fold(fold: Fold, laid: dict[int, Placement]) -> Fold:
    """A ridge of a wing that is laid on both its sides ends on the main roof."""
    if fold.kind != "ridge" or not all(index in laid for index in fold.slopes):
        return fold
    return shortened(fold, laid[fold.slopes[0]])


def _mouth(
    plan: RoofPlan, ground: Footprint, main: int, wings: tuple[int, ...], span: tuple[float, float], plane: Placement
) -> Mouth:
    sides = [plan.slopes[wing].side for wing in wings]
    around = [turn(name) for name in sides for turn in (ground.right_of, ground.left_of)]
    # The wall at the wing's end looks the way that the main eave does.
    end = next(
        (side for side in around if side.name != plan.slopes[main].side and _looks_out(side.normal, plane)), None
    )
    if end is None or span[1] - span[0] < TOLERANCE.length:
        names = " and the ".join(plan.slopes[wing].name for wing in wings)
        raise OverlayError(f"the {names} have no wall at the end of a wing; write method: supporting")
    return Mouth(end=end.name, main=main, wings=wings, span=span, plane=plane)


def _looks_out(normal: tuple[float, float], plane: Placement) -> bool:
    return normal[0] * plane.y[0] + normal[1] * plane.y[1] < -TOLERANCE.length
