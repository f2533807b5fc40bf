"""The plain lumber cutter: best-fit decreasing, with several ways of choosing the stick to open; the cheapest stays."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from fractions import Fraction

from takeoff.cutting.assembly import Filled, Filling, assembled
from takeoff.cutting.best_fit import best_fit
from takeoff.cutting.groups import Group, Part, Stick, groups_of
from takeoff.cutting.problem import LumberProblem
from takeoff.cutting.stop import EffortName, StopRule
from takeoff.model.stock import LumberCutting

Opener = Callable[[int], Stick]
"""Chooses the stick to open for the piece at a position; that piece and all after it are still without one."""


def fit(problem: LumberProblem, *, stop: StopRule, effort: EffortName = "normal", seed: int = 0) -> LumberCutting:
    """Boards by best fit; a round is one way of opening sticks. Neither ``effort`` nor ``seed`` changes anything."""
    fillings, rounds = [], 0
    for group in groups_of(problem):
        filling, rounds = _fill(group, stop, rounds)
        fillings.append(filling)
    return assembled(fillings, problem.kerf_in)


def _fill(group: Group, stop: StopRule, rounds: int) -> tuple[Filling, int]:
    """The cheapest filling of a group; of equally cheap ones the one of fewest patterns, then of shortest sticks."""
    if not group.demands:
        return Filling(group=group, sticks=(), finished=True), rounds
    sticks, parts, best, tried = _plentiful(group), group.parts, None, 0
    openers = _openers(sticks, [width for width, _ in parts])
    for opener in openers:
        filled = _fitted(sticks, parts, opener)
        cost = (sum(one.stick.cost for one in filled), len(set(filled)))
        if best is None or cost < best[0]:
            best = (cost, filled)
        tried, rounds = tried + 1, rounds + 1
        if stop.reached(rounds):
            break
    return Filling(group=group, sticks=best[1] if best else (), finished=tried == len(openers)), rounds


def _plentiful(group: Group) -> tuple[Stick, ...]:
    """Sticks to be had in any number: a plain fit does without limited stock, and doesn't nest.

    Raises:
        ValueError: a piece is longer than all of them.
    """
    sticks = tuple(stick for stick in group.sticks if stick.limit is None)
    longest = max((stick.capacity for stick in sticks), default=0)
    for demand in group.demands:
        if demand.width > longest:
            raise ValueError(f"no {group.profile} {group.grade} to be had in any number holds {demand.mark}")
    return sticks


def _fitted(sticks: Sequence[Stick], parts: Sequence[Part], opener: Opener) -> tuple[Filled, ...]:
    """Sticks by best fit, each then changed for the cheapest that holds what it got."""
    bins = best_fit([width for width, _ in parts], lambda position: opener(position).capacity)
    patterns = (tuple(parts[position] for position in positions) for positions in bins)
    return tuple(
        Filled(stick=_cheapest(sticks, sum(width for width, _ in pattern)), parts=pattern) for pattern in patterns
    )


def _cheapest(sticks: Sequence[Stick], width: int) -> Stick:
    return min((stick for stick in sticks if stick.capacity >= width), key=lambda stick: (stick.cost, stick.capacity))


def _openers(sticks: Sequence[Stick], widths: Sequence[int]) -> tuple[Opener, ...]:
    """Each stock length (the next longer where it is too short), then the cheapest an inch, then the best filled."""

    def cheapest_an_inch(position: int) -> Stick:
        holding = (stick for stick in sticks if stick.capacity >= widths[position])
        return min(holding, key=lambda stick: Fraction(stick.cost, stick.capacity))

    def best_filled(position: int) -> Stick:
        holding = (stick for stick in sticks if stick.capacity >= widths[position])
        return min(holding, key=lambda stick: Fraction(stick.cost, _filled_width(widths, position, stick.capacity)))

    return (*(_at_least(sticks, widths, stick.capacity) for stick in sticks), cheapest_an_inch, best_filled)


def _at_least(sticks: Sequence[Stick], widths: Sequence[int], capacity: int) -> Opener:
    """Opens sticks of one length, or the next longer one where that is too short."""

    def opener(position: int) -> Stick:
        return next(stick for stick in sticks if stick.capacity >= max(capacity, widths[position]))

    return opener


def _filled_width(widths: Sequence[int], position: int, capacity: int) -> int:
    """What goes into a stick if the piece at a position does and then always the next widest that fits."""
    room = capacity
    while position < len(widths):
        room -= widths[position]
        position = bisect_left(widths, -room, lo=position + 1, key=lambda width: -width)
    return capacity - room
