"""Whether the posts under the ridge beams that end on a wall have room beside its openings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from takeoff.framing.wall import RidgePost, RoughOpening, Wall


def refuse_cut_posts(wall: Wall, place: Place) -> None:
    """Refuse openings that a post would run down into; one right under a post carries it on its header.

    Raises:
        PlanError: there is one; says by how much it has to move.
    """
    findings = [
        Finding(
            rule="frame.ridge-post",
            severity=Severity.ERROR,
            message=(
                f"the {opening.what} of the {wall.side.name} wall stands {format_length(by)} into the post under the"
                f" ridge beam, whose middle is at {format_length(_middle(post))} from the wall's left end: move it"
                " clear of the post, or right under it so that its header carries the post"
            ),
            place=place,
        )
        for post in wall.posts
        for opening in wall.openings
        for by in reach_into(wall, post, opening)
    ]
    if findings:
        raise PlanError(findings)


def _middle(post: RidgePost) -> float:
    return sum(post.beside) / 2


def reach_into(wall: Wall, post: RidgePost, opening: RoughOpening) -> Iterator[float]:
    """How far the kings and jacks of an opening reach into a post [in]; a king may stand for the stud beside it."""
    t = wall.studs.thickness_in
    left, right = post.centres[0] - t / 2, post.centres[-1] + t / 2
    (u0, u1), (low, _) = opening.framed(t, wall.plate)
    if low >= post.top or (opening.u[0] <= left + TOLERANCE.length and opening.u[1] >= right - TOLERANCE.length):
        return
    by = min(u1 + t, right) - max(u0 - t, left)
    if by > TOLERANCE.length:
        yield by
