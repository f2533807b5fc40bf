r"""Wings whose roofs are laid over the main one, which runs straight on past their mouths.

Seen from above, a roof laid out with valleys (left), and with the wing laid over it (right)::

        ____ridge____                  ____ridge____
              ,                              ,
            ,'|`.  valley                  .'|`.   laid: the wing's slopes end on the valley plates
          ,'  |  `.                      .'  |  `.
     ___,'    |    `.___            ____:____|____:____   mouth: the main rafters end on the beam
        |     |     |  eave             |    |    |

The valley's line is where both roofs' tops meet, as with valley rafters; the valley plates lie under it. Outside of the
walls, where there is no main roof to lie on, both eaves end on that line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.laid_ends import LAID
from takeoff.framing.laid_over import height_over, shortened, surface_of
from takeoff.framing.mouth import EAVE_VALLEY, MOUTH, SEAM, Mouth
from takeoff.framing.slope import NODE_IN
from takeoff.geometry.outline import Edge, Outline, Point
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE

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
        outline, spans = _through(plan.slopes[main])
        slopes[main] = replace(plan.slopes[main], outline=outline, beside=tuple(_beside_seams(plan.slopes[main], outline, half)))
        for span in spans:
            wings = tuple(wing for m, wing in pairs if m == main and _opens_on(plan, main, wing, span))
            for wing in wings:
                slopes[wing] = _laid(plan, main, wing, at, half)
            mouths.append(_mouth(plan, ground, main, wings, span, at))
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
    """Height of a slope's top and length of its ridge [in], in sixteenths; the first written before others alike."""
    slope = plan.slopes[k]
    top = max(slope.bench.placement.to_world((*edge.a, 0.0))[2] for edge in slope.outline.edges)
    ridge = max((dist(edge.a, edge.b) for edge in slope.outline.edges_with("ridge")), default=0.0)
    return round(top * 16), round(ridge * 16), -k


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
            raise OverlayError(f"{names} and have another laid on itself")
        if sum(wing == other for _, other in pairs) > 1:
            raise OverlayError(f"{names} and on another one at its other end")


def _through(slope: Slope) -> tuple[Outline, tuple[tuple[float, float], ...]]:
    """A main slope run on past the mouths of its wings, and from where to where those are along u."""
    edges, made, spans = slope.outline.edges, [], []
    first = next(k for k, edge in enumerate(edges) if edge.role == "eave")
    ring = [*edges[first:], *edges[:first]]
    k = 0
    while k < len(ring):
        edge = ring[k]
        if edge.role != "valley":
            made.append(edge)
            k += 1
            continue
        up = edge if edge.b[1] > edge.a[1] else None
        after = ring[k + 1] if k + 1 < len(ring) else None
        down = after if up and after and after.role == "valley" else None if up else edge
        k += 2 if up and down else 1
        chain, span = _mouth_edges(up, down)
        made += chain
        spans.append(span)
    return replace(slope.outline, edges=tuple(made)), tuple(spans)


def _mouth_edges(up: Edge | None, down: Edge | None) -> tuple[tuple[Edge, ...], tuple[float, float]]:
    """What takes the place of the valleys on one wing: down to the wall's line, along it, and up beside a ridge."""
    edges = []
    if up:
        left, before = _on_wall(up.a, up.b)
        edges += before
    else:
        assert down is not None  # there is one at least
        left = (down.a[0], 0.0)
        edges.append(Edge(SEAM, down.a, left))
    if down:
        right, after = _on_wall(down.b, down.a)
        after = tuple(Edge(edge.role, edge.b, edge.a) for edge in after)
        return (*edges, Edge(MOUTH, left, right), *after), (left[0], right[0])
    assert up is not None  # there is one at least
    right = (up.b[0], 0.0)
    return (*edges, Edge(MOUTH, left, right), Edge(SEAM, right, up.b)), (left[0], right[0])


def _on_wall(low: Point, high: Point) -> tuple[Point, tuple[Edge, ...]]:
    """Where a valley comes over the wall, and its part outside of it."""
    if low[1] > -TOLERANCE.length:
        return low, ()
    share = low[1] / (low[1] - high[1])
    spot = (low[0] + share * (high[0] - low[0]), 0.0)
    return spot, (Edge(EAVE_VALLEY, low, spot),)


def _beside_seams(slope: Slope, outline: Outline, half: float) -> Iterator[float]:
    """A rafter, of half that thickness, stands on each side of a wing's ridge that ends a main slope."""
    off = slope.halves.ridge + half
    for edge in outline.edges_with(SEAM):
        yield edge.a[0] + (off if edge.b[1] < edge.a[1] else -off)


def _opens_on(plan: RoofPlan, main: int, wing: int, span: tuple[float, float]) -> bool:
    """Whether a wing's slope meets the main one at one end of a mouth."""
    face = plan.slopes[main].bench.placement
    return any(
        fold.kind == "valley"
        and {*fold.slopes} == {main, wing}
        and span[0] - NODE_IN
        <= _at_wall(face.from_world(fold.low)[:2], face.from_world(fold.high)[:2])
        <= span[1] + NODE_IN
        for fold in plan.folds
    )


def _at_wall(low: Point, high: Point) -> float:
    return _on_wall(low, high)[0][0]


def _laid(plan: RoofPlan, main: int, wing: int, plane: Placement, half: float) -> Slope:
    """A wing's slope, cut off along the valley plates inside of the mouth, whole outside of it."""
    slope, face = plan.slopes[wing], plan.slopes[main].bench.placement
    surface, clear, least = surface_of(slope, plan.under(slope).plate, plane)
    edges = slope.outline.edges
    index = next(k for k, edge in enumerate(edges) if edge.role == "valley")
    valley = edges[index]
    at_left = valley.b[1] < valley.a[1]
    low, high = (valley.b, valley.a) if at_left else (valley.a, valley.b)
    ends = [face.from_world(slope.bench.placement.to_world((*spot, 0.0)))[:2] for spot in (low, high)]
    wall = max(0.0, -ends[0][1] / (ends[1][1] - ends[0][1]))
    foot = (low[0] + wall * (high[0] - low[0]), low[1] + wall * (high[1] - low[1]))
    start = (foot[0], (least - clear[0] * foot[0]) / clear[1])
    beside = edges[index - 1] if at_left else edges[(index + 1) % len(edges)]
    over_a, over_b = (clear[0] * u + clear[1] * v - least for u, v in (beside.a, beside.b))
    if beside.role != "ridge" or over_a * over_b >= 0 or start[1] >= beside.a[1]:
        raise OverlayError(
            f"the {slope.name} has no ridge of its own over the mouth of its wing to be laid up to: "
            "write method: supporting, or make the wing longer"
        )
    share = over_a / (over_a - over_b)
    end = (beside.a[0] + share * (beside.b[0] - beside.a[0]), beside.a[1] + share * (beside.b[1] - beside.a[1]))
    outside = (Edge(EAVE_VALLEY, low, foot),) if dist(low, foot) > TOLERANCE.length else ()
    run = (*outside, Edge("step", foot, start), Edge(LAID, start, end))
    if at_left:
        run = tuple(Edge(edge.role, edge.b, edge.a) for edge in reversed(run))
    made = list(edges)
    made[index : index + 1] = run
    trimmed = [
        Edge(edge.role, edge.a, end) if edge is beside and at_left else Edge(edge.role, end, edge.b)
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
    plane = laid[fold.slopes[0]]
    return replace(shortened(fold, plane), laid_on=plane)


def _mouth(
    plan: RoofPlan, ground: Footprint, main: int, wings: tuple[int, ...], span: tuple[float, float], plane: Placement
) -> Mouth:
    sides = [plan.slopes[wing].side for wing in wings]
    around = [turn(name) for name in sides for turn in (ground.right_of, ground.left_of)]
    # The wall at the wing's end looks the way that the main eave does.
    end = next((side for side in around if side.name != plan.slopes[main].side and _looks_out(side.normal, plane)), None)
    if end is None or span[1] - span[0] < TOLERANCE.length:
        names = " and the ".join(plan.slopes[wing].name for wing in wings)
        raise OverlayError(f"the {names} have no wall at the end of a wing; write method: supporting")
    return Mouth(end=end.name, main=main, wings=wings, span=span, plane=plane)


def _looks_out(normal: tuple[float, float], plane: Placement) -> bool:
    return normal[0] * plane.y[0] + normal[1] * plane.y[1] < -TOLERANCE.length
