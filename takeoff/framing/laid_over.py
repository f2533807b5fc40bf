"""A roof laid over another: its slopes cut off along the other's surface, and its sticks trimmed to it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.framing.laid_ends import LAID, Surface
from takeoff.geometry.outline import Outline, cut_off
from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import Vec, add, dot, scale
from takeoff.model.member import EndCut, Member

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.roof_plan import Fold, RoofPlan
    from takeoff.framing.slope import Slope
    from takeoff.geometry.placement import Placement

LEAST_STICK_IN = 3.0
"""A stick trimmed shorter than this is not cut [in]. Common practice, no source."""


def height_over(plane: Placement, x: float, y: float) -> float:
    """Height of a sloping plane over a place in plan [in]."""
    nx, ny, nz = plane.z
    px, py, pz = plane.origin
    return pz - (nx * (x - px) + ny * (y - py)) / nz


def rise_along(plane: Placement, direction: tuple[float, float]) -> float:
    """Rise of a sloping plane for one inch level in a direction."""
    nx, ny, nz = plane.z
    return -(nx * direction[0] + ny * direction[1]) / nz


def laid_over(plan: RoofPlan, plane: Placement) -> RoofPlan:
    """A roof as laid out, cut off where it runs into a sloping plane; slopes that it misses stay whole.

    Args:
        plan: the roof.
        plane: that it lies on, its third axis up and out.

    Raises:
        ValueError: nothing of a slope stands over the plane.
    """
    slopes = tuple(_laid(slope, plan.line(slope.side).plate, plane) for slope in plan.slopes)
    return replace(plan, slopes=slopes, folds=tuple(shortened(fold, plane) for fold in plan.folds))


def surface_of(slope: Slope, plate: float, plane: Placement) -> tuple[Surface, tuple[float, float], float]:
    """A plane as a slope sees it; and which of its places stand clear of it: those where ``clear . (u, v) >= least``.

    Args:
        slope: that is laid on it.
        plate: height of the slope's wall above the deck [in].
        plane: its third axis up and out.
    """
    (x, y, top), along, up = slope.bench.placement.origin, slope.bench.placement.x, slope.bench.placement.y
    inward = (up[0] / slope.level, up[1] / slope.level)
    surface = Surface(
        height=height_over(plane, x, y) - plate,
        along=rise_along(plane, along[:2]),
        inward=rise_along(plane, inward),
    )
    clear = (-surface.along, slope.level * (slope.common.slope - surface.inward))
    return surface, clear, surface.height - (top - plate)


def _laid(slope: Slope, plate: float, plane: Placement) -> Slope:
    surface, clear, least = surface_of(slope, plate, plane)
    edges = cut_off(slope.outline.edges, clear, least, LAID)
    if not edges:
        raise ValueError(f"the {slope.name} lies under the roof that it is to be laid on")
    return replace(slope, outline=Outline(edges, slope.outline.holes), surface=surface)


def shortened(fold: Fold, plane: Placement) -> Fold:
    """A fold up to where it runs into the plane, on which it ends then."""
    low, high = (spot[2] - height_over(plane, spot[0], spot[1]) for spot in (fold.low, fold.high))
    if low * high >= 0:
        return fold
    met = add(fold.low, scale(add(fold.high, scale(fold.low, -1.0)), low / (low - high)))
    return replace(fold, low=met, laid_on=plane) if low < 0 else replace(fold, high=met, laid_on=plane)


def trimmed(member: Member, plane: Placement) -> Member | None:
    """What of a stick stands over a plane, cut along it; None where nothing worth cutting does.

    A stick that the plane runs along, with both its ends under it, is left out as well.
    """
    at = member.placement
    up: Vec = (dot(plane.z, at.x), dot(plane.z, at.y), dot(plane.z, at.z))
    through = at.from_world(plane.origin)
    half = abs(up[2]) * member.profile.thickness_in / 2
    least = dot(up, through)
    corners = list(member.side.exterior.coords)[:-1]
    clear = [up[0] * x + up[1] * y - least for x, y in corners]
    if min(clear) >= half - TOLERANCE.length * 10:
        return member
    end = 0 if up[0] > 0 else 1
    side = _beyond(member.side, (up[0], up[1]), least - half)
    if side is None or side.area < LEAST_STICK_IN * member.profile.depth_in or abs(up[0]) < TOLERANCE.length:
        return None
    cuts, cheeks = list(member.cuts), list(member.cheeks)
    placed = [EndCut(*member.placed(cut)) for cut in (member.cuts[end], *member.cheeks[end])]
    cuts[1 - end] = EndCut(*member.placed(member.cuts[1 - end]))
    cuts[end] = EndCut((-up[0], -up[1], -up[2]), through)
    cheeks[end] = tuple(cut for cut in placed if _touches(cut, side, member.profile.thickness_in))
    made = replace(member, side=side, cuts=(cuts[0], cuts[1]), cheeks=(cheeks[0], cheeks[1]))
    return made if member.rafter else _from_its_end(made)


def _from_its_end(member: Member) -> Member:
    """The same stick, its axes moved to where it starts now."""
    from shapely.affinity import translate

    x0 = float(member.side.bounds[0])

    def moved(cut: EndCut) -> EndCut:
        assert cut.through is not None  # its cuts have been placed
        x, y, z = cut.through
        return replace(cut, through=(x - x0, y, z))

    (one, other), (low, high) = member.cuts, member.cheeks
    return replace(
        member,
        side=translate(member.side, -x0, 0.0),
        placement=replace(member.placement, origin=member.placement.to_world((x0, 0.0, 0.0))),
        cuts=(moved(one), moved(other)),
        cheeks=(tuple(map(moved, low)), tuple(map(moved, high))),
    )


def _beyond(side: Polygon, up: tuple[float, float], least: float) -> Polygon | None:
    """The part of an outline where ``up . (x, y) >= least``."""
    from shapely import Polygon

    x0, y0, x1, y1 = side.bounds
    far = 4 * (x1 - x0 + y1 - y0) + 1
    size = (up[0] ** 2 + up[1] ** 2) ** 0.5
    nx, ny = up[0] / size, up[1] / size
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    off = least / size - (nx * middle[0] + ny * middle[1])
    foot = (middle[0] + nx * off, middle[1] + ny * off)
    ends = [(foot[0] - ny * far * s, foot[1] + nx * far * s) for s in (-1, 1)]
    half = Polygon([*ends, *((x + nx * far, y + ny * far) for x, y in reversed(ends))])
    parts = cleaned(side.intersection(half))
    return max(parts, key=lambda part: float(part.area)) if parts else None


def _touches(cut: EndCut, side: Polygon, thickness: float) -> bool:
    """Whether a cut's plane still takes something off a stick, or ends it."""
    assert cut.through is not None  # those that come here have been placed
    (nx, ny, nz), (px, py, pz) = cut.normal, cut.through
    out = [nx * (x - px) + ny * (y - py) for x, y in side.exterior.coords]
    return max(out) + abs(nz) * thickness / 2 - nz * pz > -TOLERANCE.length * 10
