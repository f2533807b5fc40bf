"""Nails that are counted, and how many of them make a pound."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class Nail:
    """A nail as sold, by the pound."""

    name: str
    words: str
    length_in: float
    shank_in: float
    """Diameter [in]."""
    per_lb: int
    """Nails in a pound, about."""


@cache
def nails() -> tuple[Nail, ...]:
    """All nails, in the order of the table."""
    return tuple(
        Nail(
            name=row.text("name"),
            words=row.text("words"),
            length_in=row.inches("length_in"),
            shank_in=row.number("shank_in"),
            per_lb=row.whole("per_lb"),
        )
        for row in read_table("nails")
    )


def nail(name: str) -> Nail:
    """The nail of that name, such as ``8d-common``.

    Raises:
        UnknownItem: there is none.
    """
    written = "-".join(name.lower().replace("-", " ").split())
    for known in nails():
        if known.name == written:
            return known
    raise UnknownItem("nail", name, (known.name for known in nails()))
