"""Openings of a floor and the lines that joists are doubled on, in its own u and v."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import dist
from typing import TYPE_CHECKING

from takeoff.framing.floor_outline import ALONG

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.findings import Place
    from takeoff.plan.floors import FloorOpening

Point = tuple[float, float]
Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorHole:
    """A rough opening in a floor."""

    what: str
    u: Span
    v: Span
    plies: int
    thickness: float
    """Of a header or trimmer [in]."""
    written: Place

    @property
    def cut_v(self) -> Span:
        """Where tail joists end: the outer faces of the headers."""
        reach = self.plies * self.thickness
        return self.v[0] - reach, self.v[1] + reach

    @property
    def trimmers(self) -> tuple[float, ...]:
        """Centres of the trimmers, left to right."""
        steps = [(ply + 0.5) * self.thickness for ply in range(self.plies)]
        return (*(self.u[0] - step for step in reversed(steps)), *(self.u[1] + step for step in steps))


def floor_hole(opening: FloorOpening, flat: Callable[[Point], Point], joist: Profile, written: Place) -> FloorHole:
    """An opening in the floor's own coordinates."""
    (x, y), (dx, dy) = opening.corner, opening.size
    ends = [flat((x, y)), flat((x + dx, y + dy))]
    return FloorHole(
        what=opening.kind,
        u=(min(p[0] for p in ends), max(p[0] for p in ends)),
        v=(min(p[1] for p in ends), max(p[1] for p in ends)),
        plies=opening.plies,
        thickness=joist.thickness_in,
        written=written,
    )


def lines_along(lines: Iterable[tuple[Point, Point]], flat: Callable[[Point], Point]) -> tuple[tuple[float, Span], ...]:
    """Lines that run along the joists; the others lie across several joists and need no more."""
    found = []
    for start, end in lines:
        a, b = flat(start), flat(end)
        if abs(b[0] - a[0]) <= ALONG * dist(a, b):
            found.append(((a[0] + b[0]) / 2, (min(a[1], b[1]), max(a[1], b[1]))))
    return tuple(sorted(found))
