"""A roof slope: the face that rafters are sliced from, and how they are cut on the edges of its outline."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import dist, hypot
from typing import TYPE_CHECKING

from takeoff.framing.laid_ends import LAID, Surface, laid_ends
from takeoff.framing.mouth import MOUTH, SEAM
from takeoff.framing.node_faces import HipCorners
from takeoff.framing.plumb_ends import PlanLine, PlumbEnds, Reach, end_cuts, lower_reach, square_cut, upper_reach
from takeoff.framing.slope_openings import DORMER_VALLEY, HEADERS, SQUARE_HEADER
from takeoff.geometry.outline import Edge, Outline, Slice
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.plan.dormers import VALLEY_IN

if TYPE_CHECKING:
    from takeoff.framing.slope_openings import SlopeOpening
    from takeoff.framing.stick import Bench


NODE_IN = 1 / 64
"""Ends of folds this near meet in one node [in]."""

SEATED = ("eave", "purlin", MOUTH)
"""Roles of the edges that rafters are seated at: over a wall, on a purlin or on a beam, where they start."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldHalves:
    """Half the thickness of the sticks that run along the folds of a roof [in]."""

    ridge: float
    hip: float
    valley: float
    ledger: float
    """The whole of its thickness: the slope ends at the wall that it is fixed to."""

    gablet: float = 0.0
    """The whole of the header on the outer face of a small gable on a hip."""

    def of(self, role: str) -> float:
        """Of the stick along an edge of a slope's outline; 0 where none runs."""
        return {
            "ridge": self.ridge,
            "hip": self.hip,
            "valley": self.valley,
            "ledger": self.ledger,
            "gablet": self.gablet,
            DORMER_VALLEY: VALLEY_IN / 2,
        }.get(role, 0.0)


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
    outside of the barges. The upper slope of a gambrel starts at the outer face of its purlin: v is 0 there.
    """

    name: str
    side: str
    """The side of the building whose wall carries it."""
    bench: Bench
    outline: Outline
    """Edges with the roles ``eave``, ``rake``, ``ridge``, ``hip``, ``valley``, ``high`` (over a shed's high wall),
    ``laid`` (on another roof), ``ledger`` (at a wall that stands already, over which the slope ends), ``beside
    wall`` (that it runs up beside), ``break`` (the top of a gambrel's lower slope), ``purlin`` (the foot of its upper
    slope), ``gablet`` (the face of a small gable on a hip); of a wing laid over the main roof ``step`` (over the main
    wall's line), of the main roof ``mouth`` (on the beam across a wing) and ``seam`` (beside its ridge), of both ``eave
    valley`` (where their eaves meet)."""
    common: RafterGeometry
    """The cuts a rafter has that runs from the eave up the whole slope to a ridge."""
    halves: FoldHalves
    walls: tuple[float, float]
    """Outside faces of the walls at the ends of the side, [in] along u."""
    high_overhang: float = 0.0
    """Overhang over the high wall of a shed roof [in]."""
    moved_on: tuple[tuple[float, float], ...] = ()
    """From where along u no rafter may stand, to where there is room for one again [in]."""
    from_right: bool
    """Layout starts at the right end, so that the rafters of two slopes stand opposite each other."""
    surface: Surface | None = None
    """The roof that it is laid on, where its outline ends in edges of the role ``laid``."""
    on_purlin: bool = False
    """The upper slope of a gambrel: its rafters are seated on a purlin, not on the side's wall."""
    openings: tuple[SlopeOpening, ...] = ()
    """Skylights and chimneys, which are holes in the outline; their headers are edges of roles of their own."""
    doubled: tuple[float, ...] = ()
    """Centres of the rafters that carry a small gable on a hip, where its face ends the slope [in] along u."""
    beside: tuple[float, ...] = ()
    """Centres of the rafters beside a wing's mouth, or beside a wing's ridge that ends the slope [in] along u."""
    open_below: tuple[tuple[tuple[float, float], ...], ...] = ()
    """Outlines in u and v over which an open porch shows it from below; the rest of it is laid on another roof."""
    sheet_edges: tuple[float, ...] | None = None
    """V of the level joints of its sheets [in], if they are chosen already; outlookers lie under them."""

    @property
    def level(self) -> float:
        """Level run for one inch along the slope."""
        return 1 / hypot(1, self.common.slope)

    @property
    def rakes(self) -> tuple[bool, bool]:
        """Whether the slope ends in a rake at the left and at the right of its eave."""
        return self._ends_in("rake")

    @property
    def beside_walls(self) -> tuple[bool, bool]:
        """Whether it ends at a standing wall at the left and at the right of its eave, its last rafter beside it."""
        return self._ends_in("beside wall")

    def rake_length(self, u: float) -> float | None:
        """Length of the rake at the nearer end of the slope where a hip ends it [in]; None where it goes to the top."""
        low, _, high, _ = self.outline.bounds
        end = low if u - low < high - u else high
        for k, edge in enumerate(self.outline.edges):
            if edge.role == "rake" and max(abs(edge.a[0] - end), abs(edge.b[0] - end)) < TOLERANCE.length:
                beside = (self.outline.edges[k - 1], self.outline.edges[(k + 1) % len(self.outline.edges)])
                return abs(edge.b[1] - edge.a[1]) if any(other.role == "hip" for other in beside) else None
        return None

    def _ends_in(self, role: str) -> tuple[bool, bool]:
        u0, _, u1, _ = self.outline.bounds
        ends = {edge.a[0] for edge in self.outline.edges_with(role) if abs(edge.a[0] - edge.b[0]) < TOLERANCE.length}
        near = [any(abs(u - end) < TOLERANCE.length for end in ends) for u in (u0, u1)]
        return near[0], near[1]

    @property
    def high_wall(self) -> float:
        """Level distance to the outside of the high wall of a shed roof [in]; 0 where there is none."""
        edges = self.outline.edges_with("high")
        return edges[0].a[1] * self.level - self.high_overhang if edges else 0.0

    def carried_at(self, u: float, thickness: float) -> float:
        """Where a rafter of the layout stands, moved on to where its foot has room and its head a face."""
        for first, room in self.moved_on:
            if min(first, room) < u < max(first, room):
                return room
        return self._hip_corners.beside(u, thickness)

    @property
    def _hip_corners(self) -> HipCorners:
        return HipCorners(ring=self.outline.edges, half=self.halves.hip, level=self.level)

    def clear_of_seams(self, u: float, half: float) -> bool:
        """Whether a rafter of half that thickness has room beside a wing's ridge that ends the slope."""
        room = self.halves.ridge + half - TOLERANCE.length
        return all(abs(edge.a[0] - u) >= room for edge in self.outline.edges_with(SEAM))

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
        uppers = self._past_the_header(uppers, cut.u, thickness)
        uppers = self._hip_corners.met(uppers, cut.u, thickness)
        lowers = (*lowers, *self._valley_feet(lowers, cut.u, thickness))
        upper = upper_reach([self._line(edge, cut.u, upper=True) for edge in uppers], thickness)
        lower = lower_reach(self._lower_lines(lowers, cut.u, thickness), thickness)
        base = self.common
        on_eave, on_beam = all(edge.role in SEATED for edge in lowers), lowers[0].role == MOUTH
        run = min(self._level(edge, cut.u) for edge in uppers)
        stand = base.height_above_plate
        # Whatever of it reaches over the plate is notched for it, be it a cheek on a valley only.
        seated = base.seat if lower.tip < base.seat and self._plate_clear(cut.u, thickness) else 0.0
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
            tail_depth=base.tail_depth if (on_eave and not on_beam) or lower.tip < 0 else None,
            tail_level_drop=self._level_drop(lower.tip),
            tail_lean=base.tail_lean if on_eave and not on_beam else 0.0,
            upper_heel=base.upper_heel if uppers[0].role == "high" else None,
            upper_seat=base.seat if uppers[0].role == "high" and not seated else None,
            square_foot=lowers[0].role == SQUARE_HEADER,
            square_head=uppers[0].role == SQUARE_HEADER,
            beam=None if uppers[0].role in HEADERS else base.beam,
        )
        low = end_cuts(geometry, (*lower.lines, *self._leaning_past(lower, on_eave=on_eave)), upper=False)
        high = end_cuts(geometry, upper.lines, upper=True)
        if self.surface and self.surface.under(cut.u):
            laid = laid_ends(self.surface, geometry, cut.u, thickness)
            geometry = laid.geometry
            low = laid.with_lower(low, on_laid=lowers[0].role == LAID)
            high = laid.with_upper(high, on_laid=uppers[0].role == LAID)
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

    def _past_the_header(self, uppers: tuple[Edge, ...], u: float, thickness: float) -> tuple[Edge, ...]:
        """Upper edges of a rafter, less that of a small gable's header that ends before it, at a hip's inner face."""
        hips = [edge for edge in uppers if edge.role == "hip"]
        for edge in uppers if hips else ():
            end = min((edge.a, edge.b), key=lambda p: abs(p[0] - u))[0]
            inner = self.halves.hip * hypot(1, 1 / (hips[0].slope * self.level)) if hips[0].slope else 0.0
            reach = _inward(edge, end, u) + thickness / 2
            if edge.role == "gablet" and reach < inner + TOLERANCE.length:
                return tuple(other for other in uppers if other is not edge)
        return uppers

    def upper_at(self, cut: Slice, thickness: float) -> Reach:
        """Where a stick of this thickness on a slice ends above."""
        inside = thickness / 2 - TOLERANCE.length
        beside = [s for u in (cut.u - inside, cut.u, cut.u + inside) for s in self.outline.slices(u) if _same(s, cut)]
        uppers = _distinct(s.upper for s in beside)
        return upper_reach([self._line(edge, cut.u, upper=True) for edge in uppers], thickness)

    def _plate_clear(self, u: float, thickness: float) -> bool:
        """Whether the plate stands out of the roof that the slope is laid on, at a rafter's place."""
        on_it = self.surface is not None and self.surface.under(u)
        return not on_it or self.surface is None or self.surface.lowest(u, thickness) < -TOLERANCE.length

    def _valley_feet(self, lowers: Sequence[Edge], u: float, thickness: float) -> Iterator[Edge]:
        """Valleys whose square feet, half a thickness to their side, reach in front of a rafter beside the corner."""
        for edge in self.outline.edges_with("valley"):
            foot = min(edge.a, edge.b, key=lambda p: p[1])
            on_eave = any(low.role == "eave" and abs(low.v_at(foot[0]) - foot[1]) < TOLERANCE.length for low in lowers)
            skew = abs(edge.slope * self.level)
            if edge in lowers or not on_eave or not skew:
                continue
            reach = self.halves.valley * hypot(1, skew) / skew
            if abs(foot[0] - u) < thickness / 2 + reach - TOLERANCE.length:
                yield edge

    def _lower_lines(self, lowers: Sequence[Edge], u: float, thickness: float) -> list[PlanLine]:
        """Faces that a rafter's foot is cut to; over the end of a ridge between two valleys, that end.

        The valleys stop at the ridge's faces: one that the rafter doesn't reach past is not in its way.
        """
        ends = []
        for node in self._ridge_ends(lowers):
            left, right = u - thickness / 2 - node[0], u + thickness / 2 - node[0]
            half, near = self.halves.ridge, TOLERANCE.length
            if left < half - near and right > near - half:
                past = (left < -half - near, right > half + near)
                lowers = [e for e in lowers if e.role != "valley" or past[_foot(e) > node[0]]]
                ends.append(PlanLine(node[1] * self.level, 0.0))
        for node in self._ridges_beside(lowers):
            if abs(node[0] - u) - thickness / 2 < self.halves.ridge - TOLERANCE.length:
                ends.append(PlanLine(node[1] * self.level, 0.0))
        return [*(self._line(edge, u, upper=False) for edge in lowers), *ends]

    def _ridge_ends(self, lowers: Sequence[Edge]) -> Iterator[tuple[float, float]]:
        """Where two valleys that mirror each other meet below this slope: a ridge square to its eave ends there."""
        valleys = self.outline.edges_with("valley")
        for one, other in combinations(valleys, 2):
            if abs(one.slope + other.slope) < TOLERANCE.length and (one in lowers or other in lowers):
                yield from (p for p in (one.a, one.b) if any(dist(p, q) < NODE_IN for q in (other.a, other.b)))

    def _ridges_beside(self, lowers: Sequence[Edge]) -> Iterator[tuple[float, float]]:
        """Where a valley passes into a hip that mirrors it: the neighbours' ridge, square to this eave, ends there.

        A ridge thicker than the valley stands out beside it, in the way of the nearest jack's foot.
        """
        for valley in self.outline.edges_with("valley"):
            top = max(valley.a, valley.b, key=lambda p: p[1])
            for hip in self.outline.edges_with("hip") if valley in lowers else ():
                foot = min(hip.a, hip.b, key=lambda p: p[1])
                if abs(valley.slope + hip.slope) < TOLERANCE.length and dist(top, foot) < NODE_IN:
                    yield top

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


def _foot(edge: Edge) -> float:
    """U of the lower end of an edge."""
    return min(edge.a, edge.b, key=lambda p: p[1])[0]


def _inward(edge: Edge, end: float, u: float) -> float:
    """How far inside an edge's end, from its other end, a place lies across the slope; under 0 outside."""
    other = edge.b[0] if edge.a[0] == end else edge.a[0]
    return (u - end) if other > end else (end - u)


def _same(one: Slice, other: Slice) -> bool:
    """Whether two slices side by side are of one stick: their extents overlap."""
    return min(one.v1, other.v1) > max(one.v0, other.v0)


def _distinct(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    return tuple(dict.fromkeys(edges))
