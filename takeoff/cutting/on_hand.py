"""Boards and leftovers on the site already: a CSV list with the columns ``profile,grade,length_in,qty``.

They are offers that cost nothing and run out, so that a cutter takes them first.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from takeoff.catalog.grades import grade
from takeoff.catalog.profiles import profile
from takeoff.catalog.unknown import UnknownItem
from takeoff.cutting.problem import Offer
from takeoff.cutting.steps import holds
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.measure import MeasureError, format_length, parse_length
from takeoff.model.stock import Piece

COLUMNS = ("profile", "grade", "length_in", "qty")

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
    where = Place(file=str(path))
    try:
        if path.stat().st_size > _LARGEST_BYTES:
            raise PlanError([_error("on-hand.too-large", where, f"a list has at most {_LARGEST_BYTES} bytes")])
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise PlanError([_error("on-hand.unreadable", where, f"can't be read: {error.strerror}")]) from error
    except UnicodeDecodeError as error:
        message = "isn't UTF-8 text; save it from the spreadsheet as CSV UTF-8"
        raise PlanError([_error("on-hand.unreadable", where, message)]) from error
    return read_on_hand(text, file=str(path))


def read_on_hand(text: str, *, file: str) -> tuple[OnHand, ...]:
    """The list in a text, in its order. Lines of one profile, grade and length stand beside each other and add up.

    Args:
        text: CSV, a header first; ``length_in`` in inches, or a length with a foot mark (``7'-3"``).
        file: its name, for findings.

    Raises:
        PlanError: something in it is wrong; holds all findings.
    """
    lines = [(number, line) for number, line in enumerate(text.splitlines(), start=1) if line.strip(" ,;\t")]
    header = [name.strip().lower() for name in _cells(lines[0][1])] if lines else []
    if tuple(sorted(header)) != tuple(sorted(COLUMNS)):
        where = Place(file=file, line=lines[0][0] if lines else 1)
        raise PlanError([_error("on-hand.columns", where, f"the first line is {','.join(COLUMNS)}", header)])
    findings: list[Finding] = []
    boards: list[OnHand] = []
    for number, line in lines[1:]:
        where, cells = Place(file=file, line=number), _cells(line)
        if len(cells) != len(header):
            message = f"{len(cells)} cells under {len(header)} columns"
            findings.append(_error("on-hand.ragged-row", where, message, cells))
            continue
        row = dict(zip(header, (cell.strip() for cell in cells), strict=True))
        faults = list(_faults(row, where))
        findings += faults
        if not faults:
            boards.append(_board(row, where))
    if findings:
        raise PlanError(findings)
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


def _cells(line: str) -> list[str]:
    return next(csv.reader([line]), [])


def _error(rule: str, place: Place, message: str, found: Sequence[str] = ()) -> Finding:
    return Finding(rule=rule, severity=Severity.ERROR, message=message, place=place, found=",".join(found))


def _faults(row: dict[str, str], where: Place) -> Iterator[Finding]:
    for column, known in (("profile", profile), ("grade", grade)):
        try:
            known(row[column])
        except UnknownItem as error:
            yield _error(f"on-hand.unknown-{column}", where, str(error), [row[column]])
    if not row["qty"].isdecimal() or not 0 < int(row["qty"]) <= _MOST:
        message = f"qty {row['qty']!r} isn't a whole number from 1 to {_MOST}"
        yield _error("on-hand.bad-qty", where, message, [row["qty"]])
    try:
        length_in = parse_length(row["length_in"])
    except MeasureError as error:
        yield _error("on-hand.bad-length", where, f"{row['length_in']!r}: {error.fault}", [row["length_in"]])
        return
    if length_in < _SHORTEST_IN:
        message = f"no board is {row['length_in']} inches long: lengths are in inches, for feet write 8'"
        yield _error("on-hand.bad-length", where, message, [row["length_in"]])


def _board(row: dict[str, str], where: Place) -> OnHand:
    return OnHand(
        profile=profile(row["profile"]).name,
        grade=grade(row["grade"]).name,
        length_in=parse_length(row["length_in"]),
        qty=int(row["qty"]),
        place=where,
    )
