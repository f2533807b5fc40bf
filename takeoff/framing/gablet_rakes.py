r"""The rake of a small gable on a hip: barge rafters out over the hip slope, behind them a ridge stub and blocks.

::

            /\        The barges stand on the hip slope's sheathing with level feet; the sheathing of the slopes beside
           /  \       runs on over them.
     _____/____\_____ hip slope
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.fold_members import RidgeEnd, false_ridges
from takeoff.framing.gablet_members import small_gables
from takeoff.framing.gablets import GabletError
from takeoff.framing.laid_over import trimmed
from takeoff.geometry.outline import Outline, ring
from takeoff.geometry.placement import Placement
from takeoff.geometry.rafter import RafterGeometry
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.face import Cover, Face, Shown, Supports

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.gablet_members import SmallGable
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.geometry.outline import Edge
    from takeoff.model.member import Member
    from takeoff.plan.roof import Trim
    from takeoff.plan.schema import Building

FIRST_BLOCK_IN = 16.0
"""From the peak to the first block behind a barge, along the slope [in]. Common practice, no source."""

BLOCKS_IN = 24.0
"""Between two such blocks [in]. Common practice, no source."""

LEAST_BLOCK_IN = 2.0
"""Blocks are no shorter: the barge is nailed through to the pair [in]. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rake:
    """One side of a small gable's rake, in the u and v of the slope whose plane it lies in."""

    slope: Slope
    edge: Edge
    """Of that slope's outline, at the small gable's face."""
    out: float
    """From the face to the outside of the barge [in]."""
    foot: float
    """Height of the hip slope's sheathing at the face [in]."""
    fall: float
    """Of the hip slope, for one inch out."""

    @property
    def outward(self) -> float:
        """Along u: +1 or -1."""
        return 1.0 if self.edge.b[1] > self.edge.a[1] else -1.0

    @property
    def top(self) -> float:
        """V of the peak [in]."""
        return max(self.edge.a[1], self.edge.b[1])

    def u(self, out: float) -> float:
        """So far out from the face."""
        return self.edge.a[0] + self.outward * out

    def v_at(self, height: float) -> float:
        """Where the plane is so high above the deck."""
        rise = self.slope.common.slope * self.slope.level
        return (height - self.slope.bench.placement.origin[2]) / rise

    def over(self, out: float) -> float:
        """Height of the hip slope's sheathing so far out [in]."""
        return self.foot - self.fall * out


def gablet_rakes(building: Building, frame: RoofFrame) -> Iterator[Member]:
    """Barges, ridge stubs and blocks of all small gables that have an overhang.

    Raises:
        GabletError: a small gable is too low for them.
    """
    barge = building.roof.barge
    if barge is None:
        return
    size = profile(barge.size)
    block = profile(building.roof.outlookers.size if building.roof.outlookers else "2x4")
    for gable in small_gables(frame):
        for rake in _rakes(building, frame, gable):
            yield from _barge(rake, size, barge, gable.row.slope.side)
            yield from _blocks(rake, block, building.roof.rafters.grade, size.thickness_in)
        out = building.roof.gablets[gable.row.slope.side].overhang
        if out:
            yield from false_ridges([_ridge_end(frame, gable, out)], size, barge.grade, size.thickness_in)


def _rakes(building: Building, frame: RoofFrame, gable: SmallGable) -> Iterator[_Rake]:
    hip = gable.row.slope
    out = building.roof.gablets[hip.side].overhang
    if not out:
        return
    sheet = sheet_product(building.roof.sheathing.exposed_product).thickness_in
    for index in sorted(gable.ridge.slopes):
        slope = frame.plan.slopes[index]
        for edge in slope.outline.edges_with("gablet"):
            x, y, _ = slope.bench.placement.to_world((*edge.a, 0.0))
            if abs(gable.bench.placement.from_world((x, y, 0.0))[2]) < TOLERANCE.length * 10:
                foot = gable.foot + sheet * hypot(1, hip.common.slope)
                yield _Rake(slope=slope, edge=edge, out=out, foot=foot, fall=hip.common.slope)


def _barge(rake: _Rake, size: Profile, trim: Trim, side: str) -> Iterator[Member]:
    """Its foot cut level, to stand on the hip slope's sheathing at its back."""
    slope, thickness = rake.slope, size.thickness_in
    level = rake.over(rake.out - thickness)
    start = rake.v_at(level) * slope.level
    run = rake.top * slope.level
    peak = slope.bench.placement.origin[2] + run * slope.common.slope
    least = level + size.depth_in / slope.level + 1.0
    if peak < least:
        raise GabletError(
            f"found the gable on the {side} hip {format_length(peak - level)} high over the hip slope's sheathing,"
            f" expected at least {format_length(least - level)} for barges of {size.name}; take shallower ones, a"
            " shorter run, or no overhang",
            side,
        )
    geometry = RafterGeometry(
        slope=slope.common.slope,
        depth=size.depth_in,
        run=run,
        overhang=0.0,
        foot=start,
        stand=slope.common.height_above_plate,
    )
    bench = replace(slope.bench, face=f"{side} gablet rake")
    whole = bench.rafter("barge", size, trim.grade, u=rake.u(rake.out - thickness / 2), geometry=geometry)
    cut = trimmed(replace(whole, rafter=None), Placement((0.0, 0.0, level), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    if cut is not None:
        yield cut


def _blocks(rake: _Rake, size: Profile, grade: str, back: float) -> Iterator[Member]:
    """On edge from the pair to the back of the barge, as far down as they clear the hip slope."""
    ends = sorted((rake.u(0.0), rake.u(rake.out - back)))
    if ends[1] - ends[0] < LEAST_BLOCK_IN:
        return
    bench = replace(rake.slope.bench, face=f"{rake.slope.name} gablet rake")
    rise = rake.slope.common.slope * rake.slope.level
    lowest = rake.v_at(rake.foot) + size.thickness_in / 2 + size.depth_in * rake.slope.level / rise
    v = rake.top - FIRST_BLOCK_IN
    while v > lowest:
        yield bench.standing_along_u("ladder-block", size, grade, u=(ends[0], ends[1]), v=v)
        v -= BLOCKS_IN


def _ridge_end(frame: RoofFrame, gable: SmallGable, out: float) -> RidgeEnd:
    ridge = gable.ridge
    ends = [ridge.bench.placement.to_world((u, 0.0, 0.0)) for u in ridge.run]
    away = [abs(gable.bench.placement.from_world(end)[2]) for end in ends]
    at_start = away[0] < away[1]
    x, y, _ = ends[0] if at_start else ends[1]
    return RidgeEnd(
        side=gable.row.slope.side,
        ridge=ridge,
        spot=(x, y),
        out=out,
        at_start=at_start,
        top=gable.tops[1][1],
        fall=max(frame.plan.slopes[index].common.slope for index in ridge.slopes),
    )


def gablet_rake_faces(building: Building, frame: RoofFrame) -> Iterator[Face]:
    """The sheathing over the rakes of small gables: strips from their faces to the outsides of the barges."""
    for gable in small_gables(frame):
        for k, rake in enumerate(_rakes(building, frame, gable), 1):
            low = max(min(rake.edge.a[1], rake.edge.b[1]), rake.v_at(rake.foot))
            end = rake.v_at(rake.over(rake.out))
            corners = [
                (rake.u(0.0), low),
                (rake.u(rake.out), end),
                (rake.u(rake.out), rake.top),
                (rake.u(0.0), rake.top),
            ]
            roles = ("laid", "rake", "ridge", "rake")
            if rake.outward < 0:
                corners, roles = [corners[0], *corners[:0:-1]], ("rake", "ridge", "rake", "laid")
            product = building.roof.sheathing.exposed_product
            thickness = gable.row.profile.thickness_in
            yield Face(
                kind="slope",
                name=f"{gable.row.slope.side} gablet rake {k}",
                outline=Outline(ring(corners, roles)),
                placement=rake.slope.bench.placement,
                supports=Supports(
                    centres=tuple(sorted((rake.u(-thickness / 2), rake.u(rake.out - thickness / 2)))),
                    thickness=thickness,
                    rows=(),
                    from_right=False,
                ),
                cover=Cover(field=product, exposed=product),
                shown=Shown(eave=end, eave_hidden_to=end, left=corners[0][0], right=corners[0][0]),
                written=gable.bench.written,
            )
