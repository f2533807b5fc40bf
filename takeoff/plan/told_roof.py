"""A building whose slopes are told by outline, with what these tell of its sides: parts, pitches, plates, overhangs."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.plan.by_name import ByName
from takeoff.plan.footprint import Footprint, footprint
from takeoff.plan.roof import Overhangs, Roof
from takeoff.plan.schema import Building
from takeoff.plan.slope_edges import TracedSlopes, traced_slopes
from takeoff.plan.walls import SideWalls, Walls


def with_told_slopes(building: Building) -> Building:
    """The building with the parts of its sides as its slopes tell them; as it is where none are told.

    What the plan itself writes of a side stays; `rules_slopes` compares it.
    """
    slopes = building.outlines.slopes
    if not slopes or building.roof.shape != "edges":
        return building
    walls = footprint(building)
    traced = traced_slopes(building.outlines, walls)
    roof = _roof(building, walls, traced)
    return building.model_copy(update={"roof": roof, "walls": _walls(building, walls, traced)})


def _roof(building: Building, walls: Footprint, traced: TracedSlopes) -> Roof:
    slopes, roof = building.outlines.slopes, building.roof
    eaves = dict(_eaves(traced))
    parts = {edge.side for slope in traced.slopes for edge in slope.edges if edge.side is not None}
    if any(slope.side is None for slope in traced.slopes):
        parts = set(eaves)  # what looks like a gable may be the eave that is missing
    told = {side.name: "eave" if k in eaves else "gable" for k, side in enumerate(walls.sides) if k in parts}
    pitches = {
        walls.sides[k].name: slopes[index].pitch for k, index in eaves.items() if slopes[index].pitch is not None
    }
    update: dict[str, object] = {
        "edges": ByName({**told, **roof.edges}),
        "pitches": ByName({**pitches, **roof.pitches}),
    }
    if building.outlines.reach == "eave_line":
        update["overhang"] = _overhangs(building, walls, traced)
    return roof.model_copy(update=update)


def _eaves(traced: TracedSlopes) -> Iterator[tuple[int, int]]:
    """Sides that carry eaves, each with the slope that starts there."""
    for slope in traced.slopes:
        for edge in slope.edges:
            if edge.is_eave and edge.side is not None:
                yield edge.side, slope.index


def _overhangs(building: Building, walls: Footprint, traced: TracedSlopes) -> Overhangs:
    """The flattest slope's overhang for eaves, and that of the rakes, from how far the outlines reach."""
    outs, eaves, slopes = traced.outs(), dict(_eaves(traced)), building.outlines.slopes
    pitch = {k: (slopes[index].pitch or building.roof.pitch).slope for k, index in eaves.items()}
    over_eaves = [(pitch[k], -outs[k]) for k in eaves]
    rakes = [
        out for k, out in outs.items() if k not in eaves and building.roof.edges.get(walls.sides[k].name) != "abutment"
    ]
    eave = -min(over_eaves)[1] if over_eaves else building.roof.overhang.eave
    rake = rakes[0] if rakes else building.roof.overhang.rake
    return building.roof.overhang.model_copy(update={"eave": eave, "rake": rake})


def _walls(building: Building, walls: Footprint, traced: TracedSlopes) -> Walls:
    """The walls, those under eaves as high as their slope's plate is told."""
    own = dict(building.walls.by_side)
    for k, index in _eaves(traced):
        plate, name = building.outlines.slopes[index].plate, walls.sides[k].name
        if plate is not None:
            side = own.get(name, SideWalls())
            own[name] = side.model_copy(update={"height": plate if side.height is None else side.height})
    return building.walls.model_copy(update={"by_side": ByName(own)})
