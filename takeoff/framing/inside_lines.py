"""Layout of what stands and lies inside: joists beside the rafters on the plates, posts on the floor under a ridge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.layout import LayoutLine, LayoutMark

if TYPE_CHECKING:
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.ridge_posts import InsidePost
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.model.member import Member

ON_PLATES = ("ceiling-joist", "rafter-tie")


def with_joists(lines: Iterable[LayoutLine], frame: RoofFrame, members: Sequence[Member]) -> tuple[LayoutLine, ...]:
    """Layout lines of plates, with the joists and ties that lie on them beside the rafters."""
    marks = {
        f"{row.slope.side} wall, top of cap plate": tuple(_joists(frame, row, members))
        for row in frame.rows
        if not row.slope.on_purlin
    }
    return tuple(
        replace(line, marks=tuple(sorted((*line.marks, *marks.get(line.name, ())), key=lambda m: m.position_in)))
        for line in lines
    )


def _joists(frame: RoofFrame, row: RafterRow, members: Sequence[Member]) -> Iterator[LayoutMark]:
    slope, plate = row.slope, frame.plan.line(row.slope.side).plate
    left, right = slope.walls
    for member in members:
        if member.role.name not in ON_PLATES or abs(member.placement.origin[2] - plate) > TOLERANCE.length:
            continue
        u = slope.bench.placement.from_world(member.placement.origin)[0]
        at = right - u if slope.from_right else u - left
        yield LayoutMark(round(at, 6), member.role.layout_symbol, member.role.words.split(",")[0])


def post_lines(frame: RoofFrame, posts: Sequence[InsidePost]) -> Iterator[LayoutLine]:
    """Middles of the posts under the ridge of a gable roof, on the floor deck."""
    if not posts or len(frame.ridges) != 1 or len(frame.ridge_ends) != 2:
        return
    ridge = frame.ridges[0]
    along = sorted(ridge.bench.placement.from_world((*post.spot, 0.0))[0] - ridge.run[0] for post in posts)
    yield LayoutLine(
        name="floor deck, under the ridge",
        start=f"{next(end.side for end in frame.ridge_ends if end.at_start)} end",
        length_in=ridge.run[1] - ridge.run[0],
        marks=tuple(LayoutMark(round(at, 6), "P", "middle of ridge post") for at in along),
    )
