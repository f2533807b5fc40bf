"""Places as one tape reads them from one end: a tick at each, its figure at its end, bent clear of the next one's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from takeoff.sheets.drawing import DIMENSIONS, Point, Polyline, Text
from takeoff.sheets.lettering import width_mm
from takeoff.sheets.spread import spread

_STEPS_MM = (0.0, 1.0, 3.4, 4.4)
"""From where the ticks begin: to there straight, to there bent, to there straight again, and to the figure."""
_PITCH_SHARE = 1.45
"""From a figure's line to the next one's, as a share of the height of its capitals."""


@dataclass(frozen=True, slots=True)
class Station:
    """A place that the tape reads."""

    at: float
    """Along the line that is measured, in the axes of the view [in]."""
    words: str


def running_below(stations: Iterable[Station], low: float, k: float, height_mm: float) -> Iterator[Polyline | Text]:
    """Stations of a level line, read under it.

    Args:
        stations: each with its x.
        low: y that the ticks run down from [in].
        k: inches of the thing to a millimetre of paper.
        height_mm: of the figures.
    """
    for along, out, words in _bent(stations, k, height_mm):
        points = tuple((x, low - mm * k) for x, mm in zip(along, out[:-1], strict=True))
        yield from _drawn(points, (along[-1], low - out[-1] * k), words, height_mm, 90.0)


def running_left(stations: Iterable[Station], left: float, k: float, height_mm: float) -> Iterator[Polyline | Text]:
    """Stations of an upright line, read to the left of ``left`` [in]; else as `running_below`."""
    for along, out, words in _bent(stations, k, height_mm):
        points = tuple((left - mm * k, y) for y, mm in zip(along, out[:-1], strict=True))
        yield from _drawn(points, (left - out[-1] * k, along[-1]), words, height_mm, 0.0)


def reach_mm(stations: Iterable[Station], height_mm: float) -> float:
    """How far ticks and figures reach from where the ticks begin [mm]."""
    return _STEPS_MM[-1] + 0.5 + max((width_mm(one.words, height_mm) for one in stations), default=0.0)


def _bent(
    stations: Iterable[Station], k: float, height_mm: float
) -> Iterator[tuple[tuple[float, ...], tuple[float, ...], str]]:
    """Along and out of each corner of a tick, the last out being its figure's."""
    ordered = sorted(stations, key=lambda one: (one.at, one.words))
    away = spread([one.at for one in ordered], _PITCH_SHARE * height_mm * k)
    for one, moved in zip(ordered, away, strict=True):
        yield (one.at, one.at, moved, moved), (*_STEPS_MM, _STEPS_MM[-1] + 0.5), one.words


def _drawn(
    points: tuple[Point, ...], at: Point, words: str, height_mm: float, turned_deg: float
) -> Iterator[Polyline | Text]:
    yield Polyline(points, DIMENSIONS)
    yield Text(at=at, words=words, height_mm=height_mm, anchor="end", level="middle", turned_deg=turned_deg)
