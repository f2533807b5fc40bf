"""Rules of clips and gables on hips: on a gable or a side, over a wall, among parts that go with their hips."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building


def clips_on_gables(building: Building) -> Iterator[Flaw]:
    """A clip takes the peak off a gable, so there must be one on its side."""
    roof, names = building.roof, side_names(building)
    for name in roof.clips:
        loc = ("roof", "clips", name)
        if name not in names:
            yield unknown_side(loc, name, names, at_key=True)
        elif name not in (roof.gables or ()):
            limit = " or ".join(roof.gables or ())
            message = f"found a clip on {name}, where the roof has an eave, expected it on a gable: {limit}"
            yield Flaw(rule="plan.side", loc=loc, message=message, found=name, limit=limit, at_key=True)


def gablets_on_sides(building: Building) -> Iterator[Flaw]:
    """A gable on a hip is on a side that is there."""
    names = side_names(building)
    for name in building.roof.gablets:
        if name not in names:
            yield unknown_side(("roof", "gablets", name), name, names, at_key=True)


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
