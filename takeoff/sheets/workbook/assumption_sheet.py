"""Sheet "Assumptions": what the figures rest on, cautions, and what the screening found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import PurePath

from takeoff.catalog.weights import density
from takeoff.findings import Finding, Severity
from takeoff.measure import format_inches
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.cautions import CAUTIONS, PLACEHOLDER_MONEY
from takeoff.sheets.cutting_words import proven
from takeoff.sheets.grade_words import opening_words
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Assumptions"

_JOB = "the whole job"
_SUBJECT_WIDE = 26

_SETTING_HEADINGS = (Heading("Setting", most=_SUBJECT_WIDE), Heading("Value", most=74))
_CAUTION_HEADINGS = (Heading("Caution"), Heading("To be kept in mind"))
_FINDING_HEADINGS = (
    Heading("What was found", most=74),
    Heading("Rule", most=20),
    Heading("Section", most=24),
)

_HOW = (
    ("Net", "pieces fitted to boards and sheets; cutting loss is in it"),
    ("To order", "net and the allowance, each line rounded up to whole pieces"),
    ("Board feet", "nominal, of the quantity to order; none for engineered wood and sheets"),
    ("Weight", "of the quantity to order"),
    ("Cost", "to the cent, before tax and delivery"),
)


def write_assumptions(page: Page, takeoff: Takeoff) -> None:
    """Write warnings, cautions, settings and how the figures are made, then the notes by building and rule."""
    warnings = [finding for finding in takeoff.findings if finding.severity is not Severity.NOTE]
    if warnings:
        _add_findings(page, "Warnings", warnings)
        page.gap()
    page.headings(_CAUTION_HEADINGS)
    for number, caution in enumerate(CAUTIONS, start=1):
        page.add((Cell(str(number), Style.TEXT), Cell(caution, Style.WRAP)))
    page.gap()
    page.headings(_SETTING_HEADINGS)
    for words, value in (*_settings(takeoff), *_HOW):
        page.add((Cell(words, Style.TEXT), Cell(value, Style.WRAP)))
    page.gap()
    _add_findings(page, "Notes", [finding for finding in takeoff.findings if finding.severity is Severity.NOTE])


def _add_findings(page: Page, words: str, findings: Sequence[Finding]) -> None:
    """Findings under a band for each building, those of one rule together; what is about the whole job comes last."""
    page.headings((Heading(words, most=_SUBJECT_WIDE), *_FINDING_HEADINGS))
    rules = {rule: number for number, rule in reversed([*enumerate(finding.rule for finding in findings)])}
    buildings = sorted({finding.building for finding in findings}, key=lambda name: (not name, name))
    for building in buildings:
        page.band(building or _JOB, len(_FINDING_HEADINGS) + 1)
        about = (finding for finding in findings if finding.building == building)
        for finding in sorted(about, key=lambda one: rules[one.rule]):
            page.add(_finding_cells(finding))


def _settings(takeoff: Takeoff) -> tuple[tuple[str, str], ...]:
    settings = takeoff.settings
    copies = ", ".join(f"{building.count} x {building.name}" for building in takeoff.buildings)
    return (
        ("Plan", PurePath(takeoff.plan_file).name),
        ("Buildings", copies),
        ("Prices", PLACEHOLDER_MONEY if settings.placeholder_prices else "from the price list given"),
        ("Lengths shown to", format_inches(1 / settings.denominator, denominator=settings.denominator)),
        ("Saw kerf", format_inches(settings.kerf_in, denominator=64)),
        ("Wood", f"{settings.species}, {density(settings.species):.1f} lb a cubic foot"),
        ("Board cutting", _proof(takeoff)),
        *_proofs(takeoff),
        *(("Sheets at openings", words) for words in opening_words(takeoff)),
    )


def _proof(takeoff: Takeoff) -> str:
    lumber = takeoff.lumber
    return f"boards for ${lumber.cost_usd:,.2f}; no way of cutting costs less than ${lumber.bound_usd:,.2f}"


def _proofs(takeoff: Takeoff) -> Iterator[tuple[str, str]]:
    """How good the cutting of each load, profile and grade is, where that is known."""
    for proof, words in proven(takeoff.lumber):
        yield f"Load {proof.load}, {proof.profile} {proof.grade}", words


def _finding_cells(finding: Finding) -> tuple[Cell, ...]:
    return (
        Cell(finding.where or finding.place.path, Style.WRAP),
        Cell(finding.message, Style.WRAP),
        Cell(finding.rule, Style.WRAP),
        Cell(finding.section, Style.WRAP),
    )
