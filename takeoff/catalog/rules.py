"""Published limits that the frame is screened against. The local code, the engineer and the maker's tables govern."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One limit, and where it stands."""

    id: str
    words: str
    value: float
    unit: str
    """``in``, or what the value is a share of."""
    section: str
    """Section of the code; empty for common practice."""
    edition: str
    source: str
    how_known: str
    """``seen``, ``memory``, ``derived`` or ``practice``; what is from memory must not be quoted as the code says it."""


@cache
def rules() -> tuple[Rule, ...]:
    """All rules, in the order of the table."""
    return tuple(
        Rule(
            id=row.text("id"),
            words=row.text("words"),
            value=row.number("value"),
            unit=row.text("unit"),
            section=row.optional("section"),
            edition=row.optional("edition"),
            source=row.source,
            how_known=row.how_known,
        )
        for row in read_table("rules")
    )


@cache
def rule(rule_id: str) -> Rule:
    """The rule of that id, such as ``notch.end-depth``.

    Raises:
        UnknownItem: there is none.
    """
    for known in rules():
        if known.id == rule_id:
            return known
    raise UnknownItem("rule", rule_id, (known.id for known in rules()))
