"""The step that neighbours of a series have in common."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import pairwise

from takeoff.measure import round_to


def common_step(lengths: Iterable[float], denominator: int) -> float | None:
    """The step that most neighbours have, to one over ``denominator`` [in].

    None unless more than one pair has it, and at least a third of them: on a broken rake some agree by chance.
    """
    ordered = sorted(lengths)
    steps = Counter(round_to(b - a, denominator=denominator) for a, b in pairwise(ordered))
    if not steps:
        return None
    step, times = max(steps.items(), key=lambda item: (item[1], -item[0]))
    return step if times > 1 and 3 * times >= steps.total() else None
