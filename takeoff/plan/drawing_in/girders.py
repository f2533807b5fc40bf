"""Girders under the main floor and beams under lofts, drawn as lines or rectangles, each with its size at it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import dist

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.drawn import DrawnLine
from takeoff.plan.drawing_in.floors import loft_name
from takeoff.plan.drawing_in.lengths import inches_at, spot_at, spot_of
from takeoff.plan.drawing_in.line_labels import centre_lines, labels_of
from takeoff.plan.drawing_in.named_parts import DrawnPart, Listed, with_parts, word_at, written_parts
from takeoff.plan.drawing_in.nodes import node_at, point, put, step_to, word
from takeoff.plan.drawing_in.part_labels import GIRDER, PartLabel, read_part_label
from takeoff.plan.drawing_in.shapes import Label, Path
from takeoff.plan.drawing_in.sides import inside, spread
from takeoff.plan.drawing_in.trace import Point, at, told
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.tree import Keys, Listing, Node

MAIN, LOFTS = ("floors", "main"), ("floors", "lofts")
GIRDERS = "girders"

OFF_IN = 9.0
"""A girder drawn no further from where it is written is that one [in]; a beam so near a loft's edge carries it."""

_SIZE = re.compile(r"(?:^|\s)(\d\S*x\d\S*)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnGirder:
    """A girder or beam: its line, whose floor's it is by its label, and what that says of it."""

    line: DrawnLine
    floor: str
    """Empty where its label names none."""
    values: tuple[tuple[tuple[str, ...], Node], ...]

    @property
    def is_sized(self) -> bool:
        """Whether its label has its size."""
        return any(path == ("size",) for path, _ in self.values)


def drawn_girders(
    paths: Sequence[Path], labels: Sequence[Label], what: str
) -> tuple[tuple[DrawnGirder, ...], tuple[Finding, ...]]:
    """The girders on a layer; ``what`` one is, in words. Labels at none of them are told."""
    drawn = [line for path in paths for line in centre_lines(path, "girder")]
    said, findings = labels_of(drawn, labels, what)
    return tuple(_girder(line, words) for line, words in zip(drawn, said, strict=True)), findings


def with_main_girders(
    node: Keys, drawn: Sequence[DrawnGirder], *, drawing_first: bool
) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the girders of the main floor, and those that a loft's name is written at."""
    lofts = {loft_name(block).casefold(): index for index, block in enumerate(written_parts(node, LOFTS))}
    floors: dict[int | None, list[DrawnGirder]] = {}
    for each in drawn:
        floors.setdefault(lofts.get(each.floor.casefold()), []).append(each)
    findings: tuple[Finding, ...] = ()
    for index, girders in sorted(floors.items(), key=lambda item: -1 if item[0] is None else item[0]):
        way: tuple[str | int, ...] = MAIN if index is None else (*LOFTS, index)
        node, more = _with_girders(node, way, girders, drawing_first=drawing_first)
        findings += more
    return node, findings


def with_loft_beams(
    node: Keys, drawn: Sequence[DrawnGirder], walls: Footprint, *, drawing_first: bool
) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the beams of its lofts: along the free edge of one placed along a side, or as its girders."""
    findings: tuple[Finding, ...] = ()
    others: dict[int, list[DrawnGirder]] = {}
    for each in drawn:
        index = next((k for k, loft in enumerate(written_parts(node, LOFTS)) if _carries(each, loft, walls)), None)
        if index is None:
            message = f"found a beam at {at(each.line.a)}, expected in or along the outline of a loft of the plan"
            findings += (told(each.line.trace, "left-out", Severity.WARNING, message),)
            continue
        edge = free_edge(written_parts(node, LOFTS)[index], walls)
        if edge is not None and _is_along(each.line, edge):
            node, more = _with_beam(node, index, each, drawing_first=drawing_first)
            findings += more
        else:
            others.setdefault(index, []).append(each)
    for index, girders in sorted(others.items()):
        node, more = _with_girders(node, (*LOFTS, index), girders, drawing_first=drawing_first)
        findings += more
    return node, findings


def free_edge(loft: Keys, walls: Footprint) -> Side | None:
    """The edge of a loft opposite the side it is placed along; None for one with an outline of its own."""
    side = next((side for side in walls.sides if side.name == word_at(loft, "side")), None)
    depth = inches_at(loft, "depth")
    if side is None or depth is None or node_at(loft, "outline") is not None:
        return None
    (ax, ay), (bx, by), (nx, ny) = side.start, side.end, side.normal
    return Side("", (ax - nx * depth, ay - ny * depth), (bx - nx * depth, by - ny * depth))


def _girder(line: DrawnLine, words: str | None) -> DrawnGirder:
    said = PartLabel(name="") if words is None else read_part_label(words, GIRDER)
    values = [(path, word(line.trace, value)) for path, value in said.values]
    sized = _SIZE.search(said.name)
    if sized:
        values.insert(0, (("size",), word(line.trace, sized[1])))
    return DrawnGirder(line=line, floor=_SIZE.sub("", said.name).strip(" ,;:"), values=tuple(values))


def _with_girders(
    node: Keys, way: tuple[str | int, ...], drawn: Sequence[DrawnGirder], *, drawing_first: bool
) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with girders in one floor, each that of the plan that it lies on, or one more."""
    floor = step_to(node, way)
    if not isinstance(floor, Keys):
        message = "found a girder, expected floors: main in the plan with its joists"
        return node, (told(drawn[0].line.trace, "not-used", Severity.WARNING, message),)
    written = written_parts(floor, (GIRDERS,))
    names = tuple(f"girder {k + 1}" for k in range(len(written)))
    findings: list[Finding] = []
    parts: list[DrawnPart] = []
    for number, each in enumerate(drawn, start=len(written) + 1):
        on = next((k for k, block in enumerate(written) if _lies_on(each.line, block)), None)
        if on is None and not each.is_sized:
            message = f"found a girder at {at(each.line.a)} without its size, expected a label at it, such as 3-2x10"
            findings.append(told(each.line.trace, "not-used", Severity.WARNING, message))
            continue
        line = each.line if on is None else _as_written(each.line, written[on])
        ends = ((("from",), point(line.trace, line.a)), (("to",), point(line.trace, line.b)))
        name = f"girder {number}" if on is None else names[on]
        parts.append(DrawnPart(name=name, trace=line.trace, values=(*ends, *each.values)))
    listed = Listed(what="the girder", path=(GIRDERS,), names=names, named=False)
    filled, more = with_parts(floor, listed, parts, drawing_first=drawing_first)
    made = put(node, way, drawn[0].line.trace, filled)
    assert isinstance(made, Keys)
    return made, (*findings, *more)


def _with_beam(node: Keys, index: int, each: DrawnGirder, *, drawing_first: bool) -> tuple[Keys, tuple[Finding, ...]]:
    beam = node_at(written_parts(node, LOFTS)[index], "beam")
    if beam is None and not each.is_sized:
        message = f"found a beam at {at(each.line.a)} without its size, expected a label at it, such as 3-2x10"
        return node, (told(each.line.trace, "not-used", Severity.WARNING, message),)
    made: Node = node
    for path, value in each.values:
        if drawing_first or node_at(beam, *path) is None:
            made = put(made, (*LOFTS, index, "beam", *path), each.line.trace, value)
    assert isinstance(made, Keys)
    return made, ()


def _carries(each: DrawnGirder, loft: Keys, walls: Footprint) -> bool:
    """Whether a beam is a loft's: by its label, else since it lies in or along the loft."""
    if each.floor:
        return each.floor.casefold() == loft_name(loft).casefold()
    (ax, ay), (bx, by) = each.line.a, each.line.b
    middle = ((ax + bx) / 2, (ay + by) / 2)
    ring = tuple(_outline(loft, walls))
    return len(ring) > 2 and inside(middle, ring, margin=OFF_IN)


def _outline(loft: Keys, walls: Footprint) -> Iterator[Point]:
    """Corners of a loft as it is written."""
    edge = free_edge(loft, walls)
    if edge is not None:
        side = next(side for side in walls.sides if side.name == word_at(loft, "side"))
        yield from (side.start, side.end, edge.end, edge.start)
        return
    written = node_at(loft, "outline")
    for item in written.items if isinstance(written, Listing) else ():
        spot = spot_of(item)
        if spot:
            yield spot


def _lies_on(line: DrawnLine, block: Keys) -> bool:
    a, b = spot_at(block, "from"), spot_at(block, "to")
    return bool(a and b and a != b and _is_along(line, Side("", a, b)))


def _is_along(line: DrawnLine, side: Side) -> bool:
    """Whether a line lies on a side, or a little off, for some of its length."""
    over = spread((line.a, line.b), side)
    near = max(abs(over.near), abs(over.far)) <= OFF_IN
    return near and over.left < side.length_in and over.right > 0.0


def _as_written(line: DrawnLine, block: Keys) -> DrawnLine:
    """The line turned to begin where the plan has it begin: its posts are measured from there."""
    a, b = spot_at(block, "from"), spot_at(block, "to")
    if a and b and dist(line.a, a) + dist(line.b, b) > dist(line.a, b) + dist(line.b, a):
        return replace(line, a=line.b, b=line.a)
    return line
