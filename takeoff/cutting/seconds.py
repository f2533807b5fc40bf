"""A limit in seconds: for those who would rather have an answer soon than the same answer twice."""

from __future__ import annotations

import time
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class MaxSeconds:
    """Ends a search after a time, counted from when this was made. The result then depends on the machine."""

    seconds: float
    _since: float = field(default_factory=time.monotonic, repr=False, compare=False)

    def __post_init__(self) -> None:
        if self.seconds < 0:
            raise ValueError(f"a time limit is zero or more, not {self.seconds}")

    def reached(self, rounds: int) -> bool:
        """Whether the search ends after so many rounds: only the clock counts."""
        del rounds
        return time.monotonic() - self._since >= self.seconds
