"""Ridges, hips and valleys as members."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING, Literal

from takeoff.catalog.profiles import profile
from takeoff.framing.folds import FoldStick, fold_geometry
from takeoff.framing.plumb_ends import PlanLine, lower_reach, upper_reach
from takeoff.framing.splices import spliced
from takeoff.framing.stick import Bench
from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import UP, Vec, add, scale, unit
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.plan.roof import Ridge


@dataclass(frozen=True, slots=True, kw_only=True)
class RidgeStick:
    """A ridge or a purlin as built: level, between the cuts at its ends or the outside of the end walls."""

    bench: Bench
    """The plumb plane through its centre line: u along it, v up, 0 at its lower edge."""
    profile: Profile
    grade: str
    kind: Literal["beam", "board", "purlin"]
    run: tuple[float, float]
    """Its ends, on the longest face [in] along u."""
    lines: tuple[tuple[PlanLine, ...], tuple[PlanLine, ...]]
    """The planes that end it, the main one of each end first."""
    bottom: float
    """Height of its lower edge above the deck [in]."""
    slopes: tuple[int, int]
    """Places of the two slopes that meet on it."""

    @property
    def beam(self) -> bool:
        """It carries, and needs something under its ends."""
        return self.kind != "board"

    @property
    def role(self) -> str:
        """What it is."""
        return "purlin-beam" if self.kind == "purlin" else f"ridge-{self.kind}"


def ridge_stick(
    stick: FoldStick, *, bench: Bench, planned: Ridge, below: float, ends: tuple[float, float]
) -> RidgeStick:
    """A ridge on a level fold.

    Args:
        stick: the fold.
        bench: where it is made.
        planned: the ridge as the plan has it.
        below: how far its top is under that of the fold's stick [in].
        ends: how much shorter it is at each end because the fold runs out over a rake [in].
    """
    size = profile(planned.size)
    thickness = size.thickness_in
    low, high = lower_reach(stick.lower_lines, thickness), upper_reach(stick.upper_lines, thickness)
    x, y = stick.heel
    dx, dy = stick.fold.direction
    bottom = stick.top_at_heel - below - size.depth_in
    placement = Placement((x, y, bottom), (dx, dy, 0.0), UP)
    return RidgeStick(
        bench=replace(bench, placement=placement, face="ridge"),
        profile=size,
        grade=planned.grade,
        kind=planned.kind,
        run=(low.tip + ends[0], high.tip - ends[1]),
        lines=(
            tuple(PlanLine(line.at + ends[0], line.skew) for line in low.lines),
            tuple(PlanLine(line.at - ends[1], line.skew) for line in high.lines),
        ),
        bottom=bottom,
        slopes=stick.fold.slopes,
    )


def ridge_members(ridge: RidgeStick, longest: float, joints_at: Iterable[float]) -> tuple[Member, ...]:
    """The ridge's pieces: a beam is one, a board is joined on rafters."""
    runs = (ridge.run,) if ridge.beam else spliced(ridge.run, longest, joints_at)
    half = ridge.profile.thickness_in / 2
    members = [
        ridge.bench.edge_along_u(ridge.role, ridge.profile, ridge.grade, u=run, v=0.0, outward=half) for run in runs
    ]
    (start, *more_low), (end, *more_high) = (
        _level_cuts(lines, sign, run[0])
        for lines, sign, run in zip(ridge.lines, (-1.0, 1.0), (runs[0], runs[-1]), strict=True)
    )
    first = members[0]
    members[0] = replace(first, cuts=(start, first.cuts[1]), cheeks=(tuple(more_low), ()))
    last = members[-1]
    return (
        *members[:-1],
        replace(last, cuts=(last.cuts[0], end), cheeks=(last.cheeks[0], tuple(more_high))),
    )


def _level_cuts(lines: tuple[PlanLine, ...], sign: float, start: float) -> list[EndCut]:
    """Cuts of one end of a piece of ridge that starts there along u."""
    if len(lines) == 1 and not lines[0].skew:
        return [SQUARE_ENDS[0] if sign < 0 else SQUARE_ENDS[1]]
    return [_level_cut(line, sign, start) for line in lines]


def _level_cut(line: PlanLine, sign: float, start: float) -> EndCut:
    across = hypot(1, line.skew)
    return EndCut((sign / across, 0.0, -sign * line.skew / across), (line.at - start, 0.0, 0.0))


def sloped_member(
    stick: FoldStick,
    *,
    bench: Bench,
    size: Profile,
    grade: str,
    plate: float,
    tail_plumb: float | None,
    tail_level_drop: float | None = None,
    tail_lean: float = 0.0,
) -> Member:
    """The hip or valley rafter along a fold.

    Raises:
        ValueError: it can't be cut.
    """
    geometry, ends = fold_geometry(
        stick,
        depth=size.depth_in,
        thickness=size.thickness_in,
        plate=plate,
        tail_plumb=tail_plumb,
        tail_level_drop=tail_level_drop,
        tail_lean=tail_lean,
    )
    role = "hip" if stick.fold.kind == "hip" else "valley"
    dx, dy = stick.fold.direction
    along: Vec = (dx, dy, 0.0)
    up_fold = unit(add(along, scale(UP, geometry.slope)))
    right: Vec = (dy, -dx, 0.0)
    # The fold's own plane: u across to the right, v up the fold, its top edge in it.
    placement = Placement((*stick.heel, stick.top_at_heel), right, up_fold)
    made = replace(bench, placement=placement, face=role)
    return made.rafter(role, size, grade, u=0.0, geometry=geometry, ends=ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class RidgeEnd:
    """Where a ridge runs out over a gable wall."""

    side: str
    ridge: RidgeStick
    spot: tuple[float, float]
    """Its end on the outside of the wall framing, in plan."""
    out: float
    """From there to the outside of the barge, along the ridge [in]."""
    at_start: bool
    top: float
    """Height of the slopes over its centre line, above the deck [in]."""
    fall: float
    """Fall of the steeper slope for one inch off the centre line."""


def false_ridges(ends: Iterable[RidgeEnd], size: Profile, grade: str, back: float) -> tuple[Member, ...]:
    """Stubs from the end walls to the backs of the barges; their top corners lie in the slopes.

    Args:
        ends: ridges that run out over gables.
        size: their size.
        grade: their grade.
        back: thickness of the barges [in].
    """
    return tuple(_false_ridge(end, size, grade, end.out - back) for end in ends if end.out > back)


def _false_ridge(end: RidgeEnd, size: Profile, grade: str, length: float) -> Member:
    half = size.thickness_in / 2
    bench = end.ridge.bench
    low = end.top - end.fall * half - size.depth_in - end.ridge.bottom
    at = bench.placement.from_world((*end.spot, end.ridge.bottom))[0]
    u = (at - length, at) if end.at_start else (at, at + length)
    return bench.edge_along_u("false-ridge", size, grade, u=u, v=low, outward=half)
