"""Marks beside the sticks of a drawing, each put where there is room for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import atan2, cos, degrees, inf, radians, sin

from takeoff.sheets.drawing import DIMENSIONS, MM_PER_IN, Item, Line, Point, Text
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import text_box, width_mm

_MARK_MM, _SMALL_MARK_MM = 2.0, 1.6
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
_LEADER_MM = (5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0, 30.0)  # from the stick to the middle of its mark
_STEEP = 0.01

BESIDE_MM = (1.9, 2.4)
"""Middle of a mark off the line of its stick: close, or a little further [mm]."""


@dataclass(frozen=True, slots=True)
class LabelRow:
    """Sticks that one label is for."""

    words: str
    lines: tuple[tuple[Point, Point], ...]
    """From end to end, along the middle [in]."""
    counted: str = ""
    """Longer words, tried first."""
    off_mm: tuple[float, ...] = BESIDE_MM
    """How far off its line the label may stand, the best first; 0 for sticks wide enough to be written on."""


def labels(rows: Sequence[LabelRow], space: FreeSpace, one_to: float) -> Iterator[Item]:
    """One label a row, at the end of a leader where there is no room beside its sticks.

    A row for which no room is found at all has none.
    """
    crowded = []
    for row in rows:
        found = next(space.free(_tries(row, one_to), lambda text: text_box(text, one_to)), None)
        if found is None:
            crowded.append(row)
            continue
        space.take(text_box(found, one_to))
        yield found
    for row in crowded:
        free = space.free(_led(row, one_to), lambda one: text_box(one[0], one_to))
        led = next((one for one in free if not space.is_lettered((one[1].a, one[1].b))), None)
        if led is not None:
            space.take(text_box(led[0], one_to))
            space.draw((led[1].a, led[1].b))
            yield from led


def _led(row: LabelRow, one_to: float) -> Iterator[tuple[Text, Line]]:
    """A label near the middle stick of its row, and the leader from there, the nearest first."""
    (a, b), k = row.lines[len(row.lines) // 2], one_to / MM_PER_IN
    foot = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    half = width_mm(row.words, _MARK_MM, bold=True) / 2 + 0.6
    for away, turn, deg in product(_LEADER_MM, (0.0, 90.0), range(0, 360, 15)):
        x, y = cos(radians(deg)), sin(radians(deg))
        at = (foot[0] + x * away * k, foot[1] + y * away * k)
        # The leader stops at the side of the lettering that it comes from.
        wide, high = (half, _MARK_MM) if not turn else (_MARK_MM, half)
        short = away - min(wide / abs(x) if abs(x) > _STEEP else inf, high / abs(y) if abs(y) > _STEEP else inf)
        text = Text(
            at=at, words=row.words, height_mm=_MARK_MM, anchor="middle", level="middle", turned_deg=turn, bold=True
        )
        yield text, Line(foot, (foot[0] + x * short * k, foot[1] + y * short * k), DIMENSIONS)


def _tries(row: LabelRow, one_to: float) -> Iterator[Text]:
    """All lettering that would do, the best first: with the count, then without, then small."""
    if row.counted:
        yield from _places(row, row.counted, _MARK_MM, one_to)
    yield from _places(row, row.words, _MARK_MM, one_to)
    yield from _places(row, row.words, _SMALL_MARK_MM, one_to)


def _places(row: LabelRow, words: str, height_mm: float, one_to: float) -> Iterator[Text]:
    """Where a label may stand: beside any stick of its row, those in the middle of the row first."""
    middle = (len(row.lines) - 1) / 2
    for _, ((ax, ay), (bx, by)) in sorted(enumerate(row.lines), key=lambda one: abs(one[0] - middle)):
        turn = readable(degrees(atan2(by - ay, bx - ax)))
        up = (-sin(radians(turn)) * one_to / MM_PER_IN, cos(radians(turn)) * one_to / MM_PER_IN)
        for share, off_mm, side in product(_ALONG, row.off_mm, (1.0, -1.0)):
            off = side * off_mm * height_mm / _MARK_MM
            at = (ax + (bx - ax) * share + off * up[0], ay + (by - ay) * share + off * up[1])
            yield Text(
                at=at, words=words, height_mm=height_mm, anchor="middle", level="middle", turned_deg=turn, bold=True
            )


def readable(deg: float) -> float:
    """The same direction, or the opposite one, never upside down: from over -90 up to 90."""
    turned = (deg + 90.0) % 180.0 - 90.0
    return 90.0 if turned < -89.999 else turned + 0.0
