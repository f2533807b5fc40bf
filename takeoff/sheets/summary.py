"""The short text that a run ends with."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import groupby
from pathlib import Path

from takeoff.catalog.roles import load_words
from takeoff.findings import Severity
from takeoff.measure import format_length
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.cautions import PLACEHOLDER_MONEY

CREW, YARD = "cut_sheets.pdf", "order.xlsx"


def job_folder(job: str) -> str:
    """Name of a job's folder: its letters and figures, lower case, hyphens between."""
    return "-".join(re.findall(r"\w+", job.lower())) or "job"


def summary(takeoff: Takeoff, folder: Path, files: Iterable[str]) -> str:
    """What was taken off and where it stands."""
    names = tuple(files)
    lines = [takeoff.job, "", *_rafters(takeoff), "", *_loads(takeoff), ""]
    lines += [verdict(takeoff), f"{len(names)} files in {folder}"]
    lines += [f"  {folder / name}" for name in (CREW, YARD) if name in names]
    return "\n".join(lines) + "\n"


def verdict(takeoff: Takeoff) -> str:
    """One line: how many warnings and notes the screening has."""
    counts = {severity: sum(f.severity is severity for f in takeoff.findings) for severity in Severity}
    warnings, notes = counts[Severity.WARNING], counts[Severity.NOTE]
    return f"Screened: {warnings} warning{'' if warnings == 1 else 's'}, {notes} note{'' if notes == 1 else 's'}."


def _rafters(takeoff: Takeoff) -> list[str]:
    """One line a rafter mark, in the order of the pieces."""
    rafters = {m.mark: m for building in takeoff.buildings for m in building.members if m.rafter is not None}
    lines = []
    for mark, member in rafters.items():
        count = sum(piece.qty for piece in takeoff.pieces if piece.mark == mark)
        length = format_length(member.length_in, denominator=takeoff.settings.denominator)
        stick = f"{member.profile.name} {member.grade}"
        lines.append(f"  {mark:<4} {count:>3}  {stick:<12} {length:>14}  {member.role.words.split(',')[0]}")
    return lines


def _loads(takeoff: Takeoff) -> list[str]:
    lines = []
    for load, group in groupby(takeoff.order, key=lambda line: line.load):
        of_load = tuple(group)
        weight, cost = sum(line.weight_lb for line in of_load), sum(line.cost or 0.0 for line in of_load)
        lines.append(f"  load {load}  {load_words(load):<24} {weight:>8,.0f} lb  $ {cost:>10,.2f}")
    total = sum(line.cost or 0.0 for line in takeoff.order)
    lines.append(f"  {'all loads':<32} {sum(line.weight_lb for line in takeoff.order):>8,.0f} lb  $ {total:>10,.2f}")
    missing = sum(line.unit_price is None for line in takeoff.order)
    if missing:
        lines.append(f"  {missing} of {len(takeoff.order)} items have no price: the sums are without them.")
    return [*lines, f"  {PLACEHOLDER_MONEY}"] if takeoff.settings.placeholder_prices else lines
