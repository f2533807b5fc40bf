"""Partitions of a building as walls, and the tees that they make in the walls they end against."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.backing import backing_blocks
from takeoff.framing.openings import hung, rough_opening
from takeoff.framing.over_spot import TOUCH_IN, lowest_over
from takeoff.framing.stick import Bench
from takeoff.framing.wall import PlateEnd, RoughOpening, TeeIn, Wall
from takeoff.framing.walls import details_of, wall_placement
from takeoff.geometry.rake_line import RakeLine
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.footprint import Side
from takeoff.plan.runs import RunPiece, Tee, run_pieces, tees

if TYPE_CHECKING:
    from takeoff.model.member import Member
    from takeoff.plan.openings import WallOpening
    from takeoff.plan.partitions import Partition
    from takeoff.plan.schema import Building
    from takeoff.plan.walls import Backing


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The walls of a building with its partitions."""

    sides: tuple[Wall, ...]
    """The walls of the outline, backed where partitions end."""
    partitions: tuple[Wall, ...]
    asked: tuple[tuple[str, float, Backing], ...]
    """Backing by the name of the wall it is in, with where that begins along the line it is measured on [in]."""

    def backing(self, wall: Wall, standing: Sequence[Member]) -> tuple[Member, ...]:
        """The blocks that the plan asks for in a wall."""
        blocks: list[Member] = []
        for name, start, asked in self.asked:
            if name == wall.side.name:
                blocks += backing_blocks(wall, asked, start, (*standing, *blocks))
        return tuple(blocks)


def with_partitions(building: Building, sides: Sequence[Wall], written: Callable[[str], Place]) -> Inside:
    """The walls of the outline, backed where partitions end against them, and the partitions.

    Args:
        building: as the plan writes it, already verified.
        sides: walls of its outline.
        written: gives the place in the plan of a path.
    """
    pieces = run_pieces(building)
    walls = [*sides, *(_wall(building, piece, written) for piece in pieces)]
    hosts = [wall.side.name for wall in sides] + [building.walls.partitions[p.partition].name for p in pieces]
    starts = [0.0] * len(sides) + [_start(piece) for piece in pieces]
    lapping: list[Tee] = []
    for tee in tees(building):
        for k, name in enumerate(hosts):
            shifted = (tee.u[0] - starts[k], tee.u[1] - starts[k])
            reach = walls[k].extent
            if name != tee.host or shifted[0] < reach[0] - 1 or shifted[1] > reach[1] + 1:
                continue
            made = _tee(building, tee, walls[k], shifted)
            walls[k] = replace(walls[k], tees=(*walls[k].tees, made))
            if made.laps:
                lapping.append(tee)
    for tee in lapping:
        host = next(k for k, name in enumerate(hosts) if name == tee.host)
        for k, piece in enumerate(pieces, start=len(sides)):
            if piece.partition == tee.partition:
                walls[k] = _lapped(walls[k], piece, tee.host, walls[host].studs.depth_in)
    named = zip(walls, hosts, starts, strict=True)
    asked = tuple(
        (wall.side.name, start, each)
        for wall, name, start in named
        for each in building.walls.backing
        if name == each.wall
    )
    return Inside(sides=tuple(walls[: len(sides)]), partitions=tuple(walls[len(sides) :]), asked=asked)


def _start(piece: RunPiece) -> float:
    """Where a piece's framing begins along its run [in]."""
    return min(piece.ends[0].at)


def _wall(building: Building, piece: RunPiece, written: Callable[[str], Place]) -> Wall:
    partition = building.walls.partitions[piece.partition]
    studs, start = profile(partition.studs), _start(piece)
    end = max(piece.ends[1].at)
    side = Side(piece.name, piece.strip.at(start), piece.strip.at(end))
    left, right = (_plate_end(end.at, start) for end in piece.ends)
    inner = piece.inner
    corner = [end.depth if end.kind == "corner" else 0.0 for end in piece.ends]
    openings = (
        _rough(building, partition, opening, start)
        for opening in partition.openings
        if inner[0] <= opening.left_in and opening.right_in <= inner[1]
    )
    return Wall(
        side=side,
        bench=Bench(
            building=building.name,
            face=piece.name,
            placement=wall_placement(side),
            written=written(f"walls.partitions[{piece.partition}]"),
        ),
        studs=studs,
        grade=partition.grade or building.walls.grade,
        plates_grade=building.walls.plates_grade,
        spacing=partition.spacing or building.walls.spacing,
        height=partition.height_in(building.walls.height),
        from_right=False,
        ends=(left, right),
        neighbours=(corner[0], corner[1]),
        cap_ends=(
            (left[0] + corner[0], left[1] + corner[0]),
            (right[0] - corner[1], right[1] - corner[1]),
        ),
        openings=tuple(sorted(openings, key=lambda o: o.u)),
        free=(piece.ends[0].kind == "free", piece.ends[1].kind == "free"),
        details=details_of(building),
        balloon=partition.top is not None,
        rake=RakeLine(points=tuple((u - start, v) for u, v in partition.top)) if partition.top else None,
        rake_plates=2 if partition.top else 0,
    )


def _rough(building: Building, partition: Partition, opening: WallOpening, start: float) -> RoughOpening:
    """An opening as it is framed; only a partition that bears has its headers hung high with the walls'."""
    studs = profile(partition.studs)
    framed = rough_opening(opening, start=start, flat=None if partition.bearing else studs)
    at = opening.header_at or (building.walls.header_at if partition.bearing else "head")
    return (
        hung(framed, partition.height_in(building.walls.height) - 2 * studs.thickness_in)
        if at == "plates" and not partition.top
        else framed
    )


def _plate_end(at: PlateEnd, start: float) -> PlateEnd:
    return (at[0] - start, at[1] - start)


def _tee(building: Building, tee: Tee, host: Wall, u: tuple[float, float]) -> TeeIn:
    partition = building.walls.partitions[tee.partition]
    top = partition.height_in(building.walls.height)
    laps = (
        tee.square
        and len(tee.faces) == 1
        and host.platform
        and not partition.top
        and host.top is None
        and abs(top - host.height) < TOLERANCE.length
    )
    # The joint over the tee keeps its distance from the other joints of the cap plate, and from its ends.
    others = [*host.cap_ends[0], *host.cap_ends[1], *(v for each in host.tees if each.laps for v in each.u)]
    offset = rule("plate.joint-offset").value
    return TeeIn(
        u=u,
        studs=profile(partition.studs),
        outside="right" in tee.faces,
        inside="left" in tee.faces,
        top=top,
        laps=laps and all(abs(v - here) >= offset for v in others for here in u),
    )


def _lapped(wall: Wall, piece: RunPiece, host: str, depth: float) -> Wall:
    """A partition whose cap plate runs on over the wall it ends against."""
    left, right = wall.cap_ends
    if piece.ends[0].host == host and piece.ends[0].kind == "tee":
        left = (left[0] - depth, left[1] - depth)
    if piece.ends[1].host == host and piece.ends[1].kind == "tee":
        right = (right[0] + depth, right[1] + depth)
    return replace(wall, cap_ends=(left, right))


def refuse_in_the_roof(partitions: Sequence[Wall], roof: Sequence[Member]) -> None:
    """Refuse partitions that reach into the sticks of the roof over them, or run through a post under a ridge.

    Raises:
        PlanError: one does; all of them are in it.
    """
    found: list[Finding] = []
    for wall in partitions:
        ends, depth, place = wall.extent, wall.studs.depth_in, wall.bench.placement
        spots = [place.to_world((u, 0.0, w)) for u, w in zip((*ends, *ends[::-1]), (0, 0, -depth, -depth), strict=True)]
        if wall.rake or wall.top:
            found += _raked_in_the_roof(wall, roof)
            continue
        low = lowest_over(roof, [(x, y) for x, y, _ in spots])
        if wall.height - low > TOLERANCE.mark:
            message = (
                f"partition {wall.side.name!r}, {format_length(wall.height)} high, reaches"
                f" {format_length(wall.height - low)} into the roof, whose lowest stick over it is at"
                f" {format_length(low)}; give it a height of its own, or part it where the roof is lower"
            )
            at = wall.bench.written
            found.append(Finding(rule="frame.partition", severity=Severity.ERROR, message=message, place=at))
        met = [m for m in roof if m.role.name == "ridge-post" and _meets(m, spots)]
        found += [_post_within(wall, post) for post in met[:1]]
    if found:
        raise PlanError(found)


APART_IN = 12.0
"""How far apart the places are where a sloping top is held against the roof over it [in]."""


def _raked_in_the_roof(wall: Wall, roof: Sequence[Member]) -> Iterator[Finding]:
    """The first place where a stepped or raked top reaches into the roof."""
    line, (left, right), place = wall.top or wall.rake, wall.extent, wall.bench.placement
    if line is None:
        return
    count = ceil((right - left) / APART_IN)
    bends = [u for part in line.runs(wall.extent) for u in (part[0][0] + TOUCH_IN, part[1][0] - TOUCH_IN)]
    for u in sorted([*bends, *(left + (right - left) * k / count for k in range(1, count))]):
        strip = ((u - 2 * TOUCH_IN, 0.0), (u + 2 * TOUCH_IN, 0.0))
        ends = [place.to_world((s, 0.0, w)) for s, w in (*strip, *((s, -wall.studs.depth_in) for s, _ in strip[::-1]))]
        low = lowest_over(roof, [(x, y) for x, y, _ in ends])
        if line.at(u) - low > TOLERANCE.mark + 1 / 16:
            what = "the wall" if wall.top else "partition"
            message = (
                f"the top of {what} {wall.side.name!r}, {format_length(line.at(u))} high {format_length(u)} along"
                f" it, reaches {format_length(line.at(u) - low)} into the roof there; lower that part of its top"
            )
            yield Finding(rule="frame.partition", severity=Severity.ERROR, message=message, place=wall.bench.written)
            return


def _meets(post: Member, spots: Sequence[tuple[float, float, float]]) -> bool:
    """Whether an upright stands in a strip of the floor."""
    from shapely import Polygon

    half = post.profile.thickness_in / 2
    corners = [post.placement.to_world((0.0, y, z)) for y, z in ((0, -half), (post.profile.depth_in, -half))]
    corners += [post.placement.to_world((0.0, y, z)) for y, z in ((post.profile.depth_in, half), (0, half))]
    foot, strip = (Polygon([(x, y) for x, y, _ in ring]) for ring in (corners, spots))
    return float(foot.intersection(strip).area) > TOLERANCE.area


def _post_within(wall: Wall, post: Member) -> Finding:
    x, y, _ = post.placement.to_world((0.0, post.profile.depth_in / 2, 0.0))
    message = (
        f"partition {wall.side.name!r} runs through the post under the ridge beam at"
        f" [{format_length(x)}, {format_length(y)}]; end a partition at each side of the post, or move the post"
        " (ridge: posts)"
    )
    return Finding(rule="frame.partition", severity=Severity.ERROR, message=message, place=wall.bench.written)
