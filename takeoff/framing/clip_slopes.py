r"""The slopes of a roof with clipped gables: the clip's own, and what it leaves of the two that meet in its ridge.

::

              ridge
      ---------+------. peak      The clip's plane meets the ridge in the apex and the rakes in the feet of its hips;
         left  |\ hip |           all else of the roof stays as it is laid out; rings start in their eaves.
               | \____| foot
               | / clip
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.framing.clips import ClipError
from takeoff.geometry.roof_edge import along
from takeoff.geometry.skeleton import RoofSlope
from takeoff.geometry.vec import Vec, add, scale
from takeoff.geometry.wavefront import RoofSide

if TYPE_CHECKING:
    from takeoff.framing.roof_lines import RoofSideLine


@dataclass(frozen=True, slots=True)
class _Clip:
    """The plane of a clip's slope: rising inward from the side's line."""

    index: int
    side: str
    normal: tuple[float, float]
    at: float
    height: float
    """Over the outside of the wall, in the heights of the slopes [in]."""
    slope: float

    def over(self, spot: Vec) -> float:
        """How high a place is over the plane [in]."""
        return spot[2] - self.height - self.slope * (self.at - along(self.normal, spot[:2]))

    def met(self, a: Vec, b: Vec) -> Vec:
        """Where a line through two places meets it."""
        one, other = self.over(a), self.over(b)
        return add(a, scale(add(b, scale(a, -1.0)), one / (one - other)))


def with_clip_slopes(laid: tuple[RoofSlope, ...], lines: Sequence[RoofSideLine], base: float) -> tuple[RoofSlope, ...]:
    """The slopes with those of clips, where gables have them.

    Args:
        laid: slopes in plan, with heights over ``base``.
        lines: what each side does for the roof.
        base: height of the lowest eave above the deck [in].

    Raises:
        ClipError: no ridge ends over the gable, or none of it is left.
    """
    for index, line in enumerate(lines):
        if line.clip:
            height = line.clip.plate + line.clip.stand - base
            normal = line.side.normal
            at = along(normal, line.side.start)
            laid = _clipped(laid, _Clip(index, line.side.name, normal, at, height, line.clip.slope))
    return tuple(sorted(laid, key=lambda slope: slope.edge))


def _clipped(laid: tuple[RoofSlope, ...], clip: _Clip) -> tuple[RoofSlope, ...]:
    left = next(((s, k) for s in laid for k in range(len(s.sides)) if _ends(s, k, k + 1, clip)), None)
    right = next(((s, k) for s in laid for k in range(len(s.sides)) if _ends(s, k, k - 1, clip)), None)
    if left is None or right is None:
        message = f"found a clip on {clip.side}, where no ridge ends between two slopes, expected it on such a gable"
        raise ClipError(message, clip.side)
    (one, i), (other, j) = left, right
    ridge = one.sides[(i + 1) % len(one.sides)]
    beyond = other.sides[j - 1]
    if clip.over(ridge.end) > 0 or clip.over(beyond.start) > 0:
        raise ClipError("found clips that leave no ridge between them, expected shorter runs", clip.side)
    apex = clip.met(ridge.start, ridge.end)
    left_foot, right_foot = (clip.met(side.start, side.end) for side in (one.sides[i], other.sides[j]))
    made = RoofSlope(
        edge=clip.index,
        edges=(clip.index,),
        slope=clip.slope,
        sides=(
            RoofSide("eave", clip.index, left_foot, right_foot),
            RoofSide("hip", other.edge, right_foot, apex),
            RoofSide("hip", one.edge, apex, left_foot),
        ),
    )
    sides = list(one.sides)
    sides[(i + 1) % len(sides)] = replace(ridge, start=apex)
    sides[i : i + 1] = [replace(sides[i], end=left_foot), RoofSide("hip", clip.index, left_foot, apex)]
    more = list(other.sides)
    more[j - 1] = replace(beyond, end=apex)
    more[j : j + 1] = [RoofSide("hip", clip.index, apex, right_foot), replace(more[j], start=right_foot)]
    changed = {one.edge: replace(one, sides=tuple(sides)), other.edge: replace(other, sides=tuple(more))}
    return (*(changed.get(slope.edge, slope) for slope in laid), made)


def _ends(slope: RoofSlope, gable: int, beside: int, clip: _Clip) -> bool:
    """Whether a side of a slope is the clipped gable, and the next, or the one before it, a ridge."""
    sides = slope.sides
    own = sides[gable]
    return own.kind == "gable" and own.across == clip.index and sides[beside % len(sides)].kind == "ridge"
