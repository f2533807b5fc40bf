"""How a check puts what it found."""

from __future__ import annotations

from takeoff.catalog.rules import Rule
from takeoff.findings import NOWHERE, Finding, Place, Severity


def verdict(
    rule: Rule,
    *,
    passed: bool,
    building: str,
    where: str,
    found: str,
    limit: str,
    place: Place = NOWHERE,
    advice: str = "",
) -> Finding:
    """A note where the rule is kept, a warning with ``advice`` where it is not.

    The rule's words end so that the limit can follow: "bearing of a rafter, at least".
    """
    message = f"{found}; {rule.words} {limit}"
    return Finding(
        rule=rule.id,
        severity=Severity.NOTE if passed else Severity.WARNING,
        message=message if passed or not advice else f"{message}; {advice}",
        place=place,
        building=building,
        section=section(rule),
        where=where,
        found=found,
        limit=limit,
    )


def section(rule: Rule) -> str:
    """Section and edition of a rule; what was only recalled is said to be."""
    named = ", ".join(part for part in (rule.section, rule.edition) if part) or "common practice"
    return f"{named} (recalled, to be looked up)" if rule.how_known == "memory" and rule.section else named
