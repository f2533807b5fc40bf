"""When a search for a better cutting is to end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

EffortName = Literal["quick", "normal", "long"]
"""How long to search, in counts: rounds, columns and nodes."""


class StopRule(Protocol):
    """Asked after each round of a search; the first round of every part is always finished."""

    def reached(self, rounds: int) -> bool:
        """Whether the search ends after so many rounds."""
        ...


@dataclass(frozen=True, slots=True)
class MaxRounds:
    """Ends after a number of rounds: unlike a number of seconds, that gives the same answer on every machine."""

    rounds: int = 10_000

    def reached(self, rounds: int) -> bool:
        """Whether the search ends after so many rounds."""
        return rounds >= self.rounds


JOB_ROUNDS: dict[EffortName, int] = {"quick": 300, "normal": 10_000, "long": 100_000}
"""Rounds of a whole job."""
