"""What a hip or valley has from the two slopes that meet on it: its steps, its drop, its backing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import atan2, degrees, hypot
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec, add, dot, scale

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

FOOT_IN = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldFacts:
    """A hip or valley between two slopes."""

    slope: float
    """Its own rise over run."""
    rises: tuple[float, float]
    """Rise over run of the slopes on its left and its right, looking up."""
    drop_in: float
    """How far the middle of its top edge is under the fold, plumb [in]."""
    backing_deg: tuple[float, float]
    """Bevels that would plane its top edge into the slopes instead, left and right [deg]."""

    wall_deg: tuple[float, float]
    """In plan, how far the walls of its left and its right slope run off its heel cut, square across it [deg]."""

    @property
    def equal(self) -> bool:
        """Both slopes have one pitch."""
        return abs(self.rises[0] - self.rises[1]) < TOLERANCE.length

    @property
    def step_in(self) -> float:
        """Level length along the fold for one foot of the common rafters' run; a foot where the pitches differ [in]."""
        return FOOT_IN * self.rises[0] / self.slope if self.equal else FOOT_IN


def fold_facts(member: Member, building: FramedBuilding) -> FoldFacts | None:
    """What the slopes say of a member along a fold; None for any other member, or where two slopes aren't found.

    The two are those whose planes run along the stick and lie nearest over its top edge.
    """
    if member.rafter is None or member.role.name not in ("hip", "valley"):
        return None
    spot = member.placement.to_world((0.0, member.profile.depth_in, 0.0))
    normals = [
        (_over(face.placement.origin, face.placement.z, spot), face.placement.z)
        for face in building.faces
        if face.kind == "slope" and abs(dot(face.placement.z, member.placement.x)) < TOLERANCE.length
    ]
    nearest = min((abs(gap) for gap, _ in normals), default=0.0)
    beside = [(gap, normal) for gap, normal in normals if abs(gap) - nearest < TOLERANCE.mark]
    # Strips over a small gable's rake lie in the plane of a slope, too.
    beside = [one for k, one in enumerate(beside) if all(_apart(one[1], other) for _, other in beside[:k])]
    if len(beside) != 2:
        return None
    axis = member.placement.z
    # Off a hip the slopes lean away to either side; into a valley they lean toward each other.
    lean = 1.0 if member.role.name == "hip" else -1.0
    left, right = sorted((normal for _, normal in beside), key=lambda normal: lean * dot(normal, axis))
    up = member.placement.y
    return FoldFacts(
        slope=member.rafter.slope,
        rises=(_rise(left), _rise(right)),
        drop_in=nearest,
        backing_deg=(_across(left, up, axis), _across(right, up, axis)),
        wall_deg=(_wall(left, axis), _wall(right, axis)),
    )


def facts_in(buildings: Iterable[FramedBuilding], member: Member) -> FoldFacts | None:
    """What the slopes of its own building say of a member along a fold."""
    return next((fold_facts(member, building) for building in buildings if building.name == member.building), None)


def _over(origin: Vec, normal: Vec, spot: Vec) -> float:
    """Plumb height of a plane over a spot [in]."""
    return dot(normal, add(origin, scale(spot, -1.0))) / normal[2]


def _rise(normal: Vec) -> float:
    return hypot(normal[0], normal[1]) / normal[2]


def _apart(one: Vec, other: Vec) -> bool:
    return dot(one, other) < 1 - TOLERANCE.length


def _wall(normal: Vec, axis: Vec) -> float:
    """Between the level lines of a slope, which its wall runs along, and the line square across a stick, in plan."""
    along, across = (normal[1], -normal[0]), axis[:2]
    turned = along[0] * across[1] - along[1] * across[0]
    return degrees(atan2(abs(turned), abs(along[0] * across[0] + along[1] * across[1])))


def _across(normal: Vec, up: Vec, axis: Vec) -> float:
    return degrees(atan2(abs(dot(normal, axis)), dot(normal, up)))
