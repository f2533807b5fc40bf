"""Common, end and jack rafters: the slices of a slope."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import TYPE_CHECKING

from takeoff.framing.laid_ends import LAID
from takeoff.framing.slope import RafterCuts, Slope
from takeoff.framing.slope_openings import DORMER_VALLEY, HEADERS
from takeoff.framing.spacing import clear_of
from takeoff.geometry.rafter import Pocket, RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.rake_ends import Drop


LEAST_FILL_IN = 6.0
"""A jack between hip, valley and ridge that is shorter on its centre line is not worth cutting [in]. No source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A rafter of a slope before it is a stick: where it stands along u, what it is, how it is cut."""

    u: float
    role: str
    cuts: RafterCuts
    drop: Drop | None = None
    """How an end rafter makes room for outlookers that run over it."""
    crossed: tuple[Pocket, ...] = ()
    """Outlookers over a dropped end rafter, or blocks beside it, measured like pockets."""

    @property
    def outlookers(self) -> tuple[Pocket, ...]:
        """Outlookers that run in past it, in its pockets or over it, along the slope from the tail cut."""
        return self.cuts.geometry.pockets or (self.crossed if self.drop else ())

    @property
    def seated(self) -> bool:
        """It stands on a plate."""
        return self.cuts.geometry.stands_on_plate

    def with_pockets(self, pockets: Callable[[float, RafterGeometry], tuple[Pocket, ...]]) -> Placed:
        """The same rafter with pockets in its top edge."""
        geometry = self.cuts.geometry
        return replace(self, cuts=replace(self.cuts, geometry=replace(geometry, pockets=pockets(self.u, geometry))))


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterRow:
    """The rafters of one slope, left to right."""

    slope: Slope
    profile: Profile
    grade: str
    placed: tuple[Placed, ...]
    replaced: tuple[float, ...] = ()
    """Layout lines whose rafter has no room beside the trimmers of an opening, which stand for it."""

    @property
    def centres(self) -> tuple[float, ...]:
        """Centre lines of all of them [in] along u."""
        return tuple(sorted({one.u for one in self.placed}))

    @property
    def seated(self) -> tuple[float, ...]:
        """Centre lines of those that stand on the plate."""
        return tuple(one.u for one in self.placed if one.seated)

    @property
    def ends(self) -> tuple[float, ...]:
        """Centre lines of the end rafters."""
        return tuple(one.u for one in self.placed if one.role == "end-rafter")


def rafter_row(
    slope: Slope,
    profile: Profile,
    grade: str,
    spacing: float,
    pockets: Callable[[float, RafterGeometry], tuple[Pocket, ...]],
) -> RafterRow:
    """End rafters flush with the outside of the end walls, trimmers beside openings, the others on the spacing.

    The last one stands against a wall that the slope runs up beside.
    One of the others that has no room beside a trimmer is left out: the trimmer stands for it.

    Args:
        slope: to be sliced.
        profile: of the rafters.
        grade: of the rafters.
        spacing: on centre [in].
        pockets: gives the pockets in the top edge of an end rafter, by its place along u.

    Raises:
        ValueError: a gable isn't square to the eave, so that rafters would end on its rake.
    """
    left, right = slope.walls
    half = profile.thickness_in / 2
    at_rakes = slope.rakes
    at_left, at_right = (rake or wall for rake, wall in zip(at_rakes, slope.beside_walls, strict=True))
    ends = tuple(u for u, there in ((left + half, at_left), (right - half, at_right)) if there)
    trimmers = tuple(sorted({u for opening in slope.openings for u in opening.trimmers}))
    u0, _, u1, _ = slope.outline.bounds
    # A slope reaches past its wall up a valley, and a hip past the corner; at a rake it ends with the end rafter.
    regular = clear_of(
        (
            slope.carried_at(u, profile.thickness_in)
            for u in _layout(slope, spacing)
            if (left if at_left else u0) < u < (right if at_right else u1) and slope.clear_of_seams(u, half)
        ),
        ends,
        profile.thickness_in,
    )
    fixed = (*trimmers, *(u for u in (*slope.doubled, *slope.beside) if u not in trimmers))
    inner = clear_of(regular, fixed, profile.thickness_in)
    # Beside a standing wall there is no end wall under the last rafter: it is one of the others.
    over_walls = [u for u in ends if at_rakes[u > (left + right) / 2]]
    named = {**dict.fromkeys(trimmers, "trimmer-rafter"), **dict.fromkeys(over_walls, "end-rafter")}
    placed = [
        one for u in sorted((*inner, *fixed, *ends)) for one in _placed(slope, u, profile.thickness_in, named.get(u))
    ]
    if any("rake" in one.cuts.lower | one.cuts.upper for one in placed):
        raise ValueError(_askew(slope))
    return RafterRow(
        slope=slope,
        profile=profile,
        grade=grade,
        placed=tuple(one.with_pockets(pockets) if one.role == "end-rafter" else one for one in placed),
        replaced=tuple(u for u in regular if u not in inner),
    )


def _askew(slope: Slope) -> str:
    """What to say of a rake that doesn't run up the slope square to its eave."""
    u, v = next(
        (abs(edge.b[0] - edge.a[0]), abs(edge.b[1] - edge.a[1]) * slope.level)
        for edge in slope.outline.edges_with("rake")
        if abs(edge.b[0] - edge.a[0]) > TOLERANCE.length
    )
    return (
        f"a gable beside the {slope.side} eave isn't square to it: it goes {format_length(u)} along the eave in"
        f" {format_length(v)}, and rafters would end on its rake, where nothing carries them; make that side an eave,"
        " or square to this one"
    )


def _layout(slope: Slope, spacing: float) -> Iterator[float]:
    """Layout lines over the whole slope, measured from the end of its wall that the layout starts at."""
    origin = slope.walls[1] if slope.from_right else slope.walls[0]
    u0, _, u1, _ = slope.outline.bounds
    for k in range(ceil((u0 - origin) / spacing), floor((u1 - origin) / spacing) + 1):
        yield origin + k * spacing


def _placed(slope: Slope, u: float, thickness: float, role: str | None) -> list[Placed]:
    """The rafters on one layout line, called by a role, or by the edges that they end on."""
    placed = []
    for cut in slope.slices(u):
        try:
            cuts = slope.rafter_at(cut, thickness)
        except ValueError:
            continue  # a corner too short for a stick: the hip or the valley carries the sheathing there
        if not cuts.geometry.stands_on_plate and cuts.geometry.line_length < LEAST_FILL_IN:
            continue
        placed.append(Placed(u=u, role=role or rafter_role(cuts), cuts=cuts))
    return placed


def rafter_role(cuts: RafterCuts) -> str:
    """What a rafter is called, by the edges it ends on."""
    on_hip, on_valley = "hip" in cuts.upper, bool({"valley", DORMER_VALLEY} & cuts.lower)
    if HEADERS & (cuts.lower | cuts.upper) and not on_valley:
        return "cut-common"
    if on_hip and on_valley:
        return "cripple-jack"
    if on_hip:
        return "hip-jack"
    return "valley-jack" if on_valley or LAID in cuts.lower else "common-rafter"


def rafters(row: RafterRow) -> tuple[Member, ...]:
    """The rafters of one slope as members."""
    return tuple(_rafter(row, one) for one in row.placed)


def _rafter(row: RafterRow, one: Placed) -> Member:
    bench, profile = row.slope.bench, row.profile
    if one.drop:
        x, y, z = bench.placement.origin
        lower = (x, y, z - one.drop.by / row.slope.level)
        bench, profile = replace(bench, placement=replace(bench.placement, origin=lower)), one.drop.profile
    return bench.rafter(one.role, profile, row.grade, u=one.u, geometry=one.cuts.geometry, ends=one.cuts.ends)
