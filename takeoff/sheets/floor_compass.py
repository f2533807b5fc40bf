"""What a floor's plan says of where it lies: an arrow to the north, turned as the plan is, and compass words beside."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, degrees, sin
from typing import TYPE_CHECKING

from takeoff.sheets.drawing import LAYOUT, Item, Line, Point, Polyline, Text

if TYPE_CHECKING:
    from takeoff.model.face import Face

LENGTH_MM, WING_MM, WORDS_MM = 9.0, 1.4, 3.0
COMPASS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


def compass_words(face: Face, direction: Point) -> str:
    """The point of the compass that a direction of a floor's plan looks to."""
    x, y, _ = face.placement.direction_to_world((*direction, 0.0))
    return COMPASS[round(degrees(atan2(y, x)) / 45.0) % 8]


def floor_north(face: Face, corner: Point, k: float) -> Iterator[Item]:
    """The arrow, beside the upper right corner of what is drawn; ``k`` is inches of the thing to a millimetre."""
    u, v = (axis[1] for axis in (face.placement.x, face.placement.y))
    turn = atan2(v, u)
    middle = (corner[0] + 11.0 * k, corner[1] - LENGTH_MM / 2 * k)

    def at(along: float, across: float) -> Point:
        return (
            middle[0] + (cos(turn) * along - sin(turn) * across) * k,
            middle[1] + (sin(turn) * along + cos(turn) * across) * k,
        )

    tip = LENGTH_MM / 2
    yield Line(at(-tip, 0.0), at(tip, 0.0), LAYOUT)
    yield Polyline((at(tip - 3.0, WING_MM), at(tip, 0.0), at(tip - 3.0, -WING_MM)), LAYOUT)
    yield Text(at=at(tip + 2.0, 0.0), words="N", height_mm=WORDS_MM, anchor="middle", level="middle", bold=True)


def side_words(face: Face, box: tuple[float, float, float, float], k: float) -> Iterator[Item]:
    """What lies at each side of the drawing, by the compass: above it and at its right, where no figures stand."""
    u0, v0, u1, v1 = box
    for at, direction, turn in (
        (((u0 + u1) / 2, v1 + 3.0 * k), (0.0, 1.0), 0.0),
        ((u1 + 6.5 * k, (v0 + v1) / 2), (1.0, 0.0), 90.0),
    ):
        words = f"{compass_words(face, direction)} edge"
        yield Text(at=at, words=words, height_mm=2.2, anchor="middle", level="middle", turned_deg=turn)
