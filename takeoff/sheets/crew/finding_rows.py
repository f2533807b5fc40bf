"""What was found: warnings first, then what was assumed, then what was held against a rule, by parts of the building.

Findings that say the same of several places are one row.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from takeoff.findings import Finding, Severity
from takeoff.sheets.crew.alike import alike

_WALLS = ("stud", "header", "brace", "plate", "fireblock", "anchor")
_FLOORS = ("joist", "floor")
_ORDER = ("order", "prices", "on-hand", "cutting", "quotes")
_OF_RULE = {
    "bearing.joist": "Floors",
    "frame.girder": "Floors",
    "frame.header": "Walls",
    "frame.joists": "Floors",
    "frame.loft": "Floors",
    "frame.loft-guard": "Floors",
    "frame.partition": "Walls",
    "frame.squash-block": "Floors",
    "frame.stud-pack": "Walls",
    "frame.studs-under-rafters": "Walls",
    "plan.floor": "Floors",
    "plan.opening": "Walls",
    "plan.partition": "Walls",
}
"""Parts of the building of rules whose first word doesn't tell."""

_PARTS = ("Floors", "Walls", "Roof", "Sheathing", "Order and prices")


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingRow:
    """What was found, with all places that it was found at."""

    where: str
    message: str
    section: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingGroup:
    """Rows about one part of the building."""

    part: str
    rows: tuple[FindingRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """All that was found."""

    warnings: tuple[FindingRow, ...]
    assumed: tuple[FindingGroup, ...]
    """What was decided, or told for information."""
    checked: tuple[FindingGroup, ...]
    """What keeps within a rule."""


def found_rows(findings: Sequence[Finding]) -> Found:
    """Findings as the book tells them; the building is named where there are several."""
    several = len({finding.building for finding in findings if finding.building}) > 1
    notes = [finding for finding in findings if finding.severity is Severity.NOTE]
    return Found(
        warnings=_rows((f for f in findings if f.severity is not Severity.NOTE), several=several),
        assumed=_groups([f for f in notes if not f.limit], several=several),
        checked=_groups([f for f in notes if f.limit], several=several),
    )


def _groups(findings: Sequence[Finding], *, several: bool) -> tuple[FindingGroup, ...]:
    return tuple(
        FindingGroup(part=part, rows=rows)
        for part in _PARTS
        if (rows := _rows((f for f in findings if _part(f.rule) == part), several=several))
    )


def _part(rule: str) -> str:
    first = rule.split(".", maxsplit=1)[0]
    known = {
        **dict.fromkeys(_WALLS, "Walls"),
        **dict.fromkeys(_FLOORS, "Floors"),
        **dict.fromkeys(_ORDER, "Order and prices"),
    }
    return _OF_RULE.get(rule) or known.get(first) or ("Sheathing" if first == "sheathing" else "Roof")


def _rows(findings: Iterable[Finding], *, several: bool) -> tuple[FindingRow, ...]:
    groups = alike(findings, lambda finding: (finding.message, finding.section))
    return tuple(
        FindingRow(
            where=_joined([_where(finding, several=several) for finding in group]),
            message=group[0].message,
            section=group[0].section,
        )
        for group in groups
    )


def _where(finding: Finding, *, several: bool) -> str:
    about = finding.where or finding.place.path
    return " ".join(part for part in (finding.building if several else "", about) if part)


def _joined(places: Sequence[str]) -> str:
    """``south wall, stud S1; north wall, stud S1`` with what all places end in said once: ``south, north wall, …``."""
    known = list(dict.fromkeys(places))
    _, _, end = known[0].partition(" wall, ")
    if end and all(place.endswith(f" wall, {end}") for place in known):
        sides = ", ".join(place.removesuffix(f" wall, {end}") for place in known)
        return f"{sides} wall{'s' if len(known) > 1 else ''}, {end}"
    return "; ".join(known)
