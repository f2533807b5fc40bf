"""One common rafter without a plan around it."""

from __future__ import annotations

from takeoff.catalog.profiles import profile
from takeoff.framing.seat import decided_seat
from takeoff.geometry.rafter import RafterGeometry
from takeoff.measure import Pitch


def one_rafter(
    *,
    pitch: Pitch,
    run: float,
    size: str,
    overhang: float = 0.0,
    ridge: float = 0.0,
    plate: float,
    seat: float | None = None,
    tail: str | None = None,
) -> tuple[RafterGeometry, str]:
    """Cuts of a common rafter, and what governed its seat.

    Args:
        pitch: of the roof.
        run: level, outside of wall framing to the centre line of the ridge [in].
        size: profile, such as ``2x10``.
        overhang: level, to the tail's plumb cut [in].
        ridge: thickness of the ridge [in].
        plate: width of the plate [in].
        seat: level seat stated [in]; None lets the rule decide.
        tail: profile the tail is ripped to.

    Raises:
        ValueError: unknown size, or no such rafter can be cut.
    """
    depth = profile(size).depth_in
    if min(run, plate) <= 0 or min(overhang, ridge) < 0:
        raise ValueError("run and plate must be more than 0; overhang and ridge 0 or more")
    chosen = decided_seat(depth=depth, plate_width=plate, slope=pitch.slope, stated=seat)
    geometry = RafterGeometry(
        slope=pitch.slope,
        depth=depth,
        run=run,
        overhang=overhang,
        ridge_half=ridge / 2,
        seat=chosen.length,
        tail_depth=profile(tail).depth_in if tail else None,
    )
    return geometry, chosen.reason
