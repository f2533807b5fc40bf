"""The exact cutter: one search for each group of pieces that may share sticks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from takeoff.cutting.assembly import Filled, Filling, assembled
from takeoff.cutting.exact.certificate import Certificate, certified
from takeoff.cutting.exact.effort import EFFORTS, Effort, Meter
from takeoff.cutting.exact.group import ShortOfStockError
from takeoff.cutting.exact.instance import Coded, Stock, coded
from takeoff.cutting.exact.lengths import searched_few_lengths
from takeoff.cutting.exact.pattern import Plan
from takeoff.cutting.groups import Group, Stick, groups_of
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.steps import steps_up
from takeoff.cutting.stop import EffortName, StopRule
from takeoff.measure import format_length
from takeoff.model.stock import LumberCutting


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """A group with its cutting, and what proves the bound."""

    filling: Filling
    coded: Coded
    certificate: Certificate


def solve(problem: LumberProblem, *, stop: StopRule, effort: EffortName = "normal", seed: int = 0) -> LumberCutting:
    """The cheapest boards found, with a bound; of equally cheap ones the fewest, then in the fewest patterns.

    A round is a round of column generation, a step of a dive or an integer programme. There is no chance in it:
    ``seed`` changes nothing.

    Args:
        problem: what to cut, and from what.
        stop: when to be content with what is found.
        effort: limits of each group's search.
        seed: not used.

    Raises:
        ValueError: stock is limited, and there isn't enough of it; the pieces are named.
    """
    return solve_with(problem, stop=stop, effort=EFFORTS[effort])


def solve_with(problem: LumberProblem, *, stop: StopRule, effort: Effort) -> LumberCutting:
    """The same, with limits of any kind."""
    solved = solve_groups(problem, stop=stop, effort=effort)
    return assembled([one.filling for one in solved], problem.kerf_in)


def solve_groups(problem: LumberProblem, *, stop: StopRule, effort: Effort | None = None) -> tuple[Solved, ...]:
    """The same, group by group, with certificates.

    Args:
        problem: what to cut, and from what.
        stop: when to be content with what is found.
        effort: limits of the search; without it, those for a house.

    Raises:
        ValueError: stock is limited, and there isn't enough of it; the pieces are named.
    """
    meter, taken, solved = Meter(stop), Counter[_Kept](), []
    for group in groups_of(problem):
        one = _solved(group, taken, effort or Effort(), meter)
        taken.update(_kept(group, filled.stick) for filled in one.filling.sticks if filled.stick.limit is not None)
        solved.append(one)
    return tuple(solved)


_Kept = tuple[str, str, Stick]
"""A limited stick of a profile and grade: what one load takes of it isn't there for the next."""


def _kept(group: Group, stick: Stick) -> _Kept:
    return group.profile, group.grade, stick


def _solved(group: Group, taken: Counter[_Kept], effort: Effort, meter: Meter) -> Solved:
    full = coded(group)
    if not group.demands:
        nothing = Filling(group=group, sticks=(), finished=True, bound=0)
        return Solved(filling=nothing, coded=full, certificate=certified(full.instance, (), 1))
    left = replace(full, instance=replace(full.instance, stocks=tuple(_stocks_left(group, full, taken))))
    least_rest = steps_up(group.least_leftover_in)
    try:
        found = searched_few_lengths(left, group.max_lengths, least_rest, effort, meter)
    except ShortOfStockError as short:
        raise ValueError(_words(group, full, short)) from short
    shared = left.instance != full.instance
    # What an earlier load took isn't proven to be best taken by it: then only the bound of the full stock holds.
    certificate = certified(full.instance, found.certificate.values, found.certificate.scale) if shared else None
    filling = Filling(
        group=group,
        sticks=tuple(_filled(left, found.plan)),
        finished=found.finished,
        bound=found.bound if certificate is None else certificate.bound(full.instance),
    )
    return Solved(filling=filling, coded=full, certificate=certificate or found.certificate)


def _stocks_left(group: Group, full: Coded, taken: Counter[_Kept]) -> Iterator[Stock]:
    for stock, stick in zip(full.instance.stocks, full.sticks, strict=True):
        gone = taken[_kept(group, stick)]
        yield replace(stock, limit=stock.limit - gone) if stock.limit is not None else stock


def _filled(coded: Coded, plan: Plan) -> Iterator[Filled]:
    for pattern, count in plan.uses:
        parts = tuple(coded.parts[i] for i, n in pattern.content for _ in range(n))
        for _ in range(count):
            yield Filled(stick=coded.sticks[pattern.stock], parts=parts)


def _words(group: Group, full: Coded, short: ShortOfStockError) -> str:
    parts = {full.parts[i] for i in short.items}
    lacking = [demand for demand in group.demands if (demand.width, demand.nest) in parts]
    names = ", ".join(f"{demand.mark} ({format_length(demand.length_in)})" for demand in lacking)
    if short.shown:
        return f"there isn't enough {group.profile} {group.grade} to be had for {names}"
    return f"no way was found to cut {names} from the {group.profile} {group.grade} to be had"
