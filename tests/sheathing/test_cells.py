"""How far each sheet reaches before the support it ends on."""

from __future__ import annotations

from takeoff.sheathing.cells import Reach, joints_on, spans

SHEET = Reach(most=96.0, least=24.0)
RAFTERS = tuple(16.0 * k for k in range(40))


def test_sheets_are_whole_while_their_ends_land_on_supports() -> None:
    assert joints_on(0.0, 300.0, RAFTERS, SHEET) == (96.0, 192.0, 272.0)


def test_a_sheet_is_cut_back_to_the_last_support_in_its_reach() -> None:
    # at 20 inches the supports in reach of 96 end at 80
    assert joints_on(0.0, 160.0, (20.0, 40.0, 60.0, 80.0, 100.0), SHEET) == (80.0,)


def test_what_is_left_at_the_end_is_no_sliver_where_a_nearer_support_prevents_it() -> None:
    # 96 would leave 16; 80 leaves 32
    assert joints_on(0.0, 112.0, RAFTERS, SHEET) == (80.0,)
    assert joints_on(0.0, 120.0, RAFTERS, SHEET) == (96.0,)  # 24 is enough


def test_a_sliver_is_laid_where_no_support_prevents_it() -> None:
    assert joints_on(0.0, 100.0, (96.0,), SHEET) == (96.0,)


def test_where_no_support_is_in_reach_the_sheet_is_cut_at_its_full_length() -> None:
    assert joints_on(0.0, 200.0, (), SHEET) == (96.0, 192.0)


def test_a_course_that_starts_with_half_a_sheet_has_its_joints_between_those_of_the_course_below() -> None:
    below, above = joints_on(0.0, 240.0, RAFTERS, SHEET), joints_on(0.0, 240.0, RAFTERS, SHEET, first=48.0)
    assert (below, above) == ((96.0, 192.0), (48.0, 144.0))


def test_a_run_that_one_sheet_reaches_has_no_joint() -> None:
    assert joints_on(10.0, 106.0, RAFTERS, SHEET) == ()
    assert joints_on(10.0, 106.0 + 1e-9, RAFTERS, SHEET) == ()


def test_spans_are_the_pieces_between_joints() -> None:
    assert spans(0.0, 10.0, (4.0, 6.0)) == ((0.0, 4.0), (4.0, 6.0), (6.0, 10.0))
    assert spans(0.0, 10.0, ()) == ((0.0, 10.0),)
