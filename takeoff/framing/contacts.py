"""All joints of a frame that are found by contact, over the sticks of all its parts together."""

from __future__ import annotations

from collections.abc import Sequence

from takeoff.framing.joints import joints
from takeoff.framing.plate_joints import plate_joints
from takeoff.framing.porch_joints import porch_joints
from takeoff.framing.tie_joints import tie_joints
from takeoff.framing.valley_joints import valley_joints
from takeoff.model.joint import Joint
from takeoff.model.member import Member


def contacts(members: Sequence[Member]) -> tuple[Joint, ...]:
    """Joints of rafters, ridges, ties, beams on posts, hung valleys, and joists on plates."""
    found = (joints, tie_joints, porch_joints, valley_joints, plate_joints)
    return tuple(joint for look in found for joint in look(members))
