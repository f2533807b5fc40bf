"""What the ends and lengths of a rafter are called, by what it runs between."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.model.member import Member

PLATE = "plate"
OUTSIDE_OF = {PLATE: "wall", "purlin": "purlin", "beam": "beam"}
"""Whose outside a rafter is measured from, by what it is seated on."""

FOLDS = ("hip", "valley")
"""Roles of rafters that run along a fold."""

JACKS = ("hip-jack", "valley-jack", "cripple-jack")
"""Roles of rafters that end on one; they have a sheet a series."""

ON_VALLEYS = ("valley-jack", "cripple-jack")
"""Those of them that start on a valley."""


def kind_words(member: Member) -> str:
    """Kind of a rafter in plain words: ``common``, ``end``, ``hip``, ``valley``, ``hip jack``, ``barge`` and so on."""
    return member.role.name.removesuffix("-rafter").replace("-", " ")


def eave_overhang(rafter: RafterGeometry) -> float:
    """Level overhang of its tail [in]; 0 where it stands on a valley and has none."""
    return rafter.overhang if rafter.foot is None else 0.0


def start_words(rafter: RafterGeometry, base: str = PLATE) -> str:
    """Where the line length of a rafter starts, that is seated on a plate, a purlin or a beam."""
    if rafter.foot is not None:
        return "middle of foot cut"
    return "heel plumb line" if rafter.seat else f"outside of {OUTSIDE_OF[base]}"


def has_notch(rafter: RafterGeometry) -> bool:
    """Whether only the foot of a jack reaches over the plate, and is cut level there."""
    return bool(rafter.seat) and not rafter.stands_on_plate


def lower_words(member: Member) -> str:
    """What the lower end is called: the foot of a valley jack and of a cripple jack stands on a valley."""
    rafter = member.rafter
    assert rafter is not None
    if rafter.foot is None:
        return "Tail" if rafter.overhang else "Lower end"
    return "Foot at the valley" if member.role.name in ON_VALLEYS and not rafter.laid_foot else "Foot"
