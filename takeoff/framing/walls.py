"""The walls of a building: one `Wall` a side, and all that is framed in each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.block_rows import Rows
from takeoff.framing.gable_end import fire_blocks, post_members
from takeoff.framing.gable_walls import posts_under, rake_line, ridges_over
from takeoff.framing.high_openings import refuse_over_the_rake
from takeoff.framing.openings import hung, opening_members, rough_opening
from takeoff.framing.plates import clip_plates, plates
from takeoff.framing.porch_posts import porch_posts
from takeoff.framing.post_room import refuse_cut_posts
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.stick import Bench
from takeoff.framing.studs import fixed_uprights, layout_studs, studs
from takeoff.framing.tees import tee_members
from takeoff.framing.top_room import refuse_top_over_rake
from takeoff.framing.wall import Details, PlateEnd, RoughOpening, Wall
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.measure import format_length
from takeoff.model.member import Member
from takeoff.plan.rules_openings import rises_to_the_rake

if TYPE_CHECKING:
    from takeoff.plan.footprint import Footprint, Side
    from takeoff.plan.schema import Building


def wall_placement(side: Side, z: float = 0.0) -> Placement:
    """Axes of a wall's outside face: u to the right seen from outside, v up, the third axis out of the building."""
    return Placement((side.start[0], side.start[1], z), (*side.direction, 0.0), UP)


def walls(
    building: Building, frame: RoofFrame, footprint: Footprint, written: Callable[[str], Place]
) -> tuple[Wall, ...]:
    """The walls of a building, each knowing where it ends at its corners and what of the roof it carries.

    Layouts of opposite walls start at the same end of the building, so that studs stand opposite each other.
    """
    return tuple(
        _wall(building, frame, footprint, index, written)
        for index, side in enumerate(footprint.sides)
        if stands(building, frame, side.name)
    )


def stands(building: Building, frame: RoofFrame, side: str) -> bool:
    """Whether a side's wall is framed: any but an abutment's, unless that is told its own top."""
    return frame.plan.line(side).role != "abutment" or building.walls.for_side(side).top is not None


def _wall(
    building: Building, frame: RoofFrame, footprint: Footprint, index: int, written: Callable[[str], Place]
) -> Wall:
    side = footprint.sides[index]
    settings = building.walls.for_side(side.name)
    left, right = (_corner(building, frame, footprint, index, end) for end in (0, 1))
    length = side.length_in
    openings = _openings(building, side.name, frame.plan.line(side.name).plate)
    top = settings.top_line()
    plain = Wall(
        side=side,
        bench=Bench(building=building.name, face=side.name, placement=wall_placement(side), written=written("walls")),
        studs=profile(settings.studs),
        grade=settings.grade,
        plates_grade=settings.plates_grade,
        spacing=settings.spacing_in,
        height=frame.plan.line(side.name).plate,
        from_right=index >= len(footprint.sides) // 2,
        ends=(left.start, (length - right.start[0], length - right.start[1])),
        neighbours=(left.backing, right.backing),
        cap_ends=(left.cap, (length - right.cap[0], length - right.cap[1])),
        openings=tuple(sorted(openings, key=lambda o: o.u)),
        balloon=_balloon(building, frame, side.name),
        details=details_of(building),
        top=top,
        rake_plates=1 if settings.rake_plates and _balloon(building, frame, side.name) else 0,
    )
    reach = [
        (top.at(sum(over.u) / 2) if top else plain.height) - over.bottom
        for over in ridges_over(frame, plain)
        if plain.platform
    ]
    if reach and max(reach) > 0:
        depth = format_length(max(reach))
        message = (
            f"the ridge reaches {depth} down into the plates of the {side.name} wall; take a shallower one,"
            f" or write by_side: {{{side.name}: {{frame: balloon}}}}"
        )
        raise PlanError(
            [Finding(rule="frame.ridge", severity=Severity.ERROR, message=message, place=written("roof.ridge"))]
        )
    line = frame.plan.line(side.name)
    raked = replace(plain, rake=rake_line(frame, line, plain.studs)) if line.role == "gable" else plain
    _refuse_low_rake(raked, written("walls"))
    refuse_top_over_rake(raked, written)
    refuse_over_the_rake(building, raked, written)
    whole = replace(raked, posts=posts_under(frame, raked), ridges=ridges_over(frame, raked))
    refuse_cut_posts(whole, written("walls.openings"))
    return replace(whole, posts=(*whole.posts, *porch_posts(building, whole)))


def _openings(building: Building, side: str, height: float) -> tuple[RoughOpening, ...]:
    """The openings of a side as they are framed, their headers hung where the plan has them."""
    top = height - 2 * profile(building.walls.for_side(side).studs).thickness_in
    return tuple(
        hung(rough_opening(o), top)
        if (o.header_at or building.walls.header_at) == "plates"
        and not rises_to_the_rake(building, side)
        and building.walls.for_side(side).top is None
        else rough_opening(o)
        for o in building.walls.openings
        if o.side == side
    )


def _refuse_low_rake(wall: Wall, place: Place) -> None:
    """A platform-framed wall has its plates at one height, and the rake must clear them from end to end."""
    if wall.balloon or wall.rake is None or wall.top:
        return
    low = min(wall.rake.at(u) for u in wall.extent)
    if low < wall.height - wall.plate:
        depth, name = format_length(wall.height - low), wall.side.name
        message = (
            f"the rake passes {depth} under the top of the {name} wall's plates;"
            f" write by_side: {{{name}: {{frame: balloon}}}}"
        )
        raise PlanError([Finding(rule="frame.rake", severity=Severity.ERROR, message=message, place=place)])


@dataclass(frozen=True, slots=True)
class _Corner:
    """How a wall ends at a corner, measured from the corner into the wall [in]; below 0 beyond the corner."""

    start: PlateEnd
    """Of the framing, on the wall's outside and on its inside."""
    cap: PlateEnd
    """Of the cap plate: it runs over the wall that is met, or stops short for that one's."""
    backing: float
    """Depth of the wall that butts behind the corner; 0 where none does."""


def _corner(building: Building, frame: RoofFrame, footprint: Footprint, index: int, end: int) -> _Corner:
    """A wall at its left (0) or right (1) corner. Eave walls run through, others butt; of two alike, every other."""
    sides = footprint.sides
    other = (index + (1 if end else -1)) % len(sides)
    if not stands(building, frame, sides[other].name):
        return _Corner((0.0, 0.0), (0.0, 0.0), 0.0)  # against a wall that stands already
    met = profile(building.walls.for_side(sides[other].name).studs).depth_in
    own = profile(building.walls.for_side(sides[index].name).studs).depth_in
    laps = _caps_level(building, frame, (sides[index].name, end), (sides[other].name, 1 - end))
    met_capped = laps and not _balloon(building, frame, sides[other].name)
    before, after = (sides[k].direction for k in ((index, other) if end else (other, index)))
    turn = before[0] * after[1] - before[1] * after[0]
    # From the corner: the other wall's outside, and its inside. At an inner corner those lie beyond the corner.
    lean = -own * (before[0] * after[0] + before[1] * after[1]) / turn
    outside, inside = ((far / turn, far / turn + lean) for far in (0.0, met))
    through = _rank(building, frame, sides, index) > _rank(building, frame, sides, other)
    # The wall that runs through ends at the other's far face: its outside at an outer corner, its inside at an inner.
    far, near = (outside, inside) if turn > 0 else (inside, outside)
    if through:
        return _Corner(far, near if met_capped else far, near[0] - far[0] if turn > 0 else 0.0)
    return _Corner(near, far if laps else near, 0.0)


def _caps_level(building: Building, frame: RoofFrame, *ends: tuple[str, int]) -> bool:
    """Whether the cap plates of two walls lie at one height where they meet, each at its left (0) or right (1) end."""
    heights = []
    for name, end in ends:
        line = frame.plan.line(name)
        top = building.walls.for_side(name).top_line()
        heights.append(top.at(end * line.side.length_in) if top else line.plate)
    return abs(heights[0] - heights[1]) < TOLERANCE.mark


def _balloon(building: Building, frame: RoofFrame, side: str) -> bool:
    """Whether studs run to the rake: as the plan has it; under a shed roof, whose end walls slope, always."""
    if frame.plan.line(side).role != "gable":
        return False
    return building.roof.shape == "shed" or building.walls.for_side(side).frame == "balloon"


def _rank(building: Building, frame: RoofFrame, sides: tuple[Side, ...], index: int) -> tuple[bool, bool, bool, int]:
    name = sides[index].name
    return name in building.walls.through, frame.plan.line(name).bears, index % 2 == 0, -index


def details_of(building: Building) -> Details:
    """How the corners, tees and sills of all walls of a building are built."""
    asked = building.walls
    sill = "treated" if asked.sill else None
    return Details(corner_posts=asked.corner_posts, tees=asked.tees, sill_grade=sill)


def wall_members(wall: Wall, rows: Rows) -> tuple[Member, ...]:
    """All sticks of a wall: plates, studs, openings, posts under ridge beams, fire blocks."""
    uprights = (*studs(wall), *post_members(wall))
    framed = opening_members(wall)
    jacks = tuple(m for m in framed if m.role.name == "jack-stud")
    return (
        *plates(wall, stud_centres(wall), longest_stock(wall)),
        *clip_plates(wall, stud_centres(wall), longest_stock(wall)),
        *uprights,
        *framed,
        *fire_blocks(wall, rows.blocks, (*uprights, *jacks)),
        *tee_members(wall, (*uprights, *jacks), rows.blocks),
    )


def stud_centres(wall: Wall) -> tuple[float, ...]:
    """Centres of everything in a wall that the edge of a sheet or a joint of a plate can land on, left to right."""
    fixed = tuple(upright.u for upright in fixed_uprights(wall))
    taken = (*fixed, *wall.post_centres)
    return tuple(sorted((*taken, *layout_studs(wall, taken))))


def longest_stock(wall: Wall) -> float:
    """Longest plate on sale [in]."""
    return stock_lengths(wall.studs, wall.plates_grade)[-1]
