"""What a drawing of a plan shows in and at the walls: openings, partitions, floors, lofts, porches, dormers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.plan.dormers import dormer_labels
from takeoff.plan.footprint import Side
from takeoff.plan.loft_shape import wanted_of
from takeoff.plan.porches import porch_labels
from takeoff.sheets.house_part import (
    LETTERS_IN,
    HousePart,
    Spot,
    along,
    beside,
    exact,
    named_line,
    named_ring,
    ring_beside,
)

if TYPE_CHECKING:
    from takeoff.plan.drawing_in.settings import DrawnOutline
    from takeoff.plan.floors import Girder, Loft, LoftBeam
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.openings import WallOpening
    from takeoff.plan.partitions import Partition
    from takeoff.plan.schema import Building

_WALL_IN = 5.5
_SHIFTS_IN = (
    0.0,
    -8.0,
    8.0,
    -16.0,
    16.0,
    -26.0,
    26.0,
    -38.0,
    38.0,
    -52.0,
    52.0,
)  # of an opening's label along its wall
_OFFS_IN = (-1.2 * LETTERS_IN, 1.2 * LETTERS_IN, -2 * LETTERS_IN, 2 * LETTERS_IN, -3 * LETTERS_IN, 3 * LETTERS_IN)


def opening_parts(opening: WallOpening, side: Side, layer: str, *, inward: float = 0.0) -> list[HousePart]:
    """An opening in a side or a partition, and its label.

    Args:
        opening: as written.
        side: the line it is measured along.
        layer: of openings.
        inward: where the wall's near face lies, from that line [in].
    """
    middle, half = (opening.left_in + opening.right_in) / 2, opening.size.width / 2
    reach = (inward, inward + _WALL_IN) if not inward else (inward, -inward)
    inner, outer = reach[1], reach[0]
    offs = [inner + 2 * LETTERS_IN, outer - 2 * LETTERS_IN, inner + 4 * LETTERS_IN]
    offs += [outer - times * LETTERS_IN for times in (4, 6, 8)]
    spots = [beside(side, middle + shift, off) for off in offs for shift in _SHIFTS_IN]
    return [
        HousePart(layer=layer, points=ring_beside(side, (middle - half, middle + half), reach), closed=True),
        HousePart(
            layer=layer,
            points=(spots[0],),
            others=tuple(spots[1:]),
            words=opening_words(opening),
            turned_deg=along(side),
        ),
    ]


def opening_words(opening: WallOpening) -> str:
    """The label of an opening, with all that its drawing can say."""
    size = opening.call
    if not size.isdigit():
        size = f"{exact(opening.size.width)} x {exact(opening.size.height)}"
    words = [size, opening.kind]
    if opening.head is not None:
        words.append(f"head {exact(opening.head)}")
    if opening.header is not None:
        words.append(f"header {opening.header}")
    if opening.jacks is not None:
        words.append(f"jacks {opening.jacks}")
    if opening.rough is not None:
        words.append(f"allowance {exact(opening.rough.width)} x {exact(opening.rough.height)}")
    return " ".join(words)


def partition_parts(partition: Partition, layers: DrawnOutline) -> Iterator[HousePart]:
    """The centre line of a partition, its label beside it, and its openings."""
    line = Side(partition.name, partition.start, partition.end)
    yield HousePart(layer=layers.partitions, points=(partition.start, partition.end))
    yield named_line(layers.partitions, line, partition_words(partition), _OFFS_IN)
    for opening in partition.openings:
        yield from opening_parts(opening, line, layers.openings, inward=-profile(partition.studs).depth_in / 2)


def partition_words(partition: Partition) -> str:
    """The label of a partition, with all that its drawing can say."""
    words = [f"{partition.name} studs {partition.studs}"]
    if partition.spacing is not None:
        words.append(f"spacing {exact(partition.spacing)}")
    if partition.height is not None:
        words.append(f"height {exact(partition.height)}")
    if partition.bearing:
        words.append("bearing")
    return " ".join(words)


def floor_parts(building: Building, walls: Footprint, layers: DrawnOutline) -> Iterator[HousePart]:
    """Outlines of the main floor and the lofts, and the lofts' names."""
    if building.floors.main is not None:
        yield HousePart(layer=layers.floor, points=building.floors.main.outline or walls.points, closed=True)
    for loft in building.floors.lofts:
        points = wanted_of(walls, loft)
        yield HousePart(layer=layers.lofts, points=points, closed=True)
        yield named_ring(layers.lofts, points, f"{loft.name} height {exact(loft.height)}")


def girder_parts(building: Building, walls: Footprint, layers: DrawnOutline) -> Iterator[HousePart]:
    """Centre lines of girders, and of the beams along the free edges of lofts, each with its label."""
    floors = building.floors
    for girder in floors.main.girders if floors.main else ():
        yield from _girder(layers.girders, (girder.start, girder.end), girder_words(girder))
    for loft in floors.lofts:
        for girder in loft.girders:
            yield from _girder(layers.girders, (girder.start, girder.end), f"{loft.name} {girder_words(girder)}")
        edge = _free_edge(loft, walls)
        name = f"{loft.name} " if len(floors.lofts) > 1 else ""
        if loft.beam is not None and edge is not None:
            yield from _girder(layers.beams, (edge.start, edge.end), name + girder_words(loft.beam))


def girder_words(girder: Girder | LoftBeam) -> str:
    """The label of a girder or beam, with all that is not as usual."""
    usual = type(girder).model_fields
    said = (("grade", girder.grade), ("joists", girder.joists), ("post", girder.post))
    return " ".join([girder.size.words, *(f"{key} {value}" for key, value in said if value != usual[key].default)])


def _girder(layer: str, ends: tuple[Spot, Spot], words: str) -> Iterator[HousePart]:
    line = Side("", *ends)
    yield HousePart(layer=layer, points=ends)
    yield named_line(layer, line, words, _OFFS_IN)


def _free_edge(loft: Loft, walls: Footprint) -> Side | None:
    """The edge of a loft opposite the side that it is placed along."""
    if loft.side is None:
        return None
    _, _, end, start = wanted_of(walls, loft)
    return Side("", start, end)


def minor_parts(building: Building, walls: Footprint, layers: DrawnOutline) -> Iterator[HousePart]:
    """Porches and dormers as rectangles, each with its name."""
    roof = building.roof
    for porch, name in zip(roof.porches, porch_labels(roof.porches), strict=True):
        yield from _named(walls.side(porch.side), porch.across_in, (-porch.depth, 0.0), name, layers.porches)
    for dormer, name in zip(roof.dormers, dormer_labels(roof.dormers), strict=True):
        pitch = roof.pitch_of(dormer.side)
        back = dormer.height / pitch.slope if pitch is not None else dormer.width
        reach = (dormer.front, dormer.front + back)
        yield from _named(walls.side(dormer.side), dormer.across_in, reach, name, layers.dormers)


def _named(
    side: Side, across: tuple[float, float], reach: tuple[float, float], name: str, layer: str
) -> Iterator[HousePart]:
    points = ring_beside(side, across, reach)
    yield HousePart(layer=layer, points=points, closed=True)
    yield named_ring(layer, points, name, along(side))


def post_parts(building: Building, walls: Footprint, layers: DrawnOutline) -> Iterator[HousePart]:
    """Posts under girders and loft beams, and those of porches whose places are written."""
    floors = building.floors
    for girder in (each for floor in (floors.main, *floors.lofts) if floor for each in floor.girders):
        yield from _posts(Side("", girder.start, girder.end), girder.posts, profile(girder.post).depth_in, layers)
    for loft in floors.lofts:
        edge = _free_edge(loft, walls)
        if loft.beam is not None and edge is not None:
            yield from _posts(edge, loft.beam.posts, profile(loft.beam.post).depth_in, layers)
    for porch in building.roof.porches:
        side, left = walls.side(porch.side), porch.across_in[0]
        front = Side("", beside(side, left, -porch.depth), beside(side, left + porch.width, -porch.depth))
        inward = porch.beam.width_in / 2
        yield from _posts(front, porch.posts.places or (), profile(porch.posts.size).depth_in, layers, inward)


def _posts(
    line: Side, places: tuple[float, ...], size: float, layers: DrawnOutline, inward: float = 0.0
) -> Iterator[HousePart]:
    half = size / 2
    for at in places:
        points = ring_beside(line, (at - half, at + half), (inward - half, inward + half))
        yield HousePart(layer=layers.posts, points=points, closed=True)
