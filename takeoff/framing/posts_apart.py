"""Posts under ridge beams and apexes that stand so near each other that they share wood: refused in words."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.ridge_posts import InsidePost


def crowded_posts(posts: Sequence[InsidePost], ridges: Sequence[RidgeStick]) -> str | None:
    """What to say of posts that stand in each other, or in a beam that another one carries; None where none does."""
    for one, other in combinations(posts, 2):
        if _shared(_foot(one), _foot(other)):
            return (
                f"the posts under the roof {one.where} and {other.where} would stand in each other: their middles are"
                f" {format_length(dist(one.spot, other.spot))} apart, and they are {_size(one)} and {_size(other)};"
                " take a ridge board (kind: board), smaller posts (ridge: post), or change a side so that the ridge"
                " ends lie further apart"
            )
    for post in posts:
        for ridge in ridges:
            by = post.top - ridge.bottom
            if ridge.beam and by > TOLERANCE.length and _shared(_foot(post), _beam(ridge)):
                return (
                    f"the post under the roof {post.where} would stand {format_length(by)} into the ridge beam beside"
                    " it; take a ridge board (kind: board), a smaller post (ridge: post), or change a side so that"
                    " the hips meet further from the beam"
                )
    return None


def _size(post: InsidePost) -> str:
    return f"{format_length(post.profile.depth_in)} by {format_length(_width(post))}"


def _shared(one: Polygon, other: Polygon) -> bool:
    return bool(one.intersection(other).area > TOLERANCE.length)


def _foot(post: InsidePost) -> Polygon:
    (x, y), (dx, dy) = post.spot, post.along
    return _band((x, y), (dx, dy), (-post.profile.depth_in / 2, post.profile.depth_in / 2), _width(post) / 2)


def _width(post: InsidePost) -> float:
    return post.plies * post.profile.thickness_in


def _beam(ridge: RidgeStick) -> Polygon:
    (x, y, _), (dx, dy, _) = ridge.bench.placement.origin, ridge.bench.placement.x
    run = (ridge.lines[0][0].at, ridge.lines[1][0].at)
    return _band((x, y), (dx, dy), run, ridge.profile.thickness_in / 2)


def _band(start: tuple[float, float], along: tuple[float, float], run: tuple[float, float], half: float) -> Polygon:
    from shapely import Polygon

    (x, y), (dx, dy), (a, b) = start, along, run
    corners = ((a, -half), (b, -half), (b, half), (a, half))
    return Polygon([(x + dx * u - dy * w, y + dy * u + dx * w) for u, w in corners])
