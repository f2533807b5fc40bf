r"""A gable on a hip: the end's slope and its hips stop at a doubled pair of rafters, to which the ridge runs on.

::

          __/\__ ridge        The end's slope is cut off plumb at the pair's outer face, where a header carries the
         / /||\ \             heads of its rafters; what its hips and the ridge lose or gain there is made good in the
        / /====\ \  header    slopes beside. Studs lap the back of the header and run up under the pair.
       /_/______\_\
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.geometry.plumb_cut import cut_slope
from takeoff.geometry.skeleton import RoofSlope
from takeoff.geometry.vec import Vec, add, scale
from takeoff.geometry.wavefront import RoofSide
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine

PLIES = 2
"""Of the pair at each side, and of the header."""

LEAST_RUN_IN = 24.0
"""Least level run of the slope under a gable on a hip [in]. Common practice, no source."""

LEAST_RISE_IN = 18.0
"""Least level distance from its face to where the hips would meet [in]. Common practice, no source."""


class GabletError(ValueError):
    """A gable on a hip that can't be made.

    Attributes:
        side: the end it is on.
    """

    def __init__(self, message: str, side: str) -> None:
        super().__init__(message)
        self.side = side


@dataclass(frozen=True, slots=True)
class _Face:
    """The plumb plane of a gable on a hip: ``normal . (x, y) = at``, the normal out of the building."""

    index: int
    normal: tuple[float, float]
    at: float

    def beyond(self, spot: Vec) -> float:
        """How far outside a place is [in]."""
        return self.normal[0] * spot[0] + self.normal[1] * spot[1] - self.at

    def met(self, a: Vec, b: Vec) -> Vec:
        """Where a line through two places meets it."""
        one, other = self.beyond(a), self.beyond(b)
        return add(a, scale(add(b, scale(a, -1.0)), one / (one - other)))


def with_gablets(laid: tuple[RoofSlope, ...], lines: Sequence[RoofSideLine]) -> tuple[RoofSlope, ...]:
    """The slopes of a hip roof, those with a small gable stopped at it and their neighbours run on to it.

    Raises:
        GabletError: the small gable doesn't stand between the wall and the top of the hips.
    """
    for index, line in enumerate(lines):
        if line.gablet is not None:
            (x, y), (nx, ny) = line.side.start, line.side.normal
            face = _Face(index, (nx, ny), x * nx + y * ny - line.gablet)
            _refuse_outside(laid, line, face)
            laid = tuple(
                cut_slope(slope, (-nx, -ny), -face.at, "gable", index)
                if index in slope.edges
                else replace(slope, sides=_run_on(slope.sides, face))
                for slope in laid
            )
    return laid


def _refuse_outside(laid: Sequence[RoofSlope], line: RoofSideLine, face: _Face) -> None:
    own = next(slope for slope in laid if face.index in slope.edges)
    run = line.gablet or 0.0
    apex = run - min(face.beyond(side.start) for side in own.sides)
    beside = sum(
        side.kind == "hip" and side.across == face.index and "ridge" in (slope.sides[k - 1].kind, after.kind)
        for slope in laid
        for k, side in enumerate(slope.sides)
        for after in (slope.sides[(k + 1) % len(slope.sides)],)
    )
    if len(own.sides) != 3 or beside != 2:
        raise GabletError(
            f"found a gable on the {line.side.name} hip, whose top is no single point at the end of a ridge; expected"
            " it on an end that the ridge runs toward",
            line.side.name,
        )
    if not LEAST_RUN_IN <= run <= apex - LEAST_RISE_IN:
        limit = f"from {format_length(LEAST_RUN_IN)} to {format_length(apex - LEAST_RISE_IN)}"
        raise GabletError(
            f"found the gable on the {line.side.name} hip {format_length(run)} in from the wall, expected it {limit}:"
            f" the hips meet {format_length(apex)} in",
            line.side.name,
        )


def _run_on(sides: tuple[RoofSide, ...], face: _Face) -> tuple[RoofSide, ...]:
    """A neighbour's sides: its hip up to the small gable, along that to the ridge, and the ridge from there."""
    made: list[RoofSide] = []
    for k, side in enumerate(sides):
        before, after = sides[k - 1], sides[(k + 1) % len(sides)]
        if _is_hip(side, face) and after.kind == "ridge":
            foot, peak = face.met(side.start, side.end), face.met(after.start, after.end)
            made += [replace(side, end=foot), RoofSide("gable", face.index, foot, peak)]
        elif _is_hip(side, face) and before.kind == "ridge":
            foot, peak = face.met(side.start, side.end), face.met(before.start, before.end)
            made += [RoofSide("gable", face.index, peak, foot), replace(side, start=foot)]
        elif side.kind == "ridge" and (_is_hip(before, face) or _is_hip(after, face)):
            peak = face.met(side.start, side.end)
            made.append(replace(side, start=peak) if _is_hip(before, face) else replace(side, end=peak))
        else:
            made.append(side)
    return tuple(made)


def _is_hip(side: RoofSide, face: _Face) -> bool:
    return side.kind == "hip" and side.across == face.index
