"""Sheet "Assumptions": what the figures rest on, cautions, and what the screening found."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePath

from takeoff.catalog.weights import density
from takeoff.findings import Finding
from takeoff.measure import format_inches
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.cautions import CAUTIONS, PLACEHOLDER_MONEY
from takeoff.sheets.cutting_words import proven
from takeoff.sheets.workbook.page import Cell, Heading, Page
from takeoff.sheets.workbook.styles import Style

NAME = "Assumptions"

_SETTING_HEADINGS = (Heading("Setting", most=24), Heading("Value", most=100))
_CAUTION_HEADINGS = (Heading("Caution"), Heading("To be kept in mind"))
_FINDING_HEADINGS = (
    Heading("Finding"),
    Heading("What was found"),
    Heading("Rule", most=30),
    Heading("Section", most=30),
)

_HOW = (
    ("Net", "pieces fitted to boards and sheets; cutting loss is in it"),
    ("To order", "net and the allowance, each line rounded up to whole pieces"),
    ("Board feet", "nominal, of the quantity to order; none for engineered wood and sheets"),
    ("Weight", "of the quantity to order"),
    ("Cost", "to the cent, before tax and delivery"),
)


def write_assumptions(page: Page, takeoff: Takeoff) -> None:
    """Write settings, how the figures are made, cautions and findings."""
    page.headings(_SETTING_HEADINGS)
    for words, value in (*_settings(takeoff), *_HOW):
        page.add((Cell(words, Style.TEXT), Cell(value, Style.WRAP)))
    page.gap()
    page.headings(_CAUTION_HEADINGS)
    for number, caution in enumerate(CAUTIONS, start=1):
        page.add((Cell(str(number), Style.TEXT), Cell(caution, Style.WRAP)))
    page.gap()
    page.headings(_FINDING_HEADINGS)
    for finding in takeoff.findings:
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
    )


def _proof(takeoff: Takeoff) -> str:
    lumber = takeoff.lumber
    return f"boards for ${lumber.cost_usd:,.2f}; no way of cutting costs less than ${lumber.bound_usd:,.2f}"


def _proofs(takeoff: Takeoff) -> Iterator[tuple[str, str]]:
    """How good the cutting of each load, profile and grade is, where that is known."""
    for proof, words in proven(takeoff.lumber):
        yield f"Load {proof.load}, {proof.profile} {proof.grade}", words


def _finding_cells(finding: Finding) -> tuple[Cell, ...]:
    about = ", ".join(part for part in (finding.building, finding.where or finding.place.path) if part)
    return (
        Cell(str(finding.severity), Style.TEXT),
        Cell(f"{about}: {finding.message}" if about else finding.message, Style.WRAP),
        Cell(finding.rule, Style.WRAP),
        Cell(finding.section, Style.WRAP),
    )
