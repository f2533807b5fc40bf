"""Boards and leftovers on the site already: a CSV list with the columns ``profile,grade,length_in,qty``.

They are offers that cost nothing and run out, so that a cutter takes them first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from takeoff.catalog.csv_list import Cell, CsvList, CsvRow, read_list_text
from takeoff.catalog.grades import grade
from takeoff.catalog.profiles import profile
from takeoff.catalog.unknown import UnknownItem
from takeoff.cutting.problem import Offer
from takeoff.cutting.steps import holds
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.measure import MeasureError, format_length, parse_length
from takeoff.model.stock import Piece

COLUMNS = ("profile", "grade", "length_in", "qty")

_KIND, _WHAT = "on-hand", "a list of boards on hand"
_LARGEST_BYTES = 1_000_000
_MOST = 100_000
_SHORTEST_IN = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """Equal boards on the site."""

    profile: str
    grade: str
    length_in: float
    qty: int
    place: Place
    """Where the list says so."""

    @property
    def offer(self) -> Offer:
        """What a cutter may take of them."""
        return Offer(
            profile=self.profile,
            grade=self.grade,
            length_in=self.length_in,
            price_usd=0.0,
            limit=self.qty,
            on_hand=True,
        )


def read_on_hand_file(path: Path) -> tuple[OnHand, ...]:
    """The list in a file.

    Raises:
        PlanError: the file can't be read, or something in it is wrong; holds all findings.
    """
    text = read_list_text(path, kind=_KIND, what=_WHAT, largest_bytes=_LARGEST_BYTES)
    return read_on_hand(text, file=str(path))


def read_on_hand(text: str, *, file: str) -> tuple[OnHand, ...]:
    """The list in a text, in its order. Lines of one profile, grade and length stand beside each other and add up.

    Args:
        text: CSV, a header first; ``length_in`` in inches, or a length with a foot mark (``7'-3"``).
        file: its name, for findings.

    Raises:
        PlanError: something in it is wrong; holds all findings.
    """
    sheet = CsvList(kind=_KIND, what=_WHAT, file=file, columns=COLUMNS)
    boards = [board for row in sheet.rows(text) for board in _boards(sheet, row)]
    if sheet.findings:
        raise PlanError(sheet.findings)
    return tuple(boards)


def unused_notes(boards: Sequence[OnHand], pieces: Sequence[Piece]) -> tuple[Finding, ...]:
    """A note for each line of the list that no piece of the job can be cut from: nothing is lost silently."""
    return tuple(_unused(board, pieces) for board in boards if not _is_of_use(board, pieces))


def _is_of_use(board: OnHand, pieces: Sequence[Piece]) -> bool:
    alike = (piece for piece in pieces if (piece.profile, piece.grade) == (board.profile, board.grade))
    return any(holds(board.length_in, piece.length_in) for piece in alike)


def _unused(board: OnHand, pieces: Sequence[Piece]) -> Finding:
    alike = [p.length_in for p in pieces if (p.profile, p.grade) == (board.profile, board.grade)]
    kind = f"{board.profile} {board.grade}"
    why = f"the shortest piece of {kind} is {format_length(min(alike))}" if alike else f"no piece is of {kind}"
    return Finding(
        rule="on-hand.of-no-use",
        severity=Severity.NOTE,
        message=f"{board.qty} on hand of {kind}, {format_length(board.length_in)}, can't be used: {why}",
        place=board.place,
        where=kind,
        found=format_length(board.length_in),
    )


def _boards(sheet: CsvList, row: CsvRow) -> Iterator[OnHand]:
    """The boards of a row; none where something is wrong with it, which is noted."""
    before = len(sheet.findings)
    for column, known in (("profile", profile), ("grade", grade)):
        try:
            known(row[column].text)
        except UnknownItem as error:
            sheet.say(f"unknown-{column}", row[column].place, str(error), found=row[column].text)
    length_in, qty = _length(sheet, row["length_in"]), _qty(sheet, row["qty"])
    if len(sheet.findings) == before:
        yield OnHand(
            profile=profile(row["profile"].text).name,
            grade=grade(row["grade"].text).name,
            length_in=length_in,
            qty=qty,
            place=replace(row["profile"].place, column=0),
        )


def _length(sheet: CsvList, cell: Cell) -> float:
    """The length [in]; 0 beside a finding where there is none."""
    try:
        length_in = parse_length(cell.text)
    except MeasureError as error:
        sheet.say("bad-length", cell.place, f"{cell.text!r}: {error.fault}", found=cell.text)
        return 0.0
    if length_in < _SHORTEST_IN:
        message = f"no board is {cell.text} inches long: lengths are in inches, for feet write 8'"
        sheet.say("bad-length", cell.place, message, found=cell.text)
    return length_in


def _qty(sheet: CsvList, cell: Cell) -> int:
    """How many; 0 beside a finding where there is no number."""
    if cell.text.isascii() and cell.text.isdecimal() and 0 < int(cell.text) <= _MOST:
        return int(cell.text)
    sheet.say("bad-qty", cell.place, f"qty {cell.text!r} isn't a whole number from 1 to {_MOST}", found=cell.text)
    return 0
