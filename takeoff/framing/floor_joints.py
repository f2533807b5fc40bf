"""Joints of a floor, found by contact: what lies on what, and what ends on whose face."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import TYPE_CHECKING

from takeoff.catalog.rules import rule
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.joint import Joint, JointKind

if TYPE_CHECKING:
    from takeoff.geometry.placement import Placement
    from takeoff.model.member import Member

JOISTS = ("floor-joist", "rim-joist", "trimmer-joist", "tail-joist", "partition-joist")
CARRIERS = ("girder", "loft-beam", "mud-sill", "loft-ledger")
"""What joists lie on, beside plates, which `plate_joints` finds."""
FACES = ("girder", "loft-beam", "loft-ledger", "floor-header")
"""What joists hang on."""

Box = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


def floor_joints(members: Sequence[Member], axes: Placement, first: int) -> Iterator[Joint]:
    """Joints of one floor's sticks.

    Args:
        members: of the floor.
        axes: of the floor: u across the joists, v along them.
        first: place of the first of them among the building's members.
    """
    boxes = [_box(member, axes) for member in members]
    for i, upper in enumerate(members):
        name = upper.role.name
        for j, lower in enumerate(members):
            found = None
            if i == j:
                continue
            if name in JOISTS:
                found = _of_joist(boxes[i], boxes[j], lower.role.name, later=j > i)
            elif name == "floor-header" and lower.role.name == "trimmer-joist":
                found = _of_header(upper, boxes[i], boxes[j])
            elif (
                name in ("girder", "loft-beam")
                and lower.role.name in ("floor-post", "loft-post")
                and _lies_on(boxes[i], boxes[j])
            ):
                found = ("bears", _shared(boxes[i], boxes[j], 0))
            if found:
                yield Joint(kind=found[0], upper=first + i, lower=first + j, bearing_in=found[1])


def _of_joist(upper: Box, lower: Box, role: str, *, later: bool) -> tuple[JointKind, float] | None:
    if role in CARRIERS and _lies_on(upper, lower):
        return "bears", _shared(upper, lower, 1)
    if role in FACES and _ends_on(upper, lower, along=1, across=0):
        return "hangs", _shared(upper, lower, 2)
    beside = abs(upper[0][1] - lower[0][0]) < TOLERANCE.mark or abs(lower[0][1] - upper[0][0]) < TOLERANCE.mark
    if role == "floor-joist" and later and beside and _shared(upper, lower, 1) > TOLERANCE.mark:
        return "laps", _shared(upper, lower, 1)
    return None


def _of_header(header: Member, upper: Box, lower: Box) -> tuple[JointKind, float] | None:
    """Nailed to the trimmers, or in hangers where it is longer than nails are trusted with."""
    if not _ends_on(upper, lower, along=0, across=1):
        return None
    hung = header.length_in > rule("floor.header-hanger").value
    return ("hangs" if hung else "butts"), _shared(upper, lower, 2)


def _lies_on(upper: Box, lower: Box) -> bool:
    level = abs(upper[2][0] - lower[2][1]) < TOLERANCE.mark
    return level and all(_shared(upper, lower, k) > TOLERANCE.mark for k in (0, 1))


def _ends_on(upper: Box, lower: Box, *, along: int, across: int) -> bool:
    (a0, a1), (b0, b1) = upper[along], lower[along]
    meets = abs(a1 - b0) < TOLERANCE.mark or abs(b1 - a0) < TOLERANCE.mark
    return meets and all(_shared(upper, lower, k) > TOLERANCE.mark for k in (across, 2))


def _shared(one: Box, other: Box, axis: int) -> float:
    return min(one[axis][1], other[axis][1]) - max(one[axis][0], other[axis][0])


def _box(member: Member, axes: Placement) -> Box:
    x0, y0, x1, y1 = member.side.bounds
    half = member.profile.thickness_in / 2
    corners = [axes.from_world(member.placement.to_world(p)) for p in product((x0, x1), (y0, y1), (-half, half))]
    u, v, w = ((min(c[k] for c in corners), max(c[k] for c in corners)) for k in range(3))
    return u, v, w
