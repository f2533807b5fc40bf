"""Marks and slope arrows on a roof plan, each put where there is room for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, product
from math import atan2, cos, degrees, hypot, inf, radians, sin
from typing import TYPE_CHECKING

from takeoff.geometry.vec import Vec
from takeoff.measure import Pitch
from takeoff.sheets.drawing import DIMENSIONS, LAYOUT, MM_PER_IN, Item, Line, Point, Polyline, Text
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import text_box, width_mm
from takeoff.sheets.roof_sticks import RoofStick

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.model.face import Face

_MARK_MM, _SMALL_MARK_MM = 2.0, 1.6
_OFF_MM = (1.9, 2.4)  # middle of a mark off its line: close, or a little further
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
_LEADER_MM = (5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0)  # from the stick to the middle of its mark
_STEEP = 0.01
_ARROW_MM, _HEAD_MM, _HALF_MM = 8.0, 2.2, 1.1
_STEPS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.25, 0.75)


def mark_texts(groups: Sequence[Sequence[RoofStick]], space: FreeSpace, one_to: float) -> Iterator[Item]:
    """One mark a group, with how many there are; at the end of a leader where there is no room beside its sticks.

    A group for which no room is found at all has none.
    """
    crowded = []
    for group in groups:
        found = next((text for text in _tries(group, one_to) if space.is_free(text_box(text, one_to))), None)
        if found is None:
            crowded.append(group)
            continue
        space.take(text_box(found, one_to))
        yield found
    for group in crowded:
        led = next((one for one in _led(group, one_to) if _is_clear(one, space, one_to)), None)
        if led is not None:
            space.take(text_box(led[0], one_to))
            yield from led


def _led(group: Sequence[RoofStick], one_to: float) -> Iterator[tuple[Text, Line]]:
    """A mark near the middle stick of its group, and the leader from there, the nearest first."""
    stick, k = group[len(group) // 2], one_to / MM_PER_IN
    foot = ((stick.a[0] + stick.b[0]) / 2, (stick.a[1] + stick.b[1]) / 2)
    half = width_mm(stick.member.mark, _MARK_MM, bold=True) / 2 + 0.6
    for away, turn, deg in product(_LEADER_MM, (0.0, 90.0), range(0, 360, 15)):
        x, y = cos(radians(deg)), sin(radians(deg))
        at = (foot[0] + x * away * k, foot[1] + y * away * k)
        # The leader stops at the side of the lettering that it comes from.
        wide, high = (half, _MARK_MM) if not turn else (_MARK_MM, half)
        short = away - min(wide / abs(x) if abs(x) > _STEEP else inf, high / abs(y) if abs(y) > _STEEP else inf)
        text = Text(
            at=at,
            words=stick.member.mark,
            height_mm=_MARK_MM,
            anchor="middle",
            level="middle",
            turned_deg=turn,
            bold=True,
        )
        yield text, Line(foot, (foot[0] + x * short * k, foot[1] + y * short * k), DIMENSIONS)


def _is_clear(led: tuple[Text, Line], space: FreeSpace, one_to: float) -> bool:
    text, leader = led
    return space.is_free(text_box(text, one_to)) and not space.is_lettered((leader.a, leader.b))


def _tries(group: Sequence[RoofStick], one_to: float) -> Iterator[Text]:
    """All lettering that would do, the best first: with the count, then without, then small."""
    mark = group[0].member.mark
    if len(group) > 1:
        yield from _places(group, f"{mark} ({len(group)})", _MARK_MM, one_to)
    yield from _places(group, mark, _MARK_MM, one_to)
    yield from _places(group, mark, _SMALL_MARK_MM, one_to)


def _places(group: Sequence[RoofStick], words: str, height_mm: float, one_to: float) -> Iterator[Text]:
    """Where a mark may stand: beside any stick of its group, those in the middle of the row first."""
    middle = (len(group) - 1) / 2
    for _, stick in sorted(enumerate(group), key=lambda one: abs(one[0] - middle)):
        (ax, ay), (bx, by) = stick.a, stick.b
        turn = _readable(degrees(atan2(by - ay, bx - ax)))
        up = (-sin(radians(turn)) * one_to / MM_PER_IN, cos(radians(turn)) * one_to / MM_PER_IN)
        for share, off_mm, side in product(_ALONG, _OFF_MM, (1.0, -1.0)):
            off = side * off_mm * height_mm / _MARK_MM
            at = (ax + (bx - ax) * share + off * up[0], ay + (by - ay) * share + off * up[1])
            yield Text(
                at=at, words=words, height_mm=height_mm, anchor="middle", level="middle", turned_deg=turn, bold=True
            )


def _readable(deg: float) -> float:
    """The same direction, or the opposite one, never upside down: from over -90 up to 90."""
    turned = (deg + 90.0) % 180.0 - 90.0
    return 90.0 if turned < -89.999 else turned + 0.0


def slope_arrows(faces: Sequence[Face], space: FreeSpace, one_to: float) -> Iterator[Item]:
    """An arrow down each slope with its pitch, in a bay between two rafters; none where no bay has room."""
    for face in faces:
        arrow = next(_arrows(face, space, one_to), None)
        if arrow is not None:
            space.take(arrow.box)
            yield from arrow.items()


class _Arrow:
    """An arrow from a point down the slope, its pitch behind it."""

    def __init__(self, tail: Point, down: Point, words: str, k: float) -> None:
        self.tail, self.down, self.words, self.k = tail, down, words, k
        self.lettered_mm = width_mm(words, _MARK_MM) + 1.5

    def at(self, along_mm: float, across_mm: float = 0.0) -> Point:
        """A point so far down the slope from the arrow's tail, and so far to the left of its way."""
        (x, y), (dx, dy), k = self.tail, self.down, self.k
        return (x + (dx * along_mm - dy * across_mm) * k, y + (dy * along_mm + dx * across_mm) * k)

    @property
    def box(self) -> tuple[Point, ...]:
        """All of it, lettering included."""
        half, low, high = _HALF_MM + 0.3, -self.lettered_mm, _ARROW_MM
        return (self.at(low, -half), self.at(high, -half), self.at(high, half), self.at(low, half))

    def items(self) -> Iterator[Item]:
        """Shaft, head and lettering."""
        tip = self.at(_ARROW_MM)
        yield Line(self.tail, tip, LAYOUT)
        wings = [self.at(_ARROW_MM - _HEAD_MM, side * _HALF_MM) for side in (1.0, -1.0)]
        yield Polyline((wings[0], tip, wings[1]), LAYOUT)
        turn = _readable(degrees(atan2(self.down[1], self.down[0])))
        yield Text(
            at=self.at(-self.lettered_mm / 2 - 0.4),
            words=self.words,
            height_mm=_MARK_MM,
            anchor="middle",
            level="middle",
            turned_deg=turn,
        )


def _arrows(face: Face, space: FreeSpace, one_to: float) -> Iterator[_Arrow]:
    k = one_to / MM_PER_IN
    up, normal = face.placement.y, face.placement.z
    run = hypot(up[0], up[1])
    down = (-up[0] / run, -up[1] / run)
    words = str(Pitch(round(12 * hypot(normal[0], normal[1]) / normal[2], 6)))
    shape = in_plan(face)
    _, v0, _, v1 = face.outline.bounds
    for u in _bays(face):
        for share in _STEPS:
            x, y, _ = face.placement.to_world((u, v0 + (v1 - v0) * share, 0.0))
            arrow = _Arrow((x, y), down, words, k)
            if space.is_free(arrow.box, inside=shape):
                yield arrow


def _bays(face: Face) -> list[float]:
    """Middles of the bays between rafters, the nearest to the middle of the slope first."""
    u0, _, u1, _ = face.outline.bounds
    centres = face.supports.centres
    middles = [(a + b) / 2 for a, b in pairwise(centres)]
    return sorted(middles, key=lambda u: (round(abs(u - (u0 + u1) / 2), 3), u))


def in_plan(face: Face) -> Polygon:
    """The outline of a slope, seen from above [in]."""
    from shapely import Polygon

    corners: list[Vec] = [face.placement.to_world((*edge.a, 0.0)) for edge in face.outline.edges]
    return Polygon([corner[:2] for corner in corners])
