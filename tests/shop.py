"""What tests share: plans as a builder writes them, framed at once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.sheathing.sheathe import sheathe

ROOT = Path(__file__).parent.parent
SAMPLES = ROOT / "sample_plans"
CABIN = SAMPLES / "curlew-cabin.yaml"

Written = dict[str, Any]


def gable(
    *,
    length: str | float = "30'",
    span: str | float = "20'",
    walls: dict[str, Any] | None = None,
    roof: dict[str, Any] | None = None,
    **building: Any,
) -> Building:
    """A gabled rectangle, its ridge along ``length``; ``walls`` and ``roof`` take over keys of the plan."""
    return Building.model_validate(
        {
            "name": "hut",
            "outline": [[0, 0], [length, 0], [length, span], [0, span]],
            "walls": {"studs": "2x6", "sheathing": {"product": "osb-7/16"}, **(walls or {})},
            "roof": {
                "shape": "gable",
                "gables": ["east", "west"],
                "pitch": "8/12",
                "rafters": {"size": "2x10"},
                "ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam"},
                "sheathing": {"field": "cdx-5/8"},
                **(roof or {}),
            },
            **building,
        }
    )


def built(building: Building) -> FramedBuilding:
    """The building framed, sheathed and marked."""
    framed, _ = frame(building, lambda path: Place(path=path))
    (marked,) = mark_buildings([sheathe(framed)])
    return marked


def with_role(members: Iterable[Member], *roles: str) -> tuple[Member, ...]:
    """Those members that have one of these roles."""
    return tuple(member for member in members if member.role.name in roles)


def only(members: Iterable[Member]) -> Member:
    """One member of the single mark that is there."""
    marks = {member.mark: member for member in members}
    assert len(marks) == 1, f"expected one mark, found {sorted(marks)}"
    return next(iter(marks.values()))


def roofed(points: Sequence[tuple[float, float]], *, walls: Written | None = None, **roof: Any) -> Building:
    """A hip roof over any outline, its sides named ``side 1`` and so on; ``walls`` and ``roof`` take over keys."""
    return Building.model_validate(
        {
            "name": "hut",
            "outline": [list(point) for point in points],
            "sides": [f"side {k + 1}" for k in range(len(points))],
            "walls": {"studs": "2x6", "sheathing": {"product": "osb-7/16"}, **(walls or {})},
            "roof": {
                "shape": "hip",
                "pitch": "8/12",
                "rafters": {"size": "2x8"},
                "ridge": {"kind": "board", "size": "2x10"},
                "sheathing": {"field": "cdx-5/8"},
                **roof,
            },
        }
    )
