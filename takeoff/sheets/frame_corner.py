"""The corner of the lot from which a frame shows most."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from takeoff.geometry.vec import Vec, add, scale

if TYPE_CHECKING:
    from collections.abc import Sequence

    from takeoff.model.building import FramedBuilding
    from takeoff.model.face import Face

Corner = Literal["south-east", "south-west", "north-east", "north-west"]

_TIE_IN = 1.0
"""What reaches no further than this one way [in] reaches neither way."""

_PART = 1 / 8
"""How much a minor roof counts: this share of its distance from the middle of the building. Most of a dormer's is
lost in the middle of all slopes, and yet it is seen from its own side only."""


def best_corner(building: FramedBuilding) -> Corner:
    """The corner toward which a building reaches out beyond the middle of its walls and slopes.

    So wings, courts and minor roofs stand in front. South goes before north and east before west where it's alike.
    """
    faces = [face for face in building.faces if face.kind != "floor" and face.seen_from == "outside"]
    main = [face for face in faces if not face.part]
    if not main:
        return "south-east"
    middle, box = _middle(main), _box_middle(main)
    reach = add(box, scale(middle, -1.0))
    for part in sorted({face.part for face in faces if face.part}):
        away = add(_middle([face for face in faces if face.part == part]), scale(box, -1.0))
        reach = add(reach, scale(away, _PART))
    east = reach[0] >= -_TIE_IN
    if reach[1] > _TIE_IN:
        return "north-east" if east else "north-west"
    return "south-east" if east else "south-west"


def _middle(faces: Sequence[Face]) -> Vec:
    """The middle of faces by their areas, openings counted in."""
    from shapely import Polygon

    total, areas = (0.0, 0.0, 0.0), 0.0
    for face in faces:
        shape = Polygon([edge.a for edge in face.outline.edges])
        at = face.placement.to_world((float(shape.centroid.x), float(shape.centroid.y), 0.0))
        total, areas = add(total, scale(at, float(shape.area))), areas + float(shape.area)
    return scale(total, 1 / areas)


def _box_middle(faces: Sequence[Face]) -> Vec:
    """The middle of the box, along the compass, that holds faces."""
    corners = [face.placement.to_world((*edge.a, 0.0)) for face in faces for edge in face.outline.all_edges()]
    x, y, z = ((min(values) + max(values)) / 2 for values in zip(*corners, strict=True))
    return (x, y, z)
