"""Runs: straight lines that are made up of any boards, joined only where a joint may fall."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A plate or a fascia from end to end."""

    pieces: tuple[int, ...]
    """Numbers of its members in the building, from its start."""
    length_in: float
    joints_in: tuple[float, ...]
    """Where its pieces are joined now, from its start [in]."""
    places_in: tuple[float, ...]
    """Where a joint may fall, from its start [in]: on centres of studs or rafters."""
    under: int | None = None
    """Number of the run that it lies on, from whose joints its own keep away; an earlier one."""
    offset_in: float = 0.0
    """How far away."""
    starts_in: float = 0.0
    """Where on that run it starts [in]."""
