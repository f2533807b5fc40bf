"""A sheet of jacks: one series, from the shortest up, left and right hands side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.sheets.crew.alike import alike, by_number, short_ids
from takeoff.sheets.crew.figures import Figures, Labelled
from takeoff.sheets.crew.first_pair import first_of_series
from takeoff.sheets.crew.jack_series import hand
from takeoff.sheets.crew.marked import Marked, short_words
from takeoff.sheets.crew.rafter_figures import RafterFigures
from takeoff.sheets.crew.saw_cuts import CutRow, cut_rows
from takeoff.sheets.crew.steps import common_step
from takeoff.sheets.rafter_tops import top_of
from takeoff.sheets.stick_end import top_lengths

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.model.takeoff import Takeoff


@dataclass(frozen=True, slots=True, kw_only=True)
class JackRow:
    """Jacks of one length: its marks with how many of each, by the hand of their longer face."""

    left: str
    right: str
    neither: str
    long_point: str
    centre_line: str
    short_point: str
    overall: str
    stock: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JackSheet:
    """All that stands on the sheet of a series of jacks; its drawing is that of the longest."""

    marks: str
    words: str
    buildings: str
    load: int
    count: int
    stock: str
    drawn: str
    """Mark of the drawing."""
    drawing: str
    headline: tuple[Labelled, ...]
    rows: tuple[JackRow, ...]
    both_hands: bool
    """Some of them are of one hand and some of the other."""
    cuts: tuple[CutRow, ...]
    """As the drawing has them: the other hand's tilts go the other way."""
    table: tuple[Labelled, ...]
    proof: tuple[str, ...]


def drawn_of(series: Sequence[Marked]) -> Member:
    """The member whose drawing stands on the sheet: the longest, the first of its length."""
    longest = max(series, key=lambda marked: round(top_lengths(marked.member).centre_line / TOLERANCE.mark))
    return longest.member


def jack_sheet(series: Sequence[Marked], takeoff: Takeoff, drawing: str) -> JackSheet:
    """The sheet of a series.

    Args:
        series: its marks, from the shortest up.
        takeoff: the job.
        drawing: name of the file with the drawing of the longest.
    """
    member, figures = drawn_of(series), Figures(takeoff.settings.denominator)
    lengths = alike(series, lambda marked: round(top_lengths(marked.member).centre_line / TOLERANCE.mark))
    rows = tuple(_row(row, takeoff, figures) for row in lengths)
    written = RafterFigures(
        member=member,
        facts=None,
        top=top_of(member, takeoff.buildings),
        figures=figures,
        first=first_of_series(series, ((row.left, row.right) for row in rows)),
    )
    return JackSheet(
        marks=short_ids(by_number(marked.member.mark for marked in series)),
        words=short_words(member.role),
        buildings=", ".join(dict.fromkeys(name for marked in series for name, _ in marked.counts)),
        load=member.role.load,
        count=sum(marked.count for marked in series),
        stock=f"{member.profile.name} {member.grade}",
        drawn=member.mark,
        drawing=drawing,
        headline=tuple(_headline(series, written)),
        rows=rows,
        both_hands=any(row.left for row in rows) and any(row.right for row in rows),
        cuts=cut_rows(member, figures, written.top),
        table=tuple(_table(written)),
        proof=tuple(written.proof()),
    )


def _headline(series: Sequence[Marked], written: RafterFigures) -> Iterator[Labelled]:
    lengths = (top_lengths(marked.member).centre_line for marked in series)
    step = common_step({round(length, 6) for length in lengths}, written.figures.denominator)
    if step is not None:
        yield Labelled("common difference", written.figures.length(step), "from jack to jack")
    yield written.plumb_cut()
    yield written.cheek()
    if written.rafter.stands_on_plate:
        yield written.seat()


def _table(written: RafterFigures) -> Iterator[Labelled]:
    """What all of a series have in common."""
    own = {"line length", written.run_words(), "rise", "top, long point", "top, centre line"}
    own |= {"top, short point", "overall"}
    return (entry for entry in written.table() if entry.label not in own)


def _row(row: Sequence[Marked], takeoff: Takeoff, figures: Figures) -> JackRow:
    lengths = top_lengths(row[0].member)
    by_hand = {side: ", ".join(_counted(m) for m in row if hand(m.member) == side) for side in ("left", "right", "")}
    return JackRow(
        left=by_hand["left"],
        right=by_hand["right"],
        neither=by_hand[""],
        long_point=figures.length(lengths.long_point),
        centre_line=figures.length(lengths.centre_line),
        short_point=figures.length(lengths.short_point),
        overall=figures.length(row[0].member.length_in),
        stock=_stock({marked.member.mark for marked in row}, takeoff, figures),
    )


def _counted(marked: Marked) -> str:
    return f"{marked.count} {marked.member.mark}"


def _stock(marks: set[str], takeoff: Takeoff, figures: Figures) -> str:
    """The stock lengths that some marks are cut from, shortest first."""
    boards = (board for board in takeoff.lumber.boards if any(cut.mark in marks for cut in board.cuts))
    return ", ".join(figures.length(length) for length in sorted({board.stock_length_in for board in boards}))
