"""A roof designed, or a finding that tells why it can't be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from takeoff.findings import Place, PlanError
from takeoff.framing.clips import ClipError
from takeoff.framing.gablets import GabletError
from takeoff.framing.overlaid import OverlayError
from takeoff.framing.roof_frame import RoofFrame, roof_frame
from takeoff.framing.roof_members import refused
from takeoff.framing.told_lines import SlopeError
from takeoff.geometry.roof_edge import RoofError
from takeoff.measure import format_length

if TYPE_CHECKING:
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.plan.footprint import Footprint
    from takeoff.plan.schema import Building


def designed(
    building: Building,
    ground: Footprint,
    written: Callable[[str], Place],
    sheet_edges: Mapping[str, tuple[float, ...]],
    reshape: Callable[[RoofPlan], RoofPlan] | None = None,
) -> RoofFrame:
    """The roof of a building.

    Args:
        building: as the plan has it.
        ground: its footprint.
        written: gives the place in the plan of a path.
        sheet_edges: by slope, v of the level joints of its sheets [in].
        reshape: changes the roof as laid out, before rafters are sliced.

    Raises:
        PlanError: no such roof can be framed.
    """
    try:
        return roof_frame(building, ground, written, sheet_edges, reshape)
    except RoofError as error:
        raise refused("frame.roof", written("roof"), _unclosed(ground, error)) from error
    except PlanError:
        raise
    except GabletError as error:
        raise refused("frame.gablet", written(f"roof.gablets.{error.side}"), str(error)) from error
    except ClipError as error:
        raise refused("frame.clip", written(f"roof.clips.{error.side}"), str(error)) from error
    except OverlayError as error:
        raise refused("frame.valley", written("roof.valleys"), str(error)) from error
    except SlopeError as error:
        raise refused("frame.slope", written(error.path), str(error)) from error
    except ValueError as error:
        raise refused("frame.rafter", written("roof.rafters"), str(error)) from error


def _unclosed(ground: Footprint, error: RoofError) -> str:
    sides = [ground.sides[k] for k in error.edges]
    names = ", ".join(side.name for side in sides)
    spots = "; ".join(
        f"{side.name} from x {format_length(side.start[0])}, y {format_length(side.start[1])}"
        f" to x {format_length(side.end[0])}, y {format_length(side.end[1])}"
        for side in sides
    )
    return (
        f"no roof closes over these sides ({names}): {error}; they run: {spots}; make a gable or an abutment among them"
        " an eave, or give their eaves less overhang or other pitches"
    )
