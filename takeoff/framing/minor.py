"""A minor roof (over a porch, a dormer) is a small building, framed by the same engine as the main one.

How to frame one:

1. Make a plan `Building` for it (`model_copy(update=...)` of the main one keeps its name, species and the like): its
   rectangle as ``outline``, names of its own as ``sides`` ("south porch front": they begin with the label), its roof as
   ``shape: edges`` with the side at the host as an ``abutment``, its ``walls`` as wide and as high as whatever its
   rafters stand on (a beam, a dormer's wall). Heights are those of the world: above the main floor deck.
2. Wrap it in a `Minor`. ``under`` makes what stands where a building has walls: it is given the minor and its designed
   roof, and gives a `Part` (posts and beams; cheek walls). ``reshape`` changes the roof as laid out, before rafters are
   sliced: a roof that is laid on a main slope cuts its slopes' outlines off along that slope's plane there, and gives
   the new edges a role of their own.
3. Return it from a function ``(host) -> tuple[Minor, ...]`` that is named in `frame.MINORS`. `Host` is the main
   building with its roof and all its sticks, so that what stands in the way can be named.

What a minor takes out of the main roof (a dormer's opening) has to be in the main building before its rafters are
sliced: change the building that `frame.frame` starts from.

`minor_part` frames it: rafters, ridge, ledger, rakes, blocks, fascia and sheathing by the engine. Its label is put
before the names of its faces and lines. Joints are found by contact over the sticks of the main building and of all
minors together, so a minor's rafter may bear on a member of the main frame and the other way round.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from takeoff.findings import Place
from takeoff.framing.eaves import vent_area
from takeoff.framing.faces import slope_face
from takeoff.framing.gablet_members import gablet_faces
from takeoff.framing.gablet_rakes import gablet_rake_faces
from takeoff.framing.lines import PLATE, rafter_lines
from takeoff.framing.part import Part, joined
from takeoff.framing.roof_decisions import roof_decisions
from takeoff.framing.roof_design import designed
from takeoff.framing.roof_frame import RoofFrame
from takeoff.framing.roof_members import roof_members

if TYPE_CHECKING:
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building


@dataclass(frozen=True, slots=True, kw_only=True)
class Host:
    """The main building a minor roof is fixed to, framed."""

    building: Building
    ground: Footprint
    roof: RoofFrame
    part: Part
    written: Callable[[str], Place]
    """Gives the place in the plan of a path within the building."""
    sheet_edges: Mapping[str, tuple[float, ...]]
    """By slope, also of minor roofs, v of the level joints of its sheets [in]; empty for those of the plain lay-up."""


def _as_laid(plan: RoofPlan) -> RoofPlan:
    return plan


def _as_made(part: Part) -> Part:
    return part


@dataclass(frozen=True, slots=True, kw_only=True)
class Minor:
    """A small building with a roof of its own, fixed to a main one."""

    kind: str
    """porch or dormer."""
    label: str
    """What its faces, lines and findings are told by, such as ``south porch``."""
    side: str
    """The side of the main building that it stands at."""
    building: Building
    ground: Footprint
    path: str
    """Where the plan has it, within the main building: ``roof.porches[0]``."""
    under: Callable[[Minor, RoofFrame], Part]
    """Makes what stands under its roof, in place of walls."""
    reshape: Callable[[RoofPlan], RoofPlan] = _as_laid
    """Changes its roof as laid out, before rafters are sliced."""
    finish: Callable[[Part], Part] = _as_made
    """Changes its roof's sticks once they are made: those of a roof that is laid on a slope are trimmed to it."""
    stands_on: str = PLATE
    """What its rafters stand on, as a layout line calls it after the side's name."""


def minor_part(minor: Minor, host: Host) -> Part:
    """A minor roof and what stands under it.

    Raises:
        PlanError: no such roof can be framed.
    """

    def written(path: str) -> Place:
        return host.written(minor.path)

    roof = designed(minor.building, minor.ground, written, host.sheet_edges, minor.reshape)
    under = minor.under(minor, roof)
    over = minor.finish(roof_part(minor.building, minor.ground, roof, written, minor.stands_on))
    # Its eaves are no air for the main roof.
    return joined((under, replace(over, vent_area_sqin=0.0))).labelled(minor.label)


def roof_part(
    building: Building,
    ground: Footprint,
    roof: RoofFrame,
    written: Callable[[str], Place],
    stands_on: str = PLATE,
) -> Part:
    """A designed roof as sticks, lines and faces."""
    return Part(
        members=roof_members(building, roof, written),
        lines=rafter_lines(roof, ground, stands_on),
        faces=(
            *(slope_face(building, roof, row) for row in roof.rows),
            *gablet_faces(building, roof),
            *gablet_rake_faces(building, roof),
        ),
        vent_area_sqin=sum(
            vent_area(row, block)
            for row, block in zip(roof.rows, roof.blocking, strict=True)
            if block and not row.slope.on_purlin
        ),
        findings=roof_decisions(building, roof, written),
    )
