"""The sticks of a roof as lines in plan: which there are, how heavy each is drawn, and which belong together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.drawing import FOLDS, RAFTERS, SMALL, Pen, Point
from takeoff.sheets.stick_end import stick_ends

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

_FOLD_ROLES = ("ridge-beam", "ridge-board", "hip", "valley", "purlin-beam")
_PAIR = 2


@dataclass(frozen=True, slots=True)
class RoofStick:
    """A member as it lies in plan: the ends of its centre line [in]."""

    member: Member
    a: Point
    b: Point

    @property
    def length(self) -> float:
        """In plan [in]."""
        return dist(self.a, self.b)

    @property
    def pen(self) -> Pen:
        """Heavy for what runs along folds, lighter for rafters, a hair line for the rest."""
        if self.member.role.name in _FOLD_ROLES:
            return FOLDS
        return RAFTERS if self.member.rafter is not None else SMALL


def roof_sticks(building: FramedBuilding) -> tuple[RoofStick, ...]:
    """All members of the roof, the lightest first, so that the heavier lie over them."""
    walls = {face.name for face in building.faces if face.kind != "slope"}
    sticks = [_stick(member) for member in building.members if member.face not in walls]
    return tuple(sorted((stick for stick in sticks if stick.length > TOLERANCE.mark), key=lambda s: s.pen.weight_mm))


def stick_groups(sticks: tuple[RoofStick, ...]) -> tuple[tuple[RoofStick, ...], ...]:
    """Rows of sticks of one mark on one face, the heaviest first, then those that have the fewest to choose from.

    What runs along a fold, or stands as one of a pair at the two ends of a face, is a row by itself.
    """
    rows: dict[tuple[str, str], list[RoofStick]] = {}
    for stick in sticks:
        rows.setdefault((stick.member.mark, stick.member.face), []).append(stick)
    groups: list[tuple[RoofStick, ...]] = []
    for row in rows.values():
        alone = len(row) <= _PAIR or row[0].pen is FOLDS
        groups += [(stick,) for stick in row] if alone else [tuple(row)]
    return tuple(sorted(groups, key=lambda group: (-group[0].pen.weight_mm, len(group))))


def _stick(member: Member) -> RoofStick:
    a, b = _top_line(member) if member.rafter is not None else member.centre_line
    return RoofStick(member, (a[0], a[1]), (b[0], b[1]))


def _top_line(member: Member) -> Iterator[tuple[float, float, float]]:
    return (member.placement.to_world((end.at(0.0), end.top, 0.0)) for end in stick_ends(member))
