"""A roof slope: the face that rafters are sliced from, and how they are cut on the edges of its outline."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.framing.plumb_ends import PlanLine, PlumbEnds, Reach, end_cuts, lower_reach, square_cut, upper_reach
from takeoff.framing.slope_openings import HEADERS, SQUARE_HEADER
from takeoff.geometry.outline import Edge, Outline, Slice
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.framing.slope_openings import SlopeOpening
    from takeoff.framing.stick import Bench


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldHalves:
    """Half the thickness of the sticks that run along the folds of a roof [in]."""

    ridge: float
    hip: float
    valley: float
    ledger: float
    """The whole of its thickness: the slope ends at the wall that it is fixed to."""

    def of(self, role: str) -> float:
        """Of the stick along an edge of a slope's outline; 0 where none runs."""
        return {"ridge": self.ridge, "hip": self.hip, "valley": self.valley, "ledger": self.ledger}.get(role, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterCuts:
    """A rafter on one slice of a slope: its geometry, its end planes, and the roles of the edges it ends on."""

    geometry: RafterGeometry
    ends: PlumbEnds
    lower: frozenset[str]
    upper: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """One slope of a roof, framed in the plane of its rafters' top edges.

    u runs along the eave, to the right seen from outside; v up the slope, 0 plumb over the outside face of the
    wall framing. The outline reaches from the tail cut to the centre lines of ridge, hips and valleys, and to the
    outside of the barges.
    """

    name: str
    side: str
    """The side of the building whose wall carries it."""
    bench: Bench
    outline: Outline
    """Edges with the roles ``eave``, ``rake``, ``ridge``, ``hip``, ``valley``, ``high`` (over a shed's high wall),
    ``ledger`` (at a wall that stands already)."""
    common: RafterGeometry
    """The cuts a rafter has that runs from the eave up the whole slope to a ridge."""
    halves: FoldHalves
    walls: tuple[float, float]
    """Outside faces of the walls at the ends of the side, [in] along u."""
    high_overhang: float = 0.0
    """Overhang over the high wall of a shed roof [in]."""
    from_right: bool
    """Layout starts at the right end, so that the rafters of two slopes stand opposite each other."""
    openings: tuple[SlopeOpening, ...] = ()
    """Skylights and chimneys, which are holes in the outline; their headers are edges of roles of their own."""
    sheet_edges: tuple[float, ...] | None = None
    """V of the level joints of its sheets [in], if they are chosen already; outlookers lie under them."""

    @property
    def level(self) -> float:
        """Level run for one inch along the slope."""
        return 1 / hypot(1, self.common.slope)

    @property
    def rakes(self) -> tuple[bool, bool]:
        """Whether the slope ends in a rake at the left and at the right of its eave."""
        u0, _, u1, _ = self.outline.bounds
        ends = {edge.a[0] for edge in self.outline.edges_with("rake") if abs(edge.a[0] - edge.b[0]) < TOLERANCE.length}
        near = [any(abs(u - end) < TOLERANCE.length for end in ends) for u in (u0, u1)]
        return near[0], near[1]

    @property
    def high_wall(self) -> float:
        """Level distance to the outside of the high wall of a shed roof [in]; 0 where there is none."""
        edges = self.outline.edges_with("high")
        return edges[0].a[1] * self.level - self.high_overhang if edges else 0.0

    def slices(self, u: float) -> tuple[Slice, ...]:
        """Slices at one layout line; none where the slope is not reached."""
        return self.outline.slices(u)

    def rafter_at(self, cut: Slice, thickness: float) -> RafterCuts:
        """Cuts of the rafter on one slice, from all edges that its thickness meets.

        Raises:
            ValueError: the slice is too short for a rafter.
        """
        inside = thickness / 2 - TOLERANCE.length
        beside = [s for u in (cut.u - inside, cut.u, cut.u + inside) for s in self.outline.slices(u) if _same(s, cut)]
        uppers, lowers = _distinct(s.upper for s in beside), _distinct(s.lower for s in beside)
        upper = upper_reach([self._line(edge, cut.u, upper=True) for edge in uppers], thickness)
        lower = lower_reach([self._line(edge, cut.u, upper=False) for edge in lowers], thickness)
        base = self.common
        on_eave = all(edge.role == "eave" for edge in lowers)
        run = min(self._level(edge, cut.u) for edge in uppers)
        stand = base.height_above_plate
        # Whatever of it reaches over the plate is notched for it, be it a cheek on a valley only.
        seated = base.seat if lower.tip < base.seat else 0.0
        geometry = replace(
            base,
            run=run,
            ridge_half=run - upper.centre,
            cheek=upper.tip - upper.centre,
            overhang=-lower.centre,
            foot=None if on_eave else lower.centre,
            foot_cheek=0.0 if on_eave else lower.centre - lower.tip,
            seat=seated,
            stand=None if seated else stand,
            tail_depth=base.tail_depth if on_eave or lower.tip < 0 else None,
            tail_level_drop=self._level_drop(lower.tip),
            tail_lean=base.tail_lean if on_eave else 0.0,
            upper_heel=base.upper_heel if uppers[0].role == "high" else None,
            upper_seat=base.seat if uppers[0].role == "high" and not seated else None,
            square_foot=lowers[0].role == SQUARE_HEADER,
            square_head=uppers[0].role == SQUARE_HEADER,
            beam=None if uppers[0].role in HEADERS else base.beam,
        )
        low = end_cuts(geometry, (*lower.lines, *self._leaning_past(lower, on_eave=on_eave)), upper=False)
        high = end_cuts(geometry, upper.lines, upper=True)
        ends = PlumbEnds(
            (square_cut(geometry, upper=False),) if geometry.square_foot else low,
            (square_cut(geometry, upper=True),) if geometry.square_head else high,
        )
        return RafterCuts(
            geometry=geometry,
            ends=ends,
            lower=frozenset(edge.role for edge in lowers),
            upper=frozenset(edge.role for edge in uppers),
        )

    def _leaning_past(self, lower: Reach, *, on_eave: bool) -> tuple[PlanLine, ...]:
        """The plane of square tails, where a foot on a valley is so near the eave that it would stand through it."""
        base = self.common
        back = base.tail_depth_cut * base.slope * self.level - base.overhang
        if on_eave or not base.tail_lean or lower.tip >= back:
            return ()
        return (PlanLine(-base.overhang, 0.0, base.tail_lean),)

    def _level_drop(self, start: float) -> float | None:
        """Plumb distance from the top of a lower end outside the wall to the level cut of all tails [in]."""
        drop = self.common.tail_level_drop
        return None if drop is None or start >= 0 else drop + (start + self.common.overhang) * self.common.slope

    def _level(self, edge: Edge, u: float) -> float:
        return edge.v_at(u) * self.level

    def _line(self, edge: Edge, u: float, *, upper: bool) -> PlanLine:
        """The face of the stick along an edge, or the eave's tail cut, as a rafter at ``u`` sees it."""
        skew = edge.slope * self.level
        off = self.halves.of(edge.role) * hypot(1, skew)
        lean = self.common.tail_lean if edge.role == "eave" else 0.0
        return PlanLine(self._level(edge, u) + (-off if upper else off), skew, lean)


def _same(one: Slice, other: Slice) -> bool:
    """Whether two slices side by side are of one stick: their extents overlap."""
    return min(one.v1, other.v1) > max(one.v0, other.v0)


def _distinct(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    return tuple(dict.fromkeys(edges))
