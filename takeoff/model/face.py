"""A face: a flat outline placed in space, to be covered with sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeoff.findings import NOWHERE, Place
from takeoff.geometry.outline import Outline
from takeoff.geometry.placement import Placement

FaceKind = Literal["wall", "slope", "floor"]

AtOpenings = Literal["run_past", "broken"]
"""How sheets of a wall meet its openings: they run past, to be cut out afterwards, or are broken at their sides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supports:
    """What the sheets of a face are nailed to: sticks along v, and rows of blocks across them."""

    centres: tuple[float, ...]
    """Centre lines of the sticks [in] along u, left to right."""
    thickness: float
    rows: tuple[float, ...]
    """Middles of the rows of blocks [in] along v."""
    from_right: bool
    """The layout starts at the right end, and so do the sheets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The sheets a face is covered with, by product name."""

    field: str
    exposed: str
    """Wherever the underside shows."""
    at_openings: AtOpenings = "run_past"
    """Of a wall."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """Where the underside of a slope shows: outward of these lines [in]."""

    eave: float
    """v of the outside of the wall framing."""
    eave_hidden_to: float
    """v up to which a joint between grades is hidden by the wall."""
    left: float
    right: float
    """u of the outside of the end walls."""
    high: float | None = None
    """v of the outside of a shed roof's high wall, beyond which the underside shows; None where there is none."""
    high_hidden_from: float = 0.0
    """v from which a joint between grades is hidden by the high wall."""
    everywhere: bool = False
    """All of it shows: there is no ceiling under it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """An outline in its own u (across the sticks) and v (along them), seen from outside, with its place in the world.

    The third axis of the placement points out of the building. v = 0 is the bottom of the bottom plate on a wall,
    and on a slope the line plumb over the outside face of the wall framing.
    """

    kind: FaceKind
    name: str
    outline: Outline
    """What the sheets cover, openings left out."""
    placement: Placement
    supports: Supports
    cover: Cover | None
    """None where no sheets are ordered."""
    shown: Shown | None
    """None where no underside shows."""
    part: str = ""
    """What the minor roof that it belongs to is called, such as ``south dormer``; empty in the main building."""
    open_below: tuple[tuple[tuple[float, float], ...], ...] = ()
    """Outlines in u and v [in] over which the underside shows as well: of porches and open ceilings. From the plan they
    come by `geometry.plumb.plumb_onto`; every piece that reaches over one is of the exposed grade."""
    inside: tuple[tuple[float, float], ...] = ()
    """From where to where along u its lower edge lies inside the building, as over a wing's mouth [in]: it doesn't show
    there."""
    written: Place = NOWHERE
    seen_from: str = "outside"
    """Whence its outline is seen, in words."""
