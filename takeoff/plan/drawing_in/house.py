"""One building's part of a drawing: which outline is its, and what lies in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import dist

from takeoff.findings import Finding, Severity
from takeoff.measure import format_length
from takeoff.plan.drawing_in.chains import Ring, rings
from takeoff.plan.drawing_in.drawn import DrawnLine, LineKind
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.drawing_in.shapes import Label, Path, Shapes
from takeoff.plan.drawing_in.sides import inside, to_side
from takeoff.plan.drawing_in.trace import Point, Trace, at, told
from takeoff.plan.footprint import footprint_of, usual_names

REACH_IN = 96.0
"""What belongs to a building is drawn no further outside its walls than this [in]."""

AT_IN = 6.0
"""What begins so near a building's walls belongs to it, however far out it goes, such as a porch [in]."""

SIDE_LABEL_IN = 36.0
"""The name of a side stands no further from it than this [in]."""

FARTHEST_IN = 490 * 12.0
"""A drawing further from the origin is moved there [in]; a plan's coordinates go to 500 feet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """One building in a drawing: its outline, the names drawn at its sides, and all shapes that are its."""

    ring: Ring
    names: tuple[str, ...] | None
    shapes: Shapes


LEAST_IN = 24.0
"""No building is less wide than this [in]."""


def house(
    shapes: Shapes, settings: DrawnOutline, name: str, *, alone: bool
) -> tuple[House | None, tuple[Finding, ...]]:
    """A building's part of a drawing; none, and errors, where no outline is clearly its.

    Args:
        shapes: of the whole drawing.
        settings: names of layers, tolerances.
        name: of the building.
        alone: it is the only building of the plan.
    """
    paths = shapes.on(settings.layer)
    found, findings = rings(paths, settings.tolerance)
    if any(finding.severity is Severity.ERROR for finding in findings):
        return None, findings
    outer, within = _outer(found)
    mine = _named(outer, shapes.texts(settings.layer), name) if len(outer) > 1 else list(outer)
    if len(mine) != 1:
        return None, (*findings, _none_or_many(shapes, settings.layer, outer, mine, name))
    ring = mine[0]
    unlikely = _unlikely(ring)
    if unlikely is not None:
        return None, (*findings, unlikely)
    findings += tuple(
        told(other.traces[0], "left-out", Severity.WARNING, _inner(other))
        for other in within
        if inside(other.points[0], ring.points)
    )
    others = [other.points for other in outer if other is not ring]
    belonging = _belonging(shapes, ring.points, others)
    if alone:
        findings += _far_off(shapes, belonging, settings)
    ours = _moved(ring, belonging)
    if ours[0] is not ring:
        findings += (told(ring.traces[0], "moved", Severity.NOTE, f"found drawn at {at(ring.points[0])}, moved"),)
    names, doubts = _side_names(*ours, settings.layer, name)
    return House(ring=ours[0], names=names, shapes=ours[1]), (*findings, *doubts)


def _outer(found: Sequence[Ring]) -> tuple[list[Ring], list[Ring]]:
    """Outlines that lie in no other, and those that do."""
    outer: list[Ring] = []
    within: list[Ring] = []
    for ring in found:
        holders = [other for other in found if other is not ring and all(inside(p, other.points) for p in ring.points)]
        (within if holders else outer).append(ring)
    return outer, within


def _inner(ring: Ring) -> str:
    return f"found an outline within the outline at {at(ring.points[0])}, left out; the outside of the walls is taken"


def _named(outer: Sequence[Ring], labels: Sequence[Label], name: str) -> list[Ring]:
    mine = [label.at for label in labels if label.words.casefold() == name.casefold()]
    return [ring for ring in outer if any(inside(point, ring.points) for point in mine)]


def _none_or_many(shapes: Shapes, layer: str, outer: Sequence[Ring], mine: Sequence[Ring], name: str) -> Finding:
    file = shapes.file
    if not outer:
        message = "found no closed outline, expected one"
        if shapes.layers and layer.upper() not in map(str.upper, shapes.layers):
            others = ", ".join(shapes.layers)
            message += (
                f"; the drawing has the layers {others}: name the right one in the plan, as outline: {{layer: …}}"
            )
        return told(Trace(file, layer), "no-outline", Severity.ERROR, message)
    corners = "; ".join(f"{ring.traces[0].handle} at {at(ring.points[0])}" for ring in outer[:8])
    message = (
        f"found {len(outer)} outlines ({corners}), {len(mine) or 'none'} with {name!r} written in it on that layer"
        ", expected one"
    )
    return told(Trace(file, layer), "no-outline", Severity.ERROR, message)


def _unlikely(ring: Ring) -> Finding | None:
    """What is said of an outline that no building has: the unit of the drawing is another one."""
    wide, deep = (max(p[k] for p in ring.points) - min(p[k] for p in ring.points) for k in (0, 1))
    if max(wide, deep) <= FARTHEST_IN and min(wide, deep) >= LEAST_IN:
        return None
    message = (
        f"found an outline {format_length(wide)} by {format_length(deep)}"
        f", expected a building of {format_length(LEAST_IN)}"
        f" to {format_length(FARTHEST_IN)}; is the drawing's unit right? A plan states it as outline: {{units: mm}}"
    )
    return told(ring.traces[0], "units", Severity.ERROR, message)


def _belonging(shapes: Shapes, ring: Sequence[Point], others: Sequence[Sequence[Point]]) -> Shapes:
    """What lies in a building or near it, and not in another."""

    def is_ours(points: Iterable[Point]) -> bool:
        points = tuple(points)
        middle = (sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points))
        near = inside(middle, ring, REACH_IN) or any(inside(point, ring, AT_IN) for point in points[:50])
        return near and not any(inside(middle, other) for other in others)

    return replace(
        shapes,
        paths=tuple(path for path in shapes.paths if is_ours(path.points)),
        labels=tuple(label for label in shapes.labels if is_ours([label.at])),
    )


def _far_off(shapes: Shapes, near: Shapes, settings: DrawnOutline) -> tuple[Finding, ...]:
    """What is drawn on layers of a building and lies too far from the only one; elevations are drawn anywhere."""
    anywhere = {settings.gables.upper(), settings.faces.upper(), settings.layer.upper()}
    kept = {path.trace for path in near.paths}
    left = [path for path in shapes.paths if path.trace not in kept and path.trace.layer.upper() not in anywhere]
    if not left:
        return ()
    message = (
        f"found something {format_length(REACH_IN)} or more outside the walls at {at(left[0].points[0])}, left out"
    )
    message += f", and {len(left) - 1} more" if len(left) > 1 else ""
    return (told(left[0].trace, "left-out", Severity.WARNING, message),)


def _moved(ring: Ring, shapes: Shapes) -> tuple[Ring, Shapes]:
    """The same with its lower left at the origin, where it is drawn far from there."""
    if all(abs(value) <= FARTHEST_IN for point in ring.points for value in point):
        return ring, shapes
    x, y = min(p[0] for p in ring.points), min(p[1] for p in ring.points)

    def move(points: Iterable[Point]) -> tuple[Point, ...]:
        return tuple((px - x, py - y) for px, py in points)

    return (
        replace(ring, points=move(ring.points)),
        replace(
            shapes,
            paths=tuple(replace(path, points=move(path.points)) for path in shapes.paths),
            labels=tuple(replace(label, at=move([label.at])[0]) for label in shapes.labels),
        ),
    )


def _side_names(
    ring: Ring, shapes: Shapes, layer: str, name: str
) -> tuple[tuple[str, ...] | None, tuple[Finding, ...]]:
    """Names written at the sides; none where not every side has one."""
    walls = footprint_of(ring.points, tuple(str(k) for k in range(len(ring.points))))
    labels = [label for label in shapes.texts(layer) if label.words.casefold() != name.casefold()]
    pairs = sorted(
        (dist(label.at, ((s.start[0] + s.end[0]) / 2, (s.start[1] + s.end[1]) / 2)), int(s.name), j)
        for j, label in enumerate(labels[:200])
        for s in walls.sides
        if to_side(label.at, s) <= SIDE_LABEL_IN
    )
    named: dict[int, int] = {}
    for _, side, j in pairs:
        if side not in named and j not in named.values():
            named[side] = j
    if len(named) == len(ring.points):
        return tuple(labels[named[k]].words for k in range(len(ring.points))), ()
    findings = tuple(
        told(label.trace, "left-out", Severity.WARNING, f"found {label.words[:60]!r}, expected a name at each side")
        for label in labels[:20]
    )
    return None, findings


def usual_or_drawn(found: House) -> tuple[str, ...]:
    """Names of the sides of a building whose plan gives none."""
    return found.names or usual_names(found.ring.points)


def lines(paths: Sequence[Path], kind: LineKind) -> tuple[DrawnLine, ...]:
    """The straight pieces of paths."""
    return tuple(
        DrawnLine(kind=kind, trace=path.trace, a=a, b=b)
        for path in paths
        for a, b in zip(path.points, path.points[1:] + (path.points[:1] if path.closed else ()), strict=False)
        if dist(a, b) > 1.0
    )
