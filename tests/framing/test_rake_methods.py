"""How a rake is carried: outlookers in pockets, over a dropped end rafter, or a ladder; where they lie.

The limits of checks stand with their sources in ``rules.csv``; the rest is common practice, no source.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from typing import Any

import pytest
from measured import clashes, outline_points, world_box, world_corners
from shop import Written, built, gable, only, with_role

from takeoff.checks.screen import screen
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.member import Member
from takeoff.plan.schema import Building

THIRTY_SECOND_IN = 1 / 32
SLOPE = 8 / 12
RAKED: Written = {"overhang": {"eave": '16"', "rake": '8"'}, "barge": {"size": "2x8"}, "fascia": {"size": "2x6"}}


def raked(method: str, **roof: Any) -> Building:
    outlookers = {"method": method, **roof.pop("outlookers", {})}
    return gable(length="32'", roof={**RAKED, "outlookers": outlookers, **roof})


def south(members: tuple[Member, ...]) -> list[Member]:
    return [m for m in members if m.face == "south slope"]


def findings(plan: Building, rule: str) -> tuple[Finding, ...]:
    return tuple(f for f in screen(built(plan), plan) if f.rule == rule)


def decided(plan: Building, rule: str) -> list[Finding]:
    return [f for f in frame(plan, lambda path: Place(path=path))[1] if f.rule == rule]


def shed(method: str) -> Building:
    roof = {**RAKED, "shape": "shed", "low": "south", "pitch": "4/12", "ridge": None, "gables": None}
    return gable(length="12'", span="8'", roof={**roof, "outlookers": {"method": method}})


@pytest.mark.parametrize("method", ["pocket", "dropped", "ladder"])
@pytest.mark.parametrize("cut", ["plumb", "square", "level"])
def test_no_stick_of_a_rake_stands_in_another(method: str, cut: str) -> None:
    tail: Written = {"tail": {"cut": cut}}
    for plan in (raked(method, **tail), raked(method, **tail, pitch="3/12"), shed(method)):
        assert list(clashes(built(plan).members, THIRTY_SECOND_IN)) == []


def test_a_dropped_end_rafter_keeps_its_underside_and_bird_s_mouth() -> None:
    building = built(raked("dropped"))
    end = only(south(with_role(building.members, "end-rafter")))
    common = only(south(with_role(building.members, "common-rafter")))
    assert end.rafter is not None
    assert common.rafter is not None
    assert (end.rafter.seat, end.rafter.heel) == (common.rafter.seat, common.rafter.heel)
    # ripped to 9-1/4 less 3-1/2 from the least size that is as deep
    assert (end.profile.name, end.rafter.depth) == ("2x8", 5.75)
    lower = 3.5 * hypot(1, SLOPE)
    assert common.rafter.height_above_plate - end.rafter.height_above_plate == pytest.approx(lower)
    # both undersides in one plane, and the ends of both in the planes of tail and ridge
    for stick in (end, common):
        bottoms = [common.placement.from_world(p)[1] for p in world_corners(stick)]
        assert min(bottoms) == pytest.approx(0, abs=1e-6)
    assert [world_box(end)[k][1] for k in (0, 1)] == pytest.approx([world_box(common)[k][1] for k in (0, 1)])


def test_outlookers_on_edge_lie_on_the_dropped_end_rafter_with_their_tops_in_the_slope() -> None:
    building = built(raked("dropped"))
    end = next(m for m in south(with_role(building.members, "end-rafter")) if world_box(m)[0][0] < 1)
    outlookers = [m for m in south(with_role(building.members, "outlooker")) if world_box(m)[0][0] < 1]
    assert outlookers
    for stick in outlookers:
        heights = sorted({round(end.placement.from_world(p)[1], 6) for p in world_corners(stick)})
        assert heights == [5.75, 9.25]
        assert (world_box(stick)[0][0], world_box(stick)[1][0]) == pytest.approx((-6.5, 16 - 0.75))


def test_the_gable_s_sheathing_stops_under_outlookers_on_edge_and_its_studs_stay() -> None:
    balloon = {"by_side": {"east": {"frame": "balloon"}, "west": {"frame": "balloon"}}}
    pocket, dropped = (
        built(gable(walls=balloon, roof={**RAKED, "outlookers": {"method": method}}))
        for method in ("pocket", "dropped")
    )
    studs = [sorted(round(m.length_in, 6) for m in with_role(b.members, "gable-stud")) for b in (pocket, dropped)]
    assert studs[0] == studs[1]
    tops = [max(v for f in b.faces if f.name == "east" for v in (f.outline.bounds[3],)) for b in (pocket, dropped)]
    # 2 inches more of outlooker, measured plumb
    assert tops[0] - tops[1] == pytest.approx((3.5 - 1.5) * hypot(1, SLOPE))


def test_sheets_are_not_nailed_to_a_dropped_end_rafter() -> None:
    def supports(method: str) -> tuple[float, ...]:
        return next(f for f in built(raked(method)).faces if f.name == "south slope").supports.centres

    assert {0.75, 383.25} <= set(supports("pocket"))
    assert set(supports("pocket")) - set(supports("dropped")) == {0.75, 383.25}


def test_a_dropped_end_rafter_that_would_have_nothing_left_is_refused_with_a_mend() -> None:
    with pytest.raises(PlanError) as refused:
        frame(raked("dropped", rafters={"size": "2x6"}), lambda path: Place(path=path))
    assert {(f.rule, f.place.path) for f in refused.value.findings} == {("frame.end-rafter", "roof.outlookers.size")}
    # 5-1/2 less a heel of 2-3/8 x sin leaves 4.18, less 3-1/2
    assert 'leaves 11/16" of the dropped end rafter over the plate' in str(refused.value.findings[0])
    assert "method: pocket" in str(refused.value.findings[0])


def test_a_ladder_s_blocks_reach_from_the_end_rafter_to_the_back_of_the_barge() -> None:
    building = built(raked("ladder"))
    assert with_role(building.members, "outlooker") == ()
    blocks = with_role(building.members, "ladder-block")
    assert {round(m.length_in, 6) for m in blocks} == {6.5}
    reach = {(round(world_box(m)[0][0], 6) + 0.0, round(world_box(m)[1][0], 6) + 0.0) for m in blocks}
    assert reach == {(-6.5, 0.0), (384.0, 390.5)}
    ends = with_role(building.members, "end-rafter")
    assert all(m.rafter is not None and m.rafter.pockets == () and m.rafter.depth == 9.25 for m in ends)


@pytest.mark.parametrize("method", ["pocket", "dropped", "ladder"])
def test_outlookers_lie_under_the_level_edges_of_the_sheets_unless_a_spacing_is_given(method: str) -> None:
    building = built(raked(method))
    role = "ladder-block" if method == "ladder" else "outlooker"
    face = next(f for f in building.faces if f.name == "south slope")
    edges = {round(p.polygon.bounds[1], 6) for p in building.panels if p.face == "south slope"} - {
        round(face.outline.bounds[1], 6)
    }
    middles = set()
    for stick in south(with_role(building.members, role)):
        vs = [face.placement.from_world(p)[1] for p in world_corners(stick)]
        middles.add(round((min(vs) + max(vs)) / 2, 6))
    assert edges
    assert edges <= middles
    assert len(middles) == len(edges) + 2
    (said,) = decided(raked(method), "frame.outlookers")
    assert "level edges of the sheets" in said.message


def test_a_spacing_that_is_given_is_kept_to() -> None:
    end = only(south(with_role(built(raked("pocket", outlookers={"spacing": '24"'})).members, "end-rafter")))
    assert end.rafter is not None
    centres = [p.centre for p in end.rafter.pockets]
    # the first and the last 1-1/2 widths from the ends
    assert centres[0] == 5.25
    assert centres[-1] == pytest.approx(end.rafter.top_edge - 5.25)
    assert [b - a for a, b in pairwise(centres[:-1])] == pytest.approx([24.0] * (len(centres) - 2))
    assert decided(raked("pocket", outlookers={"spacing": '24"'}), "frame.outlookers") == []


def test_the_last_outlooker_on_edge_is_clear_of_the_ridge_at_any_pitch() -> None:
    for pitch in ("2/12", "8/12", "18/12"):
        assert list(clashes(built(raked("dropped", pitch=pitch)).members, THIRTY_SECOND_IN)) == []


@pytest.mark.parametrize(
    ("rule", "kept", "broken"),
    [
        ("rake.ladder-overhang", raked("ladder"), raked("ladder", overhang={"rake": '9-1/2"'})),
        ("outlooker.pocket-depth", raked("pocket"), raked("pocket", outlookers={"size": "4x4"})),
        # a 2x12 keeps 5 over the seat, a 2x10 3-7/16
        ("end-rafter.depth-left", raked("dropped", rafters={"size": "2x12"}), raked("dropped")),
    ],
)
def test_a_rake_that_keeps_a_rule_is_noted_and_one_that_breaks_it_is_warned_of(
    rule: str, kept: Building, broken: Building
) -> None:
    assert {f.severity for f in findings(kept, rule)} == {Severity.NOTE}
    assert Severity.WARNING in {f.severity for f in findings(broken, rule)}


def test_a_ladder_carries_its_rake() -> None:
    assert findings(raked("ladder"), "rake.no-outlookers") == ()


def test_a_dropped_end_rafter_s_short_contact_is_not_held_against_the_beam() -> None:
    assert findings(raked("dropped"), "ridge.beam-depth") == ()


def test_end_rafters_with_pockets_are_still_whole_rafters() -> None:
    end = only(south(with_role(built(raked("pocket")).members, "end-rafter")))
    assert end.profile.name == "2x10"
    assert max(y for _, y in outline_points(end)) == pytest.approx(9.25)
