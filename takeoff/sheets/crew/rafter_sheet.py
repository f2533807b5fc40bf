"""A rafter mark's sheet: what to set the saw and the square to, and how to prove the first pair."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import Pitch
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.figures import Figures, Labelled, fine, saw
from takeoff.sheets.crew.marked import Marked, by_mark, short_words, stock_words


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
    pockets: tuple[PocketRow, ...]
    step_off: str
    proof: tuple[str, ...]


def rafter_marks(takeoff: Takeoff) -> tuple[Marked, ...]:
    """Marks that get a drawing: whatever was made as a rafter."""
    return by_mark(takeoff.buildings, lambda member: member.rafter is not None)


def rafter_sheet(marked: Marked, takeoff: Takeoff, drawing: str) -> RafterSheet:
    """The sheet of one mark.

    Args:
        marked: a mark whose member has a ``rafter``.
        takeoff: the job.
        drawing: name of the drawing's file.
    """
    member, figures = marked.member, Figures(takeoff.settings.denominator)
    rafter = member.rafter
    assert rafter is not None
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
        headline=tuple(_headline(rafter, member.length_in, figures)),
        table=tuple(_table(rafter, member.length_in, figures)),
        pockets=_pockets(rafter, figures),
        step_off=_step_off(rafter, figures),
        proof=tuple(_proof(rafter, figures)),
    )


def _headline(rafter: RafterGeometry, overall: float, figures: Figures) -> Iterator[Labelled]:
    yield Labelled("length", figures.length(overall), "over the long points")
    yield Labelled("plumb cut", saw(rafter.plumb_deg), f"{_rise(rafter)} on tongue, 12 on body")
    if rafter.seat:
        yield Labelled("seat", figures.length(rafter.seat), f"level; cut at {saw(rafter.seat_deg)}")
    else:
        yield Labelled("top edge", figures.length(rafter.top_edge), "tail cut to ridge cut")
    if rafter.overhang:
        yield Labelled("tail", figures.length(rafter.tail), "along the slope")


def _table(rafter: RafterGeometry, overall: float, figures: Figures) -> Iterator[Labelled]:
    yield Labelled("pitch", str(Pitch(12 * rafter.slope)))
    yield Labelled("plumb cut", fine(rafter.plumb_deg))
    if rafter.seat:
        yield Labelled("seat cut", fine(rafter.seat_deg))
    yield Labelled("line length", figures.length(rafter.line_length))
    yield Labelled("run to ridge centre", figures.length(rafter.run))
    yield Labelled("rise", figures.length(rafter.rise))
    if rafter.ridge_half:
        yield Labelled("ridge shortening", figures.length(rafter.ridge_shortening))
    yield from _mouth(rafter, figures)
    if rafter.overhang:
        yield Labelled("overhang, level", figures.length(rafter.overhang))
        yield Labelled("tail, along", figures.length(rafter.tail))
        yield Labelled("tail depth, square", figures.length(rafter.tail_depth_cut))
    yield Labelled("plumb depth", figures.length(rafter.plumb_depth))
    yield Labelled("top edge", figures.length(rafter.top_edge))
    yield Labelled("overall", figures.length(overall))


def _mouth(rafter: RafterGeometry, figures: Figures) -> Iterator[Labelled]:
    if rafter.seat:
        yield Labelled("seat, level", figures.length(rafter.seat))
        yield Labelled("heel on stock, plumb", figures.length(rafter.heel))
        if rafter.overhang and rafter.depth - rafter.tail_depth_cut > TOLERANCE.length:
            yield Labelled("heel cut to tail", figures.length(abs(rafter.tail_underside_at_heel)))
    yield Labelled("height above plate", figures.length(rafter.height_above_plate))


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


def _rise(rafter: RafterGeometry) -> str:
    """Rise in 12 of run, the figure on the square's tongue."""
    return str(Pitch(12 * rafter.slope)).removesuffix("/12")


def _step_off(rafter: RafterGeometry, figures: Figures) -> str:
    steps, over = figures.steps(rafter.run - rafter.ridge_half)
    start = "the heel plumb line" if rafter.seat else "the plumb line at the outside of the wall"
    square = f"Steel square: {_rise(rafter)} on the tongue, 12 on the body."
    words = f'{square} From {start} step off {steps} steps of 12" run and {over} over, level, to the ridge cut'
    if not rafter.ridge_half:
        return words + "."
    whole, rest = figures.steps(rafter.run)
    less = figures.length(rafter.ridge_half)
    return f"{words} ({whole} steps and {rest} over to the ridge centre, less {less} level)."


def _proof(rafter: RafterGeometry, figures: Figures) -> Iterator[str]:
    yield "Cut one pair and try it on the building before cutting the rest."
    yield (
        f"Top of rafter plumb over the plate's outside: {figures.length(rafter.height_above_plate)} above the plate; "
        f"run on to the ridge centre: {figures.length(rafter.top_at(rafter.run))} above the plate."
    )
