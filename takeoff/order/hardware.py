"""Hardware, counted from joints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import dist

from takeoff.catalog.hardware import hardware, hardware_items
from takeoff.cutting.natural import natural_key
from takeoff.model.building import FramedBuilding
from takeoff.model.joint import Joint

ROOF_HEADER = "roof-header"
PORCH_BEAM, PORCH_POST = "porch-beam", "porch-post"
BUILT_UP = {ROOF_HEADER: "header-hanger", "floor-header": "floor-header-hanger", PORCH_BEAM: "beam-hanger"}
"""What hangs with all its plies in one hanger, and the name of that."""

PLIES_APART = 3
"""Plies of one header lie nearer together than so many times their thickness; no opening is as low as that."""

NAILED = ("ceiling-joist", "rafter-tie")
"""What lies on plates nailed to the rafters beside it, which have connectors of their own."""

WITH_WALLS = ("anchor-bolt", "sill-gasket", "backing-clip", "header-packing")
"""Hardware that comes with the walls."""

HARDWARE_LOAD = 2
"""Connectors come with the roof frame they hold."""

FLOOR_HARDWARE = ("joist-hanger", "floor-header-hanger", "bridging-pair", "deck-glue")
FLOOR_LOAD = 1
"""Those of floors come with the floors."""


def hardware_load(name: str) -> int:
    """The delivery that a connector comes with."""
    return FLOOR_LOAD if name in (*FLOOR_HARDWARE, *WITH_WALLS) else HARDWARE_LOAD


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
        for fitting in building.fittings:
            counted[fitting.name, ""] += fitting.qty * building.count
    rank = {item.name: index for index, item in enumerate(hardware_items())}
    in_order = sorted(counted, key=lambda key: (rank[key[0]], natural_key(key[1])))
    return tuple(HardwareCount(name=name, profile=profile, qty=counted[name, profile]) for name, profile in in_order)


def _connectors(building: FramedBuilding) -> Iterator[tuple[str, str]]:
    """Name of each connector of one copy, with the profile of the stick it holds."""
    for joint in building.joints:
        if joint.kind == "hangs" and building.members[joint.upper].role.name not in BUILT_UP:
            yield _hanger(building, joint), building.members[joint.upper].profile.name
    for joint in _hung_together(building):
        hung = building.members[joint.upper]
        yield BUILT_UP[hung.role.name], hung.profile.name
    yield from _post_hardware(building)
    # A rafter that sits over the joint of two plates bears on both, and is tied down once.
    on_plates = {
        joint.upper
        for joint in building.joints
        if joint.kind == "bears"
        and building.members[joint.upper].role.category == "rafters"
        and building.members[joint.upper].role.name not in NAILED
        and (
            building.members[joint.lower].role.category == "plates"
            or building.members[joint.lower].role.name == PORCH_BEAM
        )
    }
    for upper in sorted(on_plates):
        yield "hurricane-tie", building.members[upper].profile.name


def _hanger(building: FramedBuilding, joint: Joint) -> str:
    """The hanger of a rafter: square where its end is cut square, at the header of an opening."""
    if building.members[joint.upper].role.category == "joists":
        return "joist-hanger"
    cut = building.members[joint.upper].rafter
    square = cut is not None and (cut.square_head or cut.square_foot)
    return "square-hanger" if square and building.members[joint.lower].role.name == ROOF_HEADER else "rafter-hanger"


def _post_hardware(building: FramedBuilding) -> Iterator[tuple[str, str]]:
    """A base under every porch post, and a cap on every one that carries a beam."""
    carrying = {joint.lower for joint in building.joints if building.members[joint.upper].role.name == PORCH_BEAM}
    for index, post in enumerate(building.members):
        if post.role.name == PORCH_POST:
            yield "post-base", post.profile.name
            if index in carrying:
                yield "post-cap", post.profile.name


def _hung_together(building: FramedBuilding) -> Iterator[Joint]:
    """One joint for each end of a header or a porch beam that hangs: its plies lie in one hanger."""
    kept: list[Joint] = []
    for joint in building.joints:
        header = building.members[joint.upper]
        if joint.kind != "hangs" or header.role.name not in BUILT_UP:
            continue
        near = PLIES_APART * header.profile.thickness_in
        if not any(
            other.lower == joint.lower
            and dist(building.members[other.upper].placement.origin, header.placement.origin) < near
            for other in kept
        ):
            kept.append(joint)
            yield joint
