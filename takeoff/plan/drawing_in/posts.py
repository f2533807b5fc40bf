"""Posts drawn as points, circles or rectangles: under girders and loft beams, and along the fronts of porches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.girders import GIRDERS, LOFTS, MAIN, free_edge
from takeoff.plan.drawing_in.lengths import inches_at, spot_at
from takeoff.plan.drawing_in.named_parts import word_at, written_parts
from takeoff.plan.drawing_in.nodes import listing, node_at, put, step_to, word
from takeoff.plan.drawing_in.sides import Mark, spread
from takeoff.plan.drawing_in.trace import at, told
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.tree import Keys

OFF_IN = 9.0
"""The middle of a post lies no further from the line of its girder or beam [in]."""

PORCHES = ("roof", "porches")


@dataclass(frozen=True, slots=True)
class _Line:
    """A girder or a porch's front beam, that posts are told along: from its start to its end."""

    way: tuple[str | int, ...]
    """To its list of posts."""
    side: Side


def with_posts(
    node: Keys, found: Sequence[Mark], walls: Footprint, *, drawing_first: bool
) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with posts in the girders and porches that they stand under; those under none are told.

    Args:
        node: the building's block, girders and porches in it.
        found: the posts.
        walls: the footprint.
        drawing_first: posts drawn go before posts written.
    """
    lines = [*_girders(node, walls), *_fronts(node, walls)]
    placed: dict[int, list[tuple[float, Mark]]] = {}
    findings: list[Finding] = []
    for mark in found:
        near = [(off, k) for k, line in enumerate(lines) if (off := _off(mark, line.side)) is not None]
        if not near:
            message = f"found a post at {at(mark.middle)}, expected under a girder of the main floor or a porch"
            findings.append(told(mark.trace, "left-out", Severity.WARNING, message))
            continue
        nearest = min(near)[1]
        placed.setdefault(nearest, []).append((spread([mark.middle], lines[nearest].side).left, mark))
    for k, posts in sorted(placed.items()):
        node = _filled(node, lines[k], sorted(posts, key=lambda each: each[0]), drawing_first=drawing_first)
    return node, tuple(findings)


def _off(mark: Mark, line: Side) -> float | None:
    """How far a post is off a line [in]; None where it isn't under it."""
    over = spread([mark.middle], line)
    under = abs(over.near) <= OFF_IN and -OFF_IN <= over.left <= line.length_in + OFF_IN
    return abs(over.near) if under else None


def _filled(node: Keys, line: _Line, posts: Sequence[tuple[float, Mark]], *, drawing_first: bool) -> Keys:
    if step_to(node, line.way) is not None and not drawing_first:
        return node
    trace = posts[0][1].trace
    places = listing(trace, (word(mark.trace, max(along, 0.0)) for along, mark in posts))
    filled = put(node, line.way, trace, places)
    assert isinstance(filled, Keys)
    return filled


def _girders(node: Keys, walls: Footprint) -> Iterator[_Line]:
    """Girders from where they begin, and loft beams from their left end seen from the side that the loft lies on."""
    lofts = [(*LOFTS, index) for index in range(len(written_parts(node, LOFTS)))]
    for way in (MAIN, *lofts):
        floor = step_to(node, way)
        for index, girder in enumerate(written_parts(floor, (GIRDERS,)) if isinstance(floor, Keys) else ()):
            a, b = spot_at(girder, "from"), spot_at(girder, "to")
            if a and b and a != b:
                yield _Line((*way, GIRDERS, index, "posts"), Side("", a, b))
        edge = free_edge(floor, walls) if isinstance(floor, Keys) and node_at(floor, "beam") else None
        if edge is not None:
            yield _Line((*way, "beam", "posts"), edge)


def _fronts(node: Keys, walls: Footprint) -> Iterator[_Line]:
    """The outsides of the front beams, each from the porch's left end seen from outside."""
    for index, porch in enumerate(written_parts(node, PORCHES)):
        side = next((side for side in walls.sides if side.name == word_at(porch, "side")), None)
        width, depth, left, center = (inches_at(porch, key) for key in ("width", "depth", "left", "center"))
        if left is None and center is not None and width is not None:
            left = center - width / 2
        if side is None or left is None or width is None or depth is None:
            continue
        (x, y), (ux, uy), (nx, ny) = side.start, side.direction, side.normal
        a = (x + ux * left + nx * depth, y + uy * left + ny * depth)
        yield _Line((*PORCHES, index, "posts", "places"), Side("", a, (a[0] + ux * width, a[1] + uy * width)))
