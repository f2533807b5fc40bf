"""Joints of valley rafters that hang between trimmers and a header, found by contact at the planes of their ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from takeoff.framing.joints import PROBE_IN, at_spot
from takeoff.geometry.vec import dot
from takeoff.model.joint import Joint
from takeoff.model.member import Member

HUNG_ON = ("trimmer-rafter", "roof-header")

UNDER_TOP_IN = 2.0
"""How far under its top edge a valley is looked for on what it hangs on [in]: inside of any header."""

BESIDE = 0.8
"""Share of its half thickness, off its middle, at which it is looked for too: its end may be cut to a ridge as well."""


def valley_joints(members: Sequence[Member]) -> tuple[Joint, ...]:
    """Where valley rafters with no wall under them hang, in the order of the members."""
    return tuple(
        Joint(
            kind="hangs", upper=index, lower=lower, bearing_in=min(m.profile.depth_in, members[lower].profile.depth_in)
        )
        for index, m in enumerate(members)
        if m.role.name == "valley" and m.rafter is not None and not m.rafter.stands_on_plate
        for lower in dict.fromkeys(_hung_on(members, m))
    )


def _hung_on(members: Sequence[Member], valley: Member) -> Iterator[int]:
    for main, more in zip(valley.cuts, valley.cheeks, strict=True):
        for cut in (main, *more):
            normal, through = valley.placed(cut)
            y = valley.profile.depth_in - UNDER_TOP_IN
            for side in (-BESIDE, 0.0, BESIDE):
                z = side * valley.profile.thickness_in / 2
                x = (dot(normal, through) - normal[1] * y - normal[2] * z) / normal[0]
                beyond = tuple(at + along * 2 * PROBE_IN for at, along in zip((x, y, z), normal, strict=True))
                spot = valley.placement.to_world((beyond[0], beyond[1], beyond[2]))
                yield from list(at_spot(members, spot, HUNG_ON))[:1]
