"""A wall as an outline to be sliced: its stud zones between plates, with its openings as holes."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from takeoff.geometry.outline import Edge, Outline, rectangle, ring
from takeoff.geometry.rake_line import LevelTop, RakeLine
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.stick import Bench
    from takeoff.plan.footprint import Side

Point = tuple[float, float]

HOLE_ROLES = ("sill", "jack", "header", "jack")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughOpening:
    """An opening framed in a wall. u from the left end of the side, v from the bottom of the bottom plate [in]."""

    what: str
    """As a builder calls it: ``window 3040``."""
    u: tuple[float, float]
    v: tuple[float, float]
    jacks: int
    header: Profile
    plies: int
    door: bool
    """The bottom plate is cut out."""
    flat: bool = False
    """The header lies flat, as over an opening that carries nothing."""
    header_v: float | None = None
    """Lower edge of a header that hangs higher than the head, a flat plate and cripples between; None: at the head."""

    @property
    def header_low(self) -> float:
        """Lower edge of its header [in]: the top of its jacks."""
        return self.v[1] if self.header_v is None else self.header_v

    @property
    def header_height(self) -> float:
        """From the head of the opening to the top of its header [in]."""
        return self.header.thickness_in if self.flat else self.header.depth_in

    def framed(self, stud_thickness: float, sill_thickness: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Extents in u and v with jacks, header and sill: what the wall's other studs keep out of."""
        side = self.jacks * stud_thickness
        low = self.v[0] if self.door else self.v[0] - sill_thickness
        return (self.u[0] - side, self.u[1] + side), (low, self.header_low + self.header_height)


@dataclass(frozen=True, slots=True, kw_only=True)
class RidgePost:
    """Studs side by side under the end of a ridge beam, together at least as wide as the beam."""

    centres: tuple[float, ...]
    beside: tuple[float, float]
    """Centres of the studs beside it, which keep the beam in its pocket [in]."""
    top: float
    """Height of the beam's underside in the wall [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RidgeOver:
    """A ridge that ends over a wall: studs under it stop at its lower edge."""

    u: tuple[float, float]
    """Its faces [in]."""
    bottom: float
    """Height of its lower edge in the wall [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TeeIn:
    """Where another wall ends against this one, or crosses it."""

    u: tuple[float, float]
    """Its sides [in]."""
    studs: Profile
    outside: bool
    """It stands at this wall's outside."""
    inside: bool
    top: float
    """Its height [in]."""
    laps: bool
    """Its cap plate laps over this wall's top plate, whose own cap plate is left out there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Details:
    """How corners and tees are built, as the plan has it."""

    corner_posts: Literal["two-stud", "three-stud", "four-stud"] = "three-stud"
    tees: Literal["channel", "blocks"] = "channel"
    sill_grade: str | None = None
    """Grade of a bottom plate on concrete; None where it is as the other plates'."""


PLATES = 2
"""Top plate and cap plate."""

PlateEnd = tuple[float, float]
"""Where a plate ends along u [in]: on the wall's outside and on its inside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One wall ready to be framed: of a side, a partition, or any other run between two ends."""

    side: Side
    bench: Bench
    studs: Profile
    grade: str
    plates_grade: str
    spacing: float
    height: float
    from_right: bool
    ends: tuple[PlateEnd, PlateEnd]
    """Of the framing: a through wall runs the whole side, a butt wall stands between its neighbours."""
    neighbours: tuple[float, float] = (0.0, 0.0)
    """Depth of the walls met at the left and right end, 0 where this wall is the one that butts."""
    cap_ends: tuple[PlateEnd, PlateEnd]
    openings: tuple[RoughOpening, ...] = ()
    balloon: bool = False
    free: tuple[bool, bool] = (False, False)
    """Ends that meet no wall and have a post of two studs."""
    tees: tuple[TeeIn, ...] = ()
    details: Details = Details()
    rake: RakeLine | None = None
    rake_plates: int = 0
    """Plates along the rake, one on the other, that its studs end under."""
    top: RakeLine | None = None
    """The top of its two plates, where that is not level at its height."""
    posts: tuple[RidgePost, ...] = ()
    ridges: tuple[RidgeOver, ...] = ()
    packs: tuple[float, ...] = ()
    """Centres of studs under the ends of beams [in]."""

    @property
    def extent(self) -> tuple[float, float]:
        """Where whole studs have room [in] along u."""
        return max(self.ends[0]), min(self.ends[1])

    @property
    def post_centres(self) -> tuple[float, ...]:
        """Centres of all plies of all posts."""
        return tuple(u for post in self.posts for u in post.centres)

    @property
    def level_top(self) -> LevelTop | None:
        """Its level top under a clip; None where there is none."""
        return self.rake.level if self.rake else None

    @property
    def plate(self) -> float:
        """Thickness of one plate [in]."""
        return self.studs.thickness_in

    @property
    def platform(self) -> bool:
        """Has a top plate and a cap plate at the wall's height."""
        return not self.balloon

    @property
    def studs_to(self) -> RakeLine | None:
        """The line that its studs reach: the rake, or the underside of the plates along it."""
        return self.rake.lowered(self.rake_plates * self.plate) if self.rake and self.rake_plates else self.rake

    def stud_zones(self) -> tuple[Outline, ...]:
        """Outlines between plates (and up to the rake) that studs are sliced from, openings left out."""
        holes = tuple(self._hole(opening) for opening in self.openings)
        u0, u1 = self.extent
        hung = tuple(
            Outline(rectangle(o.u[0], o.v[1] + self.plate, o.u[1], o.header_v, ("sill", "end", "header", "end")))
            for o in self.openings
            if o.header_v is not None
        )
        if self.balloon:
            return (Outline(self._raked(self.plate, "bottom"), holes), *hung)
        if self.top:
            return self._stepped_zones(self.top, holes)
        low = Outline(
            rectangle(u0, self.plate, u1, self.height - 2 * self.plate, ("bottom", "end", "top", "end")), holes
        )
        return (low, *hung, Outline(self._raked(self.height, "plate"))) if self.rake else (low, *hung)

    def _stepped_zones(self, top: RakeLine, holes: tuple[tuple[Edge, ...], ...]) -> tuple[Outline, ...]:
        """Under plates that are not level, and over them up to the rake."""
        (u0, u1), thick = self.extent, PLATES * self.plate
        under = [p for part in top.lowered(thick).runs(self.extent) for p in part]
        low = Outline(
            ring(
                [(u0, self.plate), (u1, self.plate), *reversed(under)], ("bottom", "end", *_roles(under, "top"), "end")
            ),
            holes,
        )
        if self.rake is None:
            return (low,)
        over = [p for part in top.runs(self.extent) for p in part]
        raked = self._raked(min(v for _, v in over) - 1.0, "plate")
        upper = [edge for edge in raked if edge.role in ("rake", "ridge")]
        points = [*over, *(edge.a for edge in upper), upper[-1].b]
        roles = (*reversed(_roles(over, "plate")), "end", *(edge.role for edge in upper), "end")
        return low, Outline(tuple(edge for edge in ring(points, roles) if edge.a != edge.b))

    def _hole(self, opening: RoughOpening) -> tuple[Edge, ...]:
        (u0, u1), (v0, v1) = opening.framed(self.studs.thickness_in, self.plate)
        # A door's hole goes down to the deck, so that nothing is framed under it.
        return rectangle(u0, v0 if not opening.door else -self.plate, u1, v1, HOLE_ROLES)

    def _raked(self, bottom: float, role: str) -> tuple[Edge, ...]:
        """Up to the rake, and under a ridge that ends here to its lower edge.

        Where the rake passes under the outline's bottom there is no stud: it starts where the rake clears the plate.
        """
        line = self.studs_to
        if line is None:
            raise ValueError(f"{self.side.name} has no rake")
        top = list(line.above(bottom, self.extent))
        roles = ["rake"] * (len(top) - 1)
        for ridge in sorted(self.ridges, key=lambda over: over.u):
            top, roles = self._stepped(line, ridge, top, roles)
        points = [(top[0][0], bottom), (top[-1][0], bottom), *reversed(top)]
        return ring(points, (role, "end", *reversed(roles), "end"))

    @staticmethod
    def _stepped(rake: RakeLine, ridge: RidgeOver, top: list[Point], roles: list[str]) -> tuple[list[Point], list[str]]:
        """The line with a level step between the faces of a ridge, and the roles of its parts."""
        left, right = ridge.u
        before = [k for k, (u, _) in enumerate(top) if u < left]
        after = [k for k, (u, _) in enumerate(top) if u > right]
        if not before or not after:
            return top, roles
        outer = (left, rake.at(left)), (right, rake.past(right))
        step = [outer[0], (left, ridge.bottom), (right, ridge.bottom), outer[1]]
        last, first = before[-1], after[0]
        return (
            [*top[: last + 1], *step, *top[first:]],
            [*roles[:last], roles[last], "ridge", "ridge", "ridge", roles[first - 1], *roles[first:]],
        )


def _roles(points: list[Point], role: str) -> list[str]:
    """Roles of the edges between the corners of a line from left to right, in the order from right to left."""
    return ["end" if abs(b[0] - a[0]) < TOLERANCE.length else role for a, b in pairwise(points)][::-1]
