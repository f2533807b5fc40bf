"""Joints, found by contact: which sticks lie where a rafter, a beam or a post ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.vec import Vec, dot
from takeoff.model.joint import Joint, JointKind
from takeoff.model.member import Member

PROBE_IN = 1 / 64
"""How far into its neighbour a point is put, to see whether the neighbour is there [in]."""

SEAT_PROBE_IN = 2.0
"""How far in from the heel a seat is looked under [in]: past the heel of a valley, and still over any plate."""

PLATES = ("cap-plate", "top-plate")
HANGING = ("ridge-beam", "ledger")
"""What rafters hang on, with hangers."""

RIDGES = ("ridge-beam", "ridge-board", "hip", "valley", "ledger")


def joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """Bearing and hanging joints of a frame's rafters and ridge beam, in the order of the members."""
    return tuple(joint for index in range(len(members)) for joint in _of(members, index))


def _of(members: Sequence[Member], index: int) -> Iterator[Joint]:
    member = members[index]
    if member.rafter is not None and member.rafter.seat:
        for heel, plate in _seats(member.rafter):
            yield from _seat(members, index, member.rafter, heel, plate)
        yield from _ridge(members, index, member.rafter)
    if member.role.name == "ridge-beam":
        yield from _posts(members, index)


def _seats(cut: RafterGeometry) -> Iterator[tuple[float, float]]:
    """Heel and plate of each bird's mouth, level and plumb from the outside of the first wall."""
    yield 0.0, 0.0
    if cut.upper_heel is not None:
        yield cut.upper_heel, cut.upper_plate


def _seat(members: Sequence[Member], index: int, cut: RafterGeometry, heel: float, plate_at: float) -> Iterator[Joint]:
    x, y = cut.to_stick(heel + min(cut.seat / 2, SEAT_PROBE_IN), plate_at - PROBE_IN)
    placement = members[index].placement
    for lower in list(_at(members, placement.to_world((x, y, 0.0)), PLATES))[:1]:
        plate = members[lower]
        # Over a lapped corner the seat may lie along the plate instead of across it.
        along = abs(dot(plate.placement.x, placement.x)) > abs(dot(plate.placement.y, placement.x))
        bearing = cut.seat if along else min(cut.seat, plate.profile.depth_in)
        yield Joint(kind="bears", upper=index, lower=lower, bearing_in=bearing)


def _ridge(members: Sequence[Member], index: int, cut: RafterGeometry) -> Iterator[Joint]:
    face = cut.run - cut.ridge_half
    rafter = members[index].placement
    spot = rafter.to_world((*cut.to_stick(face + PROBE_IN, _middle(cut, face)), 0.0))
    for lower in list(_at(members, spot, RIDGES))[:1]:
        ridge = members[lower]
        if ridge.rafter is not None:
            yield Joint(kind="butts", upper=index, lower=lower, bearing_in=cut.plumb_depth)
            continue
        kind: JointKind = "hangs" if ridge.role.name in HANGING else "butts"
        top = rafter.to_world((*cut.to_stick(face, cut.top_at(face)), 0.0))[2]
        low = ridge.placement.origin[2]
        contact = min(top, low + ridge.profile.depth_in) - max(top - cut.plumb_depth, low)
        yield Joint(kind=kind, upper=index, lower=lower, bearing_in=contact)


def _middle(cut: RafterGeometry, face: float) -> float:
    return cut.top_at(face) - cut.plumb_depth / 2


def _posts(members: Sequence[Member], index: int) -> Iterator[Joint]:
    """Posts under the ends of a beam: every ply that stands under it."""
    beam = members[index]
    for lower, post in enumerate(members):
        if post.role.name != "post":
            continue
        head = post.placement.to_world((post.length_in + PROBE_IN, post.profile.depth_in / 2, 0.0))
        if _inside(beam, head):
            yield Joint(kind="bears", upper=index, lower=lower, bearing_in=post.profile.depth_in)


def _at(members: Sequence[Member], spot: Vec, roles: tuple[str, ...]) -> Iterator[int]:
    """Members with one of these roles that fill a point in the world."""
    return (i for i, member in enumerate(members) if member.role.name in roles and _inside(member, spot))


def _inside(member: Member, spot: Vec) -> bool:
    x, y, z = member.placement.from_world(spot)
    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    # Inclusive to the probe, so that a stick over the joint of two plates meets one of them.
    return x0 - PROBE_IN <= x <= x1 + PROBE_IN and y0 <= y <= y1 and abs(z) <= half + PROBE_IN
