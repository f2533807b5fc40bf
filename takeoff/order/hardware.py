"""Hardware, counted from joints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from takeoff.catalog.hardware import hardware, hardware_items
from takeoff.cutting.natural import natural_key
from takeoff.model.building import FramedBuilding

HARDWARE_LOAD = 2
"""Connectors come with the roof frame they hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareCount:
    """So many of one connector. ``profile`` is the stick it holds, empty where it fits any."""

    name: str
    profile: str
    qty: int


def count_hardware(buildings: Iterable[FramedBuilding]) -> tuple[HardwareCount, ...]:
    """Connectors for all copies of all buildings: a hanger for each hung end, a tie-down for each rafter on plates."""
    counted: Counter[tuple[str, str]] = Counter()
    for building in buildings:
        for name, profile in _connectors(building):
            counted[name, profile if hardware(name).by_profile else ""] += building.count
    rank = {item.name: index for index, item in enumerate(hardware_items())}
    in_order = sorted(counted, key=lambda key: (rank[key[0]], natural_key(key[1])))
    return tuple(HardwareCount(name=name, profile=profile, qty=counted[name, profile]) for name, profile in in_order)


def _connectors(building: FramedBuilding) -> Iterator[tuple[str, str]]:
    """Name of each connector of one copy, with the profile of the stick it holds."""
    for joint in building.joints:
        if joint.kind == "hangs":
            yield "rafter-hanger", building.members[joint.upper].profile.name
    # A rafter that sits over the joint of two plates bears on both, and is tied down once.
    on_plates = {
        joint.upper
        for joint in building.joints
        if joint.kind == "bears"
        and building.members[joint.upper].role.category == "rafters"
        and building.members[joint.lower].role.category == "plates"
    }
    for upper in sorted(on_plates):
        yield "hurricane-tie", building.members[upper].profile.name
