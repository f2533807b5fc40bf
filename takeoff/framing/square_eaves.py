"""Fascia on square tail cuts: it stands square to the slope, its top edge in the plane of the rafters' tops.

Its back is on the cuts. At a corner it has a compound mitre, in the plumb plane through hip or valley.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from takeoff.framing.splices import spliced
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.model.member import SQUARE_ENDS, EndCut, Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.eaves import FasciaRun
    from takeoff.framing.rafters import RafterRow
    from takeoff.framing.slope import Slope


def tilted_fascia(row: RafterRow, run: FasciaRun, profile: Profile, grade: str, longest: float) -> tuple[Member, ...]:
    """One straight run of fascia square to its slope, joined on rafters where it is longer than stock."""
    slope = row.slope
    reach = [_reach(slope, profile, k) for k in run.mitres]
    tips = (run.u[0] - reach[0], run.u[1] + reach[1])
    bench = replace(slope.bench, face=f"{slope.side} eave")
    middle = -slope.common.overhang / slope.level - profile.thickness_in / 2
    pieces = spliced(tips, longest, row.centres)
    members = [bench.standing_along_u("fascia", profile, grade, u=part, v=middle) for part in pieces]
    start = _corner_cut(slope, profile, run.mitres[0], run.u[0] - pieces[0][0], -1.0)
    end = _corner_cut(slope, profile, run.mitres[1], run.u[1] - pieces[-1][0], 1.0)
    members[0] = replace(members[0], cuts=(start, members[0].cuts[1]))
    members[-1] = replace(members[-1], cuts=(members[-1].cuts[0], end))
    return tuple(members)


def lean_fault(slope: Slope, fascia: Profile | None) -> str | None:
    """Why square tails can't be on a slope: they, or the fascia on them, lean back into the wall; None if not."""
    common = slope.common
    if not common.tail_lean:
        return None
    # Where the cut passes the plate it must still be outside of it, or it takes off some of the seat.
    deep = max(common.height_above_plate * slope.level, fascia.depth_in if fascia else 0.0)
    need = deep * common.slope * slope.level
    if common.overhang >= need - TOLERANCE.length:
        return None
    what = "square tails and their fascia lean" if fascia else "square tails lean"
    return (
        f"{what} back {format_length(need)} under the {slope.side} eave, which stands out "
        f"{format_length(common.overhang)}; widen the overhang, or cut the tails plumb"
    )


def _reach(slope: Slope, profile: Profile, mitre: float) -> float:
    """How far the board's long point is past the corner of its back's top edge [in]."""
    front = profile.thickness_in * slope.level
    under = -profile.depth_in * slope.common.slope * slope.level
    return max(0.0, mitre * front, mitre * under)


def _corner_cut(slope: Slope, profile: Profile, mitre: float, at: float, sign: float) -> EndCut:
    """The plumb plane through a corner: ``mitre`` along the eave for each inch level outward."""
    if not mitre:
        return SQUARE_ENDS[sign > 0]
    up, out = slope.common.slope * slope.level, slope.level
    whole = hypot(1, mitre)
    normal = (sign / whole, -mitre * up / whole, -mitre * out / whole)
    return EndCut(normal, (at, profile.depth_in, -profile.thickness_in / 2))
