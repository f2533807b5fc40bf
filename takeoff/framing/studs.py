"""Studs of a wall: what stands where, by slicing its stud zones."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.framing.spacing import clear_of, layout_positions
from takeoff.geometry.outline import Outline, Slice
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from takeoff.framing.wall import RoughOpening, Wall


@dataclass(frozen=True, slots=True)
class Upright:
    """Where a full-height stud stands, and as what."""

    u: float
    role: str


def fixed_uprights(wall: Wall) -> tuple[Upright, ...]:
    """Studs that stand where the wall needs them, off the layout: ends, corner backing, kings, beside a ridge post."""
    t = wall.studs.thickness_in
    left, right = wall.extent
    ends = [Upright(left + t / 2, "stud"), Upright(right - t / 2, "stud")]
    # Behind the wall that butts, so that the inside finish has an edge to nail to.
    backing = [Upright(left + wall.neighbours[0] + t / 2, "corner-stud")] if wall.neighbours[0] else []
    backing += [Upright(right - wall.neighbours[1] - t / 2, "corner-stud")] if wall.neighbours[1] else []
    kings = [Upright(u, "king-stud") for opening in wall.openings for u in king_centres(opening, t)]
    beside = [Upright(u, "stud") for post in wall.posts for u in post.beside]
    kept: list[Upright] = []
    for upright in (*ends, *kings, *beside, *backing):
        if clear_of([upright.u], (other.u for other in kept), t):
            kept.append(upright)
    return tuple(sorted(kept, key=lambda upright: upright.u))


def king_centres(opening: RoughOpening, thickness: float) -> tuple[float, float]:
    """Centres of the king studs, outside the jacks."""
    away = opening.jacks * thickness + thickness / 2
    return opening.u[0] - away, opening.u[1] + away


def jack_centres(opening: RoughOpening, thickness: float) -> tuple[float, ...]:
    """Centres of all jack studs, left to right."""
    offsets = [thickness * (k + 0.5) for k in range(opening.jacks)]
    return tuple(sorted([opening.u[0] - o for o in offsets] + [opening.u[1] + o for o in offsets]))


def layout_studs(wall: Wall, taken: Iterable[float]) -> tuple[float, ...]:
    """Centres on the wall's layout that nothing else stands on."""
    t = wall.studs.thickness_in
    inside = [
        u
        for u in layout_positions(wall.side.length_in, wall.spacing, from_right=wall.from_right)
        if wall.extent[0] + t / 2 <= u <= wall.extent[1] - t / 2
    ]
    jacks = [u for opening in wall.openings for u in jack_centres(opening, wall.studs.thickness_in)]
    return clear_of(inside, (*taken, *jacks), t)


def studs(wall: Wall) -> tuple[Member, ...]:
    """All uprights of a wall but jacks and posts; the edges a slice meets make it a stud, a cripple or a gable stud."""
    fixed = fixed_uprights(wall)
    layout = layout_studs(wall, (*(upright.u for upright in fixed), *wall.post_centres))
    uprights = sorted([*fixed, *(Upright(u, "stud") for u in layout)], key=lambda upright: upright.u)
    return tuple(
        member
        for zone in wall.stud_zones()
        for upright in uprights
        for cut in zone.slices(upright.u)
        if (member := _stud(wall, zone, upright, cut)) is not None
    )


def _stud(wall: Wall, zone: Outline, upright: Upright, cut: Slice) -> Member | None:
    t = wall.studs.thickness_in
    v, cuts = stud_ends(zone, cut, t)
    short_point = v[1] - abs(cut.upper.slope) * t - v[0]
    if short_point < t + TOLERANCE.length:
        return None  # a sliver or a wedge that nobody cuts: the header or the rafter is right on the plate
    grade = upright_grade(wall, v[1] - v[0])
    return wall.bench.along_v(_role(upright.role, cut), wall.studs, grade, u=upright.u, v=v, cuts=cuts)


def upright_grade(wall: Wall, length: float) -> str:
    """Grade of an upright: the wall's, unless that is not made so long; then the grade of its plates."""
    lengths = stock_lengths(wall.studs, wall.grade)
    return wall.grade if lengths and length <= lengths[-1] + TOLERANCE.length else wall.plates_grade


def _role(wanted: str, cut: Slice) -> str:
    if cut.lower.role in ("header", "sill") or cut.upper.role in ("header", "sill"):
        return "cripple"
    if cut.upper.role in ("rake", "ridge") and wanted != "king-stud":
        return "gable-stud"
    return wanted


def stud_ends(zone: Outline, cut: Slice, thickness: float) -> tuple[tuple[float, float], tuple[EndCut, EndCut]]:
    """Long-point ends of a stud on a slice and its cuts, bevelled where the edge it meets slopes."""
    inside = thickness / 2 - TOLERANCE.length
    beside = [s for u in (cut.u - inside, cut.u + inside) for s in zone.slices(u) if s.lower == cut.lower]
    if any(s.upper != cut.upper for s in beside):
        # The peak, or a ridge thinner than the stud, is over it: cut square, under the lowest of what it meets.
        return (cut.v0, min(cut.v1, *(s.v1 for s in beside))), SQUARE_ENDS
    rise = cut.upper.slope
    top = EndCut((1 / hypot(1, rise), 0.0, -rise / hypot(1, rise) + 0.0))
    return (cut.v0, cut.v1 + abs(rise) * thickness / 2), (SQUARE_ENDS[0], top)
