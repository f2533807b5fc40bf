"""What the upper end of a rafter is called, by what it runs up to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member


@dataclass(frozen=True, slots=True, kw_only=True)
class Top:
    """Words for an upper end."""

    name: str
    """What it is cut to, or what kind of end it is: ``ridge``, ``hip``, ``upper``."""
    cut: str
    run_to: str
    """What the run goes to."""


RIDGE_TOP = Top(name="ridge", cut="ridge cut", run_to="ridge centre")
HIP_TOP = Top(name="hip", cut="hip cut", run_to="hip centre")
PEAK_TOP = Top(name="peak", cut="peak cut", run_to="ridge centre")
"""Of a rafter over a ridge beam: it meets its fellow over the beam's middle."""
HIGH_TOP = Top(name="upper", cut="upper plumb cut", run_to="upper plumb cut")
"""Of a rafter that passes over a high wall."""
LAID_TOP = Top(name="upper", cut="cut on the main roof", run_to="main roof")
"""Of a shed dormer's rafter, which lies on the main roof."""

BREAK_TOP = Top(name="purlin", cut="head cut", run_to="purlin face")
"""Of a gambrel's lower rafter."""
GABLET_TOP = Top(name="header", cut="header cut", run_to="face of the small gable")
"""Of a rafter under a gable on a hip."""
LEDGER_TOP = Top(name="ledger", cut="ledger cut", run_to="back of ledger")

_RAKE = " rake"  # what the face of a barge is called after the slope it belongs to
_TOP_OF_EDGE = {"high": HIGH_TOP, "ledger": LEDGER_TOP, "break": BREAK_TOP, "gablet": GABLET_TOP}


def top_of(member: Member, buildings: Iterable[FramedBuilding] = ()) -> Top:
    """Words for the upper end of a rafter.

    Args:
        member: a member with a ``rafter``.
        buildings: where its slope is looked up; without it a rafter that touches no high wall, such as a barge,
            is taken to end at a ridge.
    """
    rafter = member.rafter
    assert rafter is not None
    if member.role.name in ("hip-jack", "cripple-jack"):
        return HIP_TOP
    if member.role.name in ("end-rafter", "barge") and rafter.cheek:
        return HIP_TOP  # under a clip; at a rake all other folds are met squarely
    if rafter.upper_heel is not None:
        return HIGH_TOP
    if rafter.beam is not None:
        return PEAK_TOP
    if rafter.laid_head:
        return LAID_TOP
    roles = _edge_roles(member, buildings)
    return next((top for role, top in _TOP_OF_EDGE.items() if role in roles and "ridge" not in roles), RIDGE_TOP)


def base_of(member: Member, buildings: Iterable[FramedBuilding]) -> str:
    """What a rafter is seated on: the plate, the purlin of a gambrel roof, or the beam of a porch."""
    if "purlin" in _edge_roles(member, buildings):
        return "purlin"
    on_beam = any(
        joint.kind == "bears" and building.members[joint.lower].role.name == "porch-beam"
        for building in buildings
        if building.name == member.building
        for joint in building.joints
        if building.members[joint.upper].mark == member.mark
    )
    return "beam" if on_beam else "plate"


def _edge_roles(member: Member, buildings: Iterable[FramedBuilding]) -> frozenset[str]:
    """Roles of the edges of the slope that it lies in."""
    slope = member.face.removesuffix(_RAKE)
    return frozenset(
        edge.role
        for building in buildings
        if building.name == member.building
        for face in building.faces
        if face.kind == "slope" and face.name == slope
        for edge in face.outline.edges
    )
