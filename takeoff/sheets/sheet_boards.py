"""All ways that the sheets of a product are cut, on one drawing: for a shop that cuts from a file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from takeoff.sheets.blocks import GAP_MM, MARGIN_MM
from takeoff.sheets.crew.sheet_list import sheet_groups
from takeoff.sheets.drawing import MM_PER_IN, Drawing, Text, View
from takeoff.sheets.slug import slugs

if TYPE_CHECKING:
    from takeoff.model.stock import Sheet
    from takeoff.model.takeoff import Takeoff

_IN_A_ROW = 3
_TITLE_MM = 2.6


def sheet_boards(takeoff: Takeoff, maps: Mapping[str, Drawing]) -> tuple[Drawing, ...]:
    """A drawing of each load and product, named ``sheets-3-cdx-5-8``.

    Args:
        takeoff: with its sheets cut.
        maps: the map of each group of equal sheets, by the first one's id.
    """
    groups = sheet_groups(takeoff.sheets.sheets)
    names = slugs(group[0].product for group in groups)
    return tuple(
        _board(f"sheets-{load}-{names[product]}", f"{product} for load {load}", tuple(of_product), maps)
        for (load, product), of_product in groupby(groups, key=lambda group: (group[0].load, group[0].product))
    )


def _board(name: str, words: str, groups: Sequence[Sequence[Sheet]], maps: Mapping[str, Drawing]) -> Drawing:
    drawn = [maps[group[0].sheet_id] for group in groups]
    wide = max(drawing.width_mm for drawing in drawn) + GAP_MM
    tall = max(drawing.height_mm for drawing in drawn) + GAP_MM + 2 * _TITLE_MM
    rows = -(-len(drawn) // _IN_A_ROW)
    views: list[View] = []
    for number, (group, drawing) in enumerate(zip(groups, drawn, strict=True)):
        row, column = divmod(number, _IN_A_ROW)
        corner = (MARGIN_MM + column * wide, MARGIN_MM + (rows - 1 - row) * tall)
        views += _placed(group, drawing, corner)
    return Drawing(
        name=name,
        title=f"Sheets of {words}",
        description=f"{sum(map(len, groups))} sheets, cut in {len(groups)} ways. Hatched is left over.",
        width_mm=2 * MARGIN_MM + min(len(drawn), _IN_A_ROW) * wide - GAP_MM,
        height_mm=2 * MARGIN_MM + rows * tall,
        views=tuple(views),
    )


def _placed(group: Sequence[Sheet], drawing: Drawing, corner: tuple[float, float]) -> Iterator[View]:
    """A map on the common paper, how many sheets are cut so over it."""
    for view in drawing.views:
        k = view.one_to / MM_PER_IN
        at = (0.0, (drawing.height_mm - view.origin_mm[1] + _TITLE_MM / 2) * k)
        words = f"{group[0].sheet_id}: {len(group)} to be cut so"
        title = Text(at=at, words=words, height_mm=_TITLE_MM, bold=True)
        x, y = (corner[axis] + view.origin_mm[axis] for axis in (0, 1))
        yield replace(view, name=group[0].sheet_id, items=(*view.items, title), origin_mm=(x, y))
