"""How the ends of a rafter are sawn and marked: a row a cut, all from the planes that end the stick."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import radians, tan
from typing import TYPE_CHECKING

from takeoff.sheets.crew.figures import Figures, saw
from takeoff.sheets.rafter_words import lower_words
from takeoff.sheets.stick_end import SQUARE_DEG, StickEnd, side_cut_deg, stick_ends
from takeoff.sheets.upper_words import cut_words

if TYPE_CHECKING:
    from takeoff.model.member import EndCut, Member
    from takeoff.sheets.rafter_tops import Top

_FOOT_IN = 12.0
_TONGUE_IN = 16.0
_BODY_IN = 24.0  # the longer arm of a steel square


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """One saw cut of an end."""

    end: str
    shorter: str
    """The face it leaves shorter, looking up the stick; ``each`` for two alike, ``neither`` for one square across."""
    miter: str
    blade: str
    plumb: str
    """Tongue and body of the square for the line down the face, drawn along the tongue."""
    side: str
    """Tongue and body for the line across the top edge, drawn along the body."""
    set_back: str


def cut_rows(member: Member, figures: Figures, top: Top, step_in: float = _FOOT_IN) -> tuple[CutRow, ...]:
    """Cuts of both ends, the upper end first.

    Args:
        member: a member with a ``rafter``.
        figures: writes the lengths.
        top: words for its upper end.
        step_in: the figure on the body for a plumb cut [in].
    """
    assert member.rafter is not None
    lower, upper = stick_ends(member)
    low = lower_words(member).lower()
    named = (
        [(f"{cut_words(member, cut, top)} end", cut, upper) for cut in upper.cuts],
        [(low, cut, lower) for cut in lower.cuts],
    )
    rows = (tuple(_row(name, cut, end, figures, step_in) for name, cut, end in cuts) for cuts in named)
    return tuple(row for end in rows for row in _doubled(end))


def _doubled(rows: tuple[CutRow, ...]) -> Iterator[CutRow]:
    """A double cheek cut alike on both sides as one row."""
    if len(rows) == 2 and replace(rows[0], shorter="") == replace(rows[1], shorter=""):
        yield replace(rows[0], shorter="each")
    else:
        yield from rows


def _row(name: str, cut: EndCut, end: StickEnd, figures: Figures, step_in: float) -> CutRow:
    tilted = abs(cut.bevel_deg) >= SQUARE_DEG
    return CutRow(
        end=name,
        shorter="neither" if not tilted else "right" if cut.bevel_deg > 0 else "left",
        miter=saw(abs(cut.miter_deg)),
        blade=saw(abs(cut.bevel_deg)) if tilted else "upright",
        plumb=_plumb(tan(radians(abs(cut.miter_deg))), step_in, figures),
        side=_side(cut, figures) if tilted else "square",
        set_back=figures.inches(end.set_back) if tilted else "",
    )


def _plumb(steep: float, step_in: float, figures: Figures) -> str:
    """The step on the body and its rise on the tongue; twelve on the tongue where that is too short for the rise."""
    if steep * step_in <= _TONGUE_IN:
        return _pair(steep * step_in, step_in, figures)
    return _pair(_FOOT_IN, _FOOT_IN / steep, figures)


def _side(cut: EndCut, figures: Figures) -> str:
    """Twelve on the tongue, and on the body what the line across the edge runs along it, if the body is that long."""
    along = tan(radians(abs(side_cut_deg(cut))))
    body = min(_FOOT_IN * along, _BODY_IN)
    return _pair(body / along, body, figures)


def _pair(tongue: float, body: float, figures: Figures) -> str:
    return f"{_figure(tongue, figures)} and {_figure(body, figures)}"


def _figure(inches: float, figures: Figures) -> str:
    """Hundredths where they are the trade's own name for it, as in 16.97; else as the square is divided."""
    return square_figure(inches) if abs(inches - 12 * 2**0.5) < 0.005 else figures.inches(inches).removesuffix('"')


def square_figure(inches: float) -> str:
    """A figure on the steel square, to a hundredth: ``6``, ``16.97``."""
    return f"{round(inches, 2):g}"
