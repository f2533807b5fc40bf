"""Joints, found by contact: which sticks lie where a rafter, a beam or a post ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, radians, sin

from takeoff.catalog.rules import rule
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.vec import Vec, dot
from takeoff.model.joint import Joint, JointKind
from takeoff.model.member import Member

PROBE_IN = 1 / 64
"""How far into its neighbour a point is put, to see whether the neighbour is there [in]."""

SEAT_PROBE_IN = 2.0
"""How far in from the heel a seat is looked under [in]: past the heel of a valley, and still over any plate."""

LAID_PROBE_IN = 1.0
"""How far in from the tip of a foot that lies on another roof its plate is looked for [in]: long feet of flat roofs
reach past any plate."""

ON_HEADERS = ("cut-common", "common-rafter", "valley-jack")
"""What hangs on headers: rafters cut by an opening, those under a gable on a hip, jacks beside a dormer's valleys."""

PLATES = ("cap-plate", "top-plate", "clip-plate", "purlin-beam")
BEARERS = (*PLATES, "porch-beam", "mouth-beam")
"""What rafters stand on."""

POSTS = ("post", "ridge-post", "king-post")
HANGING = ("ridge-beam", "ledger", "purlin-beam")
"""What rafters hang on, with hangers."""

BEAMS = ("ridge-beam", "purlin-beam")
"""What stands on posts."""

LAID_ON = ("valley-plate", "sleeper")
"""What the feet and heads of rafters that are laid on another roof bear on."""

RIDGES = ("ridge-beam", "ridge-board", "hip", "valley", "ledger", "purlin-beam")


def joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """Bearing and hanging joints of a frame's rafters and ridge beam, in the order of the members."""
    return tuple(joint for index in range(len(members)) for joint in _of(members, index))


def _of(members: Sequence[Member], index: int) -> Iterator[Joint]:
    member = members[index]
    if member.rafter is not None and member.role.name != "barge":
        for heel, plate in _seats(member.rafter):
            yield from _seat(members, index, member.rafter, heel, plate)
        yield from _ridge(members, index, member.rafter)
        yield from _laid(members, index, member.rafter)
    if member.rafter is not None and member.role.name in ON_HEADERS:
        yield from _on_headers(members, index, member.rafter)
    if member.role.name == "roof-header":
        yield from _on_trimmers(members, index)
    if member.role.name in BEAMS:
        yield from _posts(members, index)


def _seats(cut: RafterGeometry) -> Iterator[tuple[float, float]]:
    """Heel and plate of each bird's mouth, level and plumb from the outside of the first wall."""
    if cut.stands_on_plate:
        yield 0.0, 0.0
    if cut.upper_heel is not None:
        yield cut.upper_heel, cut.upper_plate


def _seat(members: Sequence[Member], index: int, cut: RafterGeometry, heel: float, plate_at: float) -> Iterator[Joint]:
    seat = cut.seat or cut.upper_seat_cut
    x, y = cut.to_stick(heel + min(seat / 2, SEAT_PROBE_IN), plate_at - PROBE_IN)
    placement = members[index].placement
    for lower in list(at_spot(members, placement.to_world((x, y, 0.0)), BEARERS))[:1]:
        plate = members[lower]
        # Over a lapped corner the seat may lie along the plate instead of across it.
        along = abs(dot(plate.placement.x, placement.x)) > abs(dot(plate.placement.y, placement.x))
        # A seat is no longer than the beam is wide, all its plies together.
        whole = along or plate.role.name not in PLATES
        bearing = seat if whole else min(seat, plate.profile.depth_in)
        yield Joint(kind="bears", upper=index, lower=lower, bearing_in=bearing)


def _laid(members: Sequence[Member], index: int, cut: RafterGeometry) -> Iterator[Joint]:
    """A rafter that is laid on another roof bears on the plate under its foot or its head."""
    if cut.surface is None:
        return
    at_foot = cut.surface[1] < cut.slope
    tip = cut.start if at_foot else cut.end
    whole = cut.surface_under - tip
    # The stick's middle: a little in from the tip along the cut, and under it; a tail that only passes over the plate
    # lies on it further in.
    near = max(-LAID_PROBE_IN, min(LAID_PROBE_IN, whole / 4))
    for h in (tip + near, tip + whole / 4, tip + whole / 2, tip + whole * 3 / 4):
        x, y = cut.to_stick(h, cut.surface_at(h))
        x += (cut.foot_cheek if at_foot else -cut.cheek) * hypot(1, cut.slope)
        angle = cut.angle
        spot = members[index].placement.to_world((x - PROBE_IN * sin(angle), y - PROBE_IN * cos(angle), 0.0))
        for lower in list(at_spot(members, spot, LAID_ON))[:1]:
            contact = cut.depth / cos(radians(cut.surface_deg))
            yield Joint(
                kind="bears", upper=index, lower=lower, bearing_in=min(contact, members[lower].profile.depth_in)
            )
            return


def _ridge(members: Sequence[Member], index: int, cut: RafterGeometry) -> Iterator[Joint]:
    face = cut.run - cut.ridge_half
    rafter = members[index].placement
    if cut.beam:
        x, y = cut.to_stick(cut.beam_face + cut.beam_seat / 2, cut.beam.top - PROBE_IN)
        for lower in list(at_spot(members, rafter.to_world((x, y, 0.0)), ("ridge-beam",)))[:1]:
            yield Joint(kind="bears", upper=index, lower=lower, bearing_in=cut.beam_seat)
        return
    # A purlin's top is lower than the cut's: it may be met in its lower half only.
    heights = (_middle(cut, face), cut.underside_at(face) + 2 * PROBE_IN)
    spots = [rafter.to_world((*cut.to_stick(face + PROBE_IN, z), 0.0)) for z in heights]
    met = [*at_spot(members, spots[0], RIDGES), *at_spot(members, spots[1], ("purlin-beam",))]
    # A stick cut to two planes may reach past where its middle ends.
    for lower in [other for other in met if other != index][:1]:
        ridge = members[lower]
        if ridge.rafter is not None:
            yield Joint(kind="butts", upper=index, lower=lower, bearing_in=cut.plumb_depth)
            continue
        kind: JointKind = "hangs" if ridge.role.name in HANGING else "butts"
        yield Joint(kind=kind, upper=index, lower=lower, bearing_in=_contact(members[index], cut, face, ridge))


def _contact(rafter: Member, cut: RafterGeometry, face: float, other: Member) -> float:
    """Plumb contact of a rafter's plumb cut at ``face`` with a stick that stands upright there [in]."""
    top = rafter.placement.to_world((*cut.to_stick(face, cut.top_at(face)), 0.0))[2]
    low = other.placement.origin[2]
    return min(top, low + other.profile.depth_in) - max(top - cut.plumb_depth, low)


def _on_headers(members: Sequence[Member], index: int, cut: RafterGeometry) -> Iterator[Joint]:
    """Cut rafters hang on the headers of openings, one above a header as well as one below it."""
    rafter = members[index]
    for h, square, outward in ((cut.start, cut.square_foot, -PROBE_IN), (cut.end, cut.square_head, PROBE_IN)):
        x, y = cut.to_stick(h, cut.top_at(h))
        spot = (x + outward, y - cut.depth / 2) if square else cut.to_stick(h + outward, _middle(cut, h))
        for lower in list(at_spot(members, rafter.placement.to_world((*spot, 0.0)), ("roof-header",)))[:1]:
            header = members[lower]
            contact = min(cut.depth, header.profile.depth_in) if square else _contact(rafter, cut, h, header)
            yield Joint(kind="hangs", upper=index, lower=lower, bearing_in=contact)


def _on_trimmers(members: Sequence[Member], index: int) -> Iterator[Joint]:
    """Each ply of a header meets a trimmer at both ends: on hangers where it is longer than nails are trusted with."""
    header = members[index]
    kind: JointKind = "hangs" if header.length_in > rule("opening.header-hanger").value else "butts"
    for x in (-PROBE_IN, header.length_in + PROBE_IN):
        spot = header.placement.to_world((x, header.profile.depth_in / 2, 0.0))
        for lower in list(at_spot(members, spot, ("trimmer-rafter",)))[:1]:
            contact = min(header.profile.depth_in, members[lower].profile.depth_in)
            yield Joint(kind=kind, upper=index, lower=lower, bearing_in=contact)


def _middle(cut: RafterGeometry, face: float) -> float:
    return cut.top_at(face) - cut.plumb_depth / 2


def _posts(members: Sequence[Member], index: int) -> Iterator[Joint]:
    """Posts under a beam: every ply that stands under it."""
    beam = members[index]
    for lower, post in enumerate(members):
        if post.role.name not in POSTS:
            continue
        head = post.placement.to_world((post.length_in + PROBE_IN, post.profile.depth_in / 2, 0.0))
        if _inside(beam, head):
            yield Joint(kind="bears", upper=index, lower=lower, bearing_in=post.profile.depth_in)


def at_spot(members: Sequence[Member], spot: Vec, roles: tuple[str, ...]) -> Iterator[int]:
    """Members with one of these roles that fill a point in the world."""
    return (i for i, member in enumerate(members) if member.role.name in roles and _inside(member, spot))


def _inside(member: Member, spot: Vec) -> bool:
    x, y, z = member.placement.from_world(spot)
    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    # Inclusive to the probe, so that a stick over the joint of two plates meets one of them.
    return x0 - PROBE_IN <= x <= x1 + PROBE_IN and y0 <= y <= y1 and abs(z) <= half + PROBE_IN
