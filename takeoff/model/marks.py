"""Marks: equal pieces share one, short enough for a crayon (R1, OL2).

Equal means: same role and delivery, profile, grade, cuts and notches, to the tolerance of a mark. A stick may be turned
end for end and rolled over, so pieces that differ only by that are equal; mirror images are not.
Numbers count within a role's letter in the order of the plan, so a change elsewhere leaves them alone.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import replace
from math import floor

from takeoff.geometry.polygon import corners
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec
from takeoff.model.building import FramedBuilding
from takeoff.model.member import EndCut, Member
from takeoff.model.panel import Panel

Point = tuple[float, float]

_TURNS: tuple[Vec, ...] = ((1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1))
"""The half turns that put a stick back into its own place: signs of its three axes."""

_SHEET_TURNS: tuple[Vec, ...] = ((1, 1, 1), (-1, -1, 1))
"""A sheet may be turned half about, but not flipped: its good face stays where it is."""


def mark_buildings(buildings: Iterable[FramedBuilding]) -> tuple[FramedBuilding, ...]:
    """The same buildings with a mark on every member and panel, one series over the whole job."""
    series = _Series()
    return tuple(
        replace(
            building,
            members=tuple(replace(m, mark=series.mark(m.role.letter, _member_key(m))) for m in building.members),
            panels=tuple(replace(p, mark=series.mark(_panel_letter(p), _panel_key(p))) for p in building.panels),
        )
        for building in buildings
    )


class _Series:
    """Hands out the next number of a letter for a key not met before."""

    def __init__(self) -> None:
        self._marks: dict[tuple[str, Hashable], str] = {}
        self._last: dict[str, int] = {}

    def mark(self, letter: str, key: Hashable) -> str:
        if (letter, key) not in self._marks:
            self._last[letter] = self._last.get(letter, 0) + 1
            self._marks[letter, key] = f"{letter}{self._last[letter]}"
        return self._marks[letter, key]


def _steps(value: float) -> int:
    # The nudge keeps lengths that lie on a half step, give or take float noise, on one side of it.
    return floor(value / TOLERANCE.mark + 0.5 + TOLERANCE.length)


def _turned(points: tuple[Point, ...], turn: Vec) -> tuple[tuple[int, int], ...]:
    """Corners in steps of the tolerance after a half turn, counter-clockwise from the least one."""
    moved = [(x * turn[0], y * turn[1]) for x, y in points]
    x0, y0 = min(x for x, _ in moved), min(y for _, y in moved)
    stepped = [(_steps(x - x0), _steps(y - y0)) for x, y in moved]
    if turn[0] * turn[1] < 0:
        stepped.reverse()
    first = stepped.index(min(stepped))
    return tuple(stepped[first:] + stepped[:first])


def _member_key(member: Member) -> Hashable:
    points = corners(member.side)
    return (
        member.role.load,
        member.profile.name,
        member.grade,
        min(_member_turned(member, points, turn) for turn in _TURNS),
    )


def _member_turned(member: Member, points: tuple[Point, ...], turn: Vec) -> tuple[object, ...]:
    left, right = (tuple(sorted(_turned_normal(cut, turn) for cut in (main, *more))) for main, more in _ends(member))
    return (_turned(points, turn), tuple(sorted((left, right))))


def _ends(member: Member) -> Iterable[tuple[EndCut, tuple[EndCut, ...]]]:
    return zip(member.cuts, member.cheeks, strict=True)


def _turned_normal(cut: EndCut, turn: Vec) -> Vec:
    x, y, z = (round(n * t, 4) + 0.0 for n, t in zip(cut.normal, turn, strict=True))
    return (x, y, z)


def _panel_key(panel: Panel) -> Hashable:
    swap = panel.strength_axis == "v"
    points = tuple((y, -x) if swap else (x, y) for x, y in corners(panel.polygon))
    holes = [tuple((y, -x) if swap else (x, y) for x, y in ring.coords[:-1]) for ring in panel.polygon.interiors]
    return (panel.product, panel.zone, min(_turned_with_holes(points, holes, turn) for turn in _SHEET_TURNS))


def _turned_with_holes(points: tuple[Point, ...], holes: list[tuple[Point, ...]], turn: Vec) -> tuple[object, ...]:
    """Outline and holes of a sheet after a half turn, the holes from the same corner as the outline."""
    x0, y0 = min(x * turn[0] for x, _ in points), min(y * turn[1] for _, y in points)
    moved = (sorted((_steps(x * turn[0] - x0), _steps(y * turn[1] - y0)) for x, y in hole) for hole in holes)
    return (_turned(points, turn), tuple(sorted(map(tuple, moved))))


def _panel_letter(panel: Panel) -> str:
    return "X" if panel.zone == "exposed" else "F"
