"""Joints of ties and ceiling joists: lapped beside rafters, and borne by the plates they lie on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.framing.joints import PLATES, PROBE_IN
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import dot
from takeoff.model.joint import Joint

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.model.member import Member

TIES = ("rafter-tie", "collar-tie", "ceiling-joist")


def tie_joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """What the ties of a frame lap and lie on, in the order of the members."""
    return tuple(
        joint
        for index, member in enumerate(members)
        if member.role.name in TIES
        for joint in (*_laps(members, index), *_bears(members, index))
    )


def _laps(members: Sequence[Member], index: int) -> Iterator[Joint]:
    """Rafters whose side a tie lies against; the bearing is the level length of the lap."""
    tie = members[index]
    for lower, rafter in enumerate(members):
        if rafter.rafter is None or abs(dot(tie.placement.z, rafter.placement.z)) < 1 - TOLERANCE.length:
            continue
        apart = abs(tie.placement.from_world(rafter.placement.origin)[2])
        if abs(apart - (tie.profile.thickness_in + rafter.profile.thickness_in) / 2) > PROBE_IN:
            continue
        shared = _seen_from(tie, rafter).intersection(tie.side)
        if shared.area > TOLERANCE.area:
            x0, _, x1, _ = shared.bounds
            yield Joint(kind="laps", upper=index, lower=lower, bearing_in=float(x1 - x0))


def _seen_from(tie: Member, rafter: Member) -> Polygon:
    """Side outline of a rafter in the axes of a tie beside it."""
    from shapely import Polygon

    spots = (rafter.placement.to_world((x, y, 0.0)) for x, y in rafter.side.exterior.coords)
    return Polygon([tie.placement.from_world(spot)[:2] for spot in spots])


def _bears(members: Sequence[Member], index: int) -> Iterator[Joint]:
    """Plates under the ends of a tie; it lies on them from its end to their inner edges."""
    tie = members[index]
    x0, _, x1, _ = tie.side.bounds
    for end, inward in ((float(x0), 1.0), (float(x1), -1.0)):
        spot = tie.placement.to_world((end + inward * PROBE_IN, -PROBE_IN, 0.0))
        for lower, plate in enumerate(members):
            if plate.role.name not in PLATES:
                continue
            x, y, z = plate.placement.from_world(spot)
            a, _, b, _ = plate.side.bounds
            on = a - PROBE_IN <= x <= b + PROBE_IN and 0 <= y <= plate.profile.depth_in
            if on and abs(z) <= plate.profile.thickness_in / 2:
                yield Joint(kind="bears", upper=index, lower=lower, bearing_in=plate.profile.depth_in - y + PROBE_IN)
                break
