"""Items drawn in axes of their own, turned into those of a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.sheets.drawing import Line, Point, Polyline, Text
from takeoff.sheets.mark_labels import readable

if TYPE_CHECKING:
    from takeoff.geometry.placement import Placement
    from takeoff.sheets.drawing import Anchor

Turnable = Line | Polyline | Text

_OTHER_END: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}


@dataclass(frozen=True, slots=True)
class LevelAxes:
    """Level axes in the world: x along a wall from its left end, y into the building."""

    placement: Placement

    def spot(self, point: Point) -> Point:
        """Where a point of these axes is in plan."""
        x, y, _ = self.placement.to_world((*point, 0.0))
        return (x, y)

    def turned(self, items: Iterable[Turnable]) -> Iterator[Turnable]:
        """Items in plan, their lettering never upside down."""
        deg = degrees(atan2(self.placement.x[1], self.placement.x[0]))
        for item in items:
            match item:
                case Line():
                    yield replace(item, a=self.spot(item.a), b=self.spot(item.b))
                case Polyline():
                    yield replace(item, points=tuple(self.spot(point) for point in item.points))
                case Text():
                    yield _turned(item, self.spot(item.at), deg)


def _turned(text: Text, at: Point, deg: float) -> Text:
    turn = readable(text.turned_deg + deg)
    flipped = abs((text.turned_deg + deg - turn) % 360.0 - 180.0) < 1.0
    anchor = _OTHER_END[text.anchor] if flipped else text.anchor
    return replace(text, at=at, turned_deg=turn, anchor=anchor)
