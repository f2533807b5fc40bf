"""The walls of a building: one `Wall` a side, and all that is framed in each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile
from takeoff.findings import Place
from takeoff.framing.gable_end import RidgePost, fire_blocks, post_members
from takeoff.framing.openings import opening_members, rough_opening
from takeoff.framing.plates import plates
from takeoff.framing.stick import Bench
from takeoff.framing.studs import fixed_uprights, layout_studs, studs
from takeoff.framing.wall import RakeLine, Wall
from takeoff.geometry.placement import Placement
from takeoff.geometry.vec import UP
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building


def wall_placement(side: Side, z: float = 0.0) -> Placement:
    """Axes of a wall's outside face: u to the right seen from outside, v up, the third axis out of the building."""
    return Placement((side.start[0], side.start[1], z), (*side.direction, 0.0), UP)


def walls(building: Building, footprint: Footprint, written: Callable[[str], Place]) -> tuple[Wall, ...]:
    """The walls of a gabled rectangle, without rakes: eave walls run through, gable walls butt between them.

    Layouts of opposite walls start at the same end of the building, so that studs stand opposite each other.
    """
    return tuple(_wall(building, footprint, side, written) for side in footprint.sides)


def _wall(building: Building, footprint: Footprint, side: Side, written: Callable[[str], Place]) -> Wall:
    settings = building.walls.for_side(side.name)
    gable = side.name in building.roof.gables
    left, right = footprint.left_of(side.name), footprint.right_of(side.name)
    depths = tuple(profile(building.walls.for_side(other.name).studs).depth_in for other in (left, right))
    length = side.length_in
    balloon = settings.frame == "balloon"
    neighbours_capped = tuple(building.walls.for_side(other.name).frame != "balloon" for other in (left, right))
    extent = (depths[0], length - depths[1]) if gable else (0.0, length)
    # Cap plates of butt walls run over the through walls, whose own caps stop short for them.
    cap = (0.0, length)
    if not gable:
        cap = (depths[0] * neighbours_capped[0], length - depths[1] * neighbours_capped[1])
    openings = tuple(rough_opening(o) for o in building.walls.openings if o.side == side.name)
    return Wall(
        side=side,
        bench=Bench(building=building.name, face=side.name, placement=wall_placement(side), written=written("walls")),
        studs=profile(settings.studs),
        grade=settings.grade,
        plates_grade=settings.plates_grade,
        spacing=settings.spacing_in,
        height=settings.height_in,
        from_right=footprint.sides.index(side) >= len(footprint.sides) // 2,
        extent=extent,
        neighbours=(0.0, 0.0) if gable else (depths[0], depths[1]),
        cap_extent=cap,
        openings=tuple(sorted(openings, key=lambda o: o.u)),
        rake=None,
        balloon=balloon,
    )


def with_rake(wall: Wall, rake: RakeLine) -> Wall:
    """The same wall as a gable wall, reaching to its rake."""
    return replace(wall, rake=rake)


def wall_members(wall: Wall, post: RidgePost | None) -> tuple[Member, ...]:
    """All sticks of a wall: plates, studs, openings, the post under a ridge beam, fire blocks."""
    post_centres = post.centres if post else ()
    fixed = fixed_uprights(wall, post=post_centres)
    uprights = (*studs(wall, fixed, post_centres), *(post_members(wall, post) if post else ()))
    framed = opening_members(wall)
    jacks = tuple(m for m in framed if m.role.name == "jack-stud")
    return (
        *plates(wall, stud_centres(wall, post), longest_stock(wall)),
        *uprights,
        *framed,
        *fire_blocks(wall, (*uprights, *jacks)),
    )


def stud_centres(wall: Wall, post: RidgePost | None = None) -> tuple[float, ...]:
    """Centres of everything in a wall that the edge of a sheet or a joint of a plate can land on, left to right."""
    post_centres = post.centres if post else ()
    fixed = tuple(upright.u for upright in fixed_uprights(wall, post=post_centres))
    return tuple(sorted((*fixed, *post_centres, *layout_studs(wall, (*fixed, *post_centres)))))


def longest_stock(wall: Wall) -> float:
    """Longest plate on sale [in]."""
    return stock_lengths(wall.studs, wall.plates_grade)[-1]
