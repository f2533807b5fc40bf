"""Layout of joists on rims, ledgers and girders, each line pulled from the end where the layout starts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.layout import LayoutLine, LayoutMark, Tape

if TYPE_CHECKING:
    from takeoff.framing.floor_girders import FloorGirder
    from takeoff.framing.floor_joists import PlacedJoist
    from takeoff.framing.floor_plan import FloorPlan
    from takeoff.plan.footprint import Footprint

_INSIDE_IN = 0.5

CARRY = {"rim": "rim", "ledger": "ledger", "bear": "ledger", "plate": "plate"}
"""Roles of edges that joists are laid out on, and what a builder calls what stands there."""


FIRST_POST_IN = 12.0
"""A post so near a beam's end carries that end [in]. Common practice, no source."""

COMPASS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")


def floor_lines(plan: FloorPlan, joists: Sequence[PlacedJoist], ground: Footprint) -> Iterator[LayoutLine]:
    """Joists and edges of openings on every edge across the joists and on every girder."""
    for edge, side in zip(plan.edges, plan.sides, strict=True):
        low, high = sorted((edge.a[0], edge.b[0]))
        if edge.role not in CARRY:
            continue
        reach = plan.rim.thickness_in + TOLERANCE.mark + max(plan.reaches)
        here = (j for j in joists if low <= j.u <= high and any(abs(end - edge.v_at(j.u)) < reach for end in j.v))
        yield LayoutLine(
            name=f"{plan.name}, {side} {CARRY[edge.role]}",
            start=_start(plan, ground, side, edge.b[0] > edge.a[0], (low, edge.v_at(low))),
            length_in=high - low,
            marks=_marks(here, low),
            load=1,
            tape=_tape(plan, (low, edge.v_at(low)), (high, edge.v_at(high))),
        )
    for girder in plan.girders:
        low, high = girder.u
        faces = girder.faces
        here = (
            j
            for j in joists
            if low <= j.u <= high and j.v[0] <= faces[1] + TOLERANCE.mark and j.v[1] >= faces[0] - TOLERANCE.mark
        )
        posts = tuple(LayoutMark(round(u - low, 6), "P", "middle of girder post") for u in girder.posts)
        yield LayoutLine(
            name=f"{plan.name}, {girder.name}",
            start=_spot(plan, (low, girder.v)) + _on(plan, girder, low),
            length_in=high - low,
            marks=tuple(sorted((*_marks(here, low), *posts), key=lambda m: (m.position_in, m.symbol))),
            load=1,
            tape=_tape(plan, (low, girder.v), (high, girder.v)),
        )


def _tape(plan: FloorPlan, start: tuple[float, float], end: tuple[float, float]) -> Tape:
    """Along an edge or a girder, half an inch in from the outside of the floor and under the joists' tops."""
    middle = sum(edge.a[1] for edge in plan.edges) / len(plan.edges)
    inside = _INSIDE_IN if start[1] < middle else -_INSIDE_IN
    a, b = (plan.bench.placement.to_world((u, v + inside, -1.0)) for u, v in (start, end))
    return Tape.toward_point(a, b)


def _marks(joists: Iterable[PlacedJoist], low: float) -> tuple[LayoutMark, ...]:
    found = sorted({(round(joist.u - low, 6), joist.role) for joist in joists})
    return tuple(LayoutMark(at, role(name).layout_symbol, role(name).words.split(",")[0]) for at, name in found)


def _start(plan: FloorPlan, ground: Footprint, side: str, rightward: bool, spot: tuple[float, float]) -> str:
    if side not in [known.name for known in ground.sides]:
        return _spot(plan, spot)
    return f"{(ground.left_of(side) if rightward else ground.right_of(side)).name} end"


def _on(plan: FloorPlan, girder: FloorGirder, end: float) -> str:
    """What a girder's end stands on, where that is a post of its own, or the wall it runs up to."""
    if any(abs(post - end) < FIRST_POST_IN for post in girder.posts):
        return ", on its first post"
    beside = (
        side
        for edge, side in zip(plan.edges, plan.sides, strict=True)
        if edge.role == "side" and abs(edge.a[0] - end) < FIRST_POST_IN and not side.startswith("edge ")
    )
    wall = next(beside, "")
    return f", at the {wall} wall" if wall else ""


def _spot(plan: FloorPlan, spot: tuple[float, float]) -> str:
    """The end of a line that runs along u, by the compass and by where it is."""
    x, y, _ = plan.bench.placement.to_world((*spot, 0.0))
    dx, dy, _ = plan.bench.placement.x
    words = COMPASS[round(degrees(atan2(-dy, -dx)) / 45.0) % 8]
    return f"{words} end, at x {format_length(x)}, y {format_length(y)}"
