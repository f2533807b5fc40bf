"""Hardware that joints are counted in: hangers, tie-downs, caps and clips."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """A connector, by what it does. Which model carries the load is the maker's table to say."""

    name: str
    words: str
    joins: str
    """The joint it is counted from, in words."""
    by_profile: bool
    """Whether it is ordered to the size of the stick it holds."""
    unit: str
    """``each``, or ``ft`` for what is sold by its length."""


@cache
def hardware_items() -> tuple[Hardware, ...]:
    """All hardware, in the order of the table."""
    return tuple(
        Hardware(
            name=row.text("name"),
            words=row.text("words"),
            joins=row.text("joins"),
            by_profile=row.flag("by_profile"),
            unit=row.one_of("unit", ("each", "ft")),
        )
        for row in read_table("hardware")
    )


def hardware(name: str) -> Hardware:
    """The hardware of that name, such as ``rafter-hanger``.

    Raises:
        UnknownItem: there is none.
    """
    written = "-".join(name.lower().replace("-", " ").split())
    for known in hardware_items():
        if known.name == written:
            return known
    raise UnknownItem("hardware", name, (known.name for known in hardware_items()))
