"""Joints of a loft's joists with the plates of walls and partitions that they lie on, found by contact."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import TYPE_CHECKING

from takeoff.framing.floor_joints import JOISTS
from takeoff.framing.joints import PLATES
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.joint import Joint

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from takeoff.model.member import Member


def plate_joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """What plates joists lie on: those of lofts on walls and partitions, of a main floor on pony walls.

    Args:
        members: of the building; joists are named by their place among them.
    """
    joists = [(k, stick) for k, stick in enumerate(members) if stick.role.name in JOISTS]
    levels = {round(joist.placement.origin[2], 2) for _, joist in joists}
    plates = [
        (k, plate, _in_plan(plate))
        for k, plate in enumerate(members)
        if plate.role.name in PLATES and any(abs(_top(plate) - level) < TOLERANCE.mark for level in levels)
    ]
    return tuple(_found(joists, plates)) if plates else ()


def _found(joists: Sequence[tuple[int, Member]], plates: Sequence[tuple[int, Member, BaseGeometry]]) -> Iterator[Joint]:
    from shapely import get_coordinates

    for upper, joist in joists:
        spot, level = _in_plan(joist), joist.placement.origin[2]
        for lower, plate, under in plates:
            shared = spot.intersection(under)
            if abs(_top(plate) - level) < TOLERANCE.mark and shared.area > TOLERANCE.area:
                along = [joist.placement.from_world((x, y, level))[0] for x, y in get_coordinates(shared)]
                yield Joint(kind="bears", upper=upper, lower=lower, bearing_in=max(along) - min(along))


def _top(plate: Member) -> float:
    """Upper side of a stick that lies flat [in]."""
    return plate.placement.origin[2] + plate.profile.thickness_in / 2


def _in_plan(member: Member) -> BaseGeometry:
    """What a level stick covers seen from above."""
    from shapely import MultiPoint

    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    spots = (member.placement.to_world(spot) for spot in product((x0, x1), (y0, y1), (-half, half)))
    hull: BaseGeometry = MultiPoint([(x, y) for x, y, _ in spots]).convex_hull
    return hull
