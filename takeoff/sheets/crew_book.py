"""The crew's book, ``cut_sheets.pdf``, in the order of the work: by load, what is built, then what it is cut from.

The words and figures come from ``crew``; how they look is in the template ``crew_book.typ``.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass

from takeoff.catalog.roles import loads
from takeoff.catalog.weights import densities
from takeoff.model.takeoff import BookSettings, Takeoff
from takeoff.sheets.cautions import CAUTIONS
from takeoff.sheets.crew.board_list import BoardList, board_lists
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew.finding_rows import Found, found_rows
from takeoff.sheets.crew.front import BuildingFront, building_front
from takeoff.sheets.crew.jack_series import jack_series
from takeoff.sheets.crew.jack_sheet import JackSheet, drawn_of, jack_sheet
from takeoff.sheets.crew.lifting import LiftRow, WholeRow, heavy_rows, lifts, wholes
from takeoff.sheets.crew.line_sheet import LineSheet, line_sheets
from takeoff.sheets.crew.map_sheet import MapSheet, map_sheets
from takeoff.sheets.crew.marked import Marked, PieceRow, by_mark, piece_row
from takeoff.sheets.crew.rafter_sheet import RafterSheet, rafter_sheet, sheet_marks
from takeoff.sheets.crew.roof_sheet import RoofSheet, roof_sheet
from takeoff.sheets.crew.sheet_list import SheetList, sheet_lists
from takeoff.sheets.crew.symbols import SymbolRow, symbol_rows
from takeoff.sheets.crew.wall_sheet import WallSheet, wall_sheets
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.sheet_drawings import SheetDrawings
from takeoff.sheets.svg import svg
from takeoff.sheets.typeset import set_pdf

_TEMPLATE, _DATA = "crew_book.typ", "data.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """All that the template sets."""

    job: str
    look: BookSettings
    loads: tuple[tuple[int, str], ...]
    """Number and words of each load, in the order of the job."""
    cautions: tuple[str, ...]
    buildings: tuple[BuildingFront, ...]
    lifts: tuple[LiftRow, ...]
    wholes: tuple[WholeRow, ...]
    grounds: tuple[tuple[str, str], ...]
    """Buildings, each with the file of its walls in plan."""
    plans: tuple[RoofSheet, ...]
    rafters: tuple[RafterSheet, ...]
    jacks: tuple[JackSheet, ...]
    beams: tuple[PieceRow, ...]
    """Beams and posts of the roof's frame."""
    roof: tuple[PieceRow, ...]
    """Its other pieces that are no rafters."""
    walls: tuple[WallSheet, ...]
    lines: tuple[LineSheet, ...]
    symbols: tuple[SymbolRow, ...]
    boards: tuple[BoardList, ...]
    maps: tuple[MapSheet, ...]
    sheets: tuple[SheetList, ...]
    found: Found
    assumptions: tuple[str, ...]


def crew_book_pdf(takeoff: Takeoff, drawings: SheetDrawings) -> bytes:
    """The book as PDF: letter size, black on white; the same take-off gives the same bytes.

    Raises:
        TemplateError: the template met something it can't set as it should.
    """
    data = json.dumps(asdict(book(takeoff, drawings)), ensure_ascii=False).encode()
    pictures = {_file(drawing): svg(drawing) for drawing in drawings.all()}
    return set_pdf(_TEMPLATE, {_DATA: data, **pictures})


def _is_heavy(marked: Marked) -> bool:
    return marked.member.role.category in ("beams", "posts")


def _file(drawing: Drawing | None) -> str:
    return f"{drawing.name}.svg" if drawing else ""


def book(takeoff: Takeoff, drawings: SheetDrawings) -> Book:
    """Words and figures of all sheets."""
    figures = Figures(takeoff.settings.denominator)
    walls = {(b.name, face.name) for b in takeoff.buildings for face in b.faces if face.kind != "slope"}
    roof = by_mark(takeoff.buildings, lambda m: m.rafter is None and (m.building, m.face) not in walls)
    return Book(
        job=takeoff.job,
        look=takeoff.settings.book,
        loads=loads(),
        cautions=CAUTIONS,
        buildings=tuple(
            building_front(building, _file(drawings.frames.get(building.name)), figures)
            for building in takeoff.buildings
        ),
        lifts=lifts(takeoff),
        wholes=wholes(takeoff),
        grounds=tuple((building.name, _file(plan)) for building, plan in drawings.grounds),
        plans=tuple(
            roof_sheet(
                building,
                plan,
                tuple(part for b, part in drawings.parts if b is building),
                tuple(_file(s) for b, s in drawings.sections if b is building),
                figures,
            )
            for building, plan in drawings.plans
        ),
        rafters=tuple(
            rafter_sheet(marked, takeoff, _file(drawings.rafters[marked.member.mark]))
            for marked in sheet_marks(takeoff)
        ),
        jacks=tuple(
            jack_sheet(series, takeoff, _file(drawings.rafters[drawn_of(series).mark]))
            for series in jack_series(takeoff.buildings)
        ),
        beams=heavy_rows((m for m in roof if _is_heavy(m)), takeoff.settings.species, figures),
        roof=tuple(piece_row(marked, figures) for marked in roof if not _is_heavy(marked)),
        walls=tuple(sheet for building in takeoff.buildings for sheet in wall_sheets(building, drawings, figures)),
        lines=tuple(sheet for building in takeoff.buildings for sheet in line_sheets(building, figures)),
        symbols=symbol_rows(takeoff.buildings),
        boards=board_lists(takeoff.lumber, figures, least_in=takeoff.settings.least_leftover_in),
        maps=map_sheets(drawings.maps, figures),
        sheets=sheet_lists(
            takeoff.sheets.sheets,
            takeoff.buildings,
            {one: _file(drawing) for one, drawing in drawings.sheets.items()},
            figures,
        ),
        found=found_rows(takeoff.findings),
        assumptions=_assumptions(takeoff, figures),
    )


def _assumptions(takeoff: Takeoff, figures: Figures) -> tuple[str, ...]:
    settings = takeoff.settings
    species = next((known.words for known in densities() if known.name == settings.species), settings.species)
    return (
        f'Lengths are worked out in full and shown once rounded, to 1/{settings.denominator}".',
        f"A saw cut takes {figures.length(settings.kerf_in)}; each cut of a board has its own.",
        f"Weights are those of {species}, as delivered.",
        "Sizes of sheets and pieces of sheet are joint to joint; leave the gap that the maker asks for.",
        "Lengths of sticks are over the long points. Angles of cuts are turned off a square cut.",
    )
