"""The figures of one rafter as its sheet gives them: headline, table, stepping off, and what proves the first pair."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import Pitch
from takeoff.sheets.crew.figures import Figures, Labelled, fine, saw
from takeoff.sheets.crew.first_pair import PAIR_FIRST
from takeoff.sheets.crew.saw_cuts import square_figure
from takeoff.sheets.folds import FOOT_IN, FoldFacts
from takeoff.sheets.rafter_points import RafterPoints
from takeoff.sheets.rafter_words import OUTSIDE_OF, eave_overhang, lower_words, start_words
from takeoff.sheets.second_mouth import second_mouth
from takeoff.sheets.stick_end import SQUARE_DEG, has_cheeks, side_cut_deg, stick_ends, top_lengths

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.model.member import Member
    from takeoff.sheets.rafter_tops import Top
    from takeoff.sheets.second_mouth import SecondMouth


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterFigures:
    """Writes the figures of one member that has a ``rafter``."""

    member: Member
    facts: FoldFacts | None
    """Of a hip or valley, what its slopes say of it."""
    top: Top
    """Words for its upper end."""
    figures: Figures
    base: str = "plate"
    """What it is seated on."""
    first: str = PAIR_FIRST
    """What to cut first."""

    @property
    def rafter(self) -> RafterGeometry:
        """Its cuts."""
        assert self.member.rafter is not None
        return self.member.rafter

    @property
    def step_in(self) -> float:
        """Level length of one step of the square [in]."""
        return self.facts.step_in if self.facts else FOOT_IN

    @property
    def square(self) -> str:
        """Rise on the tongue and step on the body."""
        return f"{square_figure(self.rafter.slope * self.step_in)} on tongue, {square_figure(self.step_in)} on body"

    def headline(self) -> Iterator[Labelled]:
        """What is read from across the yard."""
        rafter, length = self.rafter, self.figures.length
        yield Labelled("length", length(self.member.length_in), "over the long points")
        yield self.plumb_cut()
        if has_cheeks(self.member):
            yield self.cheek()
        if rafter.stands_on_plate:
            yield self.seat()
        elif not has_cheeks(self.member):
            yield Labelled("top edge", length(rafter.top_edge), f"{lower_words(self.member).lower()} to {self.top.cut}")
        if eave_overhang(rafter) and not has_cheeks(self.member):
            yield Labelled("tail", length(rafter.tail), "along the slope")

    def plumb_cut(self) -> Labelled:
        """The plumb cut, with its figures on the square."""
        return Labelled("plumb cut", saw(self.rafter.plumb_deg), self.square)

    def cheek(self) -> Labelled:
        """The cheek cuts, with the angle across the top edge."""
        cuts = [cut for end in stick_ends(self.member) for cut in end.cheek_cuts]
        tilts = dict.fromkeys(saw(abs(cut.bevel_deg)) for cut in cuts)
        across = dict.fromkeys(saw(abs(side_cut_deg(cut))) for cut in cuts)
        return Labelled("cheek cut", ", ".join(tilts), f"blade tilt; {', '.join(across)} on top")

    def seat(self) -> Labelled:
        """The seat, with its cut."""
        return Labelled("seat", self.figures.length(self.rafter.seat), f"level; cut at {saw(self.rafter.seat_deg)}")

    def table(self) -> Iterator[Labelled]:
        """Every figure, by its name."""
        rafter, length = self.rafter, self.figures.length
        yield from self.pitches()
        yield Labelled("plumb cut", fine(rafter.plumb_deg))
        if rafter.seat:
            yield Labelled("level cut" if not rafter.stands_on_plate else "seat cut", fine(rafter.seat_deg))
        yield Labelled("line length", length(rafter.line_length))
        yield Labelled(self.run_words(), length(rafter.run))
        yield Labelled("rise", length(rafter.rise))
        if rafter.ridge_half:
            yield Labelled(f"{self.top.name} shortening", length(rafter.ridge_shortening))
        yield from self.drops()
        yield from self.mouth()
        yield from self.upper_mouth()
        if eave_overhang(rafter):
            yield Labelled("overhang, level", length(rafter.overhang))
            yield Labelled("tail, along", length(rafter.tail))
            yield Labelled("tail depth, square", length(rafter.tail_depth_cut))
        yield from self.tail_cut()
        yield Labelled("plumb depth", length(rafter.plumb_depth))
        yield from self.top_edges()
        yield Labelled("overall", length(self.member.length_in))

    def pitches(self) -> Iterator[Labelled]:
        """Its own pitch; of a hip or valley as the square has it, with those of its slopes."""
        if self.facts is None:
            yield Labelled("pitch", str(Pitch(FOOT_IN * self.rafter.slope)))
            return
        rise = square_figure(self.rafter.slope * self.step_in)
        yield Labelled("pitch", f"{rise} in {square_figure(self.step_in)}")
        rises = dict.fromkeys(str(Pitch(FOOT_IN * round(rise, 9))) for rise in self.facts.rises)
        yield Labelled("pitch of slopes", ", ".join(rises))

    def run_words(self) -> str:
        """What its run goes to, or that it is along a fold."""
        if self.facts is not None:
            return f"run of the {self.member.role.name}"
        return f"run to {self.top.run_to}"

    def drops(self) -> Iterator[Labelled]:
        """How far a hip lies under its slopes, or how it would be planed instead."""
        if self.facts is None or self.facts.drop_in < TOLERANCE.mark:
            return
        yield Labelled("drop, already in", self.figures.length(self.facts.drop_in))
        backing = dict.fromkeys(saw(deg) for deg in self.facts.backing_deg)
        yield Labelled("or back it by", ", ".join(backing))

    def mouth(self) -> Iterator[Labelled]:
        """Bird's mouth and what stands over it."""
        rafter, length = self.rafter, self.figures.length
        if rafter.stands_on_plate:
            yield Labelled("seat, level", length(rafter.seat))
            yield Labelled("heel on stock, plumb", length(rafter.heel))
            if eave_overhang(rafter) and rafter.depth - rafter.tail_depth_cut > TOLERANCE.length:
                yield Labelled("heel cut to tail", length(abs(rafter.tail_underside_at_heel)))
        elif rafter.seat:  # only the foot of a jack reaches over the plate
            yield Labelled("level notch", length(rafter.seat - rafter.start))
            yield Labelled("notch, plumb", length(-rafter.underside_at(rafter.start)))
        if self.facts is not None and rafter.stands_on_plate:
            walls = dict.fromkeys(saw(deg) for deg in self.facts.wall_deg)
            yield Labelled("walls off the heel, in plan", ", ".join(walls))
        if rafter.foot is None:
            yield Labelled(f"height above {self.plate}", length(rafter.height_above_plate))

    def upper_mouth(self) -> Iterator[Labelled]:
        """Second bird's mouth: where its heel plumb line is, how it is cut, how high it sits."""
        second, length = self.second, self.figures.length
        if second is None:
            return
        yield Labelled(f"to {second.name} heel, along", length(second.along))
        yield Labelled(f"to {second.name} heel, level", length(second.level_from_start))
        yield Labelled(f"low end to {second.name} heel, top", length(second.from_low_end))
        yield Labelled(f"{second.name} seat, level", length(second.seat))
        yield Labelled(f"{second.name} heel, plumb", length(second.heel))
        yield Labelled(f"height above {second.under}", length(second.height_above))
        yield Labelled(f"{second.under} over {self.plate}", length(second.bearing))
        if second.at_end:
            yield Labelled(f"{self.top.cut}, plumb", length(self.rafter.peak_cut))

    @property
    def plate(self) -> str:
        """What the first plate is called: low where there is a high one."""
        return "low plate" if self.second is not None and self.second.name == "upper" else self.base

    @property
    def second(self) -> SecondMouth | None:
        """Its second bird's mouth."""
        return second_mouth(self.rafter)

    def tail_cut(self) -> Iterator[Labelled]:
        """Cut of the lower end where it is not the plumb cut; of a level one, both its parts."""
        rafter, points = self.rafter, RafterPoints(self.rafter)
        if points.lower_lean:
            square = abs(points.lower_cut_deg) < SQUARE_DEG
            yield Labelled(
                f"{lower_words(self.member).lower()} cut", "square" if square else fine(points.lower_cut_deg)
            )
        elif rafter.laid_foot:
            yield Labelled("foot cut, on the main roof", fine(points.lower_cut_deg))
        if rafter.laid_head:
            yield Labelled("upper cut, on the main roof", fine(points.upper_cut_deg))
        if rafter.square_head:
            yield Labelled("upper cut", "square")
        if rafter.tail_level_drop is not None and points.level_cut_length > TOLERANCE.mark:
            yield Labelled("tail cut, plumb part", self.figures.length(rafter.tail_level_drop))
            yield Labelled("tail cut, level part", self.figures.length(points.level_cut_length))

    def top_edges(self) -> Iterator[Labelled]:
        """Lengths along the top edge; of each face where a cheek makes them differ."""
        length = self.figures.length
        if not has_cheeks(self.member):
            yield Labelled("top edge", length(self.rafter.top_edge))
            return
        found = top_lengths(self.member)
        yield Labelled("top, long point", length(found.long_point))
        yield Labelled("top, centre line", length(found.centre_line))
        yield Labelled("top, short point", length(found.short_point))

    def step_off(self) -> str:
        """How it is laid out with the square."""
        rafter, top = self.rafter, self.top
        step = square_figure(self.step_in)
        steps, over = self.figures.steps(rafter.run - rafter.ridge_half - (rafter.foot or 0.0), self.step_in)
        outside = f"the plumb line at the outside of the {OUTSIDE_OF[self.base]}"
        start = outside if self.from_wall else f"the {start_words(rafter, self.base)}"
        square = f"Steel square: {self.square.replace(' on ', ' on the ')}."
        counted = f'{_steps(steps)} of {step}" run and {over} over, level, to the {top.cut}'
        words = f"{square} From {start} step off {counted}"
        if not rafter.ridge_half or rafter.foot is not None:
            return words + "."
        whole, rest = self.figures.steps(rafter.run, self.step_in)
        less = self.figures.length(rafter.ridge_half)
        return f"{words} ({_steps(whole)} and {rest} over to the {top.run_to}, less {less} level)."

    @property
    def from_wall(self) -> bool:
        """It has neither seat nor foot: it is measured from the outside of the wall, which it doesn't touch."""
        return not self.rafter.seat and self.rafter.foot is None

    def proof(self) -> Iterator[str]:
        """What to try before the rest is cut."""
        yield self.first
        if self.rafter.foot is None:
            yield f"Top of rafter plumb over the {self.base}'s outside: {'; '.join(self.heights())}."
        if self.rafter.stands_on_plate and not has_cheeks(self.member):
            points = RafterPoints(self.rafter)
            diagonal = self.figures.length(dist(points.corner, points.end_top))
            yield f"On the pattern: from the seat's corner straight to the top of the {self.top.cut} {diagonal}."

    def heights(self) -> Iterator[str]:
        """Heights of the top edge from its heel up."""
        rafter, length, second = self.rafter, self.figures.length, self.second
        low = self.plate
        yield f"{length(rafter.height_above_plate)} above the {low}"
        if second is not None:
            over = f"{length(second.bearing)} over the {low}"
            yield f"at the {second.name} heel: {length(second.height_above)} above the {second.under} ({over})"
        yield f"run on to the {self.top.run_to}: {length(rafter.top_at(rafter.run))} above the {low}"


def _steps(number: int) -> str:
    return "1 step" if number == 1 else f"{number} steps"
