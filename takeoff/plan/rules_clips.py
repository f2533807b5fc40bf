"""Rules of clips and gables on hips: on a gable or a side, over a wall, among parts that go with their hips."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.profiles import profile
from takeoff.geometry.roof_edge import along, turn
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import SQUARE_IN, footprint, side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building


def clips_on_gables(building: Building) -> Iterator[Flaw]:
    """A clip takes the peak off a gable, so there must be one on its side."""
    roof, names = building.roof, side_names(building)
    for name in roof.clips:
        loc = ("roof", "clips", name)
        if name not in names:
            yield unknown_side(loc, name, names, at_key=True)
        elif not roof.is_gable(name) or roof.is_abutment(name):
            limit = " or ".join(each for each in names if roof.is_gable(each) and not roof.is_abutment(each))
            where = "a standing wall" if roof.is_abutment(name) else "an eave"
            message = f"found a clip on {name}, where the roof has {where}, expected it on a gable"
            message += f": {limit}" if limit else ""
            yield Flaw(rule="plan.side", loc=loc, message=message, found=name, limit=limit, at_key=True)


def clips_between_eaves(building: Building) -> Iterator[Flaw]:
    """The two slopes that a clip cuts off start on the sides round its gable's corners, square to it."""
    walls, roof = footprint(building), building.roof
    for name in roof.clips:
        if name not in side_names(building) or not roof.is_gable(name):
            continue
        side = walls.side(name)
        for beside in (walls.left_of(name), walls.right_of(name)):
            lean = abs(along(side.direction, beside.direction)) * beside.length_in
            if roof.is_gable(beside.name):
                wanted = f"an eave on {beside.name}: a clip cuts off the peak between two eaves"
            elif turn(side.direction, beside.direction) * (1 if beside == walls.right_of(name) else -1) < 0:
                wanted = f"an outer corner with {beside.name}"
            elif lean > SQUARE_IN:
                wanted = f"a square corner with {beside.name}, which is {format_length(lean)} out of square"
            else:
                continue
            message = f"found a clip on {name}, expected {wanted}"
            yield Flaw(rule="plan.side", loc=("roof", "clips", name), message=message, found=name, at_key=True)


def gablets_on_hips(building: Building) -> Iterator[Flaw]:
    """A gable on a hip is on a side that is there, and has an eave."""
    names, roof = side_names(building), building.roof
    for name in roof.gablets:
        loc = ("roof", "gablets", name)
        if name not in names:
            yield unknown_side(loc, name, names, at_key=True)
        elif roof.is_gable(name):
            limit = " or ".join(each for each in names if not roof.is_gable(each))
            message = f"found a small gable on {name}, where no hip slope starts, expected it on an eave: {limit}"
            yield Flaw(rule="plan.side", loc=loc, message=message, found=name, limit=limit, at_key=True)


def gablets_with_barges(building: Building) -> Iterator[Flaw]:
    """What stands out over a small gable's face ends at barge rafters."""
    roof = building.roof
    for name, gablet in roof.gablets.items():
        least = profile(roof.barge.size).thickness_in if roof.barge else 0.0
        if gablet.overhang and (roof.barge is None or gablet.overhang < least):
            found = format_length(gablet.overhang)
            expected = f"at least {format_length(least)}, the barge's thickness" if roof.barge else "barge, its size"
            message = f"found a small gable that stands out {found}, expected {expected}"
            yield Flaw(rule="plan.roof", loc=("roof", "gablets", name, "overhang"), message=message, found=found)


def parts_beside_clips(building: Building) -> Iterator[Flaw]:
    """The hips of a clip meet the ridge's face, its tails end beside the barges, its jacks stand where purlins end."""
    roof = building.roof
    if not roof.clips:
        return
    if roof.over_beam:
        message = "found support: over under a clip, expected support: face: its hips meet the face of the ridge"
        yield Flaw(rule="plan.roof", loc=("roof", "ridge", "support"), message=message, found="over", limit="face")
    if roof.tail.cut == "square":
        message = (
            "found square tails beside a clip, expected tails cut plumb or level: its fascia would lean into the barges"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "tail", "cut"), message=message, found="square")
    if roof.purlins:
        message = (
            "found purlins under a clip, expected none: they run from gable to gable, where its jacks are too short"
            " for them; take deeper rafters"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "purlins"), message=message, at_key=True)
