"""Roles: what a stick does in the frame, and with it its letter, order category, delivery and layout mark."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem

CATEGORIES = ("studs", "plates", "joists", "headers", "beams", "rafters", "blocking", "trim", "posts")
"""Categories of lumber on the order, in its order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Role:
    """What a stick does in the frame."""

    name: str
    letter: str
    """Start of its mark, written on the stick with a crayon; no two roles share one."""
    category: str
    load: int
    """The delivery it rides on."""
    words: str
    layout_symbol: str
    """What is written beside the layout line on a plate, ridge or beam, on the side the stick stands."""


@cache
def roles() -> tuple[Role, ...]:
    """All roles, in the order of the table."""
    return tuple(
        Role(
            name=row.text("role"),
            letter=row.text("letter"),
            category=row.one_of("category", CATEGORIES),
            load=row.whole("load"),
            words=row.text("words"),
            layout_symbol=row.text("layout_symbol"),
        )
        for row in read_table("roles")
    )


@cache
def role(name: str) -> Role:
    """The role of that name, such as ``common-rafter``; ``common rafter`` is the same.

    Raises:
        UnknownItem: there is none.
    """
    written = "-".join(name.lower().replace("-", " ").split())
    for known in roles():
        if known.name == written:
            return known
    raise UnknownItem("role", name, (known.name for known in roles()))


@cache
def loads() -> tuple[tuple[int, str], ...]:
    """Number and words of each delivery, in the order of the job."""
    return tuple(sorted((row.whole("load"), row.text("words")) for row in read_table("loads")))


def load_words(number: int) -> str:
    """What a delivery brings, in words.

    Raises:
        UnknownItem: there is no such delivery.
    """
    known = dict(loads())
    if number not in known:
        raise UnknownItem("load", str(number), map(str, known))
    return known[number]
