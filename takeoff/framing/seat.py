"""The seat of the bird's mouth: how long, and why."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.catalog.rules import rule
from takeoff.geometry.rafter import automatic_seat


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """The seat decided on, and what governed it."""

    length: float
    """Level [in]."""
    reason: str


def decided_seat(*, depth: float, plate_width: float, slope: float, stated: float | None = None) -> Seat:
    """The seat as stated, else the plate's full width, unless that would notch the rafter deeper than the rule lets.

    Args:
        depth: of the rafter, square to its edge [in].
        plate_width: [in].
        slope: rise over run.
        stated: by the builder [in].
    """
    if stated is not None:
        return Seat(length=stated, reason="as stated in the plan")
    least = rule("bearing.rafter").value
    seat = automatic_seat(
        depth=depth, plate_width=plate_width, slope=slope, notch_share=rule("notch.end-depth").value, least=least
    )
    if seat == plate_width:
        return Seat(length=seat, reason="the plate's full width")
    if seat == least:
        return Seat(length=seat, reason="the least bearing a rafter may have")
    return Seat(length=seat, reason="the longest seat whose notch keeps to a quarter of the rafter's depth")
