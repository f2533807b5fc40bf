"""What was decided about clips and gables on hips, told to the builder."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place, Severity
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.schema import Building


def clips_decided(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Finding]:
    """Where the wall under a clip ends, and how far the clip's eave reaches out."""
    for line in frame.plan.lines:
        if line.clip:
            yield Finding(
                rule="frame.clip",
                severity=Severity.NOTE,
                message=f"the {line.side.name} wall ends level {format_length(line.clip.plate)} over the deck, on two"
                f" plates; the clip's eave reaches out as far as the rake, {format_length(line.out)}, and the barges"
                " end at it",
                place=written(f"roof.clips.{line.side.name}"),
                building=building.name,
                where=f"{line.side.name} clip",
            )


def gablets_decided(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Finding]:
    """What carries a gable on a hip."""
    for line in frame.plan.lines:
        if line.gablet is not None:
            yield Finding(
                rule="frame.gablet",
                severity=Severity.NOTE,
                message=f"the {line.side.name} hip ends {format_length(line.gablet)} in from the wall on a header of"
                " two plies across two pairs of rafters side by side; the small gable over it doesn't stand out",
                place=written(f"roof.gablets.{line.side.name}"),
                building=building.name,
                where=f"{line.side.name} gable on the hip",
            )
