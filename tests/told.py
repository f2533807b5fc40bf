"""Roofs with their slopes told by outline: those that another roof is laid out in."""

from __future__ import annotations

from takeoff.findings import Place
from takeoff.framing.roof_plan import RoofPlan, roof_plan
from takeoff.geometry.roof_edge import RoofEdge
from takeoff.geometry.skeleton import roof_slopes
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building
from takeoff.plan.settled import settled

Written = dict[str, object]


def somewhere(path: str) -> Place:
    """A place in no file."""
    return Place(path=path)


def told_to_the_eaves(building: Building) -> Building:
    """The building with the slopes it is laid out in told one by one, to tail cuts and barges."""
    plan = roof_plan(building, footprint(building), somewhere)
    return _told(building, [_written(building, plan, k) for k in range(len(plan.slopes))], "eave_line")


def told_to_the_walls(building: Building) -> Building:
    """The building with the slopes over its walls alone told one by one; all its eaves are of one pitch."""
    walls, roof = footprint(building), building.roof
    edges = [RoofEdge(s.start, s.end, None if roof.is_gable(s.name) else roof.pitch.slope) for s in walls.sides]
    slopes: list[Written] = [
        {
            "name": f"slope {slope.edge}",
            "points": [list(p) for p, _ in slope.ring],
            "eave": walls.sides[slope.edge].name,
        }
        for slope in roof_slopes(edges)
    ]
    return _told(building, slopes, "plate_line")


def _written(building: Building, plan: RoofPlan, index: int) -> Written:
    slope = plan.slopes[index]
    corners = [slope.bench.placement.to_world((*edge.a, 0.0)) for edge in slope.outline.edges]
    return {
        "name": slope.name,
        "points": [[x, y] for x, y, _ in corners],
        "eave": slope.side,
        "pitch": str(building.roof.pitch_of(slope.side)),
        "plate": plan.line(slope.side).plate,
    }


def _told(building: Building, slopes: list[Written], reach: str) -> Building:
    written = building.model_dump(by_alias=True)
    roof = {
        **written["roof"],
        "shape": "edges",
        "edges": {side: role for side, role in building.roof.edges.items() if role == "abutment"},
        "pitches": {},
    }
    if reach == "eave_line":
        roof.pop("overhang")
    outlines = {"slopes": slopes, "reach": reach}
    return settled(Building.model_validate({**written, "roof": roof, "outlines": outlines}), 30.0)
