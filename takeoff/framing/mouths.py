"""What an overlaid wing needs beside its rafters: the beam across its mouth, posts under it, plates under its valleys.

::

    ==wall==+                              +==wall==   seen from inside the main building
            |______________________________|
            |__________beam________________|           its top as high as the plates, its face in line with the wall
            |P|                          |P|
            |P|         mouth            |P|           posts beside the wing's walls, down to the floor
            |P|                          |P|
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, Place, Severity
from takeoff.framing.mouth import SEAM
from takeoff.framing.mouth_lines import mouth_lines
from takeoff.framing.part import Part
from takeoff.framing.plate_lines import plate_lines
from takeoff.framing.roof_members import longest_of, refused
from takeoff.framing.stick import Bench
from takeoff.framing.valley_plates import ValleyPlate, flat_boards, in_lengths, laid_edges, valley_strips
from takeoff.framing.walls import wall_placement
from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.valleys import MouthBeam, Valleys

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.mouth import Mouth
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.wall import Wall
    from takeoff.model.member import Member
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building

Point = tuple[float, float]

LEAST_PLIES = 2
"""Studs in a built-up post. Common practice, no source."""

IN_LINE_IN = 0.25
"""A partition so near the line of a wall stands in it [in]: what framing and plumbing up leave."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """The line across a wing's mouth, along the side that the main slope stands on; u from that side's left end."""

    mouths: tuple[Mouth, ...]
    """Of one wing: two where its ridge parts the main slope."""
    side: str
    walls: tuple[float, float]
    """Outsides of the wing's walls [in]."""
    clear: tuple[float, float]
    """Insides of them [in]: the beam's ends."""
    plate: float
    """Height of the plates beside it above the deck [in]."""

    @property
    def label(self) -> str:
        """What a builder calls the wing."""
        return self.mouths[0].label


def mouth_part(
    building: Building,
    roof: RoofFrame,
    ground: Footprint,
    partitions: Sequence[Wall],
    written: Callable[[str], Place],
) -> Part:
    """Beams, posts and valley plates of all wings that are laid over the main roof, and where they are.

    Raises:
        PlanError: nothing carries the main rafters across a mouth.
    """
    valleys, place = building.roof.overlaid, written("roof.valleys")
    if valleys is None:
        return Part()
    crossings = tuple(_crossings(building, roof, ground))
    members: list[Member] = []
    for crossing in crossings:
        members += _bearing(building, ground, crossing, valleys, partitions, place)
    plates = [(mouth, tuple(_plates(building, roof, mouth, valleys))) for c in crossings for mouth in c.mouths]
    return Part(
        members=(*members, *(m for mouth, own in plates for m in _plate_members(building, mouth, own, valleys, place))),
        lines=(
            *(line for crossing in crossings for line in mouth_lines(roof, ground, crossing)),
            *(line for mouth, own in plates for line in plate_lines(mouth.label, roof, own, mouth.plane)),
        ),
        findings=tuple(_told(building, roof, crossings, valleys, place)),
    )


def _crossings(building: Building, roof: RoofFrame, ground: Footprint) -> Iterator[Crossing]:
    mouths = roof.plan.mouths
    for end in dict.fromkeys(mouth.end for mouth in mouths):
        own = tuple(mouth for mouth in mouths if mouth.end == end)
        side = roof.plan.slopes[own[0].main].side
        face = wall_placement(ground.side(side))
        beside = [ground.left_of(end), ground.right_of(end)]
        lines = sorted((face.from_world((*wall.start, 0.0))[0], wall.name) for wall in beside)
        depths = [profile(building.walls.for_side(name).studs).depth_in for _, name in lines]
        yield Crossing(
            mouths=own,
            side=side,
            walls=(lines[0][0], lines[1][0]),
            clear=(lines[0][0] + depths[0], lines[1][0] - depths[1]),
            plate=roof.plan.line(side).plate,
        )


def _bearing(
    building: Building,
    ground: Footprint,
    crossing: Crossing,
    valleys: Valleys,
    partitions: Sequence[Wall],
    place: Place,
) -> Iterator[Member]:
    """The beam and its posts; nothing where a partition stands there."""
    if any(_stands_across(wall, crossing, ground) for wall in partitions):
        return
    length = crossing.clear[1] - crossing.clear[0]
    if valleys.beam is None:
        raise refused(
            "frame.valley",
            place,
            f"nothing carries the main rafters across the mouth of the {crossing.label}, {format_length(length)} clear "
            "between its walls: write a beam, such as valleys: {method: overlaid, beam: 3-2x10}, or a partition "
            f"{format_length(crossing.plate)} high in line with the {crossing.side} wall, "
            f"{_partition_words(building, ground, crossing)}",
        )
    yield from _beam(building, ground, crossing, valleys.beam, place)
    yield from _posts(building, ground, crossing, valleys, place)


def _partition_words(building: Building, ground: Footprint, crossing: Crossing) -> str:
    """Where the plan would have the partition, of the wall's studs."""
    face, depth = (
        wall_placement(ground.side(crossing.side)),
        profile(building.walls.for_side(crossing.side).studs).depth_in,
    )
    spots = (face.to_world((u, 0.0, -depth / 2)) for u in crossing.clear)
    start, end = (f"[{format_length(x)}, {format_length(y)}]" for x, y, _ in spots)
    return f"from: {start}, to: {end}"


def _stands_across(wall: Wall, crossing: Crossing, ground: Footprint) -> bool:
    """Whether a partition bears what the beam would: wall to wall, as high as the plates, in line with the wall."""
    face, own = wall_placement(ground.side(crossing.side)), wall.bench.placement
    ends = [face.from_world(own.to_world((u, 0.0, 0.0))) for u in wall.extent]
    far = [face.from_world(own.to_world((u, 0.0, -wall.studs.depth_in))) for u in wall.extent]
    out = [max(one[2], other[2]) for one, other in zip(ends, far, strict=True)]
    low, high = sorted(end[0] for end in ends)
    return (
        all(abs(w) < IN_LINE_IN for w in out)
        and low < crossing.clear[0] + IN_LINE_IN
        and high > crossing.clear[1] - IN_LINE_IN
        and abs(wall.height - crossing.plate) < TOLERANCE.length
        and wall.rake is None
    )


def _bench(building: Building, ground: Footprint, crossing: Crossing, height: float, place: Place) -> Bench:
    at = wall_placement(ground.side(crossing.side), height)
    return Bench(building=building.name, face=f"{crossing.label} mouth", placement=at, written=place)


def _beam(building: Building, ground: Footprint, crossing: Crossing, beam: MouthBeam, place: Place) -> Iterator[Member]:
    size, grade = beam.size.profile, beam.grade
    length, longest = crossing.clear[1] - crossing.clear[0], longest_of(size, grade)
    if length > longest + TOLERANCE.length:
        raise refused(
            "frame.valley",
            place,
            f"the beam {beam.words} across the mouth of the {crossing.label} is {format_length(length)} long, stock "
            f"{format_length(longest)}, and it has posts at its ends only: take engineered lumber, or put a partition "
            "there",
        )
    bench = _bench(building, ground, crossing, crossing.plate - size.depth_in, place)
    for ply in range(beam.size.plies):
        outward = -ply * size.thickness_in
        yield bench.edge_along_u("mouth-beam", size, grade, u=crossing.clear, v=0.0, outward=outward)


def _posts(
    building: Building, ground: Footprint, crossing: Crossing, valleys: Valleys, place: Place
) -> Iterator[Member]:
    beam = valleys.beam
    assert beam is not None  # see _bearing
    size = profile(valleys.post or building.walls.for_side(crossing.side).studs)
    grade = "no2" if valleys.post else building.walls.plates_grade
    plies = 1 if valleys.post else max(LEAST_PLIES, beam.size.plies)
    height = crossing.plate - beam.size.profile.depth_in
    back = max(0.0, (beam.width_in - size.depth_in) / 2)
    plain = _bench(building, ground, crossing, 0.0, place)
    bench = replace(plain, placement=replace(plain.placement, origin=plain.placement.to_world((0.0, 0.0, -back))))
    for end, inward in zip(crossing.clear, (1.0, -1.0), strict=True):
        for ply in range(plies):
            at = end + inward * (ply + 0.5) * size.thickness_in
            yield bench.along_v("mouth-post", size, grade, u=at, v=(0.0, height))


def _plates(building: Building, roof: RoofFrame, mouth: Mouth, valleys: Valleys) -> Iterator[ValleyPlate]:
    """The valley plates of a mouth, on the main sheathing only, joined over main rafters."""
    size = profile(valleys.plate_size)
    longest, rafters = longest_of(size, building.walls.plates_grade), roof.rows[mouth.main].centres
    for wing in mouth.wings:
        for run in laid_edges(roof.rows[wing].slope, mouth.plane):
            for shape in valley_strips((run,), size.depth_in):
                for lying in _on_the_main_roof(roof, mouth, shape):
                    for piece in in_lengths(lying, longest, rafters):
                        yield ValleyPlate(row=wing, run=run, shape=piece)


def _plate_members(
    building: Building, mouth: Mouth, plates: Sequence[ValleyPlate], valleys: Valleys, place: Place
) -> Iterator[Member]:
    size, grade = profile(valleys.plate_size), building.walls.plates_grade
    bench = Bench(building=building.name, face=f"{mouth.label} valley", placement=mouth.plane, written=place)
    yield from flat_boards(bench, mouth.plane, tuple(one.shape for one in plates), size, grade, "valley-plate")


def _on_the_main_roof(roof: RoofFrame, mouth: Mouth, shape: Polygon) -> Iterator[Polygon]:
    """What of a plate lies inside of the mouth's line, and clear of a wing's ridge that runs on beside it."""
    from shapely import box

    slope = roof.rows[mouth.main].slope
    layer = slope.bench.placement.from_world(mouth.plane.origin)[2]
    u0, _, u1, v1 = (float(at) for at in shape.bounds)
    left, right = u0 - 1, u1 + 1
    for seam in slope.outline.edges_with(SEAM):
        # Where the wing's ridge ends on the main roof, both plates meet under it.
        clear = 0.0 if _ridge_is_laid(roof, mouth) else slope.halves.ridge
        if abs(seam.a[0] - mouth.span[0]) < TOLERANCE.length:
            left = seam.a[0] + clear
        if abs(seam.a[0] - mouth.span[1]) < TOLERANCE.length:
            right = seam.a[0] - clear
    # A plumb plane over the wall meets tops that lie so far up, square to the slope, that much further up the slope.
    yield from cleaned(shape.intersection(box(left, layer * slope.common.slope, right, v1 + 1)))


def _ridge_is_laid(roof: RoofFrame, mouth: Mouth) -> bool:
    return any(fold.laid_on and {*mouth.wings} & {*fold.slopes} for fold in roof.plan.folds)


def _told(
    building: Building, roof: RoofFrame, crossings: Sequence[Crossing], valleys: Valleys, place: Place
) -> Iterator[Finding]:
    def say(severity: Severity, message: str) -> Finding:
        return Finding(
            rule="frame.valley",
            severity=severity,
            message=message,
            place=place,
            building=building.name,
            where="overlaid valleys",
        )

    if not crossings:
        yield say(Severity.WARNING, "method: overlaid is written, but no wings meet in a valley: nothing is laid over")
    for crossing in crossings:
        main = roof.plan.slopes[crossing.mouths[0].main]
        tops = [_top(roof, k) for k in (crossing.mouths[0].main, crossing.mouths[0].wings[0])]
        yield say(
            Severity.NOTE,
            f"the {main.name} is the main roof's (its top is {format_length(tops[0])} over the deck, the wing's "
            f"{format_length(tops[1])}): it is framed and sheathed straight on past the mouth of the {crossing.label}, "
            f"and the wing's roof is laid over it on {valleys.plate_size} valley plates on the sheathing",
        )
        if valleys.beam:
            yield say(
                Severity.WARNING,
                f"the beam {valleys.beam.words} across the mouth of the {crossing.label}, "
                f"{format_length(crossing.clear[1] - crossing.clear[0])} long, and the posts under its ends are taken "
                "as written: they carry main roof and wing, and need a design down to the footing; the main walls' "
                "plates are tied together across the mouth",
            )
    for fold in (
        f for f in roof.plan.folds if f.laid_on and building.roof.ridge and building.roof.ridge.kind == "beam"
    ):
        spot = f"x {format_length(fold.low[0])}, y {format_length(fold.low[1])}"
        yield say(
            Severity.WARNING,
            f"a wing's ridge beam ends on the main roof's sheathing (its ridge from {spot}): it needs a post through "
            "it or a header between main rafters, and a design; a ridge board needs neither",
        )


def _top(roof: RoofFrame, k: int) -> float:
    slope = roof.plan.slopes[k]
    return max(slope.bench.placement.to_world((*edge.a, 0.0))[2] for edge in slope.outline.edges)
