"""Panels to cut: those of all buildings, equal ones counted together."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_problem import PanelPiece
from takeoff.model.building import FramedBuilding
from takeoff.model.panel import Panel


def panel_pieces_of(buildings: Iterable[FramedBuilding]) -> tuple[PanelPiece, ...]:
    """The panels of marked buildings, ``qty`` being over all copies of a building; by building, product and mark.

    Panels that share a mark differ by no more than the tolerance of a mark; the largest is the one to cut.
    """
    return tuple(piece for building in buildings for piece in _pieces_of_one(building))


def _pieces_of_one(building: FramedBuilding) -> Iterable[PanelPiece]:
    def place(panel: Panel) -> tuple[object, ...]:
        return (natural_key(panel.product), natural_key(panel.mark))

    for _, group in groupby(sorted(building.panels, key=place), key=place):
        equal = tuple(group)
        yield PanelPiece(
            building=building.name,
            mark=equal[0].mark,
            product=equal[0].product,
            qty=len(equal) * building.count,
            length_in=max(panel.length_in for panel in equal),
            width_in=max(panel.width_in for panel in equal),
            area_sqin=min(float(panel.polygon.area) for panel in equal),
        )
