"""Lay-ups bettered one band at a time: what each costs is told by best fit, quickly enough to try hundreds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.cutting.sheet.fit import Fitter, Score
from takeoff.cutting.sheet.space import LayUps, Option, Space
from takeoff.sheathing.ways import cheapest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_FAULT = 1_000
"""Beside which the number of bands that are laid otherwise is small."""


@dataclass(frozen=True, slots=True, order=True)
class Worth:
    """How good some lay-ups are: fewer joints in line, then cheaper."""

    faults: int
    score: Score


class Descent:
    """Betters lay-ups; what it has scored once it knows."""

    def __init__(self, space: Space) -> None:
        """Make ready to fit the pieces of every stock."""
        self._space = space
        self._fitter = Fitter(space.stocks)
        self._known: dict[bytes, Score] = {}
        self._of_options: dict[Option, tuple[NDArray[np.int64], int]] = {}
        self._moved: dict[tuple[Option, int, int], Option] = {}
        self._scored = 0

    def worth(self, options: LayUps) -> Worth:
        """How good some lay-ups are."""
        each = [self._needs(option) for option in options]
        wanted = sum((needs for needs, _ in each[1:]), each[0][0])
        return Worth(sum(faults for _, faults in each), self._score(wanted))

    def _needs(self, option: Option) -> tuple[NDArray[np.int64], int]:
        """How many of each item an option takes, and its joints in line."""
        import numpy as np

        if option not in self._of_options:
            needs = np.zeros(self._space.items, dtype=np.int64)
            for item, count in self._space.needs(option).items():
                needs[item] = count
            self._of_options[option] = needs, self._space.faults((option,))
        return self._of_options[option]

    def fitted(self, options: LayUps) -> tuple[int, int]:
        """What the sheets for some lay-ups cost as best fit cuts them [cents], and how many there are."""
        wanted = self._space.wanted(options)
        patterns = self._fitter.patterns(wanted)
        cost = sum(self._space.stocks[p.stock].sources[p.source].cost for p in patterns)
        return cost, len(patterns)

    def _score(self, wanted: NDArray[np.int64]) -> Score:
        key = wanted.tobytes()
        if key not in self._known:
            self._scored += 1
            self._known[key] = self._fitter.score({item: n for item, n in enumerate(wanted.tolist()) if n})
        return self._known[key]

    def improved(self, start: LayUps, most: int, pools: Sequence[Sequence[Option]]) -> tuple[Worth, LayUps]:
        """Better lay-ups near some, and what they are worth.

        Args:
            start: a lay-up for every face.
            most: lay-ups that are scored.
            pools: for each face whole lay-ups to change for.
        """
        best, options, end = self.worth(start), start, self._scored + most
        again = True
        while again:
            again = False
            for other in self._near(options, pools):
                if self._scored >= end:
                    return best, options
                worth = self.worth(other)
                if worth < best:
                    best, options, again = worth, other, True
                    break
        return best, options

    def _near(self, options: LayUps, pools: Sequence[Sequence[Option]]) -> Iterator[LayUps]:
        """Lay-ups that differ in one face, by one band (and what has to follow it) or as a whole."""
        for k, option in enumerate(options):
            for other in (*self._moves(option), *pools[k]):
                if other != option:
                    yield (*options[:k], other, *options[k + 1 :])

    def _moves(self, option: Option) -> Iterator[Option]:
        divided = self._space.candidate(option).divided
        for j, band in enumerate(divided.bands):
            for way in range(len(band)):
                if way != option.ways[j]:
                    key = option, j, way
                    if key not in self._moved:
                        self._moved[key] = self._move(*key)
                    yield self._moved[key]

    def _move(self, option: Option, band: int, way: int) -> Option:
        """The lay-up with one band laid otherwise; others stay unless their joints would be in line with its own."""
        divided = self._space.candidate(option).divided
        costs = [[int(n != option.ways[i]) for n in range(len(b))] for i, b in enumerate(divided.bands)]
        costs[band] = [int(n != way) * _FAULT * _FAULT for n in range(len(costs[band]))]
        return Option(option.face, option.candidate, cheapest(divided, costs, _FAULT).ways)
