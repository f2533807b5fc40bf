"""Where two sides of an outline meet that should not."""

from __future__ import annotations

import math

from takeoff.geometry.tolerance import TOLERANCE

Point = tuple[float, float]
Segment = tuple[Point, Point]


def crossing(first: Segment, second: Segment) -> Point | None:
    """A point two segments share, other than an end of both; None where there is none.

    Args:
        first: from point to point [in], not of no length.
        second: likewise.

    Returns:
        The crossing, or where one ends on the other; for segments that lie on each other, an end within the other.

    Source:
        Geometry: with p, q the starts and r, s the vectors, t = (q - p) x s / (r x s) along the first.
    """
    for end in (*first, *second):  # an end on the other segment: touching, or lying on it
        other = second if end in first else first
        if end not in other and _on(end, other):
            return end
    (p, p2), (q, q2) = first, second
    r, s = _minus(p2, p), _minus(q2, q)
    turn = _cross(r, s)
    if abs(turn) <= TOLERANCE.length * max(math.hypot(*r), math.hypot(*s)):
        return None  # parallel, and not on each other
    t, u = _cross(_minus(q, p), s) / turn, _cross(_minus(q, p), r) / turn
    if not (0 < t < 1 and 0 < u < 1):
        return None
    at = (p[0] + t * r[0], p[1] + t * r[1])
    return None if any(math.dist(at, end) <= TOLERANCE.length for end in (*first, *second)) else at


def _on(point: Point, segment: Segment) -> bool:
    """Whether a point lies on a segment, between its ends."""
    a, b = segment
    along, length = _minus(b, a), math.dist(a, b)
    beside = abs(_cross(along, _minus(point, a))) / length
    far = (along[0] * (point[0] - a[0]) + along[1] * (point[1] - a[1])) / length
    return beside <= TOLERANCE.length and TOLERANCE.length < far < length - TOLERANCE.length


def _minus(a: Point, b: Point) -> Point:
    return (a[0] - b[0], a[1] - b[1])


def _cross(a: Point, b: Point) -> float:
    return a[0] * b[1] - a[1] * b[0]
