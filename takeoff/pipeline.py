"""The order of stages: a plan becomes a `Takeoff`, a `Takeoff` becomes files."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from takeoff.catalog.idle_prices import idle_rows
from takeoff.catalog.price_reader import builtin_prices, read_price_file
from takeoff.checks.screen import screen
from takeoff.cutting.compare import compared
from takeoff.cutting.corners import framed_at_corners
from takeoff.cutting.lay_ups import building_lay_ups
from takeoff.cutting.lumber import LumberProblem, cut
from takeoff.cutting.offers import offers_for, sheet_offers_for
from takeoff.cutting.on_hand import OnHand, read_on_hand_file, unused_notes
from takeoff.cutting.panel_pieces import panel_pieces_of
from takeoff.cutting.pieces import pieces_of
from takeoff.cutting.sheets import SheetProblem, cut_sheets
from takeoff.cutting.splices import cheapest_splices
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.drawn_faces import faces_as_drawn
from takeoff.framing.drawn_folds import folds_as_drawn
from takeoff.framing.frame import frame
from takeoff.framing.runs import rejoined
from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.model.takeoff import BookSettings, Settings, Takeoff
from takeoff.order.fasteners import count_fasteners, edge_block_notes
from takeoff.order.findings import order_findings
from takeoff.order.hardware import count_hardware
from takeoff.order.lines import order_lines
from takeoff.order.weight_limits import weight_findings
from takeoff.plan.read import WrittenPlan, read_plan
from takeoff.sheathing.sheathe import sheathe
from takeoff.sheets.files import files_of
from takeoff.sheets.write import write_files

if TYPE_CHECKING:
    from takeoff.catalog.prices import PriceList
    from takeoff.cutting.stop import EffortName
    from takeoff.model.stock import LayUpTried, LumberCutting, Piece
    from takeoff.order.quotes.compare import Comparison
    from takeoff.plan.book import Book
    from takeoff.plan.schema import Settings as PlanSettings


def take_off(path: Path, settings_file: Path | None = None) -> Takeoff:
    """Read a plan and take it off.

    Args:
        path: of the plan; or of a drawing, where ``settings_file`` says the rest.
        settings_file: a plan that the drawing gives the geometry of.

    Raises:
        PlanError: the plan or its price list has errors, or can't be framed; all that was found is in it.
    """
    written, doubts = read_plan(settings_file, path) if settings_file else read_plan(path)
    prices, idle = _prices(written)
    asked = written.plan.settings
    settings = Settings(
        denominator=asked.round,
        kerf_in=asked.kerf,
        species=asked.species,
        placeholder_prices=prices.is_placeholder,
        book=_book(written.plan.book),
        least_leftover_in=asked.least_leftover,
        truck_lb=written.plan.settings.truck,
        lift_lb=written.plan.settings.lift,
    )
    on_hand = _on_hand(written)
    framed, decided, tried = _framed(written, prices)
    buildings = _spliced(framed, lambda pieces: _problem(pieces, prices, on_hand, asked))
    screened = tuple(
        finding
        for building, plan in zip(buildings, written.plan.buildings, strict=True)
        for finding in screen(building, plan)
    )
    pieces, panels = pieces_of(buildings), panel_pieces_of(buildings)
    problem = _problem(pieces, prices, on_hand, asked)
    lumber = _cut(problem, asked.effort, written.place("settings"))
    sheets = cut_sheets(SheetProblem(pieces=panels, offers=sheet_offers_for(panels, prices), kerf_in=settings.kerf_in))
    sheets = replace(sheets, tried=tried)
    order = order_lines(
        pieces=pieces,
        lumber=lumber,
        sheets=sheets,
        hardware=count_hardware(buildings),
        fasteners=count_fasteners(buildings),
        buildings=buildings,
        waste=asked.waste,
        prices=prices,
        species=settings.species,
    )
    found = (
        *order_findings(pieces=pieces, lumber=lumber, lines=order, prices=prices),
        *weight_findings(
            order, buildings, species=settings.species, truck_lb=settings.truck_lb, lift_lb=settings.lift_lb
        ),
        *edge_block_notes(buildings),
        *unused_notes(on_hand, pieces),
        *idle,
    )
    return Takeoff(
        job=written.plan.job,
        plan_file=written.file,
        settings=settings,
        buildings=buildings,
        pieces=pieces,
        lumber=lumber,
        sheets=sheets,
        order=order,
        comparison=compared(problem, lumber),
        findings=(*doubts, *decided, *screened, *found),
    )


def house_drawing(path: Path) -> bytes:
    """The geometry of a plan as a drawing (DXF) that can be read back.

    Raises:
        PlanError: the plan has errors.
    """
    from takeoff.sheets.house_dxf import plan_dxf

    written, _ = read_plan(path)
    _framed(written, builtin_prices())  # what can't be framed has no roof to draw either, and says why
    return plan_dxf(written.plan)


def starter_drawing() -> bytes:
    """A drawing to begin with, of the building in the starter plan."""
    from importlib import resources

    from takeoff.sheets.house_dxf import template_dxf

    with resources.as_file(resources.files("takeoff.plan").joinpath("starter.yaml")) as path:
        written, _ = read_plan(path)
    return template_dxf(written.plan)


def audited(takeoff: Takeoff) -> tuple[Finding, ...]:
    """What the audit of the built frame finds, building by building."""
    from takeoff.checks.audit import audit

    return tuple(finding for building in takeoff.buildings for finding in audit(building))


def write_takeoff(takeoff: Takeoff, folder: Path) -> tuple[str, ...]:
    """Write all files of a take-off into a folder, whole or not at all; gives their names.

    Raises:
        OSError: a file can't be written; the folder is as it was.
    """
    files = files_of(takeoff)
    write_files(files, folder)
    return tuple(files)


def price_request(takeoff: Takeoff) -> bytes:
    """A workbook that asks a yard for the prices of an order."""
    from takeoff.sheets.workbook.request_sheet import request_xlsx

    return request_xlsx(takeoff)


def compared_quotes(takeoff: Takeoff, answers: Sequence[Path]) -> tuple[Comparison, tuple[Finding, ...]]:
    """What yards answered to a price request, side by side, and what is doubtful in it.

    Raises:
        PlanError: an answer can't be read; all that was found in all of them is in it.
    """
    from takeoff.order.quotes.asked import asked_items
    from takeoff.order.quotes.compare import compare
    from takeoff.order.quotes.reader import Quote, read_quote_file

    asked = asked_items(takeoff.order)
    quotes: list[Quote] = []
    found: list[Finding] = []
    for path in answers:
        try:
            quote, doubts = read_quote_file(path, asked)
        except PlanError as error:
            found += error.findings
            continue
        quotes.append(quote)
        found += doubts
    if any(finding.severity is Severity.ERROR for finding in found):
        raise PlanError(found)
    return compare(asked, quotes), tuple(found)


def _book(book: Book) -> BookSettings:
    return BookSettings(
        company=book.company or "", revision=book.revision or "", paper=book.paper, pages=tuple(book.pages)
    )


def _prices(written: WrittenPlan) -> tuple[PriceList, tuple[Finding, ...]]:
    """The prices, and what of the list is used for nothing."""
    named = written.plan.settings.prices
    if not named:
        return builtin_prices(), ()
    prices = read_price_file(written.folder / named)
    return prices, idle_rows(prices, named)


def _on_hand(written: WrittenPlan) -> tuple[OnHand, ...]:
    named = written.plan.settings.on_hand
    return read_on_hand_file(written.folder / named) if named else ()


def _cut(problem: LumberProblem, effort: EffortName, place: Place) -> LumberCutting:
    try:
        return cut(problem, effort=effort)
    except ValueError as error:
        finding = Finding(rule="cutting.no-stock", severity=Severity.ERROR, message=str(error), place=place)
        raise PlanError([finding]) from error


def _problem(
    pieces: tuple[Piece, ...], prices: PriceList, on_hand: tuple[OnHand, ...], asked: PlanSettings
) -> LumberProblem:
    """What the boards are to be cut for, and from what."""
    return LumberProblem(
        pieces=pieces,
        offers=(*offers_for(pieces, prices, asked.trim), *(board.offer for board in on_hand)),
        kerf_in=asked.kerf,
        max_lengths=asked.max_lengths,
        least_leftover_in=asked.least_leftover,
    )


def _spliced(
    framed: tuple[FramedBuilding, ...], problem: Callable[[tuple[Piece, ...]], LumberProblem]
) -> tuple[FramedBuilding, ...]:
    """Plates and fascia joined where the boards are cheapest, then all marked."""
    draft = mark_buildings(framed)
    joints = cheapest_splices(problem(pieces_of(draft)), draft)
    return mark_buildings([rejoined(each, at) for each, at in zip(framed, joints, strict=True)])


def _framed(
    written: WrittenPlan, prices: PriceList
) -> tuple[tuple[FramedBuilding, ...], tuple[Finding, ...], tuple[LayUpTried, ...]]:
    """All buildings framed and sheathed. What can't be framed is told for all of them at once.

    Where outlookers lie under the edges of the sheets, a building is framed again once its lay-up is chosen: its faces
    don't depend on them.
    """
    framed: list[FramedBuilding] = []
    decided: list[Finding] = []
    errors: list[Finding] = []
    tried: list[LayUpTried] = []
    for index, building in enumerate(written.plan.buildings):
        try:
            kerf_in = written.plan.settings.kerf
            building, (standing, found) = framed_at_corners(building, _places_in(written, index), prices, kerf_in)
            laid = building_lay_ups(standing, prices, written.plan.settings.kerf)
            if building.roof.outlookers and building.roof.outlookers.spacing is None:
                standing, found = frame(building, _places_in(written, index), laid.edges)
        except PlanError as error:
            errors += error.findings
            continue
        framed.append(sheathe(standing, laid.lay_ups))
        decided += found
        decided += folds_as_drawn(building, written.drawn_of(index).folds, _places_in(written, index)("roof"))
        decided += faces_as_drawn(building, standing, written.drawn_of(index).elevations)
        tried += laid.tried
    if errors:
        raise PlanError(errors)
    return tuple(framed), tuple(decided), tuple(tried)


def _places_in(written: WrittenPlan, index: int) -> Callable[[str], Place]:
    """Gives the place in the plan of a path within one building."""
    return lambda path: written.place(f"buildings[{index}].{path}")
