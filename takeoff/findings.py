"""What the tool has to say about a plan: a finding, where it stands, and the one error that carries findings.

The family of errors:

    PlanError (ValueError)   the plan can't be taken off; holds every finding of that run
"""

from __future__ import annotations

import enum
from collections.abc import Iterable
from dataclasses import dataclass


class Severity(enum.StrEnum):
    """How much a finding matters: an error stops the run, a warning and a note do not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file the builder wrote. Lines and columns count from 1; 0 means not known."""

    file: str = ""
    line: int = 0
    column: int = 0
    path: str = ""
    """Path in the plan, such as ``buildings[0].roof.pitch``."""

    def __str__(self) -> str:
        spot = ":".join(str(part) for part in (self.file, self.line, self.column) if part)
        return spot or self.path


NOWHERE = Place()
"""For what is found in the frame and not in a file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing found, in a plan or in the built frame.

    ``rule`` is stable (scripts select on it). ``section`` names the published rule, where there is one.
    ``where`` says in a builder's words which part of the building is meant.
    """

    rule: str
    severity: Severity
    message: str
    place: Place = NOWHERE
    building: str = ""
    section: str = ""
    where: str = ""
    found: str = ""
    limit: str = ""

    def __str__(self) -> str:
        about = " ".join(part for part in (self.building, self.where) if part) or self.place.path
        head = f"{self.place}: " if self.place.file else ""
        return f"{head}{self.severity}: {about + ': ' if about else ''}{self.message}"


class PlanError(ValueError):
    """A plan that can't be taken off. ``findings`` holds all that is wrong with it, in the order of the file."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(sorted(findings, key=lambda finding: (finding.place, finding.rule, finding.message)))
        super().__init__("\n".join(str(finding) for finding in self.findings))
