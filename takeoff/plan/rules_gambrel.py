"""Rules of gambrel roofs: slopes that break outward, a purlin that is no plate, a beam at the ridge."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.profiles import profile
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.schema import Building


def slopes_break_outward(building: Building) -> Iterator[Flaw]:
    """The upper slopes of a gambrel roof are flatter than the lower ones."""
    roof = building.roof
    if roof.upper is None:
        return
    for name in side_names(building):
        lower = roof.pitch_of(name)
        if lower is not None and roof.upper.pitch.slope >= lower.slope:
            message = f"found upper slopes of {roof.upper.pitch} over {lower} on the {name}, expected flatter ones"
            yield Flaw(
                rule="plan.roof",
                loc=("roof", "upper", "pitch"),
                message=message,
                found=str(roof.upper.pitch),
                limit=f"under {lower}",
            )
            return


def ridge_of_a_gambrel(building: Building) -> Iterator[Flaw]:
    """Nothing ties the feet of the upper rafters, so a beam has to carry their heads."""
    roof = building.roof
    if roof.upper is not None and roof.ridge is not None and roof.ridge.kind == "board":
        message = (
            "found a ridge board on a gambrel roof, expected a beam: nothing ties the upper rafters, whose feet would"
            " push the purlins out"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "ridge", "kind"), message=message, found="board", limit="beam")


def break_inside(building: Building) -> Iterator[Flaw]:
    """The break stands over the house, with room for the upper rafters between the purlins."""
    roof, walls = building.roof, footprint(building)
    if roof.upper is None or roof.gables is None or roof.ridge is None or not walls.is_rectangle:
        return
    span = walls.side(roof.gables[0]).length_in if roof.gables[0] in side_names(building) else None
    run = roof.upper.run
    if span is None or run is None:
        return  # a break told by its height is found when the roof is laid out
    thick = profile(roof.upper.purlin.size).thickness_in
    most = span / 2 - profile(roof.ridge.size).thickness_in / 2 - thick - LEAST_UPPER_IN
    least = profile(building.walls.studs).depth_in
    if not least - TOLERANCE.length <= run <= most + TOLERANCE.length:
        found, limit = format_length(run), f"between {format_length(least)} and {format_length(most)}"
        message = (
            f"found the break {found} in from the walls, expected {limit}: inside the walls, purlins and ridge apart"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "upper", "run"), message=message, found=found, limit=limit)


LEAST_UPPER_IN = 12.0
"""Least level run of an upper rafter between its purlin and the ridge [in]. Common practice, no source."""
