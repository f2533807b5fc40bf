"""A table: columns, rows, and the two ways it is written."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from takeoff.model.takeoff import Takeoff

Value = str | int | float | None
Row = tuple[Value, ...]

LENGTH = 4
"""Decimals of a length [in]: a scripts' number, finer than any tape."""
ANGLE = 3
"""Decimals of an angle [deg]."""
MONEY = 2
AREA = 3
WEIGHT = 1
BOARD_FEET = 3
PERCENT = 2

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, with the unit in it, and the decimals of its numbers (0 for words and counts)."""

    name: str
    decimals: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A file of rows. ``rows`` gives full precision; a number is rounded once, where it is written."""

    file: str
    columns: tuple[Column, ...]
    rows: Callable[[Takeoff], Iterator[Row]]

    @property
    def name(self) -> str:
        """What the table is called in the document: the file's name without its ending."""
        return self.file.removesuffix(".csv")

    def csv(self, takeoff: Takeoff) -> bytes:
        """The table as a file: UTF-8, a heading, one line a row; a value that there is none of is an empty cell.

        Text that a spreadsheet would take for a formula (`=`, `+`, `-`, `@` first) gets an apostrophe before it.
        """
        text = io.StringIO(newline="")
        writer = csv.writer(text, lineterminator="\n")
        writer.writerow([column.name for column in self.columns])
        for row in self.rows(takeoff):
            writer.writerow([_cell(column, value) for column, value in zip(self.columns, row, strict=True)])
        return text.getvalue().encode()

    def objects(self, takeoff: Takeoff) -> Iterator[dict[str, Value]]:
        """The rows by column name, numbers as numbers, rounded as in the file; text as it is."""
        for row in self.rows(takeoff):
            yield {column.name: _rounded(column, value) for column, value in zip(self.columns, row, strict=True)}


def _cell(column: Column, value: Value) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return not_a_formula(value)
    return f"{value:z.{column.decimals}f}"  # z: no minus zero


def _rounded(column: Column, value: Value) -> Value:
    # A whole number stays one; adding zero takes the sign off a minus zero.
    return round(value, column.decimals) + 0.0 if isinstance(value, float) else value


def not_a_formula(text: str) -> str:
    """Text that stays text where it is opened as a sheet; a single character can't be a formula and is left alone."""
    return f"'{text}" if len(text) > 1 and text.startswith(_FORMULA_STARTS) else text
