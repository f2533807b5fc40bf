"""Sheet "Weights": what each delivery weighs, and what each beam weighs for the lift."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from takeoff.catalog.roles import load_words
from takeoff.measure import format_length
from takeoff.model.order import OrderLine
from takeoff.model.takeoff import Takeoff
from takeoff.order.weight_limits import trips
from takeoff.order.weights import member_weight_lb
from takeoff.sheets.workbook.page import BLANK, Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Weights"

_LOAD_HEADINGS = (
    Heading("Load", is_number=True),
    Heading("Brings"),
    Heading("Board feet", is_number=True),
    Heading("Weight [lb]", is_number=True),
    Heading("Trips", is_number=True),
)

_BEAM_HEADINGS = (
    Heading("Mark"),
    Heading("What"),
    Heading("Size and grade"),
    Heading("Length"),
    Heading("Number", is_number=True),
    Heading("Weight each [lb]", is_number=True),
    Heading("Building"),
)


def write_weights(page: Page, takeoff: Takeoff) -> None:
    """Write the loads with live sums of the order, then the beams of every building."""
    settings = takeoff.settings
    if settings.truck_lb is not None:
        page.line(f"The truck takes {settings.truck_lb:,.0f} lb at once; trips are the least that the weight lets.")
    page.headings(_LOAD_HEADINGS, held=True)
    first = page.next_row
    for load, of_load in groupby(takeoff.order, key=lambda line: line.load):
        page.add(_load_cells(page.next_row, load, tuple(of_load), settings.truck_lb))
    last = page.next_row - 1
    page.add(
        (
            Cell("", Style.SUM_TEXT),
            Cell("All loads", Style.SUM_TEXT),
            Cell(sum(line.board_feet for line in takeoff.order), Style.SUM_TENTHS, f"=SUM(C{first}:C{last})"),
            Cell(sum(line.weight_lb for line in takeoff.order), Style.SUM_WEIGHT, f"=SUM(D{first}:D{last})"),
            Cell("", Style.SUM_TEXT),
        )
    )
    page.gap()
    page.line(f"Beams for the lift, as cut; weights of {settings.species} and of the makers' usual densities.")
    if settings.lift_lb is not None:
        page.line(f"The lift takes {settings.lift_lb:,.0f} lb: what is heavier is among the findings.", Style.LOUD)
    page.headings(_BEAM_HEADINGS)
    for cells in _beams(takeoff):
        page.add(cells)


def _load_cells(row: int, load: int, lines: tuple[OrderLine, ...], truck_lb: float | None) -> tuple[Cell, ...]:
    weight = sum(line.weight_lb for line in lines)
    return (
        Cell(load, Style.COUNT),
        Cell(load_words(load), Style.TEXT),
        Cell(
            sum(line.board_feet for line in lines),
            Style.TENTHS,
            f"=SUMIFS(order_board_feet,order_load,A{row})",
        ),
        Cell(weight, Style.WEIGHT, f"=SUMIFS(order_weight,order_load,A{row})"),
        BLANK
        if truck_lb is None
        else Cell(trips(weight, truck_lb), Style.COUNT, f"=MAX(1,ROUNDUP(D{row}/{truck_lb:g},0))"),
    )


def _beams(takeoff: Takeoff) -> Iterator[tuple[Cell, ...]]:
    number = {(piece.building, piece.mark): piece.qty for piece in takeoff.pieces}
    shown: set[tuple[str, str]] = set()
    for building in takeoff.buildings:
        for member in building.members:
            key = (building.name, member.mark)
            if member.role.category != "beams" or key in shown:
                continue
            shown.add(key)
            yield (
                Cell(member.mark, Style.TEXT),
                Cell(member.role.words, Style.TEXT),
                Cell(f"{member.profile.name} {member.grade}", Style.TEXT),
                Cell(format_length(member.length_in, denominator=takeoff.settings.denominator), Style.TEXT),
                Cell(number[key], Style.COUNT),
                Cell(member_weight_lb(member, takeoff.settings.species), Style.WEIGHT),
                Cell(building.name, Style.TEXT) if building.name else BLANK,
            )
