"""The sheet of a roof's framing plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeoff.model.building import FramedBuilding
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.roof_drawing import not_lettered, slope_holes


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeOpeningRow:
    """A rough opening in a slope; seen square to it, its eave below."""

    number: int
    slope: str
    width: str
    height: str
    left: str
    right: str
    low: str
    high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofSheet:
    """A plan of the roof of one building."""

    building: str
    drawing: str
    parts: tuple[str, ...]
    """Files of the enlarged plans of its minor roofs."""
    sections: tuple[str, ...]
    """Files of its sections."""
    unlettered: tuple[str, ...]
    """Marks that it had no room for."""
    openings: tuple[SlopeOpeningRow, ...]


def roof_sheet(
    building: FramedBuilding,
    drawing: Drawing,
    parts: tuple[Drawing, ...],
    sections: tuple[str, ...],
    figures: Figures,
) -> RoofSheet:
    """The sheet of one building."""
    return RoofSheet(
        building=building.name,
        drawing=f"{drawing.name}.svg",
        parts=tuple(f"{part.name}.svg" for part in parts),
        sections=sections,
        unlettered=not_lettered(building, (drawing, *parts)),
        openings=tuple(_openings(building, figures)),
    )


def _openings(building: FramedBuilding, figures: Figures) -> Iterator[SlopeOpeningRow]:
    slopes = [face for face in building.faces if face.kind == "slope"]
    for number, (face, hole) in enumerate(slope_holes(slopes), start=1):
        us, vs = [edge.a[0] for edge in hole], [edge.a[1] for edge in hole]
        yield SlopeOpeningRow(
            number=number,
            slope=face.name,
            width=figures.length(max(us) - min(us)),
            height=figures.length(max(vs) - min(vs)),
            left=figures.length(min(us)),
            right=figures.length(max(us)),
            low=figures.length(min(vs)),
            high=figures.length(max(vs)),
        )
