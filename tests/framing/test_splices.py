"""Where runs longer than any board are joined."""

from __future__ import annotations

from takeoff.framing.splices import spliced

STUDS = tuple(16.0 * k for k in range(1, 60))


def test_a_run_that_a_board_reaches_is_one_piece() -> None:
    assert spliced((0.0, 240.0), 240.0, STUDS) == ((0.0, 240.0),)
    assert spliced((0.0, 240.0 + 1e-9), 240.0, STUDS) == ((0.0, 240.0 + 1e-9),)


def test_joints_fall_on_the_last_stud_that_the_board_reaches() -> None:
    assert spliced((0.0, 500.0), 230.0, STUDS) == ((0.0, 224.0), (224.0, 448.0), (448.0, 500.0))


def test_joints_of_a_cap_plate_keep_their_distance_from_those_of_the_plate_under_it() -> None:
    # the plate under it is joined at 240; 24 inches away the next studs are at 208 and 272
    assert spliced((5.5, 474.5), 240.0, STUDS, away_from=(240.0,), offset=24.0) == (
        (5.5, 208.0),
        (208.0, 448.0),
        (448.0, 474.5),
    )


def test_exactly_the_distance_asked_for_is_enough() -> None:
    pieces = spliced((0.0, 300.0), 240.0, (216.0, 232.0), away_from=(240.0,), offset=24.0)
    assert pieces == ((0.0, 216.0), (216.0, 300.0))


def test_where_no_stud_is_in_reach_the_board_is_used_whole() -> None:
    assert spliced((0.0, 300.0), 240.0, ()) == ((0.0, 240.0), (240.0, 300.0))
