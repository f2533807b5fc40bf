"""Sheets to cut, equal ones together."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from takeoff.catalog.roles import load_words
from takeoff.model.building import FramedBuilding
from takeoff.model.stock import Sheet, SheetPiece
from takeoff.sheets.crew.alike import alike, short_ids
from takeoff.sheets.crew.figures import Figures

_STRIP_IN = 1 / 8
"""A strip no wider than a saw cut is left on [in]. Common practice, no source."""

_SLANT_SQIN = 1.0
"""A piece that lacks less of a rectangle is one [sq in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPieceRow:
    """A piece on a sheet, from one corner: x along the sheet's long side, y across; and the faces its mark goes on."""

    mark: str
    size: str
    x: str
    y: str
    faces: str
    corners: str
    """Of a piece that is no rectangle, the corners to mark on the sheet, x and y; empty for others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """Equal sheets."""

    ids: str
    count: int
    size: str
    drawing: str
    """File of the map of one of them."""
    first: str
    """What comes off the whole sheet before its pieces are parted; empty where nothing does."""
    left: str
    """What is left of each that is worth keeping; empty where nothing is."""
    pieces: tuple[SheetPieceRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetList:
    """The sheets of one product in one load."""

    load: int
    words: str
    product: str
    count: int
    sheets: tuple[SheetRow, ...]


def sheet_groups(sheets: Iterable[Sheet]) -> tuple[tuple[Sheet, ...], ...]:
    """Sheets that are cut alike, by load and product, in the order of the cutting."""
    in_order = sorted(sheets, key=lambda sheet: (sheet.load, sheet.product))
    return alike(in_order, lambda sheet: (sheet.load, sheet.product, _key(sheet)))


def sheet_lists(
    sheets: Sequence[Sheet],
    buildings: Iterable[FramedBuilding],
    maps: Mapping[str, str],
    figures: Figures,
) -> tuple[SheetList, ...]:
    """Sheets by load and product, equal ones in one row; ``maps`` has the file of each group's map by its first id."""
    faces = _faces(buildings)
    lists = []
    for (load, product), groups in groupby(sheet_groups(sheets), key=lambda group: (group[0].load, group[0].product)):
        of_product = tuple(groups)
        count = sum(len(group) for group in of_product)
        rows = tuple(_row(group, faces, maps, figures) for group in of_product)
        lists.append(SheetList(load=load, words=load_words(load), product=product, count=count, sheets=rows))
    return tuple(lists)


def _faces(buildings: Iterable[FramedBuilding]) -> Mapping[str, str]:
    """By mark of a panel, the faces it goes on."""
    found: dict[str, list[str]] = {}
    for building in buildings:
        for panel in building.panels:
            known = found.setdefault(panel.mark, [])
            if panel.face not in known:
                known.append(panel.face)
    return {mark: ", ".join(faces) for mark, faces in found.items()}


def _key(sheet: Sheet) -> Hashable:
    places = tuple((p.mark, p.x_in, p.y_in, p.length_in, p.width_in) for p in sheet.pieces)
    return (sheet.length_in, sheet.width_in, places)


def _row(group: Sequence[Sheet], faces: Mapping[str, str], maps: Mapping[str, str], figures: Figures) -> SheetRow:
    sheet = group[0]
    return SheetRow(
        ids=short_ids([one.sheet_id for one in group]),
        count=len(group),
        size=_size(sheet.width_in, sheet.length_in, figures),
        drawing=maps[sheet.sheet_id],
        first=_off_first(sheet, figures),
        left=", ".join(_size(rest.width_in, rest.length_in, figures) for rest in sheet.leftovers),
        pieces=tuple(_piece(piece, faces, figures) for piece in sheet.pieces),
    )


def _piece(piece: SheetPiece, faces: Mapping[str, str], figures: Figures) -> SheetPieceRow:
    return SheetPieceRow(
        mark=piece.mark,
        size=_size(piece.width_in, piece.length_in, figures),
        x=figures.length(piece.x_in),
        y=figures.length(piece.y_in),
        faces=faces.get(piece.mark, ""),
        corners=_corners(piece, figures),
    )


def _off_first(sheet: Sheet, figures: Figures) -> str:
    """Straight strips that no piece reaches into: along the upper edge, and at the end."""
    ripped = sheet.width_in - max(piece.y_in + piece.width_in for piece in sheet.pieces)
    cut = sheet.length_in - max(piece.x_in + piece.length_in for piece in sheet.pieces)
    parts = (
        f"{word} {figures.length(off)} off" for word, off in (("rip", ripped), ("crosscut", cut)) if off > _STRIP_IN
    )
    return ", ".join(parts)


def _corners(piece: SheetPiece, figures: Figures) -> str:
    if piece.area_sqin > piece.length_in * piece.width_in - _SLANT_SQIN:
        return ""
    return "; ".join(f"{figures.length(x)}, {figures.length(y)}" for x, y in piece.outline_in)


def _size(width: float, length: float, figures: Figures) -> str:
    return f"{figures.length(width)} × {figures.length(length)}"
