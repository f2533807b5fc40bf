"""Header sizes as the trade writes them: plies, a hyphen, and the profile of a ply."""

from __future__ import annotations

import re
from dataclasses import dataclass

from takeoff.catalog.profiles import Profile, profile

_PLIES = re.compile(r"\s*([1-4])\s*-\s*(?!\d+\s*/)(.+)")  # 5-1/2x14 is no header of five plies of 1/2x14


@dataclass(frozen=True, slots=True)
class HeaderSize:
    """Plies of one profile, side by side."""

    plies: int
    size: str
    """Name of the profile of one ply."""

    @property
    def profile(self) -> Profile:
        """The profile of one ply."""
        return profile(self.size)

    @property
    def words(self) -> str:
        """What it is made of: 3-2x10, and of one ply its size alone."""
        return str(self) if self.plies > 1 else self.size

    def __str__(self) -> str:
        return f"{self.plies}-{self.size}"


def parse_header(text: str) -> HeaderSize:
    """Read a header: ``2-2x8`` is two plies of 2x8, and ``4x8`` one of 4x8.

    Raises:
        UnknownItem: the ply is no known profile.
    """
    match = _PLIES.fullmatch(text)
    if match is None:
        return HeaderSize(1, profile(text).name)
    return HeaderSize(int(match[1]), profile(match[2]).name)
