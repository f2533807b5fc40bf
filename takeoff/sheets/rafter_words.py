"""What the ends and lengths of a rafter are called, by what it runs between."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.model.member import Member

FOLDS = ("hip", "valley")
"""Roles of rafters that run along a fold."""

JACKS = ("hip-jack", "valley-jack", "cripple-jack")
"""Roles of rafters that end on one; they have a sheet a series."""


def kind_words(member: Member) -> str:
    """Kind of a rafter in plain words: ``common``, ``end``, ``hip``, ``valley``, ``hip jack``, ``barge`` and so on."""
    return member.role.name.removesuffix("-rafter").replace("-", " ")


def eave_overhang(rafter: RafterGeometry) -> float:
    """Level overhang of its tail [in]; 0 where it stands on a valley and has none."""
    return rafter.overhang if rafter.foot is None else 0.0


def start_words(rafter: RafterGeometry) -> str:
    """Where the line length of a rafter starts."""
    if rafter.foot is not None:
        return "middle of foot cut"
    return "heel plumb line" if rafter.seat else "outside of wall"


def lower_words(rafter: RafterGeometry) -> str:
    """What the lower end is called."""
    return "Tail" if rafter.foot is None else "Foot"
