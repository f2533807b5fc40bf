"""A porch's ledger: where it lies on the wall, and what a tape pulls on it: rafters, and the studs it is fixed to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.model.layout import LayoutLine, LayoutMark, Tape

if TYPE_CHECKING:
    from takeoff.framing.minor import Host, Minor
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.slope import Slope
    from takeoff.plan.porches import Porch

UPRIGHTS = ("stud", "king-stud", "jack-stud", "cripple", "corner-stud", "gable-stud", "post")
"""What a ledger is fixed to through the sheathing."""


def ledger_reach(roof: RoofFrame) -> tuple[float, float] | None:
    """Lower and upper edge of the ledger over the deck [in]; None where the roof has none."""
    for row in roof.rows:
        for edge in row.slope.outline.edges_with("ledger"):
            face = edge.a[1] * row.slope.level - row.slope.halves.ledger
            top = roof.plan.line(row.slope.side).plate + row.slope.common.top_at(face)
            return top - roof.ledger_depth, top
    return None


def ledger_line(host: Host, porch: Porch, minor: Minor, roof: RoofFrame) -> Iterator[LayoutLine]:
    """Rafters and studs along the ledger, from its left end seen from outside."""
    reach = ledger_reach(roof)
    if reach is None:
        return
    left, right = porch.across_in
    (row,) = roof.rows
    rafters = {
        (round(one.u, 6), known.layout_symbol, known.words.split(",")[0])
        for one in row.placed
        for known in (role(one.role),)
    }
    studs = {
        (round(u - left, 6), "S", "stud behind, to fix the ledger to")
        for u in _studs(host, porch, reach)
        if left < u < right
    }
    yield LayoutLine(
        name=f"{minor.label} ledger",
        start=f"{minor.ground.sides[3].name} end",
        length_in=right - left,
        marks=tuple(LayoutMark(*mark) for mark in sorted(rafters | studs)),
        tape=_tape(row.slope, sum(reach) / 2),
    )


def _tape(slope: Slope, z: float) -> Tape:
    """Along the middle of the ledger, at a height over the deck."""
    edge = slope.outline.edges_with("ledger")[0]
    x, y, _ = slope.bench.placement.to_world((0.0, edge.a[1] - slope.halves.ledger / slope.level / 2, 0.0))
    return Tape((x, y, z), slope.bench.placement.x)


def _studs(host: Host, porch: Porch, reach: tuple[float, float]) -> Iterator[float]:
    """Centres of the wall's uprights that stand behind the ledger, along the side [in]."""
    (x, y), (dx, dy) = (side := host.ground.side(porch.side)).start, side.direction
    for member in host.part.members:
        if member.face != porch.side or member.role.name not in UPRIGHTS:
            continue
        low, high = sorted(end[2] for end in member.centre_line)
        if low < reach[1] and high > reach[0]:
            px, py, _ = member.placement.origin
            yield (px - x) * dx + (py - y) * dy
