"""Rules of what holds a ridge up and the rafters together: rafters over a beam, posts under it, ties."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.findings import Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

TIES = {"ties": "rafter ties", "collar": "collar ties", "ceiling": "ceiling joists", "purlins": "purlins"}
"""Keys of the roof that tie rafters, and what a builder calls what they write."""


def over_under_gables_only(building: Building) -> Iterator[Flaw]:
    """Rafters run over the beam of a gable roof; where ridges end in hips or valleys they meet its face."""
    roof = building.roof
    if roof.over_beam and roof.shape != "gable":
        message = f"found support: over, expected support: face on a roof of shape {roof.shape}"
        yield Flaw(rule="plan.roof", loc=("roof", "ridge", "support"), message=message, found="over", limit="face")


def seat_on_the_beam(building: Building) -> Iterator[Flaw]:
    """A seat stated on the ridge beam bears enough and ends at its middle."""
    ridge = building.roof.ridge
    if ridge is None or ridge.seat is None:
        return
    bearing, half = rule("bearing.rafter"), profile(ridge.size).thickness_in / 2
    loc, found = ("roof", "ridge", "seat"), format_length(ridge.seat)
    if ridge.seat > half + TOLERANCE.length:
        limit = f"at most {format_length(half)}"
        message = (
            f"found a seat of {found}, expected {limit}, half of the {ridge.size}:"
            " the other half is for the rafter opposite"
        )
        yield Flaw(rule="plan.roof", loc=loc, message=message, found=found, limit=limit)
    elif ridge.seat < bearing.value:
        limit = f"at least {format_length(bearing.value)}"
        message = f"found a seat of {found}, expected {limit} ({bearing.section})"
        yield Flaw(rule="plan.roof", loc=loc, message=message, found=found, limit=limit)


def posts_under_gables_only(building: Building) -> Iterator[Flaw]:
    """Places for posts are measured along the one ridge of a gable roof."""
    roof = building.roof
    if roof.ridge and roof.ridge.posts and roof.shape != "gable":
        message = (
            f"found posts on a roof of shape {roof.shape}, expected none: posts are placed along the one ridge of a"
            " gable roof; elsewhere they stand where ridges end inside"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "ridge", "posts"), message=message)


def posts_inside(building: Building) -> Iterator[Flaw]:
    """Posts stand between the end walls, clear of them and of each other."""
    roof, walls = building.roof, footprint(building)
    if roof.ridge is None or roof.shape != "gable" or roof.gables is None or not walls.is_rectangle:
        return
    if not roof.ridge.posts:
        if roof.ridge.post:
            message = f"the size of posts inside is written ({roof.ridge.post}), but no posts: are they meant?"
            yield Flaw(rule="plan.doubtful", loc=("roof", "ridge", "post"), message=message, severity=Severity.WARNING)
        return
    depth = profile(roof.ridge.post or building.walls.studs).depth_in
    first = next(side for side in walls.sides if not roof.is_gable(side.name))
    ends = walls.left_of(first.name).name, walls.right_of(first.name).name
    near, far = (profile(building.walls.for_side(end).studs).depth_in + depth / 2 for end in ends)
    far = first.length_in - far
    for index, at in enumerate(roof.ridge.posts):
        if near - TOLERANCE.length <= at <= far + TOLERANCE.length:
            continue
        found, limit = format_length(at), f"between {format_length(near)} and {format_length(far)}"
        message = f"found a post at {found}, expected it {limit} along the ridge, clear of the end walls"
        yield Flaw(rule="plan.roof", loc=("roof", "ridge", "posts", index), message=message, found=found, limit=limit)
    for (_, a), (index, b) in pairwise(sorted(enumerate(roof.ridge.posts), key=lambda post: post[1])):
        if b - a < depth - TOLERANCE.length:
            found, limit = format_length(b - a), f"at least {format_length(depth)}"
            message = f"found two posts {found} apart, expected {limit}, the depth of a post"
            yield Flaw(
                rule="plan.roof", loc=("roof", "ridge", "posts", index), message=message, found=found, limit=limit
            )


def ties_under_gables_only(building: Building) -> Iterator[Flaw]:
    """Ties and joists lie between rafters that stand opposite each other, under a gable roof."""
    roof = building.roof
    for key, words in TIES.items():
        if getattr(roof, key) is not None and roof.shape != "gable":
            message = (
                f"found {words} on a roof of shape {roof.shape}, expected none:"
                " they tie opposite rafters of a gable roof"
            )
            yield Flaw(rule="plan.roof", loc=("roof", key), message=message, at_key=True)
    if roof.ties and roof.ceiling:
        message = "found ties beside ceiling joists, expected one of them: ceiling joists tie the rafters' feet already"
        yield Flaw(rule="plan.roof", loc=("roof", "ties"), message=message, at_key=True)
