"""Panels to cut: those of all buildings, equal ones counted together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import groupby

from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_problem import PanelPiece
from takeoff.cutting.stand_ins import stands_in
from takeoff.geometry.polygon import corners
from takeoff.model.building import FramedBuilding
from takeoff.model.panel import Panel


def panel_pieces_of(buildings: Iterable[FramedBuilding]) -> tuple[PanelPiece, ...]:
    """The panels of marked buildings, ``qty`` being over all copies of a building; by building, product and mark.

    Panels that share a mark differ by no more than the tolerance of a mark; the largest is the one to cut.
    """
    return tuple(piece for building in buildings for piece in _pieces_of_one(building))


def _pieces_of_one(building: FramedBuilding) -> Iterable[PanelPiece]:
    also = {face.name: (face.cover.exposed,) for face in building.faces if face.cover and stands_in(face.cover)}

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
            corners_in=along_strength(max(equal, key=lambda panel: panel.polygon.area)),
            flips=all(panel.flips for panel in equal),
            also=tuple(sorted(set.intersection(*(_others(panel, also) for panel in equal)))),
        )


def _others(panel: Panel, also: Mapping[str, tuple[str, ...]]) -> set[str]:
    """What else a panel may be cut from, by its face."""
    return set(also.get(panel.face, ())) - {panel.product}


def along_strength(panel: Panel) -> tuple[tuple[float, float], ...]:
    """Corners of a panel from its lower left, x along its strength axis, seen from the same side [in]."""
    points = corners(panel.polygon)
    turned = [(y, -x) for x, y in points] if panel.strength_axis == "v" else list(points)
    x0, y0 = min(x for x, _ in turned), min(y for _, y in turned)
    return tuple((x - x0, y - y0) for x, y in turned)
