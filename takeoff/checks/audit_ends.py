"""Audit of rafters: each head and foot touches what it is cut to, each seat lies on what carries it, tops in the slope.

A stick's solid is moved a little the way it should bear, and what it then has in common with its neighbours is the
contact: nothing is asked of how the cut was reckoned.

It asks whether there is contact, not whether there is enough: how long a bearing has to be is for the screening to say
(`checks.rafters.seat_bearing`), of hips and valleys too. Contact is what is left of `LEAST_SQIN`, or for a hip's or
valley's seat of `CORNER_SQIN`, when half of it is lost to corners more acute than square and to cuts that lean.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from takeoff.framing.folds import SHORTEST_SEAT_IN
from takeoff.geometry.vec import Vec, scale

if TYPE_CHECKING:
    from takeoff.geometry.solid import Solid
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

PROBE_IN = 1 / 16
"""How far a stick is moved to find what it touches [in]: twice what sticks may stand in each other."""

LEAST_SQIN = 0.75
"""Contact under this is none [sq in]: half an inch of a stick 1-1/2" thick."""

CORNER_SEAT_IN = SHORTEST_SEAT_IN
"""Level length of the shortest seat that a hip or valley may have [in]: shorter ones are refused before."""

CORNER_SQIN = CORNER_SEAT_IN**2
"""Contact of that seat on the corner of two walls [sq in]. A hip comes over a right-angled corner point first: of a
seat ``s`` long only a triangle ``2 s`` wide and ``s`` high lies on the plates."""

FOLDED = ("hip", "valley")

PASSED_OVER = ("barge", "lookout")
"""Roles that nothing bears on or is cut to, though they are cut like rafters."""

End = Literal["head", "foot", "seat"]

OFF_IN = 1 / 32
"""How far a top edge may be off its slope [in]."""

_DOWN: Vec = (0.0, 0.0, -1.0)


@dataclass(frozen=True, slots=True)
class LooseEnd:
    """An end of a stick that touches nothing, or a seat that nothing carries."""

    member: Member
    end: End
    spot: Vec
    """In the world [in]."""


def loose_ends(members: Sequence[Member], solids: Sequence[Solid]) -> Iterator[LooseEnd]:
    """Ends of rafters, hips and valleys that touch nothing.

    Args:
        members: all sticks of a building.
        solids: of each.
    """
    boxes = [solid.bounds for solid in solids]
    for index, member in enumerate(members):
        if member.rafter is None or member.role.name in PASSED_OVER:
            continue
        near = [k for k in range(len(members)) if k != index and _near(boxes[index], boxes[k])]
        middle = (boxes[index][0][2] + boxes[index][1][2]) / 2
        for end, way in _bearings(member):
            # What lies under a stick's middle isn't what its head ends on.
            beside = [solids[k].body for k in near if end != "head" or boxes[k][1][2] > middle]
            least = LEAST_SQIN if end != "seat" or member.role.name not in FOLDED else CORNER_SQIN
            if not _touches(solids[index].body, way, beside, least):
                yield LooseEnd(member, end, member.centre_line[0 if end != "head" else 1])


def off_the_slope(building: FramedBuilding) -> Iterator[tuple[Member, float]]:
    """Rafters whose top edge isn't in the plane of their slope, and by how much [in], over 0 above it.

    What is ripped shallower, such as an end rafter under outlookers, only may not stand over it.
    """
    planes = {face.name: face.placement for face in building.faces if face.kind == "slope"}
    for member in building.members:
        plane = planes.get(member.face)
        if plane is None or member.rafter is None or member.role.name in PASSED_OVER:
            continue
        top = max(y for _, y in member.side.exterior.coords)
        spots = [(x, y) for x, y in member.side.exterior.coords if y > top - PROBE_IN]
        off = [plane.from_world(member.placement.to_world((x, y, 0.0)))[2] for x, y in spots]
        worst = max(off, key=abs)
        ripped = member.rafter.depth < member.profile.depth_in - OFF_IN
        if worst > OFF_IN or (worst < -OFF_IN and not ripped):
            yield member, worst


def _bearings(member: Member) -> Iterator[tuple[End, Vec]]:
    """Ends of a stick that bear, and the way that each does."""
    cut, along = member.rafter, member.placement.x
    if cut is None:
        return
    on_high_wall = cut.upper_heel is not None or cut.upper_seat is not None
    # Beside a valley's foot only a corner of the seat may be over the plate: the valley carries it.
    on_plate = cut.seat > 0 and cut.foot is None
    if on_plate or on_high_wall or cut.beam:
        yield "seat", _DOWN
    if not on_high_wall and not cut.beam:
        yield "head", along
    if not on_plate and cut.upper_seat is None:
        yield "foot", scale(along, -1.0)


def _touches(body: Any, way: Vec, near: Sequence[Any], least_sqin: float) -> bool:
    moved = body.translate(scale(way, PROBE_IN))
    # Corners more acute than square, and cuts that lean the way of the move, may halve what a contact fills.
    least, shared = least_sqin * PROBE_IN / 2, 0.0
    for other in near:
        after = float((moved ^ other).volume())
        # What two sticks have in common before counts for nothing.
        shared += max(0.0, after - float((body ^ other).volume())) if after > 0 else 0.0
        if shared >= least:
            return True
    return False


def _near(one: tuple[Vec, Vec], other: tuple[Vec, Vec]) -> bool:
    return all(one[0][k] < other[1][k] + PROBE_IN and other[0][k] < one[1][k] + PROBE_IN for k in range(3))
