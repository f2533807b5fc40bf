"""Overhangs from the lines of tail cuts and barges drawn round the walls: one closed line, lines, or slope outlines."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.plan.drawing_in.drawn import DrawnLine
from takeoff.plan.drawing_in.roof_parts import RoofParts
from takeoff.plan.drawing_in.sides import spread
from takeoff.plan.drawing_in.trace import told
from takeoff.plan.footprint import Footprint, Side

SAME_IN = 1 / 16
"""Overhangs no further apart are one [in]."""

FARTHEST_IN = 60.0
"""A line further out belongs to another side [in]."""

KEYS = {"eave": "eave", "rake": "rake", "high": "high"}
"""Keys of the plan's overhang, by what a side does."""


def drawn_overhangs(
    drawn: Sequence[DrawnLine], walls: Footprint, parts: RoofParts
) -> tuple[dict[str, float], tuple[Finding, ...]]:
    """Overhangs [in] by the plan's keys, where all sides of a kind have the same; where not, a word about it."""
    by_key: dict[str, list[tuple[float, Side]]] = defaultdict(list)
    flattest = min((slope for slope in parts.slopes if slope is not None), default=None)
    for side, part, slope in zip(walls.sides, parts.parts, parts.slopes, strict=True):
        out = _out(drawn, side)
        if slope != flattest and part == "eave":
            continue  # steeper slopes reach out as far as brings their eaves to one height
        if part in KEYS and out is not None:
            by_key[KEYS[part]].append((out, side))
    agreed: dict[str, float] = {}
    findings: list[Finding] = []
    for key, measured in by_key.items():
        least, most = min(measured, key=lambda each: each[0]), max(measured, key=lambda each: each[0])
        if most[0] - least[0] > SAME_IN:
            message = (
                f"found overhangs of {format_length(least[0])} ({least[1].name}) and {format_length(most[0])}"
                f" ({most[1].name}), expected one for all sides of a kind ({key}); none is taken from the drawing"
            )
            findings.append(told(drawn[0].trace, "differs", Severity.WARNING, message))
        else:
            agreed[key] = least[0]
    return agreed, tuple(findings)


def _out(drawn: Sequence[DrawnLine], side: Side) -> float | None:
    """How far out the line beside a side lies [in]; none where there is none."""
    (ux, uy), near = side.direction, []
    for a, b in ((line.a, line.b) for line in drawn):
        over = spread((a, b), side)
        lies_along = over.far - over.near < SAME_IN and abs((b[0] - a[0]) * ux + (b[1] - a[1]) * uy) > SAME_IN
        beside = min(over.right, side.length_in) - max(over.left, 0.0) > SAME_IN
        if lies_along and beside and -SAME_IN <= -over.far <= FARTHEST_IN:
            near.append(max(-over.far, 0.0))
    return min(near, default=None)
