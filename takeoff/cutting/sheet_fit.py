"""The plain sheet cutter: best-fit decreasing in two stages.

Rows are ripped from a sheet, and panels are crosscut from a row.

    +----------------------+---------------+-----+
    | F1                   | F3            |     |   row: as high as its widest panel; a lower one is trimmed
    |                      +---------------+     |
    +-------------+--------+----+----------+-----+
    | F2          | F2          |                |   x: along the sheet, its strength axis
    +-------------+-------------+----------------+   y: across it
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.cutting.best_fit import best_fit
from takeoff.cutting.bound import area_bound
from takeoff.cutting.natural import natural_key
from takeoff.cutting.sheet_assembly import Row, RowedSheet, assembled_sheets
from takeoff.cutting.sheet_groups import Blank, SheetGroup, Size, sheet_groups_of
from takeoff.cutting.sheet_problem import SheetProblem
from takeoff.cutting.stop import StopRule
from takeoff.model.stock import SheetCutting


def fit_sheets(problem: SheetProblem, *, stop: StopRule, seed: int = 0) -> SheetCutting:
    """Sheets by best fit; a round is one way of making rows. There is no chance in it: ``seed`` changes nothing."""
    sheets: list[RowedSheet] = []
    rounds = 0
    for group in sheet_groups_of(problem):
        found, rounds = _fitted(group, stop, rounds)
        sheets.extend(found)
    return SheetCutting(sheets=assembled_sheets(sheets), area_bound=area_bound(problem))


def _fitted(group: SheetGroup, stop: StopRule, rounds: int) -> tuple[tuple[RowedSheet, ...], int]:
    """The cheapest of a few ways; among equally cheap ones that with the fewest sheets, then the first."""
    best: tuple[tuple[int, int], tuple[RowedSheet, ...]] | None = None
    for way in _ways(group):
        sheets = _sheets(group, _rows(group, way))
        cost = (sum(sheet.size.cost for sheet in sheets), len(sheets))
        if best is None or cost < best[0]:
            best = (cost, sheets)
        rounds += 1
        if stop.reached(rounds):
            break
    return (best[1] if best else ()), rounds


@dataclass(frozen=True, slots=True)
class _Way:
    """A way of making rows: for sheets of at least a length; with lower panels trimmed from them or not."""

    least_length: int
    trimmed: bool


def _ways(group: SheetGroup) -> Iterator[_Way]:
    for size in group.sizes:
        yield _Way(size.length, trimmed=True)
        yield _Way(size.length, trimmed=False)


def _rows(group: SheetGroup, way: _Way) -> list[tuple[Size, Row]]:
    """Rows and the sheet each is for, by best fit: the least high that holds a panel, and of those the fullest."""
    rows: list[list[Blank]] = []
    sizes: list[Size] = []
    rests: dict[int, list[tuple[int, int]]] = {}  # by the height of rows: rest and number of each, least rest first
    for blank in group.blanks:
        number = _take_rest(rests, blank, way)
        if number is None:
            number, size = len(rows), _size_for(group.sizes, blank, way)
            rows.append([])
            sizes.append(size)
            insort(rests.setdefault(blank.width, []), (size.length - blank.length, number))
        rows[number].append(blank)
    return [(size, Row(blanks=_longest_first(row))) for size, row in zip(sizes, rows, strict=True)]


def _take_rest(rests: dict[int, list[tuple[int, int]]], blank: Blank, way: _Way) -> int | None:
    """Number of the row that takes a panel, its rest shortened; None where there is none."""
    heights = sorted(rests) if way.trimmed else [blank.width] if blank.width in rests else []
    for height in heights:
        at = bisect_left(rests[height], (blank.length, 0))
        if at < len(rests[height]):
            rest, number = rests[height].pop(at)
            insort(rests[height], (rest - blank.length, number))
            return number
    return None


def _size_for(sizes: Sequence[Size], blank: Blank, way: _Way) -> Size:
    """The shortest size that a way allows and that holds a panel, or the longest that holds it."""
    holding = [size for size in sizes if size.holds(blank.length, blank.width)]
    return next((size for size in holding if size.length >= way.least_length), holding[-1])


def _longest_first(row: list[Blank]) -> tuple[Blank, ...]:
    return tuple(sorted(row, key=lambda b: (-b.length, -b.width, natural_key(b.piece.mark), b.piece.building)))


def _sheets(group: SheetGroup, rows: Sequence[tuple[Size, Row]]) -> tuple[RowedSheet, ...]:
    return tuple(
        sheet for size in group.sizes for sheet in _sheets_of_size(group, size, [row for of, row in rows if of == size])
    )


def _sheets_of_size(group: SheetGroup, size: Size, rows: Sequence[Row]) -> Iterator[RowedSheet]:
    """Rows put on sheets by best fit, each sheet then changed for the cheapest that holds what it got."""
    highest_first = sorted(rows, key=lambda row: -row.height)
    for numbers in best_fit([row.height for row in highest_first], lambda _: size.width):
        on_sheet = tuple(highest_first[number] for number in numbers)
        yield RowedSheet(product=group.product, size=_cheapest(group.sizes, on_sheet), rows=on_sheet)


def _cheapest(sizes: Sequence[Size], rows: tuple[Row, ...]) -> Size:
    length, width = max(row.length for row in rows), sum(row.height for row in rows)
    holding = (size for size in sizes if size.holds(length, width))
    return min(holding, key=lambda size: (size.cost, size.length, size.width))
