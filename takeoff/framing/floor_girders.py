"""Girders and beams of a floor, in its own u (across the joists) and v (along them)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import atan2, degrees
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, PlanError, Severity
from takeoff.plan.floors import Loft

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.findings import Place
    from takeoff.plan.floors import Girder, LoftBeam, MainFloor
    from takeoff.plan.footprint import Footprint

Point = tuple[float, float]
Span = tuple[float, float]

SKEW_DEG = 1.0
"""A girder out of square to the joists by more than this doesn't cross them. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorGirder:
    """A girder of a floor, along u."""

    name: str
    v: float
    """Middle of its plies [in]."""
    u: Span
    profile: Profile
    plies: int
    grade: str
    joists: Literal["over", "hang"]
    posts: tuple[float, ...]
    """Middles of its posts, u [in]."""
    post: Profile
    written: Place

    @property
    def half(self) -> float:
        """Half its width [in]."""
        return self.plies * self.profile.thickness_in / 2

    @property
    def faces(self) -> Span:
        """Where its faces lie, v [in]."""
        return self.v - self.half, self.v + self.half


def floor_girders(
    floor: MainFloor | Loft,
    flat: Callable[[Point], Point],
    corners: list[Point],
    ground: Footprint,
    written: Place,
) -> tuple[FloorGirder, ...]:
    """The girders of a floor, in the order of v.

    Args:
        floor: as the plan writes it.
        flat: from the plan's coordinates to the floor's own.
        corners: of the floor, in its own coordinates.
        ground: the building's footprint.
        written: where the floor is written.
    """
    called = "beam" if isinstance(floor, Loft) else "girder"
    found = [_girder(g, k, called, flat, corners, written) for k, g in enumerate(floor.girders)]
    if isinstance(floor, Loft) and floor.beam and floor.side and floor.depth:
        found.append(_edge_beam(floor, floor.beam, floor.side, floor.depth, flat, corners, ground, written))
    return tuple(sorted(found, key=lambda g: (g.v, g.u)))


def _girder(
    girder: Girder, index: int, called: str, flat: Callable[[Point], Point], corners: list[Point], written: Place
) -> FloorGirder:
    a, b = flat(girder.start), flat(girder.end)
    _refuse_along_joists(index, a, b, written)
    half = girder.size.plies * girder.size.profile.thickness_in / 2
    low, high = min(a[0], b[0]), max(a[0], b[0])
    u0, u1 = min(p[0] for p in corners), max(p[0] for p in corners)
    turn = 1 if b[0] > a[0] else -1
    return FloorGirder(
        name=f"{called} {index + 1}",
        v=_flush((a[1] + b[1]) / 2, half, corners),
        u=(max(low, u0), min(high, u1)),
        profile=girder.size.profile,
        plies=girder.size.plies,
        grade=girder.grade,
        joists=girder.joists,
        posts=tuple(sorted(a[0] + turn * at for at in girder.posts)),
        post=profile(girder.post),
        written=written,
    )


def _refuse_along_joists(index: int, a: Point, b: Point, written: Place) -> None:
    """Refuse a girder that joists don't cross.

    Raises:
        PlanError: it runs askew to them; says by how much.
    """
    askew = degrees(atan2(abs(b[1] - a[1]), abs(b[0] - a[0])))
    if askew > SKEW_DEG:
        message = (
            f"girder {index + 1} runs {askew:.0f} degrees off square to the joists; turn one of them: joists run the"
            " shorter way unless `span` says otherwise"
        )
        raise PlanError([Finding(rule="frame.girder", severity=Severity.ERROR, message=message, place=written)])


def _edge_beam(
    loft: Loft,
    beam: LoftBeam,
    side: str,
    depth: float,
    flat: Callable[[Point], Point],
    corners: list[Point],
    ground: Footprint,
    written: Place,
) -> FloorGirder:
    line = ground.side(side)
    (nx, ny), half = line.normal, beam.size.plies * beam.size.profile.thickness_in / 2
    a, b = (flat((p[0] - nx * depth, p[1] - ny * depth)) for p in (line.start, line.end))
    u0, u1 = min(p[0] for p in corners), max(p[0] for p in corners)
    turn = 1 if b[0] > a[0] else -1
    return FloorGirder(
        name="beam",
        v=_flush(a[1], half, corners),
        u=(u0, u1),
        profile=beam.size.profile,
        plies=beam.size.plies,
        grade=beam.grade,
        joists=beam.joists,
        posts=tuple(sorted(a[0] + turn * at for at in beam.posts)),
        post=profile(beam.post),
        written=written,
    )


def _flush(v: float, half: float, corners: list[Point]) -> float:
    """A girder whose line lies along an edge is moved in until its face is flush with the edge."""
    low, high = min(p[1] for p in corners), max(p[1] for p in corners)
    if abs(v - low) < half:
        return low + half
    if abs(v - high) < half:
        return high - half
    return v
