"""A framed building: everything placed."""

from __future__ import annotations

from dataclasses import dataclass

from takeoff.model.face import Face
from takeoff.model.fitting import Fitting
from takeoff.model.joint import Joint
from takeoff.model.layout import LayoutLine
from takeoff.model.member import Member
from takeoff.model.panel import Panel
from takeoff.model.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class FramedBuilding:
    """One building of the job, framed and sheathed once; ``count`` of them are built."""

    name: str
    count: int
    members: tuple[Member, ...]
    joints: tuple[Joint, ...] = ()
    lines: tuple[LayoutLine, ...] = ()
    faces: tuple[Face, ...] = ()
    panels: tuple[Panel, ...] = ()
    runs: tuple[Run, ...] = ()
    """Plates and fascia that may be joined otherwise; none once it is settled where."""
    fittings: tuple[Fitting, ...] = ()
    """Hardware beside what the joints tell."""
    vent_area_sqin: float = 0.0
    """Net free area of the air openings at the eaves [sq in]."""
