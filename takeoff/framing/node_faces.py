r"""Hips that meet over a slope: where their faces meet is beside where their centre lines do.

Between two hips of a slope that are mitred the faces meet on the mitre, half a thickness inside the node. Seen from
the eave that corner may lie to one side of the node, in the way of a jack whose slices all end on one of the hips:

              /  centre lines
             o
            /:\            the jack's slices end left of the node ``o``,
           / : \           its wood reaches past the corner ``x`` of the faces
          /  x
            |J|
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.geometry.outline import Edge


@dataclass(frozen=True, slots=True, kw_only=True)
class HipCorners:
    """The corners that the faces of hips make over a slope, as its jacks meet them."""

    ring: tuple[Edge, ...]
    """Edges of the slope's outline, counter-clockwise."""
    half: float
    """Half the thickness of the hips [in]."""
    level: float
    """Level run for one inch along the slope."""

    def met(self, uppers: Sequence[Edge], u: float, thickness: float) -> tuple[Edge, ...]:
        """Edges whose sticks a jack really ends on.

        Args:
            uppers: those that its slices end on above.
            u: its centre line [in].
            thickness: its own [in].

        Returns:
            ``uppers``, and a hip whose face comes round an outer corner into the jack's wood; without one that the
            jack has passed by at an inner corner.
        """
        found = list(uppers)
        for one, after, turn, at in self._corners():
            clear = abs(at - u) >= thickness / 2 - TOLERANCE.length
            if turn > 0 and not clear and (one in found) != (after in found):
                found.append(after if one in found else one)
            elif turn < 0 and clear and one in found and after in found:
                # A ring's upper edges run from right to left: the first of two is the right one.
                found.remove(one if u < at else after)
        return tuple(found)

    def beside(self, u: float, thickness: float) -> float:
        """Where a jack has a whole face to end on: moved off a corner that stands out towards the eave.

        A stick across such a corner would touch no more than its arris, however it is cut.

        Args:
            u: centre line of the jack on the layout [in].
            thickness: its own [in].

        Returns:
            Its centre line [in], moved by half its thickness at most.
        """
        for _, _, turn, at in self._corners():
            if turn < 0 and abs(u - at) < thickness / 2 - TOLERANCE.length:
                return at + (thickness / 2 if u >= at else -thickness / 2)
        return u

    def _corners(self) -> Iterator[tuple[Edge, Edge, int, float]]:
        """Hips side by side, how the ring turns there (over 0 an outer corner), where along u their faces meet [in]."""
        for k, one in enumerate(self.ring):
            after = self.ring[(k + 1) % len(self.ring)]
            turn = _turn(one, after)
            if {one.role, after.role} == {"hip"} and turn:
                yield one, after, turn, self._meet(one, after)

    def _meet(self, one: Edge, after: Edge) -> float:
        skews = one.slope * self.level, after.slope * self.level
        # The face along an edge is lower than the edge by this much, level and up the slope.
        lower = [self.half * hypot(1, skew) for skew in skews]
        return one.b[0] + (lower[0] - lower[1]) / (skews[0] - skews[1])


def _turn(one: Edge, after: Edge) -> int:
    ax, ay = one.b[0] - one.a[0], one.b[1] - one.a[1]
    bx, by = after.b[0] - after.a[0], after.b[1] - after.a[1]
    across = ax * by - ay * bx
    return (
        0
        if abs(across) < TOLERANCE.length or abs(one.slope - after.slope) < TOLERANCE.length
        else 1
        if across > 0
        else -1
    )
