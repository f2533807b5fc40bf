"""The main floor and lofts drawn as closed outlines, each loft with a label that names it."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.chains import Ring, rings
from takeoff.plan.drawing_in.named_parts import DrawnPart, word_at
from takeoff.plan.drawing_in.nodes import listing, node_at, point, word
from takeoff.plan.drawing_in.part_labels import FLOOR, LOFT, LabelWords, PartLabel, read_part_label
from takeoff.plan.drawing_in.shapes import Label, Path
from takeoff.plan.drawing_in.sides import inside, spread
from takeoff.plan.drawing_in.trace import Point, at, told
from takeoff.plan.footprint import Footprint
from takeoff.plan.tree import Keys, Node

APART_IN = 0.1
"""Outlines whose edges stand no further apart than this all along are one [in]."""

LOFT_NAME = "loft"
"""What a loft is called that has no name."""

_LOFT_NEEDS = ((("height",), "its height"), (("joists", "size"), "the size of its joists"))
"""What no outline of a loft shows, by its path of keys, and in words."""


def drawn_main(
    paths: Sequence[Path], labels: Sequence[Label], gap: float, walls: Footprint
) -> tuple[DrawnPart | None, tuple[Finding, ...]]:
    """The main floor; of one that ends with the walls nothing but what its label says."""
    found, findings = rings(paths, gap)
    if len(found) > 1:
        message = f"found {len(found)} outlines, expected one main floor; none is taken"
        return None, (*findings, told(found[1].traces[0], "left-out", Severity.WARNING, message))
    if not found:
        return None, findings
    [ring] = found
    said, unused = labelled(found, labels, FLOOR)
    values: list[tuple[tuple[str, ...], Node]] = [(path, word(ring.traces[0], value)) for path, value in said[0].values]
    if not same_shape(ring.points, walls.points):
        values.append((("outline",), _corners(ring)))
    return DrawnPart(name="main floor", trace=ring.traces[0], values=tuple(values)), (*findings, *unused)


def drawn_lofts(
    paths: Sequence[Path], labels: Sequence[Label], gap: float, walls: Footprint, written: Sequence[Keys]
) -> tuple[tuple[DrawnPart, ...], tuple[Finding, ...]]:
    """Lofts; of one that the plan places along a side, and that lies along it, how far it reaches."""
    found, findings = rings(paths, gap)
    said, unused = labelled(found, labels, LOFT)
    parts = []
    for ring, label in zip(found, said, strict=True):
        name = label.name or LOFT_NAME
        values = [(path, word(ring.traces[0], value)) for path, value in label.values]
        depth = _depth(ring, walls, [block for block in written if loft_name(block).casefold() == name.casefold()])
        instead = ("side", "depth") if depth is None else ()
        placed = (("outline",), _corners(ring)) if depth is None else (("depth",), word(ring.traces[0], depth))
        parts.append(DrawnPart(name=name, trace=ring.traces[0], values=(*values, placed), instead_of=instead))
    return tuple(parts), (*findings, *unused)


def untold_lofts(
    lofts: Sequence[DrawnPart], written: Sequence[Keys]
) -> tuple[tuple[DrawnPart, ...], tuple[Finding, ...]]:
    """Lofts of which the plan or their label tells what no outline shows; what to write at the others."""
    known = {loft_name(block).casefold() for block in written}
    whole, findings = [], []
    for loft in lofts:
        paths = {path for path, _ in loft.values}
        lacks = () if loft.name.casefold() in known else tuple(w for path, w in _LOFT_NEEDS if path not in paths)
        if not lacks:
            whole.append(loft)
            continue
        message = (
            f"found {_outlined(loft)} without {' and '.join(lacks)}, expected a label in it such as: "
            f"{LOFT_NAME} height 7'-6\" joists 2x8; or a loft named {loft.name!r} in the plan, floors: lofts"
        )
        findings.append(told(loft.trace, "label", Severity.ERROR, message))
    return tuple(whole), tuple(findings)


def _outlined(loft: DrawnPart) -> str:
    return "the outline of a loft" if loft.name == LOFT_NAME else f"the outline of the loft {loft.name!r}"


def loft_name(block: Keys) -> str:
    """What a loft of the plan is called."""
    return word_at(block, "name") or LOFT_NAME


def _depth(ring: Ring, walls: Footprint, written: Sequence[Keys]) -> float | None:
    """How far a loft reaches from the side that the plan places it along; None where it doesn't lie along one."""
    name = word_at(written[0], "side") if written and node_at(written[0], "outline") is None else ""
    side = next((side for side in walls.sides if side.name == name), None)
    if side is None:
        return None
    from shapely import Polygon

    (ax, ay), (bx, by), (nx, ny) = side.start, side.end, side.normal
    depth = spread(ring.points, side).far
    strip = Polygon([(ax, ay), (bx, by), (bx - nx * depth, by - ny * depth), (ax - nx * depth, ay - ny * depth)])
    shape, ground = Polygon(ring.points), Polygon(walls.points)
    if depth <= 0 or not shape.is_valid:
        return None
    unlike = strip.intersection(ground).symmetric_difference(shape.intersection(ground)).area
    return float(depth) if unlike <= APART_IN * shape.length else None


def same_shape(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two outlines are the same, wherever they begin and whichever way round they go."""
    from shapely import Polygon

    a, b = Polygon(one), Polygon(other)
    return a.is_valid and b.is_valid and a.symmetric_difference(b).area <= APART_IN * a.length


def labelled(
    found: Sequence[Ring], labels: Sequence[Label], words: LabelWords
) -> tuple[list[PartLabel], tuple[Finding, ...]]:
    """What the label in each outline says, nearest to its middle; labels in none are told."""
    pairs = sorted(
        (dist(label.at, _middle(ring)), i, j)
        for i, ring in enumerate(found)
        for j, label in enumerate(labels[:200])
        if inside(label.at, ring.points)
    )
    mine: dict[int, int] = {}
    for _, i, j in pairs:
        if i not in mine and j not in mine.values():
            mine[i] = j
    unused = tuple(
        told(
            label.trace,
            "label",
            Severity.WARNING,
            f"found the label {label.words[:60]!r} at {at(label.at)}, expected one in each outline; not used",
        )
        for j, label in enumerate(labels)
        if j not in mine.values()
    )
    empty = PartLabel(name="")
    return [read_part_label(labels[mine[i]].words, words) if i in mine else empty for i in range(len(found))], unused


def _middle(ring: Ring) -> Point:
    xs, ys = [p[0] for p in ring.points], [p[1] for p in ring.points]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def _corners(ring: Ring) -> Node:
    return listing(ring.traces[0], (point(trace, spot) for spot, trace in zip(ring.points, ring.traces, strict=True)))
