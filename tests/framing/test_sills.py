"""Anchor bolts: two a plate piece, near its ends but not too near, 6 feet apart at most (IRC R403.1.6, from memory)."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shop import built, gable, with_role

from takeoff.framing.sills import bolts


@given(st.floats(15, 480), st.sampled_from([0.5, 0.625]), st.sampled_from([48.0, 72.0]), st.floats(0, 16))
def test_bolts_keep_every_rule_of_a_plate_piece(length, diameter, apart, first_stud):
    studs = [first_stud + 16 * k for k in range(40) if first_stud + 16 * k < length]
    places = bolts((0.0, length), apart, diameter, studs)
    assert len(places) >= 2
    assert 7 * diameter - 1e-6 <= places[0] <= 12 + 1e-6
    assert 7 * diameter - 1e-6 <= length - places[-1] <= 12 + 1e-6
    assert all(b - a <= apart + 1e-6 for a, b in pairwise(places))


def test_a_piece_too_short_for_two_has_one_in_the_middle():
    assert bolts((10.0, 18.0), 72.0, 0.5) == (14.0,)


def test_walls_on_concrete_have_treated_sills_bolts_on_their_layout_and_gasket_by_the_foot():
    door = {"side": "south", "left": "13'", "size": 3068, "kind": "door"}
    frame = built(gable(walls={"sill": "treated", "openings": [door]}))
    assert {m.grade for m in with_role(frame.members, "bottom-plate")} == {"treated"}
    assert {m.grade for m in with_role(frame.members, "top-plate", "cap-plate")} == {"no2"}
    lines = [line for line in frame.lines if line.name.endswith("sill on concrete")]
    assert len(lines) == 4
    marked = sum(mark.symbol == "AB" for line in lines for mark in line.marks)
    counted = {fitting.name: fitting.qty for fitting in frame.fittings}
    # 2 x 30' and 2 x 19'-1", less a door of 3'-2": 95 feet
    assert counted == {"anchor-bolt": marked, "sill-gasket": 95}


def test_walls_on_a_wooden_floor_have_none_of_that():
    frame = built(gable())
    assert frame.fittings == ()
    assert {m.grade for m in with_role(frame.members, "bottom-plate")} == {"no2"}


@pytest.mark.parametrize("gasket", [True, False])
def test_the_gasket_can_be_left_out(gasket):
    frame = built(gable(walls={"sill": {"gasket": gasket}}))
    assert any(fitting.name == "sill-gasket" for fitting in frame.fittings) == gasket
