"""Splines as straight pieces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from takeoff.plan.drawing_in.tags import Record, TagError, number

Point = tuple[float, float]
_Weighed = tuple[float, float, float]

MOST_CONTROLS, HIGHEST_DEGREE = 500, 10
"""Most control points of a spline that is read, and the highest degree."""

_DEEPEST = 6
"""How often a piece is halved at most, from a quarter of the part between two knots."""


def spline_points(record: Record, within: float) -> list[Point]:
    """Points of a SPLINE entity from its start to its end, in the drawing's units.

    Args:
        record: the entity, with control points, or with points that the curve goes through.
        within: how far a straight piece may stand off the curve.

    Raises:
        TagError: it is no spline that can be followed.
    """
    controls, degree, knots = _pairs(record, 10), record.whole(71, 3), _values(record, 40)
    if controls:
        weights = _values(record, 41) or [1.0] * len(controls)
    else:
        controls, degree, knots = _through(_pairs(record, 11))
        weights = [1.0] * len(controls)
    _sound(controls, degree, knots, weights)
    weighed = [(x * w, y * w, w) for (x, y), w in zip(controls, weights, strict=True)]
    curve = _Curve(weighed, degree, knots)
    points = [curve.at(knots[degree])]
    for a, b in pairwise(knots[degree : len(controls) + 1]):
        if b > a:
            for quarter in range(4):
                points += curve.between(a + (b - a) * quarter / 4, a + (b - a) * (quarter + 1) / 4, within, _DEEPEST)
    return points


class _Curve:
    """A curve by its control points, each times its weight, beside that weight."""

    def __init__(self, controls: Sequence[_Weighed], degree: int, knots: Sequence[float]) -> None:
        self.controls, self.degree, self.knots = controls, degree, knots

    def at(self, t: float) -> Point:
        """The point at a parameter.

        Source:
            C. de Boor, On calculating with B-splines, Journal of Approximation Theory 6 (1972); formula from memory.
        """
        p, u = self.degree, self.knots
        # The last of the parts that begin at or before t and have a length.
        k = max(j for j in range(p, len(self.controls)) if u[j] <= t and (u[j] < u[j + 1] or j == p))
        d = list(self.controls[k - p : k + 1])
        for r in range(1, p + 1):
            for j in range(p, r - 1, -1):
                low, high = u[j + k - p], u[j + 1 + k - r]
                share = (t - low) / (high - low) if high > low else 0.0
                (ax, ay, aw), (bx, by, bw) = d[j - 1], d[j]
                d[j] = (ax + (bx - ax) * share, ay + (by - ay) * share, aw + (bw - aw) * share)
        x, y, w = d[p]
        return (x / w, y / w)

    def between(self, a: float, b: float, within: float, deeper: int) -> Iterator[Point]:
        """Points after the one at ``a`` up to that at ``b``: pieces are halved until near enough to the curve."""
        start, end, middle = self.at(a), self.at(b), (a + b) / 2
        tried = (self.at((a + middle) / 2), self.at(middle), self.at((middle + b) / 2))
        if deeper and any(_off(point, start, end) > within for point in tried):
            yield from self.between(a, middle, within, deeper - 1)
            yield from self.between(middle, b, within, deeper - 1)
        else:
            yield end


def _off(point: Point, a: Point, b: Point) -> float:
    """How far a point lies off the piece from a to b."""
    x, y, px, py = b[0] - a[0], b[1] - a[1], point[0] - a[0], point[1] - a[1]
    long = x * x + y * y
    share = min(max((px * x + py * y) / long, 0.0), 1.0) if long else 0.0
    return hypot(px - share * x, py - share * y)


def _sound(controls: Sequence[Point], degree: int, knots: Sequence[float], weights: Sequence[float]) -> None:
    if not 1 <= degree <= HIGHEST_DEGREE or not degree < len(controls) <= MOST_CONTROLS:
        raise TagError(
            f"found a spline of degree {degree} with {len(controls)} control points, expected a degree up to "
            f"{HIGHEST_DEGREE} and more points than that, at most {MOST_CONTROLS}"
        )
    if len(knots) != len(controls) + degree + 1 or any(b < a for a, b in pairwise(knots)):
        wanted = len(controls) + degree + 1
        raise TagError(f"found {len(knots)} knots of a spline, expected {wanted} in rising order")
    if len(weights) != len(controls) or min(weights) <= 0:
        raise TagError("found weights of a spline that aren't over 0, one for each control point")


def _through(points: Sequence[Point]) -> tuple[list[Point], int, list[float]]:
    """Control points, degree and knots of the smooth curve through points."""
    different = [point for k, point in enumerate(points) if not k or point != points[k - 1]]
    if not 2 <= len(different) <= MOST_CONTROLS:
        raise TagError(f"found a spline through {len(different)} points, expected 2 to {MOST_CONTROLS}")
    from ezdxf.math import fit_points_to_cad_cv

    found = fit_points_to_cad_cv(different)
    return [(float(p.x), float(p.y)) for p in found.control_points], found.degree, [float(t) for t in found.knots()]


def _values(record: Record, code: int) -> list[float]:
    return [number(code, value) for known, value in record.tags if known == code]


def _pairs(record: Record, code: int) -> list[Point]:
    """Points by their x under a code and their y under the code ten above."""
    xs, ys = _values(record, code), _values(record, code + 10)
    if len(xs) != len(ys):
        raise TagError(f"found {len(xs)} x and {len(ys)} y of a spline's points, expected as many of both")
    return list(zip(xs, ys, strict=True))
