"""Reads a plan: from a file to a frozen `Plan` and what there is to say about it, or to all its errors at once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.plan.drawing_in.drawn import Drawn
from takeoff.plan.drawing_in.put_in import put_in
from takeoff.plan.flaws import Flaw, path_text
from takeoff.plan.mismatch import mismatches
from takeoff.plan.schema import Building, Plan, Settings
from takeoff.plan.settled import settled, settled_plan
from takeoff.plan.tree import Keys, Loc, Node, TreeError, TreeFault, plain, read_tree, spot_of
from takeoff.plan.verify import building_flaws, job_flaws
from takeoff.plan.wording import shown

MAX_BYTES = 1_000_000
"""Largest file taken; a plan has a few thousand."""

_STEP = re.compile(r"\[(\d{1,9})\]|\.?([^.\[\]]+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPlan:
    """A plan, and where each part of it stands in the file."""

    plan: Plan
    file: str
    """Name of the file, without folder."""
    folder: Path
    root: Node
    drawn: Mapping[int, Drawn] = field(default_factory=dict)
    """What drawings give beside the plan, by number of the building."""

    def drawn_of(self, index: int) -> Drawn:
        """What a drawing gives a building beside the plan, by the building's number; nothing where none does."""
        return self.drawn.get(index, Drawn())

    def place(self, path: str) -> Place:
        """Line and column of a part of the plan; of its nearest parent where the plan leaves it out.

        Args:
            path: such as ``buildings[0].roof.pitch``.
        """
        spot = spot_of(self.root, _loc(path))
        return spot.place(self.file, path)


def read_plan(path: str | Path, drawing: Path | None = None) -> tuple[WrittenPlan, tuple[Finding, ...]]:
    """Read and verify a plan.

    Args:
        path: of the file.
        drawing: a DXF file that gives the geometry; the plan then gives the rest.

    Returns:
        The plan, and warnings and notes about it in the order of the file.

    Raises:
        PlanError: it has errors; all of them, with any warnings, are in it.
    """
    path = Path(path)
    root, faults = _tree(path)
    put = put_in(root, path.name, path.parent, drawing)
    root = put.root
    plan, flaws = _understood(plain(root), path.parent, put.undrawn)
    findings = [*put.findings, *(_fault_finding(path.name, fault) for fault in faults)]
    findings += [flaw.finding(path.name, root) for flaw in flaws]
    if plan is None or any(finding.severity is Severity.ERROR for finding in findings):
        raise PlanError(findings)
    written = WrittenPlan(plan=plan, file=path.name, folder=path.parent, root=root, drawn=put.drawn)
    return written, tuple(sorted(findings, key=lambda finding: (finding.place, finding.rule, finding.message)))


def _tree(path: Path) -> tuple[Node, tuple[TreeFault, ...]]:
    """The file's tree, and the faults that left it standing."""
    try:
        root, faults = read_tree(_text(path))
    except TreeError as error:
        raise PlanError([_fault_finding(path.name, error.fault)]) from error
    if not isinstance(root, Keys):
        message = f"found {shown(plain(root))}, expected a plan: keys and values, such as job: My Cabin"
        place = Place(path.name, root.spot.line, root.spot.column)
        raise _file_error(path, "plan.not-a-mapping", message, place)
    return root, faults


def _text(path: Path) -> str:
    """The file's text, of bounded length."""
    try:
        with path.open("rb") as file:
            content = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise _file_error(path, "plan.unreadable", f"can't be read: {error.strerror or error}") from error
    if len(content) > MAX_BYTES:
        raise _file_error(path, "plan.too-large", f"found over {MAX_BYTES:,} bytes, expected a few thousand")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        column = error.start - content.rfind(b"\n", 0, error.start)
        message = "found bytes that are no text, expected UTF-8"
        raise _file_error(path, "plan.encoding", message, Place(path.name, line, column)) from error


def _file_error(path: Path, rule: str, message: str, place: Place | None = None) -> PlanError:
    return PlanError([Finding(rule=rule, severity=Severity.ERROR, message=message, place=place or Place(path.name))])


def _fault_finding(file: str, fault: TreeFault) -> Finding:
    place = Place(file, fault.spot.line, fault.spot.column, path_text(fault.loc))
    return Finding(rule=fault.rule, severity=Severity.ERROR, message=fault.message, place=place)


def _understood(data: Any, folder: Path, undrawn: frozenset[int]) -> tuple[Plan | None, tuple[Flaw, ...]]:
    """The plan and its flaws. Where the schema refuses it, no plan, but also the flaws of the sound buildings.

    Buildings whose drawing couldn't be read aren't asked about their geometry.
    """
    try:
        plan = Plan.model_validate(data)
    except ValidationError as error:
        return None, (*mismatches(error), *_flaws_of_sound_buildings(data, undrawn))
    plan = settled_plan(plan)
    flaws = list(job_flaws(plan, folder))
    for index, building in enumerate(plan.buildings):
        if index not in undrawn:
            flaws += (flaw.under(("buildings", index)) for flaw in building_flaws(building))
    return plan, tuple(flaws)


def _flaws_of_sound_buildings(data: dict[str, Any], undrawn: frozenset[int]) -> Iterator[Flaw]:
    """Flaws of the buildings that the schema takes, or would take without the keys it doesn't know."""
    buildings = data.get("buildings")
    for index, part in enumerate(buildings if isinstance(buildings, list) else ()):
        if index in undrawn:
            continue
        known, blocks = _without_unknown_keys(part)
        try:
            building = Building.model_validate(known)
        except ValidationError:
            continue  # told already, with the whole plan's
        for flaw in building_flaws(settled(building, Settings().snow)):
            # In a block with a key misspelt, what is missing may only seem so.
            if not any(flaw.loc[: len(block)] == block for block in blocks):
                yield flaw.under(("buildings", index))


def _without_unknown_keys(part: Any) -> tuple[Any, tuple[Loc, ...]]:
    """A building without the keys that the schema doesn't know, and the blocks they stood in."""
    try:
        Building.model_validate(part)
    except ValidationError as error:
        unknown = [tuple(each["loc"]) for each in error.errors() if each["type"] == "extra_forbidden"]
        known = deepcopy(part)
        for *block, key in unknown:
            parent = known
            for step in block:
                parent = parent[step]
            del parent[key]
        return known, tuple(loc[:-1] for loc in unknown)
    return part, ()


def _loc(path: str) -> Loc:
    return tuple(int(number) if number else name for number, name in _STEP.findall(path))
