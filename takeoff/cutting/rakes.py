"""Rakes: how much of a member's length is the slanted cut at each end."""

from __future__ import annotations

from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.member import EndCut, Member


def rakes_of(member: Member) -> tuple[float, float]:
    """Rake of the left and of the right end [in]; 0 for a square end.

    It counts from the tip, along the stick, over the part of the end that the cut makes: less than the whole depth
    where the tail is ripped. An end whose cut doesn't reach the top edge has none, since a neighbour's cut, which
    starts there, would run into it.
    """
    left, right = member.cuts
    return _rake(member, left, end=-1), _rake(member, right, end=1)


def _rake(member: Member, cut: EndCut, end: int) -> float:
    points = [(float(x), float(y)) for x, y in member.side.exterior.coords]
    along, up, through = cut.normal
    reach = max(along * x + up * y for x, y in points)
    on_cut = [y for x, y in points if reach - (along * x + up * y) <= TOLERANCE.length]
    if along * end <= 0 or max(on_cut) < member.profile.depth_in - TOLERANCE.length:
        return 0.0
    over_depth = abs(up / along) * (max(on_cut) - min(on_cut))
    return over_depth + abs(through / along) * member.profile.thickness_in
