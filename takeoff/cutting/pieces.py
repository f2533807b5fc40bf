"""Pieces to cut: the members of all buildings, equal ones counted together."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from takeoff.catalog.roles import roles
from takeoff.cutting.natural import natural_key
from takeoff.cutting.rakes import rakes_of
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.model.stock import Piece


def pieces_of(buildings: Iterable[FramedBuilding]) -> tuple[Piece, ...]:
    """The pieces of marked buildings, ``qty`` being over all copies of a building.

    They stand by building in the order of the plan, then by load, by role in the order of its table, and by mark.
    Members that share a mark differ by no more than the tolerance of a mark; the longest is the one to cut.
    """
    return tuple(piece for building in buildings for piece in _pieces_of_one(building))


def _pieces_of_one(building: FramedBuilding) -> Iterable[Piece]:
    rank = {role.name: index for index, role in enumerate(roles())}

    def place(member: Member) -> tuple[object, ...]:
        role = member.role
        return (role.load, rank[role.name], natural_key(member.mark), natural_key(member.profile.name), member.grade)

    for _, equal in groupby(sorted(building.members, key=place), key=place):
        yield _piece(building, tuple(equal))


def _piece(building: FramedBuilding, equal: tuple[Member, ...]) -> Piece:
    first = equal[0]
    left, right = first.cuts
    return Piece(
        building=building.name,
        load=first.role.load,
        mark=first.mark,
        role=first.role.name,
        profile=first.profile.name,
        grade=first.grade,
        face=", ".join(sorted({member.face for member in equal}, key=natural_key)),
        qty=len(equal) * building.count,
        length_in=max(member.length_in for member in equal),
        miters_deg=(left.miter_deg, right.miter_deg),
        bevels_deg=(left.bevel_deg, right.bevel_deg),
        rakes_in=rakes_of(first),
    )
