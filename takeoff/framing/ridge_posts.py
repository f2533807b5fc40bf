"""Posts inside a building: under a ridge beam where the plan has them, where it ends inside, and where hips meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, dist, floor
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.folds import passes
from takeoff.framing.over_spot import TOUCH_IN, lowest_over
from takeoff.framing.slope import NODE_IN
from takeoff.framing.stick import Bench
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.fold_members import RidgeStick
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.model.member import Member
    from takeoff.plan.schema import Building

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class InsidePost:
    """A post from the floor deck up. Its depth lies along the ridge, its plies side by side across it."""

    spot: Point
    """Its middle in plan [in]."""
    along: Point
    """Unit direction of the ridge."""
    profile: Profile
    plies: int
    top: float
    """Above the deck [in]."""
    where: str
    """As a builder finds it."""

    @property
    def words(self) -> str:
        """What it is made of."""
        return f"{self.plies}-{self.profile.name}" if self.plies > 1 else self.profile.name


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stand:
    """Where a post is wanted."""

    spot: Point
    along: Point
    beam: RidgeStick | None
    """What it carries; None for an apex of hips."""
    where: str
    placed: bool
    """By the plan."""


def inside_posts(
    building: Building, frame: RoofFrame, members: Sequence[Member], written: Callable[[str], Place]
) -> tuple[tuple[InsidePost, ...], tuple[Finding, ...]]:
    """Posts inside the building, and what there is to say of them.

    Args:
        building: as the plan writes it.
        frame: its roof.
        members: sticks of the roof.
        written: gives the place in the plan of a path.

    Raises:
        PlanError: a post that the plan places has no room under the beam.
    """
    ridge = building.roof.ridge
    posts: list[InsidePost] = []
    findings: list[Finding] = []
    if ridge is None or ridge.kind != "beam":
        return (), ()
    over = [m for m in members if m.role.name not in ("ridge-beam", "false-ridge", "fascia", "barge")]
    depth = profile(ridge.post or building.walls.studs).depth_in
    for stand in (*_given(frame, ridge.posts), *_under_nodes(frame, depth)):
        post, low = _post(building, stand, over)
        if post:
            posts.append(post)
            continue
        message = (
            f"no post has room under the ridge beam {stand.where}: rafters reach {format_length(low)} below the beam;"
            " take a deeper beam, or a post no wider than the beam"
        )
        finding = Finding(
            rule="frame.ridge-post",
            severity=Severity.ERROR if stand.placed else Severity.WARNING,
            message=message,
            place=written("roof.ridge.posts" if stand.placed else "roof.ridge"),
            building=building.name,
            where="ridge posts",
        )
        if stand.placed:
            raise PlanError([finding])
        findings.append(finding)
    return tuple(posts), (*_told(building, posts, written("roof.ridge")), *findings)


def post_members(building: Building, posts: Sequence[InsidePost], written: Place) -> tuple[Member, ...]:
    """All plies of the posts."""
    grade = "no2" if building.roof.ridge and building.roof.ridge.post else building.walls.plates_grade
    return tuple(member for post in posts for member in _plies(building.name, post, grade, written))


def _plies(building: str, post: InsidePost, grade: str, written: Place) -> Iterator[Member]:
    (x, y), (dx, dy), t = post.spot, post.along, post.profile.thickness_in
    half = post.profile.depth_in / 2
    # u across the ridge, v up, the third axis along the ridge: the stick's top edge is the post's further side.
    placement = Placement((x + dx * half, y + dy * half, 0.0), (-dy, dx, 0.0), UP)
    bench = Bench(building=building, face="ridge", placement=placement, written=written)
    for k in range(post.plies):
        u = (k - (post.plies - 1) / 2) * t
        yield bench.along_v("ridge-post", post.profile, grade, u=u, v=(0.0, post.top))


def _given(frame: RoofFrame, places: Sequence[float]) -> Iterator[_Stand]:
    """Posts that the plan places, along the one ridge of a gable roof."""
    if not places:
        return
    ridge = frame.ridges[0]
    start = next(end.side for end in frame.ridge_ends if end.at_start)
    for at in places:
        where = f"{format_length(at)} from the {start} end"
        spot = _on_ridge(ridge, ridge.run[0] + at)
        yield _Stand(spot=spot, along=_direction(ridge), beam=ridge, where=where, placed=True)


def _direction(ridge: RidgeStick) -> Point:
    x, y, _ = ridge.bench.placement.x
    return (x, y)


def _on_ridge(ridge: RidgeStick, u: float) -> Point:
    x, y, _ = ridge.bench.placement.to_world((u, 0.0, 0.0))
    return (x, y)


def _under_nodes(frame: RoofFrame, depth: float) -> Iterator[_Stand]:
    """Under every end of a beam inside the building, once where several meet; and under apexes of hips.

    Where a wing's ridge ends on the main roof, that carries it.
    """
    level = list(zip(frame.ridges, (f for f in frame.plan.folds if f.kind == "ridge"), strict=True))
    ends = [
        (ridge, spot[:2], start)
        for ridge, f in level
        for spot, start in ((f.low, True), (f.high, False))
        if not f.ends_on(spot)
    ]
    told: list[Point] = []
    for ridge, node, at_start in ends:
        if any(end.ridge is ridge and end.at_start == at_start for end in frame.ridge_ends) or _near(node, told):
            continue
        told.append(node)
        through = next((other for other, fold in level if passes(fold, (*node, fold.low[2]))), None)
        where, beam = f"at {_spot_words(node)}", through or ridge
        spot = node
        if not through and sum(dist(node, other) < NODE_IN for _, other, _ in ends) == 1:
            # Right under the beam's end, so that all of the post bears.
            if _length(ridge) < 2 * depth:
                told += [end for other, end, _ in ends if other is ridge]
                middle = (ridge.lines[0][0].at + ridge.lines[1][0].at) / 2
                yield _Stand(
                    spot=_on_ridge(ridge, middle), along=_direction(ridge), beam=ridge, where=where, placed=False
                )
                continue
            spot = _on_ridge(ridge, ridge.lines[0][0].at + depth / 2 if at_start else ridge.lines[1][0].at - depth / 2)
        yield _Stand(spot=spot, along=_direction(beam), beam=beam, where=where, placed=False)
    told += [node for _, node, _ in ends]
    for stick in frame.sloped:
        node = stick.fold.high[:2]
        if stick.fold.kind == "hip" and not _near(node, told):
            told.append(node)
            along = frame.plan.lines[0].side.direction
            yield _Stand(spot=node, along=along, beam=None, where=f"at {_spot_words(node)}", placed=False)


def _length(ridge: RidgeStick) -> float:
    """On its centre line [in]."""
    return ridge.lines[1][0].at - ridge.lines[0][0].at


def _near(spot: Point, others: Sequence[Point]) -> bool:
    return any(dist(spot, other) < NODE_IN for other in others)


def _spot_words(spot: Point) -> str:
    return f"x {format_length(spot[0])}, y {format_length(spot[1])}"


def _post(building: Building, stand: _Stand, over: Sequence[Member]) -> tuple[InsidePost | None, float]:
    """The post of a place, as wide as it carries if it has room; None, and how far something reaches under it."""
    stated = building.roof.ridge.post if building.roof.ridge else None
    size = profile(stated or building.walls.studs)
    carried = stand.beam.profile.thickness_in if stand.beam else size.depth_in
    counts = {ceil(carried / size.thickness_in - TOLERANCE.length), floor(carried / size.thickness_in)}
    low = float("inf")
    for plies in (1,) if stated else sorted(counts - {0}, reverse=True):
        hanging = lowest_over(over, _corners(stand, plies * size.thickness_in, size.depth_in))
        top = stand.beam.bottom if stand.beam else hanging
        if hanging >= top - TOUCH_IN:
            return (
                InsidePost(spot=stand.spot, along=stand.along, profile=size, plies=plies, top=top, where=stand.where),
                0.0,
            )
        low = top - hanging
    return None, low


def _corners(stand: _Stand, width: float, depth: float) -> tuple[Point, ...]:
    (x, y), (dx, dy), a, b = stand.spot, stand.along, depth / 2, width / 2
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return tuple((x + dx * a * p - dy * b * q, y + dy * a * p + dx * b * q) for p, q in signs)


def _told(building: Building, posts: Sequence[InsidePost], place: Place) -> Iterator[Finding]:
    if not posts:
        return
    places = "; ".join(post.where for post in posts)
    sizes = " and ".join(dict.fromkeys(post.words for post in posts))
    many = f"{len(posts)} posts of {sizes} stand" if len(posts) > 1 else f"a post of {sizes} stands"
    # Squash blocks are framed with the main floor; of any other floor nothing is known.
    through = "" if building.floors.main else "blocking through the floor and "
    yield Finding(
        rule="frame.ridge-post",
        severity=Severity.WARNING,
        message=f"{many} inside, under the roof: {places}. Each lands on the floor deck: its load needs {through}"
        "a footing of its own",
        place=place,
        building=building.name,
        where="ridge posts",
    )
