"""Where plates and fascia are joined, so that the boards for the whole job are cheapest."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import inf

from takeoff.cutting.exact.choice import Choice, chosen_ways
from takeoff.cutting.exact.effort import ESTIMATE, patient
from takeoff.cutting.exact.group import ShortOfStockError, sought
from takeoff.cutting.exact.instance import coded
from takeoff.cutting.exact.pattern import content_of
from takeoff.cutting.groups import Demand, Group, groups_of
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.steps import inches, steps_up
from takeoff.cutting.ways import MOST_WAYS, Way, clash, lengths_of, ways_of
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.model.run import Run

Clashes = tuple[tuple[tuple[int, int], tuple[int, int]], ...]
"""Pairs of run and way that don't go together."""

Ways = tuple[int, ...]
"""Number of the way for each run."""

_WAYS_IN_ALL, _FEWEST_WAYS = 1_500, 6
"""Ways of all runs of a job that are compared, and of one run at least."""

Kind = tuple[int, str, str]
"""Load, profile and grade: what may share boards."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Open:
    """A run that may be joined in several ways."""

    building: int
    number: int
    run: Run
    copies: int
    ways: tuple[Way, ...]
    marks: tuple[str, ...]
    """Of its pieces as they are."""


def cheapest_splices(
    problem: LumberProblem, buildings: Sequence[FramedBuilding]
) -> tuple[tuple[tuple[float, ...], ...], ...]:
    """For each building and each of its runs, where its pieces are joined [in from its start].

    Every run is made of as few pieces as can be, and of one where a board is long enough. Among the ways to do that
    those are chosen that let the boards of their kind be cheapest; where nothing is saved, a run stays as it is.

    Args:
        problem: the pieces of the buildings as they are joined now, and what is on sale.
        buildings: marked, with their runs.
    """
    joints = [[run.joints_in for run in building.runs] for building in buildings]
    kerf = steps_up(problem.kerf_in)
    for group in groups_of(problem):
        for one, way in _settled(group, kerf, tuple(_open_runs(group, kerf, buildings))):
            joints[one.building][one.number] = way
    return tuple(tuple(each) for each in joints)


def _open_runs(group: Group, kerf: int, buildings: Sequence[FramedBuilding]) -> Iterator[_Open]:
    """Runs of a group's kind that no single board on sale makes, with their ways."""
    capacity = max((stick.capacity for stick in group.sticks if stick.limit is None and not stick.special), default=0)
    longest_in = inches(capacity - kerf)
    runs = sum(len(building.runs) for building in buildings)
    most = max(_FEWEST_WAYS, min(MOST_WAYS, _WAYS_IN_ALL // max(1, runs)))
    for at, building in enumerate(buildings):
        for number, run in enumerate(building.runs):
            members = [building.members[piece] for piece in run.pieces]
            if _kind(members[0]) != (group.load, group.profile, group.grade):
                continue
            if steps_up(run.length_in) + kerf <= capacity and len(members) == 1:
                continue
            ways = ways_of(run, longest_in, most)
            if ways:
                yield _Open(
                    building=at,
                    number=number,
                    run=run,
                    copies=building.count,
                    ways=ways,
                    marks=tuple(member.mark for member in members),
                )


def _kind(member: Member) -> Kind:
    return member.role.load, member.profile.name, member.grade


def _settled(group: Group, kerf: int, open_runs: tuple[_Open, ...]) -> Iterator[tuple[_Open, Way]]:
    """The runs with the ways in which they are to be joined."""
    clashes = tuple(_clashes(open_runs))
    chosen = _by_rule(open_runs, clashes)
    if chosen is None:  # no ways go together: the runs stay as they are
        return
    if any(len(one.ways) > 1 for one in open_runs):
        chosen = _cheaper(group, kerf, open_runs, clashes, chosen)
    for one, way in zip(open_runs, chosen, strict=True):
        yield one, one.run.joints_in if _is_now(one, one.ways[way]) else one.ways[way]


def _clashes(open_runs: Sequence[_Open]) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """Ways of a run that don't go with those of the run under it."""
    at = {(one.building, one.number): number for number, one in enumerate(open_runs)}
    for number, one in enumerate(open_runs):
        below = None if one.run.under is None else at.get((one.building, one.run.under))
        if below is not None:
            pairs = product(enumerate(one.ways), enumerate(open_runs[below].ways))
            yield from (((number, w), (below, v)) for (w, way), (v, lower) in pairs if clash(one.run, way, lower))


def _by_rule(open_runs: Sequence[_Open], clashes: Clashes) -> Ways | None:
    """The ways as they are where they are allowed, else the longest pieces first; None where no ways go together."""
    bad = set(clashes)
    chosen: list[int] = []
    for number, one in enumerate(open_runs):
        able = [w for w in range(len(one.ways)) if not any(((number, w), (r, v)) in bad for r, v in enumerate(chosen))]
        if not able:
            return None
        now = [w for w in able if _is_now(one, one.ways[w])]
        chosen.append(now[0] if now else max(able, key=lambda w: one.ways[w]))
    return tuple(chosen)


def _is_now(one: _Open, way: Way) -> bool:
    now = one.run.joints_in
    return len(now) == len(way) and all(abs(a - b) <= TOLERANCE.length for a, b in zip(now, way, strict=True))


def _cheaper(group: Group, kerf: int, open_runs: tuple[_Open, ...], clashes: Clashes, first: Ways) -> Ways:
    """The ways of the cheapest boards found, if they are cheaper than those of the first ways."""
    others = _others(group, open_runs)
    asked = tuple(tuple(_asked(one, way, kerf) for way in one.ways) for one in open_runs)
    most = Counter[int]()
    for ways in asked:
        most += _most(ways)
    full = coded(replace(group, demands=_demands(others, most), specials=()))
    item = {part: i for i, part in enumerate(full.parts)}
    wanted = Counter[int]()
    for demand in others:
        wanted[item[demand.width, demand.nest]] += demand.qty
    choice = Choice(
        instance=full.instance,
        wanted=tuple(wanted[i] for i in range(len(full.parts))),
        ways=tuple(
            tuple(content_of({item[width, None]: n for width, n in way.items()}) for way in ways) for ways in asked
        ),
        clashes=clashes,
    )
    found = chosen_ways(choice, first)
    return min((first, found), key=lambda chosen: _cost(group, others, _sum(asked, chosen)))


def _others(group: Group, open_runs: Iterable[_Open]) -> tuple[Demand, ...]:
    """What is wanted beside the runs' pieces."""
    taken = Counter[str]()
    for one in open_runs:
        for mark in one.marks:
            taken[mark] += one.copies
    left = []
    for demand in group.demands:
        qty = demand.qty - min(demand.qty, taken[demand.mark])
        taken[demand.mark] -= demand.qty - qty
        if qty:
            left.append(replace(demand, qty=qty))
    return tuple(left)


def _asked(one: _Open, way: Way, kerf: int) -> Counter[int]:
    """Widths of the pieces of a way, and how many of each over all copies of the building."""
    widths = Counter(steps_up(length) + kerf for length in lengths_of(one.run, way))
    return Counter({width: n * one.copies for width, n in widths.items()})


def _most(ways: Iterable[Counter[int]]) -> Counter[int]:
    """Of each width the most that a way asks for."""
    most = Counter[int]()
    for way in ways:
        most |= way
    return most


def _sum(asked: Sequence[Sequence[Counter[int]]], chosen: Ways) -> Counter[int]:
    total = Counter[int]()
    for ways, way in zip(asked, chosen, strict=True):
        total += ways[way]
    return total


def _demands(others: Sequence[Demand], widths: Counter[int]) -> tuple[Demand, ...]:
    made = (Demand(mark="", length_in=inches(width), width=width, qty=n) for width, n in widths.items())
    return tuple(sorted((*others, *made), key=lambda demand: -demand.width))


def _cost(group: Group, others: Sequence[Demand], widths: Counter[int]) -> float:
    """Of the boards for some pieces [cents], as far as a short search finds them."""
    instance = coded(replace(group, demands=_demands(others, widths), specials=())).instance
    try:
        found = sought(instance, ESTIMATE, patient())
    except ShortOfStockError:
        return inf
    return inf if found.plan is None else found.plan.cost(instance)
