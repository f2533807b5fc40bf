r"""What a tape reads along plates that lie flat on another roof: hooked on the lower end of the stick itself.

::

              ,'|  jack
            ,' _|
          ,'_,' |      the tape lies along the edge beside the valley, from its lower tip; a mark is where the middle
        ,'_,'          of a jack's foot comes to that edge
      lower tip
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist
from typing import TYPE_CHECKING

from takeoff.catalog.roles import role
from takeoff.framing.laid_ends import LAID
from takeoff.model.layout import LayoutLine, LayoutMark, Tape

if TYPE_CHECKING:
    from shapely import Polygon

    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.valley_plates import ValleyPlate
    from takeoff.geometry.placement import Placement

Point = tuple[float, float]

_INSIDE_IN = 0.05
"""How far inside the plate its tape lies [in]."""
ON_EDGE_IN = 1e-3
"""A corner of an outline so near a line lies on it [in]: what is left of reckoning the corner."""


def plate_lines(label: str, roof: RoofFrame, plates: Sequence[ValleyPlate], plane: Placement) -> Iterator[LayoutLine]:
    """Rafters along each piece of a roof's valley plates.

    Args:
        label: put before the lines' names; may be empty.
        roof: whose rafters stand on them.
        plates: pieces of them, those of one slope from below.
        plane: that their tops lie in.
    """
    for plate in plates:
        row = roof.rows[plate.row]
        alike = [other for other in plates if other.row == plate.row]
        piece = f", piece {alike.index(plate) + 1} from below" if len(alike) > 1 else ""
        name = f"{label} valley plate under the {row.slope.name}{piece}".strip()
        line = plate_line(name, plate.shape, plate.run, plane, row)
        if line:
            yield line


def plate_line(
    name: str, shape: Polygon, run: tuple[Point, Point], plane: Placement, row: RafterRow
) -> LayoutLine | None:
    """Rafters along a valley plate's edge beside the valley; None where a piece of it has none of that edge.

    Args:
        name: of the line.
        shape: outline of the plate on the plane.
        run: the line of that edge.
        plane: that the plate's top lies in.
        row: rafters of the slope that is laid on it.
    """
    on_edge = sorted(
        (v, u) for u, v in list(shape.exterior.coords)[:-1] if _off((float(u), float(v)), run) < ON_EDGE_IN
    )
    if len(on_edge) < 2:
        return None
    (v0, u0), (v1, u1) = on_edge[0], on_edge[-1]
    length = dist((u0, v0), (u1, v1))
    found = {
        (round(at, 6), known.layout_symbol, known.words.split(",")[0])
        for at, known in ((at, role(one)) for at, one in _feet(row, (u0, v0), (u1, v1), plane))
        if 0.0 <= at <= length
    }
    return LayoutLine(
        name=name,
        start="lower tip, along the edge beside the valley" if v1 - v0 > ON_EDGE_IN else "left end, seen from outside",
        length_in=length,
        marks=tuple(LayoutMark(*mark) for mark in sorted(found)),
        tape=_tape(shape, (u0, v0), (u1, v1), plane),
    )


def _tape(shape: Polygon, low: Point, high: Point, plane: Placement) -> Tape:
    """Along the edge, just inside the plate."""
    (u0, v0), (u1, v1) = low, high
    length, middle = dist(low, high), shape.centroid
    across = (v0 - v1) / length, (u1 - u0) / length
    inward = (float(middle.x) - u0) * across[0] + (float(middle.y) - v0) * across[1]
    du, dv = (_INSIDE_IN * (1.0 if inward > 0 else -1.0) * at for at in across)
    return Tape.toward_point(*(plane.to_world((u + du, v + dv, -_INSIDE_IN)) for u, v in (low, high)))


def _off(spot: Point, run: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = run
    return abs((bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)) / dist(*run)


def _feet(row: RafterRow, low: Point, high: Point, plane: Placement) -> Iterator[tuple[float, str]]:
    """Where the middles of rafters laid on it come to a line on a plane, from its lower end [in], and what they are."""
    face = row.slope.bench.placement
    ends = [face.from_world(plane.to_world((*spot, 0.0)))[0] for spot in (low, high)]
    for one in row.placed:
        if LAID in one.cuts.lower | one.cuts.upper:
            yield (one.u - ends[0]) / (ends[1] - ends[0]) * dist(low, high), one.role
