"""What a plan not yet read says of its roof: which side does what, and how steep it is there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from takeoff.measure import MeasureError, parse_pitch
from takeoff.plan.footprint import Footprint

Part = Literal["eave", "rake", "high", "abutment"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofParts:
    """For each side of the footprint, in its order: its part, and rise over run of the slope that starts on it."""

    parts: tuple[Part, ...]
    slopes: tuple[float | None, ...]


def roof_parts(roof: Any, walls: Footprint) -> RoofParts | None:
    """The parts of the sides; none where the plan's roof can't be understood, which its schema will tell.

    Args:
        roof: the plan's roof, as written.
        walls: the footprint.
    """
    if not isinstance(roof, dict):
        return None
    names = [side.name for side in walls.sides]
    shape = roof.get("shape")
    parts: list[Part] = ["eave"] * len(names)
    if shape == "shed" and len(names) == 4 and roof.get("low") in names:
        low = names.index(roof["low"])
        parts = ["rake"] * 4
        parts[low], parts[low - 2] = "eave", "high"
    elif shape == "gable" and isinstance(roof.get("gables"), list):
        parts = ["rake" if name in roof["gables"] else "eave" for name in names]
    elif shape == "edges" and isinstance(roof.get("edges", {}), dict):
        roles = {"gable": "rake", "abutment": "abutment"}
        parts = [roles.get(roof.get("edges", {}).get(name), "eave") for name in names]  # type: ignore[misc]
    elif shape != "hip":
        return None
    return RoofParts(parts=tuple(parts), slopes=tuple(_slopes(roof, names, parts)))


def _slopes(roof: dict[str, Any], names: Sequence[str], parts: Sequence[Part]) -> list[float | None]:
    own = roof.get("pitches")
    own = own if isinstance(own, dict) else {}
    return [
        _slope(own.get(name, roof.get("pitch"))) if part == "eave" else None
        for name, part in zip(names, parts, strict=True)
    ]


def _slope(pitch: Any) -> float | None:
    try:
        return parse_pitch(pitch).slope
    except MeasureError:
        return None
