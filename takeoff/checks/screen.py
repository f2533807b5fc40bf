"""All checks, in the order in which they are reported."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from takeoff.checks.deck_joints import deck_joints
from takeoff.checks.eaves import ladder, outlooker_pockets
from takeoff.checks.floors import floor_headers, joist_bearing, joist_cantilever, joist_lap, joist_span, short_tails
from takeoff.checks.headers import header_spans, inside_headers
from takeoff.checks.minors import parts, told_under
from takeoff.checks.purlins import purlins
from takeoff.checks.rafters import hip_depth, lateral_support, notch_depth, seat_bearing, tail
from takeoff.checks.ridge_over import over_the_beam
from takeoff.checks.roof import eave_overhang, rake_overhang, ridge, sheathing_span, vent_area
from takeoff.checks.roof_openings import cut_rafters, opening_headers
from takeoff.checks.sheathing import foot_of_walls, panel_supports, wall_studs
from takeoff.checks.ties import collars, ties
from takeoff.checks.wall_information import braced_panels, studs_under_rafters
from takeoff.checks.walls import posts_on_headers, short_sills, tall_studs
from takeoff.findings import Finding
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

CHECKS: tuple[Callable[[FramedBuilding, Building], Iterable[Finding]], ...] = (
    notch_depth,
    seat_bearing,
    tail,
    hip_depth,
    lateral_support,
    eave_overhang,
    rake_overhang,
    ladder,
    outlooker_pockets,
    ridge,
    over_the_beam,
    ties,
    collars,
    purlins,
    vent_area,
    sheathing_span,
    panel_supports,
    deck_joints,
    foot_of_walls,
    wall_studs,
    opening_headers,
    cut_rafters,
    tall_studs,
    posts_on_headers,
    short_sills,
    joist_bearing,
    joist_span,
    joist_cantilever,
    joist_lap,
    floor_headers,
    short_tails,
    header_spans,
    inside_headers,
    braced_panels,
    studs_under_rafters,
)

MAIN_ONLY = (vent_area, foot_of_walls, braced_panels, studs_under_rafters)
"""What a minor roof isn't asked: no attic is under a porch or within a dormer, and no wall of the building."""


def screen(building: FramedBuilding, plan: Building) -> tuple[Finding, ...]:
    """What every check has to say of a framed building.

    Args:
        building: framed, sheathed and marked.
        plan: the same building as the plan writes it.
    """
    return tuple(
        told_under(label, finding)
        for label, part, its_plan in parts(building, plan)
        for check in CHECKS
        if not label or check not in MAIN_ONLY
        for finding in check(part, its_plan)
    )
