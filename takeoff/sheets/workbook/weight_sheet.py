"""Sheet "Weights": what each delivery weighs, and what each beam weighs for the lift."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from takeoff.catalog.roles import load_words
from takeoff.measure import format_length
from takeoff.model.order import OrderLine
from takeoff.model.takeoff import Settings, Takeoff
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
    Heading("Truck takes [lb]", is_number=True),
    Heading("Trips", is_number=True),
    Heading("Heaviest stick [lb]", is_number=True),
    Heading("Lift takes [lb]", is_number=True),
    Heading("Too heavy for"),
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
    page.line(_limits_words(settings))
    page.headings(_LOAD_HEADINGS, held=True)
    first = page.next_row
    for load, of_load in groupby(takeoff.order, key=lambda line: line.load):
        page.add(_load_cells(page.next_row, load, tuple(of_load), takeoff))
    last = page.next_row - 1
    page.add(
        (
            Cell("", Style.SUM_TEXT),
            Cell("All loads", Style.SUM_TEXT),
            Cell(sum(line.board_feet for line in takeoff.order), Style.SUM_TENTHS, f"=SUM(C{first}:C{last})"),
            Cell(sum(line.weight_lb for line in takeoff.order), Style.SUM_WEIGHT, f"=SUM(D{first}:D{last})"),
            *(Cell("", Style.SUM_TEXT) for _ in _LOAD_HEADINGS[4:]),
        )
    )
    beams = tuple(_beams(takeoff))
    if beams:
        page.gap()
        page.line(f"Beams for the lift, as cut; weights of {settings.species} and of the makers' usual densities.")
        page.headings(_BEAM_HEADINGS)
        for cells in beams:
            page.add(cells)


def _limits_words(settings: Settings) -> str:
    given = settings.truck_lb is not None, settings.lift_lb is not None
    lacking = [name for name, known in zip(("truck", "lift"), given, strict=True) if not known]
    told = "Trips are the least that the weight lets; hardware weighs nothing here."
    if not lacking:
        return told
    return f"{told} The plan doesn't say what the {' or the '.join(lacking)} takes (settings: {', '.join(lacking)})."


def _heaviest_lb(takeoff: Takeoff, load: int) -> float:
    """Of the sticks as cut that come with a load [lb]; 0 where there is none."""
    return max(
        (
            member_weight_lb(member, takeoff.settings.species)
            for building in takeoff.buildings
            for member in building.members
            if member.role.load == load
        ),
        default=0.0,
    )


_TRUCK, _LIFT, _NOTHING = "the truck at once", "the lift", "nothing"


def _too_heavy(row: int, over_truck: bool, over_lift: bool) -> Cell:
    """What the load, or a stick of it, is too heavy for."""
    truck, lift = f"AND(ISNUMBER(E{row}),D{row}>E{row})", f"AND(ISNUMBER(H{row}),G{row}>H{row})"
    alone = f'IF({truck},"{_TRUCK}",IF({lift},"{_LIFT}","{_NOTHING}"))'
    words = " and ".join(name for name, over in ((_TRUCK, over_truck), (_LIFT, over_lift)) if over)
    return Cell(words or _NOTHING, Style.TEXT, f'=IF(AND({truck},{lift}),"{_TRUCK} and {_LIFT}",{alone})')


def _load_cells(row: int, load: int, lines: tuple[OrderLine, ...], takeoff: Takeoff) -> tuple[Cell, ...]:
    weight, heaviest = sum(line.weight_lb for line in lines), _heaviest_lb(takeoff, load)
    truck_lb, lift_lb = takeoff.settings.truck_lb, takeoff.settings.lift_lb
    over_truck, over_lift = truck_lb is not None and weight > truck_lb, lift_lb is not None and heaviest > lift_lb
    return (
        Cell(load, Style.COUNT),
        Cell(load_words(load), Style.TEXT),
        Cell(
            sum(line.board_feet for line in lines),
            Style.TENTHS,
            f"=SUMIFS(order_board_feet,order_load,A{row})",
        ),
        Cell(weight, Style.WEIGHT, f"=SUMIFS(order_weight,order_load,A{row})"),
        BLANK if truck_lb is None else Cell(truck_lb, Style.WEIGHT),
        BLANK if truck_lb is None else Cell(trips(weight, truck_lb), Style.COUNT, f"=MAX(1,ROUNDUP(D{row}/E{row},0))"),
        Cell(heaviest, Style.WEIGHT),
        BLANK if lift_lb is None else Cell(lift_lb, Style.WEIGHT),
        _too_heavy(row, over_truck, over_lift) if (truck_lb, lift_lb) != (None, None) else BLANK,
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
