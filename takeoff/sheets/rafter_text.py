"""One rafter in words and figures, as they are called out at the saw."""

from __future__ import annotations

from takeoff.geometry.rafter import RafterGeometry
from takeoff.measure import Pitch, format_length
from takeoff.sheets.cautions import CAUTIONS


def rafter_text(rafter: RafterGeometry, size: str, seat_reason: str) -> str:
    """A table of two columns, a figure a line.

    Args:
        rafter: its cuts.
        size: name of its profile.
        seat_reason: what governed the seat.
    """
    pitch = Pitch(rafter.slope * 12)
    rows = [
        ("pitch", f"{pitch}: {pitch.rise:g} on the tongue, 12 on the body"),
        ("plumb cut", f"{rafter.plumb_deg:.2f} deg off square"),
        ("seat cut", f"{rafter.seat_deg:.2f} deg off square"),
        ("run", f"{format_length(rafter.run)} to the ridge's centre line, rise {format_length(rafter.rise)}"),
        ("line length", f"{format_length(rafter.line_length)} heel plumb line to ridge cut"),
        ("ridge shortening", f"{format_length(rafter.ridge_shortening)} along the slope, taken off already"),
        ("seat", f"{format_length(rafter.seat)} level: {seat_reason}"),
        ("heel", f"{format_length(rafter.heel)} plumb"),
        ("height above plate", f"{format_length(rafter.height_above_plate)} plumb, at the heel"),
        ("tail", f"{format_length(rafter.tail)} along the slope" if rafter.overhang else "none"),
        ("overall", f"{format_length(rafter.overall)} long point to long point"),
    ]
    width = max(len(name) for name, _ in rows)
    body = [f"{name:<{width}}  {value}" for name, value in rows]
    return "\n".join([f"common rafter, {size}", *body, "", CAUTIONS[0], CAUTIONS[2]]) + "\n"
