"""Headers from the published table, hung at the head or under the plates, and what fills them to the wall."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.checks.headers import header_spans
from takeoff.findings import Place, Severity
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building
from takeoff.plan.settled import settled

WINDOW = {"side": "south", "center": "12'", "size": "3040"}


def hut(*openings: dict[str, Any], snow: float = 30.0, **walls: Any) -> Building:
    """20' wide, so that the 24' column of the table holds."""
    return settled(gable(walls={"openings": list(openings or [WINDOW]), **walls}), snow)


@pytest.mark.parametrize(
    ("size", "snow", "header", "jacks"),
    [
        ("3040", 30, "2-2x4", 1),  # 36-1/2" rough; 2-2x4 spans 3'-1" (Table R602.7(1), recalled)
        ("4040", 30, "2-2x6", 1),  # 48-1/2"; 2-2x6 spans 4'-7"
        ("6040", 30, "2-2x10", 2),  # 72-1/2"; 2-2x8 spans 5'-9", 2-2x10 6'-10" on two jacks
    ],
)
def test_header_and_jacks_are_the_first_row_that_spans_the_opening(
    size: str, snow: float, header: str, jacks: int
) -> None:
    (opening,) = hut({**WINDOW, "size": size}, snow=snow).walls.openings
    assert (str(opening.header_size), opening.jack_count) == (header, jacks)


def test_more_snow_asks_for_more_header() -> None:
    spans = [hut(snow=snow).walls.openings[0].header_row for snow in (30, 50, 70)]
    depths = [(row.plies, row.profile) for row in spans if row]
    assert len(depths) == 3
    assert depths == sorted(depths)
    assert depths[0] < depths[-1]


def test_a_note_cites_the_table_and_the_check_agrees() -> None:
    building = hut(snow=50)
    _, findings = frame(building, lambda path: Place(path=path))
    (note,) = [f for f in findings if f.rule == "frame.header"]
    assert "Table R602.7(1)" in note.message
    assert "50 psf" in note.message
    assert all(f.severity is Severity.NOTE for f in header_spans(built(building), building))


def test_a_header_in_the_plan_keeps_its_size_and_takes_its_jacks_from_the_table() -> None:
    (opening,) = hut({**WINDOW, "header": "1-2x8"}).walls.openings
    assert (str(opening.header_size), opening.jack_count) == ("1-2x8", 2)


def test_under_more_snow_than_the_table_has_the_usual_header_is_said_to_want_a_design() -> None:
    building = hut(snow=90)
    (finding,) = header_spans(built(building), building)
    assert "licensed design" in finding.message


def test_gables_carry_no_rafters_and_keep_the_usual_header() -> None:
    (opening,) = hut({**WINDOW, "side": "east", "center": "5'"}).walls.openings
    assert (opening.table_header, str(opening.header_size)) == (None, "2-2x6")


def test_spacers_and_plies_together_are_as_thick_as_the_wall() -> None:
    frame_ = built(hut())
    plies, spacers = with_role(frame_.members, "header"), with_role(frame_.members, "header-spacer")
    # 5-1/2" of wall less two plies of 1-1/2": 2-1/2" ripped from a 2x4, one at each edge of a 2x4 header
    assert [s.side.bounds[3] for s in spacers] == [2.5, 2.5]
    assert {s.length_in for s in spacers} == {p.length_in for p in plies}


def test_a_header_under_the_plates_stands_on_longer_jacks_over_a_plate_and_cripples() -> None:
    low, high = built(hut()), built(hut(header_at="plates"))
    (plate,) = with_role(high.members, "head-plate")
    assert plate.length_in == 36.5
    # underside of the top plate 94-1/8" less a 3-1/2" header; jacks stand on a 1-1/2" plate
    assert {j.length_in for j in with_role(high.members, "jack-stud")} == {94.125 - 3.5 - 1.5}
    over = [c for c in with_role(high.members, "cripple") if c.placement.origin[2] > plate.placement.origin[2]]
    assert {round(c.length_in, 6) for c in over} == {94.125 - 3.5 - 84.0}  # head 82-1/2" and the flat plate on it
    assert not with_role(low.members, "head-plate")
    assert all(f.severity is Severity.NOTE for f in audit(high))


def test_a_gap_too_narrow_for_sticks_is_packed_with_strips_by_the_foot() -> None:
    hut_ = built(hut(studs="2x4"))
    # 3-1/2" of wall less two plies leave 1/2"; 36-1/2" and a jack each side are 39-1/2": 4' begun
    assert {f.name: f.qty for f in hut_.fittings} == {"header-packing": 4}
    assert not with_role(hut_.members, "header-spacer")
