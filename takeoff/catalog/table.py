"""Rows of ``data/*.csv`` with typed access, and the check that each names its source.

A cell is asked for by what it should be; what it can't be is an error that names file, line and column.

    TableError (ValueError)   a table of the catalog is wrong: our mistake, never the builder's
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import TypeVar

from takeoff.measure import parse_length

HOW_KNOWN = ("seen", "memory", "derived", "practice")
"""How a fact came here: read in its source, recalled, worked out, or common practice without a source."""

_T = TypeVar("_T")


class TableError(ValueError):
    """A table of the catalog can't be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table; a cell is asked for by its column and by what it should be."""

    table: str
    line: int
    columns: tuple[str, ...]
    cells: tuple[str, ...]

    def optional(self, column: str) -> str:
        """The cell's text; empty where the cell is blank.

        Raises:
            TableError: the table has no such column.
        """
        if column not in self.columns:
            raise TableError(f"{self.table}.csv: no column {column!r}")
        return self.cells[self.columns.index(column)]

    def text(self, column: str) -> str:
        """The cell's text, which must not be blank."""
        cell = self.optional(column)
        if not cell:
            raise TableError(f"{self.table}.csv:{self.line}: {column} is blank")
        return cell

    def number(self, column: str) -> float:
        """A number, plain or as a share such as ``1/150``."""
        return self._read(column, lambda cell: float(Fraction(cell)), "a number")

    def whole(self, column: str) -> int:
        """A whole number."""
        return self._read(column, int, "a whole number")

    def inches(self, column: str) -> float:
        """A length [in] as a carpenter writes it: ``9-1/4``, ``15/32``, ``20'``."""
        return self._read(column, parse_length, "a length")

    def names(self, column: str) -> tuple[str, ...]:
        """The names in the cell, parted by ``;``; none where it is blank."""
        return tuple(name.strip() for name in self.optional(column).split(";") if name.strip())

    def one_of(self, column: str, choices: tuple[str, ...]) -> str:
        """The cell's text, which must be one of ``choices``."""
        cell = self.text(column)
        if cell not in choices:
            raise TableError(f"{self.table}.csv:{self.line}: {column} is {cell!r}, not one of {', '.join(choices)}")
        return cell

    def flag(self, column: str) -> bool:
        """``yes`` or ``no``."""
        return self.one_of(column, ("yes", "no")) == "yes"

    @property
    def source(self) -> str:
        """Where the fact comes from; never blank in a row that was read."""
        return self.optional("source")

    @property
    def how_known(self) -> str:
        """One of ``HOW_KNOWN``."""
        return self.optional("how_known")

    def _read(self, column: str, parse: Callable[[str], _T], what: str) -> _T:
        cell = self.text(column)
        try:
            return parse(cell)
        except (ValueError, ZeroDivisionError) as error:
            raise TableError(f"{self.table}.csv:{self.line}: {column} is {cell!r}, not {what}") from error


def data_text(name: str) -> str:
    """Text of ``data/<name>.csv``."""
    return resources.files("takeoff.catalog").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")


@cache
def read_table(name: str) -> tuple[Row, ...]:
    """Rows of ``data/<name>.csv``, in the order of the file.

    Raises:
        TableError: a row is ragged, has no source, or doesn't say how it is known.
    """
    return rows_of(name, data_text(name))


def rows_of(table: str, text: str) -> tuple[Row, ...]:
    """Rows of a table's text, each checked for its source.

    Args:
        table: name of the table, for messages.
        text: CSV with a header row.

    Raises:
        TableError: as for ``read_table``.
    """
    lines = csv.reader(text.splitlines(), strict=True)
    columns = tuple(next(lines, ()))
    rows = []
    for cells in lines:
        if len(cells) != len(columns):
            raise TableError(f"{table}.csv:{lines.line_num}: {len(cells)} cells under {len(columns)} columns")
        cells = [cell.strip() for cell in cells]
        rows.append(_sourced(Row(table=table, line=lines.line_num, columns=columns, cells=tuple(cells))))
    return tuple(rows)


def _sourced(row: Row) -> Row:
    """The row itself, once it has said where it comes from."""
    if not row.source:
        raise TableError(f"{row.table}.csv:{row.line}: no source")
    if row.how_known not in HOW_KNOWN:
        raise TableError(f"{row.table}.csv:{row.line}: how_known is {row.how_known!r}, none of {', '.join(HOW_KNOWN)}")
    return row
