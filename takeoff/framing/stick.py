"""Placing sticks on a face: the ways a stick can lie to it.

along_v       studs and rafters: along v, top edge outward       (x up the face, y outward, z to the right)
turned_along_v  studs turned flat to the face: along v       (x up the face, y to the right, z inward)
flat_along_u  plates and fire blocks: along u, wide side up       (x to the right, y inward, z up the face)
edge_along_u  headers, outlookers, fascia: along u, width up v    (x to the right, y up the face, z outward)
standing_along_u  outlookers on edge: along u, width off the face (x to the right, y outward, z down the face)
out_of_face   lookouts of an eave: straight out, width up v       (x outward, y up the face, z to the left)
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.findings import NOWHERE, Place
from takeoff.framing.plumb_ends import PlumbEnds, square_ends
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import scale
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.catalog.profiles import Profile
    from takeoff.geometry.rafter import RafterGeometry


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Where sticks are made for one face: what they have in common."""

    building: str
    face: str
    placement: Placement
    written: Place = NOWHERE

    def along_v(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: float,
        v: tuple[float, float],
        cuts: tuple[EndCut, EndCut] = SQUARE_ENDS,
    ) -> Member:
        """A stick centred on ``u`` from ``v[0]`` to ``v[1]``, its top edge in the face."""
        at = Placement(self.placement.to_world((u, v[0], -profile.depth_in)), self.placement.y, self.placement.z)
        return self._made(role_name, profile, grade, at, _rectangle(v[1] - v[0], profile.depth_in), cuts)

    def rafter(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: float,
        geometry: RafterGeometry,
        ends: PlumbEnds | None = None,
    ) -> Member:
        """A rafter centred on ``u``, its top edge in the face; plumb and square unless ``ends`` says otherwise.

        Its geometry may be shallower than its profile, which it is ripped from then.
        """
        v0 = geometry.start * hypot(1, geometry.slope)
        at = Placement(self.placement.to_world((u, v0, -geometry.depth)), self.placement.y, self.placement.z)
        ends = ends or square_ends(geometry)
        (first, *more_low), (last, *more_high) = ends.lower, ends.upper
        return replace(
            self._made(role_name, profile, grade, at, geometry.side(), (first, last), geometry),
            cheeks=(tuple(more_low), tuple(more_high)),
        )

    def flat_along_u(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: tuple[float, float],
        v: float,
        inset: float = 0.0,
        depth: float | None = None,
        slants: tuple[float, float] = (0.0, 0.0),
    ) -> Member:
        """A stick lying flat on ``v``, its outer edge ``inset`` behind the face from ``u[0]`` to ``u[1]``.

        ``depth`` is given where it is ripped narrower than its profile; ``slants`` say how much further along u each of
        its ends is at its inner edge.
        """
        low = min(u[0], u[0] + slants[0])
        origin = self.placement.to_world((low, v + profile.thickness_in / 2, -inset))
        at = Placement(origin, self.placement.x, scale(self.placement.z, -1.0))
        side, cuts = _slanted((u[0] - low, u[1] - low), depth or profile.depth_in, slants)
        return self._made(role_name, profile, grade, at, side, cuts)

    def flat_up_a_slope(
        self, role_name: str, profile: Profile, grade: str, low: tuple[float, float], high: tuple[float, float]
    ) -> Member:
        """A stick lying flat along a slope in the face, from plumb end to plumb end, its outer edge in the face.

        Args:
            role_name: what it does.
            profile: of the stick.
            grade: of the stick.
            low: u and v of the middle of its thickness at its left end [in].
            high: the same at its right end.
        """
        (u0, v0), (u1, v1) = low, high
        length = hypot(u1 - u0, v1 - v0)
        cos, sin = (u1 - u0) / length, (v1 - v0) / length
        tip = profile.thickness_in / 2 * abs(sin) / cos
        x = self.placement.direction_to_world((cos, sin, 0.0))
        origin = self.placement.to_world((u0 - tip * cos, v0 - tip * sin, 0.0))
        at = Placement(origin, x, scale(self.placement.z, -1.0))
        cuts = (EndCut((-cos, 0.0, sin)), EndCut((cos, 0.0, -sin))) if abs(sin) > TOLERANCE.length else SQUARE_ENDS
        side = _rectangle(length + 2 * tip, profile.depth_in)
        return self._made(role_name, profile, grade, at, side, cuts)

    def turned_along_v(
        self, role_name: str, profile: Profile, grade: str, *, u: float, v: tuple[float, float], inset: float
    ) -> Member:
        """An upright turned flat to the face and centred on ``u``, its outer side ``inset`` behind the face."""
        origin = self.placement.to_world((u - profile.depth_in / 2, v[0], -inset - profile.thickness_in / 2))
        at = Placement(origin, self.placement.y, self.placement.x)
        return self._made(role_name, profile, grade, at, _rectangle(v[1] - v[0], profile.depth_in))

    def edge_along_u(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: tuple[float, float],
        v: float,
        outward: float,
        height: float | None = None,
    ) -> Member:
        """A stick on edge from ``u[0]`` to ``u[1]``, lower edge at ``v``, outer side ``outward`` of the face.

        ``height`` is given where the stick is ripped narrower than its profile.
        """
        origin = self.placement.to_world((u[0], v, outward - profile.thickness_in / 2))
        at = Placement(origin, self.placement.x, self.placement.y)
        return self._made(role_name, profile, grade, at, _rectangle(u[1] - u[0], height or profile.depth_in))

    def standing_along_u(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: tuple[float, float],
        v: float,
    ) -> Member:
        """A stick on edge from ``u[0]`` to ``u[1]``, its thickness centred on ``v``, its top edge in the face."""
        origin = self.placement.to_world((u[0], v, -profile.depth_in))
        at = Placement(origin, self.placement.x, self.placement.z)
        return self._made(role_name, profile, grade, at, _rectangle(u[1] - u[0], profile.depth_in))

    def out_of_face(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        *,
        u: float,
        v: float,
        outward: float,
        side: Polygon,
    ) -> Member:
        """A stick centred on ``u`` that points out of the face, its lower edge at ``v``.

        ``side`` is its outline, x from its inner end out, which stands ``outward`` of the face.
        """
        at = Placement(self.placement.to_world((u, v, outward)), self.placement.z, self.placement.y)
        return self._made(role_name, profile, grade, at, side)

    def _made(
        self,
        role_name: str,
        profile: Profile,
        grade: str,
        placement: Placement,
        side: Polygon,
        cuts: tuple[EndCut, EndCut] = SQUARE_ENDS,
        rafter: RafterGeometry | None = None,
    ) -> Member:
        return Member(
            building=self.building,
            face=self.face,
            role=role(role_name),
            profile=profile,
            grade=grade,
            side=side,
            placement=placement,
            cuts=cuts,
            rafter=rafter,
            written=self.written,
        )


def _slanted(
    ends: tuple[float, float], depth: float, slants: tuple[float, float]
) -> tuple[Polygon, tuple[EndCut, EndCut]]:
    """Side and end cuts of a stick whose ends run on by ``slants`` at its top edge."""
    from shapely import Polygon

    if not any(slants):
        return _rectangle(ends[1] - ends[0], depth), SQUARE_ENDS
    (a, b), (left, right) = ends, slants
    if min(b - a, b + right - a - left) <= 0:
        raise ValueError("a stick whose ends cross can't be made")
    away = hypot(depth, left), hypot(depth, right)
    cuts = (
        EndCut((-depth / away[0], left / away[0], 0.0)),
        EndCut((depth / away[1], -right / away[1], 0.0)),
    )
    return Polygon([(a, 0.0), (b, 0.0), (b + right, depth), (a + left, depth)]), cuts


def _rectangle(length: float, depth: float) -> Polygon:
    from shapely import box

    if length <= 0:
        raise ValueError(f"a stick of {length} in can't be made")
    return box(0.0, 0.0, length, depth)
