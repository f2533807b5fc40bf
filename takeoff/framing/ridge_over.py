r"""Rafters that run over a ridge beam and meet over its middle: how low the beam lies, and what they seat on it.

The seat runs from the beam's face inward. Where it is half the beam's thickness, the whole plumb cut is left at the
peak. Where pitches differ, the beam's top is where both slopes have at least the seat decided on, so that the steeper
one is notched deeper.

         ,-'|'-,        peak
     ,-'    |    '-,
  -'   ,____|____,   '-
    ,-'|         |'-,
  -'   |  beam   |   '-
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.findings import Finding, Place, Severity
from takeoff.geometry.rafter import BeamUnder, RafterGeometry, automatic_seat
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.plan.schema import Building


@dataclass(frozen=True, slots=True, kw_only=True)
class OverBeam:
    """How a ridge beam lies under the rafters that run over it [in]."""

    half: float
    """Half its thickness."""
    below_peak: float
    """Its top under the peak, plumb."""


def over_beam(building: Building, lines: Iterable[RoofSideLine]) -> OverBeam | None:
    """How the ridge beam lies under rafters of these sides; None where they don't run over it."""
    ridge = building.roof.ridge
    if ridge is None or not building.roof.over_beam:
        return None
    half, depth = profile(ridge.size).thickness_in / 2, profile(building.roof.rafters.size).depth_in
    slopes = [line.slope for line in lines if line.is_eave]
    below = min(depth * hypot(1, s) + (half - _seat(depth, half, s, ridge.seat)) * s for s in slopes)
    return OverBeam(half=half, below_peak=below)


def _seat(depth: float, half: float, slope: float, stated: float | None) -> float:
    """Level length of the seat on the beam [in]: as stated, or by the rule that the plate's seat is decided by."""
    if stated is not None:
        return stated
    share, least = rule("notch.end-depth").value, rule("bearing.rafter").value
    return automatic_seat(depth=depth, plate_width=half, slope=slope, notch_share=share, least=least)


def run_over(common: RafterGeometry, beam: OverBeam | None) -> RafterGeometry:
    """A slope's common rafter with its second bird's mouth, if it runs over a beam.

    Raises:
        ValueError: no such rafter can be cut.
    """
    if beam is None:
        return common
    return replace(common, beam=BeamUnder(half=beam.half, top=common.top_at(common.run) - beam.below_peak))


def ridge_below(building: Building, lines: Iterable[RoofSideLine]) -> float:
    """How far the ridge's top lies under the rafters' tops at its face, or under the peak if they run over it [in]."""
    beam = over_beam(building, lines)
    return beam.below_peak if beam else building.roof.ridge_vent


def over_decided(building: Building, frame: RoofFrame, place: Place) -> Iterable[Finding]:
    """How the beam lies, and the seats on it with their reason."""
    beam, ridge = over_beam(building, frame.plan.lines), building.roof.ridge
    if beam is None or ridge is None:
        return
    seats = {slope.name: slope.common.beam_seat for slope in frame.plan.slopes}
    told = dict.fromkeys(format_length(seat) for seat in seats.values())
    names = [f"{format_length(seat)} on the {name}" for name, seat in seats.items()]
    cuts = dict.fromkeys(format_length(slope.common.peak_cut) for slope in frame.plan.slopes)
    top = frame.ridges[0].bottom + frame.ridges[0].profile.depth_in
    yield Finding(
        rule="frame.ridge-over",
        severity=Severity.NOTE,
        message=f"the beam's top is {format_length(top)} over the deck, {format_length(beam.below_peak)} below the"
        f" peak; the rafters' seat on it is {next(iter(told)) if len(told) == 1 else ' and '.join(names)}"
        f" ({_reason(ridge.seat, beam, list(seats.values()))}), their cut at the peak {' and '.join(cuts)} plumb",
        place=place,
        building=building.name,
        where="ridge beam",
    )


def _reason(stated: float | None, beam: OverBeam, seats: Iterable[float]) -> str:
    if stated is not None:
        return "as stated in the plan"
    if min(seats) >= beam.half - 1 / 64:
        return "half the beam's thickness"
    return "the longest whose notch keeps to a quarter of the rafter's depth"
