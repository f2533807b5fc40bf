"""Joints of a frame whose plates and fascia are joined otherwise."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from shop import SAMPLES

from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.framing.runs import rejoined
from takeoff.model.building import FramedBuilding
from takeoff.plan.read import read_plan


def told(building: FramedBuilding) -> Counter[tuple[str, str, str]]:
    roles = [member.role.name for member in building.members]
    kept = (joint for joint in building.joints if roles[joint.upper] not in ("common-rafter", "end-rafter"))
    return Counter((joint.kind, roles[joint.upper], roles[joint.lower]) for joint in kept)


def test_joints_of_floors_and_porches_outlive_another_way_of_joining_plates() -> None:
    for plan in ("dunlin-studio.yaml", "sanderling-saltbox.yaml"):
        written, _ = read_plan(Path(SAMPLES / plan))
        made, _ = frame(written.plan.buildings[0], lambda path: Place(path=path))
        cut = [(run.length_in / 3, run.length_in * 2 / 3) for run in made.runs]
        other = rejoined(made, cut)
        assert len(other.members) > len(made.members)
        assert told(other) == told(made)
