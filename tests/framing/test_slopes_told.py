"""Slopes told by outline: what is framed over them, and what is said where they don't meet."""

from __future__ import annotations

from typing import Any

import pytest
from shop import with_role
from told import somewhere

from takeoff.checks.audit import overlaps
from takeoff.findings import PlanError
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building
from takeoff.plan.settled import settled
from takeoff.plan.verify import building_flaws

FRONT = {"name": "front", "points": [[0, 0], [240, 0], [240, 72], [72, 72]], "eave": "south"}
BACK = {"name": "back", "points": [[0, 144], [72, 72], [240, 72], [240, 144]], "eave": 4}
END = {"name": "end", "points": [[0, 0], [72, 72], [0, 144]], "eave": [[0, 144], [0, 0]]}


def shelter(*slopes: dict[str, Any], reach: str = "plate_line", **roof: Any) -> Building:
    """A rectangle of 20 by 12 feet, hipped at the west end, with a gable at the east end."""
    written = {
        "name": "hut",
        "outline": [[0, 0], [240, 0], [240, 144], [0, 144]],
        "sides": ["south", "east", "north", "west"],
        "walls": {"studs": "2x4", "sheathing": {"product": "osb-7/16"}},
        "roof": {
            "shape": "edges",
            "pitch": "6/12",
            "rafters": {"size": "2x8"},
            "overhang": {"eave": 12, "rake": 12},
            "ridge": {"kind": "board", "size": "2x10"},
            "sheathing": {"field": "cdx-5/8"},
            **roof,
        },
        "outlines": {"slopes": list(slopes), "reach": reach},
    }
    return settled(Building.model_validate(written), 30.0)


def refusal(building: Building) -> str:
    assert [flaw for flaw in building_flaws(building) if flaw.rule == "plan.slope"] == []
    with pytest.raises(PlanError) as error:
        frame(building, somewhere)
    (finding,) = error.value.findings
    assert finding.rule == "frame.slope"
    return f"{finding.place.path}: {finding.message}"


def test_sides_take_their_parts_from_the_slopes_over_them() -> None:
    building = shelter(FRONT, BACK, END)
    assert dict(building.roof.edges) == {"south": "eave", "east": "gable", "north": "eave", "west": "eave"}


def test_a_hip_and_a_gable_are_framed_and_nothing_stands_in_another() -> None:
    trimmed = shelter(FRONT, BACK, END, barge={"size": "2x6"}, outlookers={}, fascia={"size": "2x6"})
    sticks = frame(trimmed, somewhere)[0].members
    counts = {role: len(with_role(sticks, role)) for role in ("hip", "ridge-board", "barge")}
    assert counts == {"hip": 2, "ridge-board": 1, "barge": 2}
    assert list(overlaps(sticks)) == []


def test_slopes_may_be_written_either_way_round_from_any_corner() -> None:
    turned = {**BACK, "points": [*BACK["points"][2:], *BACK["points"][:2]][::-1], "eave": "north"}
    one, other = frame(shelter(FRONT, BACK, END), somewhere)[0], frame(shelter(turned, END, FRONT), somewhere)[0]
    assert [(m.role.name, m.face, m.side.bounds) for m in one.members] == [
        (m.role.name, m.face, m.side.bounds) for m in other.members
    ]


def test_corners_written_to_the_sixteenth_are_put_where_the_planes_meet() -> None:
    def near(slope: dict[str, Any]) -> dict[str, Any]:
        return {**slope, "points": [[x + 1 / 16, y] if [x, y] == [72, 72] else [x, y] for x, y in slope["points"]]}

    one, other = shelter(FRONT, BACK, END), shelter(near(FRONT), BACK, near(END))
    hips = [with_role(frame(building, somewhere)[0].members, "hip")[0].length_in for building in (one, other)]
    assert hips[0] == pytest.approx(hips[1], abs=1e-9)


def test_an_outline_to_the_eaves_tells_the_overhang() -> None:
    front = {"name": "front", "points": [[-16, -16], [250, -16], [250, 72], [72, 72]], "eave": "south"}
    back = {"name": "back", "points": [[72, 72], [250, 72], [250, 160], [-16, 160]], "eave": "north"}
    end = {"name": "end", "points": [[-16, -16], [72, 72], [-16, 160]], "eave": "west"}
    building = shelter(front, back, end, reach="eave_line")
    assert (building.roof.overhang.eave, building.roof.overhang.rake) == (16, 10)


def test_planes_that_meet_elsewhere_are_told_with_the_place_where_they_do() -> None:
    # 72 of run at 8/12 is 12 higher than at 6/12; the rest is the deeper plumb cut less the higher heel.
    told = refusal(shelter({**FRONT, "pitch": "8/12"}, BACK, END))
    assert told.startswith("outlines.slopes[0].points[2]: edge 3 of 'front' is shared with 'back', but at (20'-0\", 6'")
    assert "1'-0 3/16\" apart" in told
    assert "put that corner at (20'-0\", 5'-1 9/16\")" in told


def test_a_corner_off_the_hips_is_told_where_it_belongs() -> None:
    moved = [{**s, "points": [[84, 72] if p == [72, 72] else p for p in s["points"]]} for s in (FRONT, BACK, END)]
    assert 'they meet 8 1/2" from there: put that corner at (6\'-0", 6\'-0")' in refusal(shelter(*moved))


def test_slopes_that_never_meet_are_told_how_far_apart_they_are() -> None:
    step = [[0, 0], [120, 0], [120, 24], [240, 24], [240, 144], [0, 144]]
    written = shelter(FRONT, BACK, END).model_dump(by_alias=True)
    written |= {
        "outline": step,
        "sides": ["south", "step", "court", "east", "north", "west"],
        "roof": {**written["roof"], "edges": {}, "pitches": {}},
        "outlines": {
            "slopes": [
                {"name": "low", "points": [[0, 0], [120, 0], [120, 84], [0, 84]], "eave": "south"},
                {"name": "set back", "points": [[120, 24], [240, 24], [240, 84], [120, 84]], "eave": "court"},
                {"name": "back", "points": [[0, 84], [240, 84], [240, 144], [0, 144]], "eave": "north"},
            ]
        },
    }
    told = refusal(settled(Building.model_validate(written), 30.0))
    assert "both rise alike and are 1'-0\" apart in height: they never meet" in told


def test_an_eave_on_the_shared_edge_is_refused_with_the_edges_that_can_be_it() -> None:
    (flaw,) = [flaw for flaw in building_flaws(shelter(FRONT, {**BACK, "eave": 2}, END)) if flaw.rule == "plan.slope"]
    assert "edge 2 of 'back' from (6'-0\", 6'-0\") to (20'-0\", 6'-0\"), which another slope shares" in flaw.message
    assert "along a side of the building: east, north" in flaw.message


def test_a_gap_is_told_by_its_width_at_both_edges() -> None:
    short = {**END, "points": [[0, 0], [66, 72], [0, 144]]}
    flaws = [flaw for flaw in building_flaws(shelter(FRONT, BACK, short)) if flaw.rule == "plan.slope"]
    assert [flaw.loc[2:] for flaw in flaws] == [(0, "points", 3), (1, "points", 0), (2, "points", 0), (2, "points", 1)]
    assert flaws[0].found == '6"'


def test_an_overlap_is_told_by_its_width() -> None:
    long = {**END, "points": [[0, 0], [84, 72], [0, 144]]}
    flaws = [flaw for flaw in building_flaws(shelter(FRONT, BACK, long)) if flaw.rule == "plan.slope"]
    assert [(flaw.loc[2], flaw.found) for flaw in flaws] == [(2, '7 13/16"'), (2, '7 13/16"')]
