"""What a placed stick weighs, for the lift."""

from __future__ import annotations

from takeoff.catalog.weights import weight_per_ft
from takeoff.model.member import Member


def member_weight_lb(member: Member, species: str) -> float:
    """Weight of a member as cut [lb]: what its notches take away isn't lifted.

    Args:
        member: the stick; its end bevels are not taken off.
        species: species group of sawn lumber; engineered wood has a density of its own.
    """
    full_depth_ft = float(member.side.area) / member.profile.depth_in / 12
    return weight_per_ft(member.profile, member.grade, species) * full_depth_ft
