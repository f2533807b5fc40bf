"""Strict reader of the lists a builder keeps as CSV beside a plan: a header first, then one row a line.

Nothing is guessed and nothing dropped: every cell knows its line and column, and all that is wrong is told at once.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from takeoff.findings import Finding, Place, PlanError, Severity


@dataclass(frozen=True, slots=True)
class Cell:
    """Text of a cell, without the spaces around it, and where it stands."""

    text: str
    place: Place


CsvRow = Mapping[str, Cell]
"""Cells of a row by the names of their columns."""


@dataclass(slots=True, kw_only=True)
class CsvList:
    """A list while it is read: what it has to look like, and what is wrong with it so far."""

    kind: str
    """First part of its findings' rules, such as ``prices``."""
    what: str
    """``a price list``."""
    file: str
    columns: tuple[str, ...]
    optional: tuple[str, ...] = ()
    findings: list[Finding] = field(default_factory=list)

    def say(self, rule: str, place: Place, message: str, *, found: str = "") -> None:
        """Note an error; ``rule`` is the second part of its name."""
        self.findings.append(_error(f"{self.kind}.{rule}", place, message, found=found))

    def rows(self, text: str) -> Iterator[CsvRow]:
        """The rows, blank lines left out; none under a header that can't be used. Faulty lines are noted and passed."""
        lines = self._lines(text)
        header = next(lines, None)
        if header is None:
            if not self.findings:
                empty = f"is empty; its first line is {','.join(self.columns)}"
                self.say("empty", Place(file=self.file, line=1), empty)
            return
        names = self._names(header)
        if self.findings:
            return
        for line in lines:
            if len(line) == len(names):
                yield dict(zip(names, line, strict=True))
            else:
                self.say("ragged-row", line[0].place, f"{len(line)} cells under {len(names)} columns")

    def _lines(self, text: str) -> Iterator[tuple[Cell, ...]]:
        """Cells of each line that isn't blank. A line is a row: cells with line breaks in them are not taken."""
        for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
            try:
                texts = next(csv.reader([line], strict=True), [])
            except csv.Error as error:
                self.say("bad-line", Place(file=self.file, line=number), f"isn't a line of CSV: {error}")
                continue
            if any(cell.strip() for cell in texts):
                starts = _starts(line)
                yield tuple(
                    Cell(cell.strip(), Place(file=self.file, line=number, column=starts[index]))
                    for index, cell in enumerate(texts)
                )

    def _names(self, header: tuple[Cell, ...]) -> tuple[str, ...]:
        names = tuple(cell.text.lower() for cell in header)
        for index, (name, cell) in enumerate(zip(names, header, strict=True)):
            if name not in self.columns + self.optional:
                message = f"no column {cell.text!r} in {self.what}; its columns are {', '.join(self.columns)}"
                self.say("unknown-column", cell.place, message, found=cell.text)
            elif name in names[:index]:
                self.say("duplicate-column", cell.place, f"a second column {name!r}", found=cell.text)
        for name in self.columns:
            if name not in names:
                message = f"no column {name!r}; the first line is {','.join(self.columns)}"
                self.say("missing-column", header[0].place, message)
        return names


def read_list_text(path: Path, *, kind: str, what: str, largest_bytes: int) -> str:
    """Text of a list's file.

    Args:
        path: of the file.
        kind: first part of its findings' rules.
        what: what it is, such as ``a price list``.
        largest_bytes: size of the largest one that is read.

    Raises:
        PlanError: the file can't be read, is too large, or isn't UTF-8.
    """
    where = Place(file=str(path))
    try:
        if path.stat().st_size > largest_bytes:
            raise PlanError([_error(f"{kind}.too-large", where, f"{what} has at most {largest_bytes} bytes")])
        return path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise PlanError([_error(f"{kind}.unreadable", where, f"can't be read: {error.strerror}")]) from error
    except UnicodeDecodeError as error:
        message = "isn't UTF-8 text; save it from the spreadsheet as CSV UTF-8"
        raise PlanError([_error(f"{kind}.unreadable", where, message)]) from error


def _error(rule: str, place: Place, message: str, *, found: str = "") -> Finding:
    return Finding(rule=rule, severity=Severity.ERROR, message=message, place=place, found=found)


def _starts(line: str) -> tuple[int, ...]:
    """Columns, from 1, at which the cells of a line start."""
    starts, quoted, inside = [1], False, False
    for column, character in enumerate(line, start=1):
        if column == starts[-1]:  # a quote means something at the start of a cell only: 96" is ninety-six inches
            quoted = inside = character == '"'
        elif quoted and character == '"':
            inside = not inside
        if character == "," and not inside:
            starts.append(column + 1)
    return tuple(starts)
