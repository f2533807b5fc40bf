"""Whether an opening has room in its slope: clear of the folds and the rakes, its trimmers on the wall."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist
from typing import TYPE_CHECKING

from takeoff.findings import Finding, PlanError, Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.slope import Slope
    from takeoff.framing.slope_openings import SlopeOpening
    from takeoff.geometry.outline import Edge

Point = tuple[float, float]

LEAST_CUT_IN = 1.5
"""Shortest cut rafter between an upper header and what stands above it [in]. Common practice, no source."""

WHAT = {"ridge": "the ridge", "hip": "the hip", "valley": "the valley", "ledger": "the ledger", "break": "the break"}
LOWER = "lower it"
MENDS = {
    "ridge": f"{LOWER}, or make it shorter",
    "ledger": f"{LOWER}, or make it shorter",
    "break": f"{LOWER}, or make it shorter: openings go into the lower slopes of a gambrel roof",
    "hip": "move it along the eave away from the hip, lower it, or make it smaller",
    "valley": "move it along the eave away from the valley, raise it, or make it smaller",
}


def refuse_no_room(opening: SlopeOpening, slope: Slope) -> None:
    """Refuse an opening whose framing runs into the edge of its slope.

    Raises:
        PlanError: it does; says into what, by how much, and how to mend it.
    """
    faults = [*_beyond_folds(opening, slope), *_into_rakes(opening, slope), *_over_high_wall(opening, slope)]
    if faults:
        by, what, mend = max(faults)
        if opening.dormer_fall is not None and mend.startswith(LOWER):
            raise _refused(opening, _too_high(opening, slope, by, what))
        message = (
            f"the {opening.what} in the {slope.name} runs {format_length(by)} into {what} (level, with its trimmers"
            f" and headers); {mend}"
        )
        raise _refused(opening, message)
    for u in opening.trimmers:
        on = {cut.lower.role for cut in slope.outline.slices(u)}
        if on != {"eave"}:
            message = (
                f"trimmers of the {opening.what} in the {slope.name} would stand on the {' and the '.join(sorted(on))},"
                f" not on the {slope.side} wall; move it along the eave"
            )
            raise _refused(opening, message)


def _too_high(opening: SlopeOpening, slope: Slope, by: float, what: str) -> str:
    """A dormer is as deep as it is high: its opening ends where its ceiling runs into the slope."""
    less = format_length(by * (opening.dormer_fall or 0.0) + TOLERANCE.mark)
    what_runs = "ceiling" if opening.shoulder is None else "ridge"
    return (
        f"the {opening.what} is too high for the {slope.name}: its {what_runs} would run into the slope only"
        f" {format_length(by)} past the place for a header below {what}; make its walls {less} lower, or bring its"
        " front further out"
    )


def _refused(opening: SlopeOpening, message: str) -> PlanError:
    return PlanError([Finding(rule="frame.opening", severity=Severity.ERROR, message=message, place=opening.written)])


def _framed(opening: SlopeOpening, slope: Slope) -> tuple[float, float, float, float]:
    """Level extent of the framing: u0, h0, u1, h1. A square header leans inward under its top edge."""
    low, high = (v * slope.level for v in opening.cut_v)
    leaning = 0.0 if opening.plumb else opening.trimmer.depth_in * slope.common.slope * slope.level
    return opening.framed_u[0], low, opening.framed_u[1], high + leaning + LEAST_CUT_IN


def _beyond_folds(opening: SlopeOpening, slope: Slope) -> Iterator[tuple[float, str, str]]:
    """Every fold that the framing reaches; where it lies outside of the slope altogether, the nearest."""
    from shapely import LineString, box

    edges = [edge for edge in slope.outline.edges if edge.role in WHAT]
    framing = box(*_framed(opening, slope))
    lines = [(LineString(_ends(edge, slope)).distance(framing), edge) for edge in edges]
    reached = [
        edge
        for away, edge in lines
        # Along a break no stick lies in the slope: an opening that ends at it only touches it.
        if away < slope.halves.of(edge.role) - TOLERANCE.length
        or (away < TOLERANCE.length and _beyond(edge, framing, slope) > TOLERANCE.mark)
    ]
    if not reached and not framing.intersects(_ground(slope)):
        reached = [min(lines, key=lambda line: line[0])[1]] if lines else []
    for edge in reached:
        yield _beyond(edge, framing, slope), WHAT[edge.role], MENDS[edge.role]


def _ends(edge: Edge, slope: Slope) -> tuple[Point, Point]:
    return (edge.a[0], edge.a[1] * slope.level), (edge.b[0], edge.b[1] * slope.level)


def _ground(slope: Slope) -> Polygon:
    from shapely import Polygon

    return Polygon([_ends(edge, slope)[0] for edge in slope.outline.edges])


def _beyond(edge: Edge, framing: Polygon, slope: Slope) -> float:
    """How far the framing reaches past the near face of the stick along an edge [in], square to it in plan."""
    (ax, ay), (bx, by) = a, b = _ends(edge, slope)
    nx, ny = (by - ay) / dist(a, b), -(bx - ax) / dist(a, b)
    out = max((x - ax) * nx + (y - ay) * ny for x, y in framing.exterior.coords)
    return float(out) + slope.halves.of(edge.role)


def _into_rakes(opening: SlopeOpening, slope: Slope) -> Iterator[tuple[float, str, str]]:
    """End rafters stand on the end walls; an opening in front of one keeps its trimmers beside it."""
    thickness = opening.trimmer.thickness_in
    (left, right), (at_left, at_right) = slope.walls, slope.rakes
    for end, there, by in (
        ("left", at_left, left + thickness - opening.framed_u[0]),
        ("right", at_right, opening.framed_u[1] - (right - thickness)),
    ):
        if there and by > TOLERANCE.length:
            yield by, f"the end rafter at the {end} rake", "move it along the eave away from the rake"


def _over_high_wall(opening: SlopeOpening, slope: Slope) -> Iterator[tuple[float, str, str]]:
    """Under a shed roof the upper header stands inside the high wall."""
    heel = slope.common.upper_heel
    if heel is not None:
        by = _framed(opening, slope)[3] - heel
        if by > TOLERANCE.length:
            yield by, "the high wall", f"{LOWER}, or make it shorter"
