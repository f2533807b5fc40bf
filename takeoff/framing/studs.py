"""Studs of a wall: what stands where, by slicing its stud zones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil, hypot
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.framing.spacing import clear_of, layout_positions
from takeoff.geometry.outline import Outline, Slice
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from takeoff.framing.wall import RoughOpening, TeeIn, Wall


@dataclass(frozen=True, slots=True)
class Upright:
    """Where a full-height stud stands, and as what."""

    u: float
    role: str


def fixed_uprights(wall: Wall) -> tuple[Upright, ...]:
    """Studs that stand where the wall needs them, off the layout.

    Ends, corner backing, kings, packs under beams, beside a ridge post, at the sides of a tee, beside a clip's
    plate ends.
    """
    t = wall.studs.thickness_in
    left, right = wall.extent
    ends = [Upright(left + t / 2, "stud"), Upright(right - t / 2, "stud")]
    backing = [Upright(u, "corner-stud") for u in _corner_studs(wall)]
    kings = [Upright(u, "king-stud") for opening in wall.openings for u in king_centres(opening, t)]
    packs = [Upright(u, "post") for u in wall.packs]
    beside = [Upright(u, "stud") for post in wall.posts for u in post.beside]
    doubled = [
        Upright(u, "corner-stud") for u, free in zip((left + 1.5 * t, right - 1.5 * t), wall.free, strict=True) if free
    ]
    beside_tees = [Upright(u, "tee-stud") for tee in wall.tees for u in channel_sides(wall, tee)]
    at_steps = [Upright(u, "stud") for u in _beside_steps(wall)]
    level = wall.level_top
    under_clip = [Upright(u + side, "stud") for u in (level.u if level else ()) for side in (-t / 2, t / 2)]
    kept: list[Upright] = []
    for upright in (*ends, *kings, *packs, *beside, *backing, *doubled, *beside_tees, *at_steps, *under_clip):
        if clear_of([upright.u], (*(other.u for other in kept), *wall.post_centres), t):
            kept.append(upright)
    return tuple(sorted(kept, key=lambda upright: upright.u))


def _beside_steps(wall: Wall) -> Iterator[float]:
    """Centres of the studs at both sides of a step in a wall's top, where plates end; at a beam its post stands."""
    half = wall.studs.thickness_in / 2
    line = wall.top or (wall.rake if wall.rake_plates else None)
    if line:
        for at in line.steps:
            under_beam = any(u0 - TOLERANCE.mark <= at <= u1 + TOLERANCE.mark for u0, u1 in (r.u for r in wall.ridges))
            if not under_beam:
                yield from (at - half, at + half)


def _corner_studs(wall: Wall) -> Iterator[float]:
    """Centres of what a corner has beside its end studs.

    Three studs: one behind the wall that butts, so that the inside finish has an edge to nail to. Four: another one
    beside the end stud. Two: none, the finish is held by clips.
    """
    t, posts = wall.studs.thickness_in, wall.details.corner_posts
    for corner, inward, depth in zip(wall.extent, (1.0, -1.0), wall.neighbours, strict=True):
        if depth and posts != "two-stud":
            yield corner + inward * (depth + t / 2)
        if depth and posts == "four-stud":
            yield corner + inward * 1.5 * t


def channel_sides(wall: Wall, tee: TeeIn) -> tuple[float, ...]:
    """Centres of the two studs at the sides of a wall that ends here; none where it has blocks instead."""
    half = wall.studs.thickness_in / 2
    return (tee.u[0] - half, tee.u[1] + half) if wall.details.tees == "channel" else ()


def channels(wall: Wall) -> tuple[TeeIn, ...]:
    """Tees whose two side studs both stand and have nothing between: room for the flat stud of a channel."""
    t = wall.studs.thickness_in
    fixed = [upright.u for upright in fixed_uprights(wall)] + list(wall.post_centres)
    return tuple(
        tee
        for tee in wall.tees
        if (sides := channel_sides(wall, tee))
        and all(any(abs(u - side) < TOLERANCE.length for u in fixed) for side in sides)
        and not any(tee.u[0] - t / 2 + TOLERANCE.length < u < tee.u[1] + t / 2 - TOLERANCE.length for u in fixed)
    )


def in_channels(wall: Wall) -> tuple[float, ...]:
    """Centres that fill the channels, as if studs stood in them side by side: the layout's studs keep out."""
    t = wall.studs.thickness_in
    return tuple(
        tee.u[0] + min(t * (k + 0.5), tee.u[1] - tee.u[0] - t / 2)
        for tee in channels(wall)
        for k in range(ceil((tee.u[1] - tee.u[0]) / t))
    )


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
    return clear_of(inside, (*taken, *jacks, *in_channels(wall)), t)


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
    return wall.bench.along_v(_role(wall, upright.role, cut), wall.studs, grade, u=upright.u, v=v, cuts=cuts)


def upright_grade(wall: Wall, length: float) -> str:
    """Grade of an upright: the wall's, unless that is not made so long; then the grade of its plates."""
    lengths = stock_lengths(wall.studs, wall.grade)
    return wall.grade if lengths and length <= lengths[-1] + TOLERANCE.length else wall.plates_grade


def _role(wall: Wall, wanted: str, cut: Slice) -> str:
    if cut.lower.role in ("header", "sill") or cut.upper.role in ("header", "sill"):
        return "cripple"
    level_top = wall.rake_plates and abs(cut.upper.slope) < TOLERANCE.length
    # Over a cap plate no king is left: what stands there in line with it is cut to the rake like its neighbours.
    king = wanted == "king-stud" and cut.lower.role != "plate"
    if cut.upper.role in ("rake", "ridge") and not level_top and not king:
        return "gable-stud"
    return wanted


def stud_ends(zone: Outline, cut: Slice, thickness: float) -> tuple[tuple[float, float], tuple[EndCut, EndCut]]:
    """Long-point ends of a stud on a slice and its cuts, bevelled where the edge it meets slopes."""
    v0, foot = _foot(zone, cut, thickness)
    inside = thickness / 2 - TOLERANCE.length
    beside = [s for u in (cut.u - inside, cut.u + inside) for s in zone.slices(u) if s.lower == cut.lower]
    if any(s.upper != cut.upper for s in beside):
        # The peak, or a ridge thinner than the stud, is over it: cut square, under the lowest of what it meets.
        return (v0, min(cut.v1, *(s.v1 for s in beside))), (foot, SQUARE_ENDS[1])
    rise = cut.upper.slope
    top = EndCut((1 / hypot(1, rise), 0.0, -rise / hypot(1, rise) + 0.0))
    return (v0, cut.v1 + abs(rise) * thickness / 2), (foot, top)


def _foot(zone: Outline, cut: Slice, thickness: float) -> tuple[float, EndCut]:
    """Lower end of a stud and its cut: bevelled on a raked plate, square on what is level and over a bend."""
    if cut.lower.role != "plate":
        return cut.v0, SQUARE_ENDS[0]
    inside = thickness / 2 - TOLERANCE.length
    beside = [s for u in (cut.u - inside, cut.u + inside) for s in zone.slices(u) if s.lower.role == "plate"]
    if any(s.lower != cut.lower for s in beside):
        return max(cut.v0, *(s.v0 for s in beside)), SQUARE_ENDS[0]
    rise = cut.lower.slope
    return cut.v0 - abs(rise) * thickness / 2, EndCut((-1 / hypot(1, rise), 0.0, rise / hypot(1, rise) + 0.0))
