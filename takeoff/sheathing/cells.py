"""Dividing lines: how far each sheet reaches before the next support it can end on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

Zone = Literal["field", "exposed"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One sheet's rectangle on a face before it is clipped to the outline [in]."""

    u: tuple[float, float]
    v: tuple[float, float]
    zone: Zone


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far sheets reach along one direction [in]."""

    most: float
    """A whole sheet."""
    least: float
    """The shortest piece that is worth laying."""


def joints_on(
    start: float, end: float, supports: Sequence[float], reach: Reach, *, first: float | None = None
) -> tuple[float, ...]:
    """Where sheets meet between ``start`` and ``end``: each as long as it can be and ending on a support.

    Args:
        start: where the first sheet begins [in].
        end: where the last ends [in].
        supports: centre lines that a joint may fall on [in].
        reach: longest and shortest sheet.
        first: longest first sheet [in], to set the joints off from those of the course below.

    Returns:
        Joints [in] between start and end, rising. Where no support is in reach the sheet is cut at its full length.
    """
    joints: list[float] = []
    here = start
    far = first or reach.most
    while end - here > (reach.most if joints or first is None else far) + TOLERANCE.length:
        limit = here + far + TOLERANCE.length
        # The piece that is left must not be a sliver, if a nearer support prevents it.
        whole = [s for s in supports if here + TOLERANCE.length < s <= limit]
        good = [s for s in whole if here + reach.least <= s and end - s >= reach.least - TOLERANCE.length]
        joint = max(good or whole, default=here + far)
        joints.append(joint)
        here, far = joint, reach.most
    return tuple(joints)


def spans(start: float, end: float, joints: Sequence[float]) -> tuple[tuple[float, float], ...]:
    """Neighbouring pairs of start, joints and end."""
    lines = (start, *joints, end)
    return tuple(pairwise(lines))


def extent_of(outline: BaseGeometry, v: tuple[float, float]) -> tuple[float, float] | None:
    """From where to where a band of a face runs [in] along u; None where there is nothing of the face."""
    from shapely import box

    left, _, right, _ = outline.bounds
    part = outline.intersection(box(left, v[0], right, v[1]))
    if part.area < TOLERANCE.area:
        return None
    return float(part.bounds[0]), float(part.bounds[2])
