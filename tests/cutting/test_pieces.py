from __future__ import annotations

from math import cos, radians, sin

import pytest
from stock_shop import a_building, a_member

from takeoff.cutting.pieces import pieces_of
from takeoff.model.member import EndCut


def test_equal_members_are_counted_together_over_all_copies():
    (piece,) = pieces_of([a_building(a_member("S1", 92.625), a_member("S1", 92.625), count=3)])
    assert (piece.mark, piece.qty, piece.length_in) == ("S1", 6, 92.625)


def test_a_piece_names_all_faces_it_stands_in():
    building = a_building(
        a_member("S1", 92.625, face="south wall"), a_member("S1", 92.625, face="east wall"), a_member("S1", 92.625)
    )
    (piece,) = pieces_of([building])
    assert piece.face == "east wall, south wall"


def test_each_building_has_its_own_pieces():
    buildings = [
        a_building(a_member("S1", 92.625), name="shed"),
        a_building(a_member("S1", 92.625, building="annex"), name="annex"),
    ]
    assert [(p.building, p.mark, p.qty) for p in pieces_of(buildings)] == [("shed", "S1", 1), ("annex", "S1", 1)]


def test_pieces_stand_by_load_then_role_then_mark():
    building = a_building(
        a_member("FA1", 120.0, role_name="fascia", profile_name="2x6", grade="trim"),
        a_member("R1", 160.0, role_name="common-rafter", profile_name="2x10", grade="no2"),
        a_member("BP1", 120.0, role_name="bottom-plate"),
        a_member("S10", 80.0),
        a_member("S2", 92.625),
    )
    assert [piece.mark for piece in pieces_of([building])] == ["S2", "S10", "BP1", "R1", "FA1"]


def test_the_longest_of_equal_members_is_the_one_to_cut():
    (piece,) = pieces_of([a_building(a_member("S1", 92.61), a_member("S1", 92.625))])
    assert piece.length_in == 92.625


def test_saw_settings_are_those_of_the_members_ends():
    plumb = radians(33.69)
    cuts = (EndCut((-cos(plumb), sin(plumb), 0.0)), EndCut((1.0, 0.0, 0.0)))
    (piece,) = pieces_of([a_building(a_member("R1", 160.0, role_name="common-rafter", cuts=cuts))])
    assert piece.miters_deg == pytest.approx((33.69, 0.0))
    assert piece.bevels_deg == (0.0, 0.0)
