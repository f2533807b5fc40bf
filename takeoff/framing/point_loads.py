"""What brings a point load down on the main floor: posts, packs of studs, jacks under a header that a post is on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.model.member import Member

Span = tuple[float, float]

POSTS = ("post", "ridge-post", "loft-post", "mouth-post")
"""Uprights that carry a beam's end."""

UPRIGHTS = ("post", "stud", "king-stud", "jack-stud", "corner-stud", "tee-stud")
"""What a post on the plates of a wall stands over."""

ON_DECK_IN = 3.5
"""A foot no higher over the deck stands on it, or on the plates of a wall's foot [in]."""

PLATES_IN = 3.0
"""Two plates may lie between a header and a post over it [in]."""

FAR_IN = 1 / 8
"""Uprights nearer to each other than this are one pack [in]."""

_WORLD = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanBox:
    """What a stick takes in plan: the rectangle round it."""

    u: Span
    v: Span

    @property
    def area(self) -> float:
        """In plan [sq in]."""
        return (self.u[1] - self.u[0]) * (self.v[1] - self.v[0])

    @property
    def turned(self) -> PlanBox:
        """With its axes exchanged."""
        return PlanBox(u=self.v, v=self.u)

    def shared(self, other: PlanBox) -> float:
        """Area within both [sq in]."""
        wide = min(self.u[1], other.u[1]) - max(self.u[0], other.u[0])
        deep = min(self.v[1], other.v[1]) - max(self.v[0], other.v[0])
        return wide * deep if wide > 0.0 and deep > 0.0 else 0.0

    def meets(self, other: PlanBox) -> bool:
        """Whether they share more than a scribe mark's width both ways."""
        near = TOLERANCE.mark
        return (
            min(self.u[1], other.u[1]) - max(self.u[0], other.u[0]) > near
            and min(self.v[1], other.v[1]) - max(self.v[0], other.v[0]) > near
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """Uprights side by side that stand on the floor in one place."""

    what: str
    box: PlanBox


def plan_box(member: Member, axes: Placement) -> tuple[PlanBox, Span]:
    """A stick's rectangle in the plan of some axes, and from how low to how high it reaches along their third [in]."""
    half = member.profile.thickness_in / 2
    x0, y0, x1, y1 = member.side.bounds
    corners = [axes.from_world(member.placement.to_world(p)) for p in product((x0, x1), (y0, y1), (-half, half))]
    u, v, w = ((min(c[k] for c in corners), max(c[k] for c in corners)) for k in range(3))
    return PlanBox(u=u, v=v), w


def in_plan(member: Member) -> tuple[PlanBox, Span]:
    """Likewise in the world's axes: from above, and how high [in]."""
    return plan_box(member, _WORLD)


def point_loads(members: Sequence[Member], axes: Placement) -> tuple[PointLoad, ...]:
    """Point loads on the main floor, in the order of their places.

    Args:
        members: all sticks of the building that stand over the floor.
        axes: of the floor, in whose plan the loads are given.
    """
    found = [(_words(post), plan_box(foot, axes)[0]) for post in members for foot in _feet(post, members)]
    packs: list[PointLoad] = []
    for what, box in sorted(found, key=lambda each: (each[1].u, each[1].v, each[0])):
        k = next((k for k, pack in enumerate(packs) if _touch(pack.box, box)), None)
        if k is None:
            packs.append(PointLoad(what=what, box=box))
        else:
            packs[k] = replace(packs[k], box=_both(packs[k].box, box))
    return tuple(packs)


def header_under(post: Member, members: Sequence[Member]) -> Member | None:
    """The first ply of a header that a post stands on, right or over the plates above it; None where it is on none."""
    box, (foot, _) = in_plan(post)
    for header in members:
        if header.role.name == "header" and header.face == post.face:
            under, (_, top) = in_plan(header)
            if -FAR_IN < foot - top < PLATES_IN + FAR_IN and under.meets(box):
                return header
    return None


def _feet(post: Member, members: Sequence[Member]) -> Iterator[Member]:
    """What of a post's load stands on the floor: itself, what is under it in its wall, or a header's jacks."""
    if post.role.name not in POSTS:
        return
    box, (foot, _) = in_plan(post)
    if foot < -TOLERANCE.mark:
        return
    if foot <= ON_DECK_IN:
        yield post
        return
    header = header_under(post, members)
    if header is not None:
        yield from _jacks(header, members)
        return
    for other in members:
        if other.role.name in UPRIGHTS and other.face == post.face:
            under, (low, high) = in_plan(other)
            if low <= ON_DECK_IN and high < foot + TOLERANCE.mark and under.shared(box) > under.area / 4:
                yield other


def _jacks(header: Member, members: Sequence[Member]) -> Iterator[Member]:
    """Jacks that a header bears on."""
    box, (low, _) = in_plan(header)
    for other in members:
        if other.role.name == "jack-stud" and other.face == header.face:
            under, (_, head) = in_plan(other)
            if abs(head - low) < FAR_IN and under.meets(box):
                yield other


def _touch(one: PlanBox, other: PlanBox) -> bool:
    apart_u = max(one.u[0], other.u[0]) - min(one.u[1], other.u[1])
    apart_v = max(one.v[0], other.v[0]) - min(one.v[1], other.v[1])
    # They meet along a side, not at a corner alone.
    return max(apart_u, apart_v) < FAR_IN and min(apart_u, apart_v) < -FAR_IN


def _both(one: PlanBox, other: PlanBox) -> PlanBox:
    return PlanBox(
        u=(min(one.u[0], other.u[0]), max(one.u[1], other.u[1])),
        v=(min(one.v[0], other.v[0]), max(one.v[1], other.v[1])),
    )


def _words(post: Member) -> str:
    kind = post.role.words.split(",")[0]
    return f"{kind} in the {post.face} wall" if post.role.name == "post" else kind
