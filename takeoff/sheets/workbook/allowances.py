"""Allowances of the order: one percentage for each category, or more where lines of a category differ."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from takeoff.model.order import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A percentage that lines of the order share; the name is what they look it up by."""

    name: str
    share: float
    """Of the net quantity, 0.05 for five per cent."""
    used_for: tuple[str, ...]
    """Profiles with their grades; items that have none."""


AllowanceKey = tuple[str, float]
"""Category and percentage."""


def key_of(line: OrderLine) -> AllowanceKey:
    """What decides which allowance a line has."""
    return line.category, line.waste_pct


def allowances_of(lines: Iterable[OrderLine]) -> Mapping[AllowanceKey, Allowance]:
    """Allowances in the order of the lines; a category's first has its name, a further one a number after it."""
    found: dict[AllowanceKey, Allowance] = {}
    for line in lines:
        key = key_of(line)
        if key not in found:
            before = sum(category == line.category for category, _ in found)
            name = f"{line.category} {before + 1}" if before else line.category
            found[key] = Allowance(name=name, share=line.waste_pct / 100, used_for=())
        what = f"{line.profile} {line.grade}" if line.grade else line.item
        if what not in found[key].used_for:
            found[key] = replace(found[key], used_for=(*found[key].used_for, what))
    return found
