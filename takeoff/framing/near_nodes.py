"""Nodes of a roof so near each other that the sticks of one stand in those of the other: refused in words.

Where folds meet in one node their sticks are parted there; those of two nodes know nothing of each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import dist
from typing import TYPE_CHECKING

from takeoff.framing.slope import NODE_IN
from takeoff.geometry.node import wood_in_plan
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.framing.folds import FoldStick
    from takeoff.framing.roof_plan import RoofPlan

NEAR_HALVES = 8
"""Nodes further apart than so many half thicknesses leave their sticks room: cuts reach no further."""

SAWN_IN = 1 / 64
"""Half of what two sticks may stand in each other [in]: what a saw and a hammer make good."""


def refuse_crowded(plan: RoofPlan, sticks: Sequence[FoldStick]) -> None:
    """Refuse a roof with sticks that stand in each other near two nodes.

    Raises:
        ValueError: with the two sticks, the place, and how far the nodes are apart.
    """
    for one, other in combinations(sticks, 2):
        near = _near(one, other)
        if near is None:
            continue
        spot, apart = near
        if not _wood(one).intersection(_wood(other)).buffer(-SAWN_IN).is_empty:
            where = f"x {format_length(spot[0])}, y {format_length(spot[1])}"
            raise ValueError(
                f"{_words(plan, one)} and {_words(plan, other)} would stand in each other at {where}: the points that"
                f" they end at are {format_length(apart, denominator=32)} apart, too near for sticks"
                f" {format_length(2 * max(one.half, other.half))} thick; move a side or change a pitch so that these"
                f" points meet, or stand {format_length(NEAR_HALVES * max(one.half, other.half))} apart"
            )


def _wood(stick: FoldStick) -> BaseGeometry:
    fold = stick.fold
    return wood_in_plan(
        fold.low[:2], fold.high[:2], stick.half, stick.lower if not stick.over_wall else (), stick.upper
    )


def _near(one: FoldStick, other: FoldStick) -> tuple[tuple[float, float], float] | None:
    """A node of one stick that is near one of the other's, and how far apart they are; None where they share one."""
    pairs = [(dist(a, b), a[:2]) for a in (one.fold.low, one.fold.high) for b in (other.fold.low, other.fold.high)]
    apart, spot = min(pairs)
    if NODE_IN <= apart < NEAR_HALVES * max(one.half, other.half):
        return spot, apart
    return None


def _words(plan: RoofPlan, stick: FoldStick) -> str:
    sides = [plan.slopes[k].side for k in stick.fold.slopes]
    return f"the {stick.fold.kind} between the {sides[0]} and {sides[1]} slopes"
