"""Outlines of roofs for tests: fixed shapes by name, and any number of odd ones."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, dist, pi, sin

from hypothesis import strategies as st
from shapely import Polygon, box, union_all

from takeoff.geometry.roof_edge import RoofEdge

Point = tuple[float, float]

PITCHES = [3 / 12, 4 / 12, 8 / 12, 12 / 12]
NEIGHBOURS = [(1, 0), (0, 1), (-1, 0), (0, -1)]


def edges(points: Sequence[Point], slopes: float | Sequence[float | None]) -> list[RoofEdge]:
    """Ring of edges; one slope for all, or one an edge."""
    each = [slopes] * len(points) if isinstance(slopes, float) else slopes
    return [RoofEdge(a, b, s) for a, b, s in zip(points, [*points[1:], points[0]], each, strict=True)]


def rectangle(length: float, width: float) -> list[Point]:
    """From the south, counter-clockwise."""
    return [(0, 0), (length, 0), (length, width), (0, width)]


def tee(*, wing: float, depth: float = 180.0) -> list[Point]:
    """480 by 240, with a wing in the middle of its south side; edge 0 is the wing's front, 2 and 6 the main south."""
    left, right = 240 - wing / 2, 240 + wing / 2
    return [(left, -depth), (right, -depth), (right, 0), (480, 0), (480, 240), (0, 240), (0, 0), (left, 0)]


def moved(points: Sequence[Point], turn: float, by: Point, scale: float = 1.0) -> list[Point]:
    """The outline turned [rad], then scaled, then shifted."""
    c, s = cos(turn) * scale, sin(turn) * scale
    return [(c * x - s * y + by[0], s * x + c * y + by[1]) for x, y in points]


@st.composite
def stars(draw: st.DrawFn) -> list[Point]:
    """Corners at rising angles round the origin, convex or not."""
    count = draw(st.integers(3, 12))
    radii = draw(st.lists(st.integers(50, 500), min_size=count, max_size=count))
    return [(r * cos(2 * pi * i / count), r * sin(2 * pi * i / count)) for i, r in enumerate(radii)]


@st.composite
def rooms(draw: st.DrawFn) -> list[Point]:
    """Square-cornered outlines: rooms of a grid that hang together, many widths alike, some a sixteenth."""
    widths = st.lists(st.sampled_from([96, 120, 240, 240, 173.5, 1 / 16]), min_size=3, max_size=3)
    xs, ys = [0.0], [0.0]
    for stops in (xs, ys):
        for width in draw(widths):
            stops.append(stops[-1] + width)
    taken = [(1, 1)]
    for pick, (dx, dy) in draw(st.lists(st.tuples(st.integers(0, 8), st.sampled_from(NEIGHBOURS)), max_size=12)):
        x, y = taken[pick % len(taken)]
        near = (x + dx, y + dy)
        if near not in taken and near[0] in range(3) and near[1] in range(3):
            taken.append(near)
    whole = union_all([box(xs[x], ys[y], xs[x + 1], ys[y + 1]) for x, y in taken])
    if whole.geom_type != "Polygon":
        return rectangle(240, 120)
    ring = Polygon(whole.exterior).simplify(0).exterior
    points = list(ring.coords[:-1]) if ring.is_ccw else list(ring.coords[:0:-1])
    turn = draw(st.sampled_from([0.0, pi / 4, pi / 6, 1.0]))
    return moved(points, turn, draw(st.sampled_from([(0.0, 0.0), (1000.0, -300.0)])))


def _corners_are_clear(points: Sequence[Point]) -> bool:
    """No corner so flat that two slopes of different pitch would all but coincide."""
    for a, b, c in zip(points, [*points[1:], points[0]], [*points[2:], *points[:2]], strict=True):
        turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        if abs(turn) < 0.01 * dist(a, b) * dist(b, c):
            return False
    return True


outlines = (stars() | rooms()).filter(_corners_are_clear)


@st.composite
def roofs(draw: st.DrawFn, slopes: st.SearchStrategy[float | None] | None = None) -> list[RoofEdge]:
    """Any outline with a slope for each edge drawn from ``slopes``; one pitch all round without."""
    points = draw(outlines)
    if slopes is None:
        return edges(points, draw(st.sampled_from(PITCHES)))
    return edges(points, draw(st.lists(slopes, min_size=len(points), max_size=len(points))))


@st.composite
def convex_roofs(draw: st.DrawFn) -> list[RoofEdge]:
    """Convex outlines: corners on a circle at any angles; slopes and walls mixed, at least two slopes."""
    angles = sorted(draw(st.sets(st.integers(0, 71), min_size=4, max_size=9)))
    points = [(300 * cos(pi * a / 36), 300 * sin(pi * a / 36)) for a in angles]
    one, other, *rest = draw(
        st.tuples(*[st.sampled_from(PITCHES)] * 2, *[st.sampled_from([*PITCHES, None])] * (len(points) - 2))
    )
    return edges(points, [one, other, *rest])
