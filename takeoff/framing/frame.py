"""The order of framing: walls under roof under trim, then the minor roofs; one building."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.findings import Finding, Place
from takeoff.framing.block_rows import partition_rows
from takeoff.framing.contacts import contacts
from takeoff.framing.dormers import dormers
from takeoff.framing.faces import partition_face, wall_cover, wall_face
from takeoff.framing.floors import framed_floors
from takeoff.framing.inside_lines import post_lines, with_joists
from takeoff.framing.lines import left_end, partition_lines, wall_lines
from takeoff.framing.minor import Host, Minor, minor_part, roof_part
from takeoff.framing.mouths import mouth_part
from takeoff.framing.part import Part, joined
from takeoff.framing.partitions import refuse_in_the_roof, with_partitions
from takeoff.framing.porches import porches
from takeoff.framing.ridge_posts import inside_posts, post_members
from takeoff.framing.roof_design import designed
from takeoff.framing.runs import runs
from takeoff.framing.set_out import backing_heights, partition_faces
from takeoff.framing.sills import fittings, sill_line
from takeoff.framing.stud_packs import beam_ends, packed
from takeoff.framing.ties import tie_members
from takeoff.framing.under_purlins import purlin_members
from takeoff.framing.walls import wall_members, walls
from takeoff.model.building import FramedBuilding
from takeoff.plan.footprint import footprint

if TYPE_CHECKING:
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.model.fitting import Fitting
    from takeoff.model.run import Run
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

MINORS: tuple[Callable[[Host], tuple[Minor, ...]], ...] = (porches, dormers)
"""What makes the minor roofs of a building, in the order in which they are framed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Main:
    """The main building's own sticks, its plates and fascia as runs, and hardware that no joint tells of."""

    part: Part
    runs: tuple[Run, ...]
    fittings: tuple[Fitting, ...]


def frame(
    building: Building, written: Callable[[str], Place], sheet_edges: Mapping[str, tuple[float, ...]] | None = None
) -> tuple[FramedBuilding, tuple[Finding, ...]]:
    """Frame one building.

    Args:
        building: as the plan writes it, already verified.
        written: gives the place in the plan of a path within the building, such as ``roof.pitch``.
        sheet_edges: by slope, v of the level joints of its sheets [in]; left out, those of the plain lay-up.

    Returns:
        The framed building, its sticks not yet marked and its faces not yet sheathed; and what was decided.

    Raises:
        PlanError: no such roof can be framed.
    """
    ground = footprint(building)
    edges = sheet_edges or {}
    roof = designed(building, ground, written, edges)
    main = _main(building, ground, roof, written)
    host = Host(building=building, ground=ground, roof=roof, part=main.part, written=written, sheet_edges=edges)
    whole = joined((main.part, *(minor_part(minor, host) for make in MINORS for minor in make(host))))
    floors = framed_floors(building, ground, written, whole.members, whole.faces)
    framed = FramedBuilding(
        name=building.name,
        count=building.count,
        members=(*whole.members, *floors.members),
        joints=(*contacts(whole.members), *floors.joints),
        lines=(*whole.lines, *floors.lines),
        faces=(*whole.faces, *floors.faces),
        runs=main.runs,
        fittings=(*main.fittings, *floors.fittings),
        vent_area_sqin=whole.vent_area_sqin,
    )
    return framed, (*whole.findings, *floors.findings)


def _main(building: Building, ground: Footprint, roof: RoofFrame, written: Callable[[str], Place]) -> _Main:
    """The main building: its walls and partitions, its roof, and what stands inside."""
    inside_walls = with_partitions(building, walls(building, roof, ground, written), written)
    ends = beam_ends(building, ground, written)
    all_walls, of_packs = packed(building.name, (*inside_walls.sides, *inside_walls.partitions), ends)
    standing, parting = all_walls[: len(inside_walls.sides)], all_walls[len(inside_walls.sides) :]
    covers = [wall_cover(building, wall, roof) for wall in standing]
    in_walls = [wall_members(wall, cover.rows) for wall, cover in zip(standing, covers, strict=True)]
    in_partitions = [wall_members(wall, partition_rows(wall)) for wall in parting]
    in_walls = [(*group, *inside_walls.backing(wall, group)) for wall, group in zip(standing, in_walls, strict=True)]
    in_partitions = [
        (*group, *inside_walls.backing(wall, group)) for wall, group in zip(parting, in_partitions, strict=True)
    ]
    over = roof_part(building, ground, roof, written)
    posts, of_posts = inside_posts(building, roof, over.members, written)
    ties, of_ties = tie_members(building, roof, posts, written)
    purlins, of_purlins = purlin_members(building, roof, ties, written)
    sill = building.walls.sill
    sills = [
        sill_line(wall, left_end(wall, ground), group, sill)
        for wall, group in zip(standing, in_walls, strict=True)
        if sill
    ]
    under = Part(
        members=tuple(m for group in (*in_walls, *in_partitions) for m in group),
        lines=(
            *(line for wall, group in zip(standing, in_walls, strict=True) for line in wall_lines(wall, ground, group)),
            *sills,
            *(
                line
                for wall, group in zip(parting, in_partitions, strict=True)
                for line in partition_lines(wall, group)
            ),
            *partition_faces(standing, parting),
            *(
                line
                for wall, group in zip(all_walls, (*in_walls, *in_partitions), strict=True)
                for line in backing_heights(wall, group)
            ),
        ),
        faces=tuple(wall_face(wall, cover) for wall, cover in zip(standing, covers, strict=True)),
    )
    inside = Part(
        members=(*post_members(building, posts, written("roof.ridge")), *ties, *purlins),
        lines=tuple(post_lines(roof, posts)),
        faces=tuple(map(partition_face, parting)),
        findings=(*of_posts, *of_ties, *of_purlins, *of_packs),
    )
    wings = mouth_part(building, roof, ground, parting, written)
    own_tops = [wall for wall in standing if wall.top and not wall.rake]
    refuse_in_the_roof((*parting, *own_tops), (*over.members, *inside.members))
    whole = joined((under, replace(over, lines=with_joists(over.lines, roof, ties)), wings, inside))
    bottom = [m for group in in_walls for m in group if m.role.name == "bottom-plate"]
    return _Main(
        part=whole,
        runs=runs(whole.members, standing, roof.rows, bolted=sill is not None),
        fittings=tuple(fittings((*standing, *parting), sills, bottom, sill)),
    )
