"""The cells of a file that came back: rows of values, whatever program saved it."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from takeoff.findings import Finding, Place, PlanError, Severity

Value = str | float | None

MOST_ROWS, MOST_COLUMNS = 5_000, 60
_LARGEST_BYTES = 8_000_000
_LARGEST_UNPACKED = 80_000_000


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet. A merged cell's value stands in each of the cells it covers."""

    file: str
    name: str
    rows: tuple[tuple[Value, ...], ...]

    def place(self, row: int, column: int) -> Place:
        """Where a cell stands, both counted from 0."""
        return Place(file=self.file, line=row + 1, column=column + 1, path=f"{self.name}!{letters(column)}{row + 1}")


def letters(column: int) -> str:
    """A column as a spreadsheet names it: 0 is A, 26 is AA."""
    name = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def read_grids(path: Path) -> tuple[Grid, ...]:
    """The sheets of a file, ``.xlsx`` or ``.csv``.

    Raises:
        PlanError: it can't be read.
    """
    try:
        content = path.read_bytes()
    except OSError as error:
        raise _refused(path, f"can't be read: {error.strerror}") from error
    if len(content) > _LARGEST_BYTES:
        raise _refused(path, f"is larger than {_LARGEST_BYTES // 1_000_000} MB: is it a quotation?")
    return tuple(_of_workbook(path, content) if zipfile.is_zipfile(io.BytesIO(content)) else _of_text(path, content))


def _of_workbook(path: Path, content: bytes) -> Iterator[Grid]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(part.file_size for part in packed.infolist()) > _LARGEST_UNPACKED:
                raise _refused(path, "unpacks to far more than a quotation holds")
        book = load_workbook(io.BytesIO(content), data_only=True)
    except (InvalidFileException, KeyError, ValueError, zipfile.BadZipFile, SyntaxError) as error:
        if isinstance(error, PlanError):
            raise
        raise _refused(path, "isn't a workbook; save it as .xlsx or .csv") from error
    for sheet in book.worksheets:
        high, wide = min(sheet.max_row, MOST_ROWS), min(sheet.max_column, MOST_COLUMNS)
        rows = [[_value(cell.value) for cell in row] for row in sheet.iter_rows(max_row=high, max_col=wide)]
        for merged in sheet.merged_cells.ranges:
            _spread(rows, merged.bounds)
        yield Grid(path.name, sheet.title, tuple(map(tuple, rows)))


def _spread(rows: list[list[Value]], bounds: tuple[int, int, int, int]) -> None:
    left, top, right, low = bounds
    if top > len(rows) or left > len(rows[top - 1]):
        return
    value = rows[top - 1][left - 1]
    for row in rows[top - 1 : low]:
        for column in range(left - 1, min(right, len(row))):
            row[column] = value


def _value(value: object) -> Value:
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    return str(value)


def _of_text(path: Path, content: bytes) -> Iterator[Grid]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refused(path, "isn't a workbook or UTF-8 text; save it as .xlsx or .csv") from error
    if "\0" in text:
        raise _refused(path, "isn't a workbook or text; save it as .xlsx or .csv")
    first = text.split("\n", 1)[0]
    mark = max(",;\t", key=first.count)
    try:
        rows = [tuple(row[:MOST_COLUMNS]) for row in islice(csv.reader(io.StringIO(text), delimiter=mark), MOST_ROWS)]
    except csv.Error as error:
        raise _refused(path, f"can't be read as CSV: {error}") from error
    yield Grid(path.name, path.stem, tuple(rows))


def _refused(path: Path, message: str) -> PlanError:
    finding = Finding(rule="quotes.unreadable", severity=Severity.ERROR, message=message, place=Place(file=str(path)))
    return PlanError([finding])
