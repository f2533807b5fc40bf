"""Grades of lumber and materials of engineered wood, and the profiles each goes with."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.profiles import Kind, Profile
from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A grade of sawn lumber, or the material of engineered wood."""

    name: str
    words: str
    kinds: tuple[Kind, ...]
    """Kinds of profile it is made in."""

    def fits(self, profile: Profile) -> bool:
        """Whether that profile is made in this grade or material."""
        return profile.kind in self.kinds


@cache
def grades() -> tuple[Grade, ...]:
    """All grades and materials, in the order of the table."""
    return tuple(
        Grade(name=row.text("name"), words=row.text("words"), kinds=tuple(Kind(kind) for kind in row.names("kinds")))
        for row in read_table("grades")
    )


def grade(name: str) -> Grade:
    """The grade or material of that name; ``No. 2``, ``#2`` and ``No2`` are ``no2``.

    Raises:
        UnknownItem: there is none.
    """
    written = name.strip().lower().replace("#", "no").replace(".", "").replace(" ", "")
    for known in grades():
        if known.name == written:
            return known
    raise UnknownItem("grade", name, (known.name for known in grades()))


def grades_for(profile: Profile) -> tuple[Grade, ...]:
    """The grades or materials a profile is made in."""
    return tuple(known for known in grades() if known.fits(profile))
