"""Which sticks a layout line is pulled on, and which stand at each of its marks: looked up among the placed sticks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import dist, hypot
from typing import TYPE_CHECKING

from takeoff.geometry.vec import add, dot, scale
from takeoff.sheets.crew.alike import by_number

if TYPE_CHECKING:
    from takeoff.geometry.vec import Vec
    from takeoff.model.building import FramedBuilding
    from takeoff.model.layout import LayoutLine, LayoutMark, Tape
    from takeoff.model.member import Member

_ALONG_IN = 0.1
"""How far along the tape a stick's middle may be off its mark [in]."""
_ACROSS_IN = 4.0
"""How far a stick may end beside the tape: half of a ridge, or of a wall [in]."""
_FARTHER_IN = 0.5
"""How much farther from the tape than the nearest another stick may be that stands at the same mark [in]."""
_ASKEW_IN = 6.0
"""How far a hip or a valley may end from its mark [in]."""
_OVER_IN = 24.0
"""How far a stick's middle may pass over or under the tape [in]."""
_ASKEW = ("hip", "valley")
_PARALLEL = 0.999
_SAMPLES = 33


@dataclass(frozen=True, slots=True)
class _Stick:
    """A stick with the ends of its middle."""

    mark: str
    start: Vec
    end: Vec
    askew: bool

    @property
    def upright(self) -> bool:
        """It stands."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1]) < _ALONG_IN


@dataclass(frozen=True, slots=True)
class OnTape:
    """The sticks of a building, to look up what lies along a tape."""

    members: tuple[Member, ...]
    """All, to find those that carry."""
    named: Mapping[tuple[str, str], tuple[_Stick, ...]]
    """All, by their symbol and what they are."""

    def carriers(self, line: LayoutLine) -> str:
        """Marks of the sticks that the line lies in, as it meets them: ``CP1, CP2``; empty if unknown."""
        if line.tape is None:
            return ""
        along = [m for m in self.members if abs(dot(m.placement.x, line.tape.along)) > _PARALLEL]
        spots = [line.tape.at(line.length_in * (k + 0.5) / _SAMPLES) for k in range(_SAMPLES)]
        along = [m for m in along if any(_inside(m, spot) for spot in spots)]
        return ", ".join(dict.fromkeys(m.mark for spot in spots for m in along if _inside(m, spot)))

    def piece(self, line: LayoutLine, mark: LayoutMark) -> str:
        """Marks of the sticks whose middle is at a mark; empty where it is no stick's."""
        sticks = self.named.get((mark.symbol, mark.what.split(",")[0]), ())
        if line.tape is None or not sticks:
            return ""
        spot = line.tape.at(mark.position_in)
        found = [(off, one) for one in sticks if (off := _off(one, line.tape, spot)) is not None]
        nearest = min((off for off, _ in found), default=0.0)
        here = [one for off, one in found if off <= nearest + _FARTHER_IN]
        return "/".join(by_number({one.mark for one in _at_height(here, spot)}))


def on_tape(building: FramedBuilding) -> OnTape:
    """Look-up in one building."""
    named: dict[tuple[str, str], list[_Stick]] = {}
    for member in building.members:
        stick = _Stick(member.mark, *member.centre_line, member.role.name in _ASKEW)
        named.setdefault((member.role.layout_symbol, member.role.words.split(",")[0]), []).append(stick)
    return OnTape(building.members, {key: tuple(sticks) for key, sticks in named.items()})


def _inside(member: Member, spot: Vec) -> bool:
    x, y, z = member.placement.from_world(spot)
    return (
        0.0 <= y <= member.profile.depth_in
        and abs(z) <= member.profile.thickness_in / 2
        and 0.0 <= x <= member.length_in
    )


def _off(stick: _Stick, tape: Tape, spot: Vec) -> float | None:
    """How far beside the tape a stick's middle is at a spot [in]; None where it isn't at that spot."""
    sloped = abs(tape.along[2]) > _ALONG_IN  # on it a stick's foot is cut, so that its middle ends before
    near = stick.start if stick.upright else _nearest(spot, stick, _ACROSS_IN if sloped else 0.0)
    if not stick.upright and (abs(near[2] - spot[2]) > _OVER_IN or not _toward(stick, tape, spot)):
        return None
    if stick.askew:
        return 0.0 if dist(near[:2], spot[:2]) <= _ASKEW_IN else None
    (ax, ay, _), away = tape.along, (near[0] - spot[0], near[1] - spot[1])
    along, across = abs(away[0] * ax + away[1] * ay), abs(away[0] * ay - away[1] * ax)
    return across if along <= _ALONG_IN and across <= _ACROSS_IN else None


def _toward(stick: _Stick, tape: Tape, spot: Vec) -> bool:
    """Whether a lying stick is on the side of the tape that the tape is for."""
    if tape.toward is None or stick.askew:
        return True
    middle = scale(add(stick.start, stick.end), 0.5)
    return dot(add(middle, scale(spot, -1.0)), tape.toward) > 0


def _nearest(spot: Vec, stick: _Stick, beyond_in: float) -> Vec:
    """The point of a stick's middle, drawn out so far beyond its ends, that is nearest to a spot in plan."""
    start, end = stick.start, stick.end
    dx, dy = end[0] - start[0], end[1] - start[1]
    at = ((spot[0] - start[0]) * dx + (spot[1] - start[1]) * dy) / (dx * dx + dy * dy)
    more = beyond_in / hypot(dx, dy)
    at = max(-more, min(1.0 + more, at))
    return (start[0] + at * dx, start[1] + at * dy, start[2] + at * (end[2] - start[2]))


def _at_height(sticks: Sequence[_Stick], spot: Vec) -> Sequence[_Stick]:
    """Of uprights over one another those that reach the tape; the nearest where none does, as over a door."""
    reach = [
        one
        for one in sticks
        if not one.upright or min(one.start[2], one.end[2]) - _ACROSS_IN < spot[2] < max(one.start[2], one.end[2])
    ]
    if reach or not sticks:
        return reach
    nearest = min(_away(one, spot) for one in sticks)
    return [one for one in sticks if _away(one, spot) < nearest + _FARTHER_IN]


def _away(stick: _Stick, spot: Vec) -> float:
    """How far over or under a spot the nearer end of an upright is [in]."""
    return min(abs(stick.start[2] - spot[2]), abs(stick.end[2] - spot[2]))
