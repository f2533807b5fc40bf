"""How long to search: numbers of rounds, columns and nodes, which give the same answer on every machine."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field

from takeoff.cutting.stop import EffortName, MaxRounds, StopRule


@dataclass(frozen=True, slots=True, kw_only=True)
class Dive:
    """A way to round the linear programme, a few patterns at a time."""

    share: float
    """Most boards that are fixed in one step by rounding up, of those still open."""
    threshold: float
    """Least fraction that is rounded up."""
    whole_from: int
    """From so few open boards on, the rest is solved as an integer programme; 0: never."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """Limits of one group's search."""

    rounds: int = 400
    """Of column generation, for the bound."""
    dive_rounds: int = 30
    """Of column generation, in one step of a dive."""
    dive_nodes: int = 20
    """Of the integer programme that a dive ends with."""
    extra_columns: int = 30
    """Patterns added in a round beside the best of each stock."""
    dives: tuple[Dive, ...] = (
        Dive(share=0.5, threshold=0.5, whole_from=0),
        Dive(share=0.5, threshold=0.5, whole_from=25),
        Dive(share=0.2, threshold=0.5, whole_from=0),
        Dive(share=0.3, threshold=0.7, whole_from=25),
    )
    big_items: int = 250
    """From so many different lengths on, a dive takes long, and patterns are too many to list: only the first few dives
    are tried, and no proof by enumeration."""
    big_dives: int = 2
    big_pieces: int = 5_000
    """From so many pieces on, only the first few ways of best fit are tried."""
    big_fits: int = 4
    whole_columns: int = 1_500
    """Columns of an integer programme over the patterns met."""
    whole_cells: int = 150_000
    """Columns of it times items: a large one takes seconds for its first node."""
    whole_nodes: int = 60
    """Of its search; 0: none is tried."""
    proof_columns: int = 500
    """Patterns of a proof; with more, a smaller gap is proven."""
    proof_steps: int = 100_000
    """Of the enumeration of these patterns."""
    proof_nodes: int = 100
    tidy_columns: int = 150
    tidy_nodes: int = 10


_PATIENT_DIVES = (
    *Effort().dives,
    Dive(share=0.3, threshold=0.7, whole_from=0),
    Dive(share=0.3, threshold=0.3, whole_from=0),
)

EFFORTS: dict[EffortName, Effort] = {
    "quick": Effort(
        rounds=100,
        dives=Effort().dives[:2],
        whole_columns=300,
        whole_nodes=20,
        proof_columns=200,
        proof_steps=20_000,
        proof_nodes=20,
        tidy_columns=60,
        tidy_nodes=2,
    ),
    "normal": Effort(),
    "long": Effort(
        rounds=2_000,
        dives=_PATIENT_DIVES,
        big_dives=4,
        whole_columns=3_000,
        whole_cells=600_000,
        whole_nodes=2_000,
        proof_columns=4_000,
        proof_steps=1_000_000,
        proof_nodes=20_000,
        tidy_columns=400,
        tidy_nodes=200,
    ),
}
"""By their names in a plan."""

ESTIMATE = Effort(dives=Effort().dives[:1], whole_nodes=0, proof_columns=0, tidy_columns=0)
"""For a cost to compare by: nothing is tidied, and nothing proven that takes long."""


@dataclass(slots=True)
class Meter:
    """Counts the rounds of a whole search, and asks the stop rule after each."""

    stop: StopRule
    rounds: int = 0
    stopped: bool = field(default=False)

    def tick(self) -> bool:
        """Count a round; whether the search ends now. Once it ends, it stays ended."""
        self.rounds += 1
        self.stopped = self.stopped or self.stop.reached(self.rounds)
        return self.stopped


def patient() -> Meter:
    """A meter that lets a search go on: for the first plan of a group, without which there is no answer."""
    return Meter(MaxRounds(sys.maxsize))
