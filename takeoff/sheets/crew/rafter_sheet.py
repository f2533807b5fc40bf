"""A rafter mark's sheet: what to set the saw and the square to, and how to prove the first pair."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.figures import Figures, Labelled
from takeoff.sheets.crew.first_pair import first_words
from takeoff.sheets.crew.marked import Marked, by_mark, short_words, stock_words
from takeoff.sheets.crew.rafter_figures import RafterFigures
from takeoff.sheets.crew.saw_cuts import CutRow, cut_rows
from takeoff.sheets.folds import facts_in
from takeoff.sheets.rafter_tops import base_of, top_of
from takeoff.sheets.rafter_words import JACKS
from takeoff.sheets.stick_end import has_cheeks

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketRow:
    """A pocket, by running dimensions along the top edge from the tail cut."""

    number: int
    start: str
    end: str
    width: str
    depth: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterSheet:
    """All that stands on the sheet of one rafter mark beside its drawing."""

    mark: str
    words: str
    buildings: str
    load: int
    count: int
    counts: tuple[str, ...]
    stock: str
    cut_from: str
    drawing: str
    headline: tuple[Labelled, ...]
    table: tuple[Labelled, ...]
    cuts: tuple[CutRow, ...]
    """None where both ends are square across: the headline has all there is to set."""
    pockets: tuple[PocketRow, ...]
    step_off: str
    proof: tuple[str, ...]


def rafter_marks(takeoff: Takeoff) -> tuple[Marked, ...]:
    """Marks that get a drawing: whatever was made as a rafter."""
    return by_mark(takeoff.buildings, lambda member: member.rafter is not None)


def sheet_marks(takeoff: Takeoff) -> tuple[Marked, ...]:
    """Marks that get a sheet of their own: all rafters but jacks, whose sheets are by the series."""
    return tuple(marked for marked in rafter_marks(takeoff) if marked.member.role.name not in JACKS)


def rafter_sheet(marked: Marked, takeoff: Takeoff, drawing: str) -> RafterSheet:
    """The sheet of one mark.

    Args:
        marked: a mark whose member has a ``rafter``.
        takeoff: the job.
        drawing: name of the drawing's file.
    """
    member, figures = marked.member, Figures(takeoff.settings.denominator)
    assert member.rafter is not None
    written = RafterFigures(
        member=member,
        facts=facts_in(takeoff.buildings, member),
        top=top_of(member, takeoff.buildings),
        figures=figures,
        base=base_of(member, takeoff.buildings),
        first=first_words(marked, takeoff.buildings),
    )
    return RafterSheet(
        mark=member.mark,
        words=short_words(member.role),
        buildings=", ".join(name for name, _ in marked.counts),
        load=member.role.load,
        count=marked.count,
        counts=tuple(f"{count} for {name}" for name, count in marked.counts),
        stock=f"{member.profile.name} {member.grade}",
        cut_from=stock_words(member.mark, takeoff.lumber.boards, figures),
        drawing=drawing,
        headline=tuple(written.headline()),
        table=tuple(written.table()),
        cuts=cut_rows(member, figures, written.top, written.step_in) if has_cheeks(member) else (),
        pockets=_pockets(member.rafter, figures),
        step_off=written.step_off(),
        proof=tuple(written.proof()),
    )


def _pockets(rafter: RafterGeometry, figures: Figures) -> tuple[PocketRow, ...]:
    return tuple(
        PocketRow(
            number=number,
            start=figures.length(pocket.centre - pocket.width / 2),
            end=figures.length(pocket.centre + pocket.width / 2),
            width=figures.length(pocket.width),
            depth=figures.length(pocket.depth),
        )
        for number, pocket in enumerate(sorted(rafter.pockets, key=lambda pocket: pocket.centre), start=1)
    )
