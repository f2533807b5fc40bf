r"""A clipped gable: over the gable wall's level top an eave line that is set up high, its slope cutting off the peak.

::

           ____  ridge      The clip's plane goes through the rafters' tops over the level wall, and is cut off plumb
          /    \            along the rake, where its tails end and what is left of its hips starts (`clip_slopes`).
         /______\
    rake/ plates \
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from takeoff.geometry.rake_line import LevelTop
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.folds import FoldStick
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.roof_lines import RoofSideLine
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.plan.clips import Clip

Point = tuple[float, float]


class ClipError(ValueError):
    """A clip that can't be made.

    Attributes:
        side: the gable it is on.
    """

    def __init__(self, message: str, side: str) -> None:
        super().__init__(message)
        self.side = side


LEAST_WALL_IN = 12.0
"""Least height of the clip's plates over those of the eaves [in]. Common practice, no source."""

LEAST_RUN_IN = 18.0
"""Least level run of a clip, so that its hips can be cut [in]. Common practice, no source."""


def clip_height(clip: Clip, eave: RoofSideLine, eaves: Sequence[RoofSideLine], span: float) -> float:
    """Height of a clip's plates above the deck [in].

    Args:
        clip: as the plan has it.
        eave: the clip's slope as if it stood on the wall's own plates.
        eaves: the sides round its corners, whose slopes meet in the ridge.
        span: level between the outsides of their walls [in].

    Raises:
        ClipError: the clip doesn't lie between the eaves and the ridge.
    """
    one, other = eaves
    tops = [line.plate + line.stand for line in eaves]
    run = (tops[1] - tops[0] + other.slope * span) / (one.slope + other.slope)
    peak = tops[0] + one.slope * run
    height = clip.height if clip.height is not None else peak - (clip.run or 0.0) * eave.slope - eave.stand
    least = max(line.plate for line in eaves) + LEAST_WALL_IN
    most = peak - eave.stand - LEAST_RUN_IN * eave.slope
    if not least <= height <= most:
        runs = [format_length((peak - eave.stand - h) / eave.slope) for h in (most, least)]
        raise ClipError(
            f"found the plates of the clip {format_length(height)} over the deck, expected a height from"
            f" {format_length(least)} to {format_length(most)}, or a run from {runs[0]} to {runs[1]}: between the"
            " eaves and the ridge",
            eave.side.name,
        )
    return height


def with_clips(lines: Sequence[RoofSideLine]) -> tuple[RoofSideLine, ...]:
    """The sides with their clips' eaves in place of clipped gables: what the slopes are laid out from."""
    return tuple(line.clip or line for line in lines)


def clip_of(plan: RoofPlan, stick: FoldStick) -> RoofSideLine | None:
    """The clip whose slope a hip bounds."""
    sides = [plan.slopes[index].side for index in stick.fold.slopes]
    return next((line.clip for line in plan.lines if line.clip and line.side.name in sides), None)


def level_top(frame: RoofFrame, line: RoofSideLine, studs: Profile) -> LevelTop | None:
    """The level top of a gable wall of such studs under its clip; None where the gable is whole."""
    if not line.clip:
        return None
    top = line.clip.plate
    hips = [stick for stick in frame.sloped if clip_of(frame.plan, stick) is line.clip]
    (left, start), (right, end) = sorted(
        (_crossing(stick, line, 0.0), _plate_end(frame, stick, line, studs)) for stick in hips
    )
    return LevelTop(u=(start, end), hips=(left, right), bottom=top - 2 * studs.thickness_in, top=top)


def _plate_end(frame: RoofFrame, stick: FoldStick, line: RoofSideLine, studs: Profile) -> float:
    """Along the wall, where its plates end at a hip: past the heads of the rafters over the wall, or under them [in].

    The rafters are those of the slope that the hip joins to the clip's; where their underside comes over the plates,
    the plates run on beneath it.
    """
    index = next(k for k in stick.fold.slopes if frame.plan.slopes[k].side != line.side.name)
    row, (nx, ny), (x, y) = frame.rows[index], line.side.normal, line.side.start
    behind = []
    for u in row.centres:
        px, py, _ = row.slope.bench.placement.to_world((u, 0.0, 0.0))
        behind.append((x - px) * nx + (y - py) * ny + row.profile.thickness_in / 2)
    far = max(d for d in behind if d - row.profile.thickness_in < studs.depth_in)
    head = _crossing(stick, line, min(far, studs.depth_in))
    stand = line.clip.stand if line.clip else 0.0
    under = (row.slope.common.plumb_depth - stand) / row.slope.common.slope
    centre = _crossing(stick, line, 0.0, middle=True)
    return min(head, centre + under) if _rises(stick, line) else max(head, centre - under)


def _rises(stick: FoldStick, line: RoofSideLine) -> bool:
    """Whether a hip runs to the right along the wall as it goes in."""
    (dx, dy), (ax, ay) = stick.fold.direction, line.side.direction
    return dx * ax + dy * ay > 0


def _crossing(stick: FoldStick, line: RoofSideLine, depth: float, *, middle: bool = False) -> float:
    """Along the wall, where the outer face of a hip, or its middle, is so far behind the wall's outside [in]."""
    (x, y), (ax, ay), (nx, ny) = line.side.start, line.side.direction, line.side.normal
    dx, dy = stick.fold.direction
    inward, along = -(dx * nx + dy * ny), dx * ax + dy * ay
    px, py = stick.fold.low[0] - x, stick.fold.low[1] - y
    centre = px * ax + py * ay + along / inward * (px * nx + py * ny + depth)
    face = 0.0 if middle else stick.half / inward
    return centre - face if along > 0 else centre + face


def clipped_rake(parts: Iterable[tuple[Point, Point]], level: LevelTop) -> Iterator[tuple[Point, Point]]:
    """A rake's parts up to the clip, and the level line under its plates between them."""
    middle = sum(level.u) / 2
    for part in parts:
        (a, low), (b, high) = part
        rise = (high - low) / (b - a)
        if (a + b) / 2 < middle:
            yield (a, low), (level.u[0], low + rise * (level.u[0] - a))
        else:
            yield (level.u[1], low + rise * (level.u[1] - a)), (b, high)
    yield (level.u[0], level.bottom), (level.u[1], level.bottom)
