"""Joints of porch beams and of beams across mouths, found by contact: on posts, and on the side of another beam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeoff.framing.joints import PROBE_IN
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.joint import Joint
from takeoff.model.member import Member

POST_OF = {"porch-beam": "porch-post", "mouth-beam": "mouth-post"}
"""Beams, and what stands under them."""


def porch_joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """Bearing of each ply of a beam on its posts, and hung ends of beams, in the order of the members."""
    return tuple(
        joint
        for upper, beam in enumerate(members)
        if beam.role.name in POST_OF
        for joint in (*_on_posts(members, upper), *_on_beams(members, upper))
    )


def _on_posts(members: Sequence[Member], upper: int) -> Iterator[Joint]:
    beam = members[upper]
    for lower, post in enumerate(members):
        if post.role.name != POST_OF[beam.role.name]:
            continue
        (x0, x1), (y0, y1), (z0, z1) = _head(post, beam)
        half = beam.profile.thickness_in / 2
        along, across = min(x1, beam.length_in) - max(x0, 0.0), min(z1, half) - max(z0, -half)
        if y0 <= PROBE_IN and y1 >= -PROBE_IN and along > TOLERANCE.length and across > TOLERANCE.length:
            yield Joint(kind="bears", upper=upper, lower=lower, bearing_in=along)


def _head(post: Member, beam: Member) -> tuple[tuple[float, float], ...]:
    """Extent of a post's head along the beam's axes [in]."""
    half = post.profile.thickness_in / 2
    corners = [(post.length_in, y, z) for y in (0.0, post.profile.depth_in) for z in (-half, half)]
    spots = [beam.placement.from_world(post.placement.to_world(corner)) for corner in corners]
    return tuple((min(s[k] for s in spots), max(s[k] for s in spots)) for k in range(3))


def _on_beams(members: Sequence[Member], upper: int) -> Iterator[Joint]:
    """An end that butts another beam's side, unless it stands on a post by itself."""
    beam = members[upper]
    for x in (-PROBE_IN, beam.length_in + PROBE_IN):
        spot = beam.placement.to_world((x, beam.profile.depth_in / 2, 0.0))
        for lower, other in enumerate(members):
            if other.role.name != beam.role.name or other.face == beam.face:
                continue
            ox, oy, oz = other.placement.from_world(spot)
            half = other.profile.thickness_in / 2 + PROBE_IN
            if 0 <= ox <= other.length_in and 0 <= oy <= other.profile.depth_in and abs(oz) <= half:
                yield Joint(kind="hangs", upper=upper, lower=lower, bearing_in=beam.profile.depth_in)
