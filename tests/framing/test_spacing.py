"""Where the centres of studs and rafters fall."""

from __future__ import annotations

import pytest

from takeoff.framing.spacing import clear_of, gaps, layout_positions


def test_centres_stand_on_multiples_of_the_spacing_inside_the_length() -> None:
    # 30 feet at 16 inches: 22 of them, the last at 352
    assert layout_positions(360, 16) == tuple(16.0 * k for k in range(1, 23))


def test_a_multiple_that_falls_on_the_end_is_left_to_the_end_s_own_stick() -> None:
    assert layout_positions(320, 16)[-1] == 304
    assert layout_positions(320 + 1e-9, 16)[-1] == 304
    assert layout_positions(320.01, 16)[-1] == 320


def test_a_layout_from_the_right_end_measures_from_there_and_still_reads_left_to_right() -> None:
    assert layout_positions(100, 48, from_right=True) == (4.0, 52.0)
    assert layout_positions(100, 48) == (48.0, 96.0)


def test_five_spacings_of_19_2_are_a_whole_sheet() -> None:
    assert layout_positions(200, 19.2)[4] == pytest.approx(96.0)


def test_nothing_stands_inside_a_length_shorter_than_the_spacing() -> None:
    assert layout_positions(16, 16) == ()


def test_a_centre_is_clear_where_there_is_room_for_the_whole_stick() -> None:
    assert clear_of([16.0, 17.4, 17.5, 32.0], [16.0], 1.5) == (17.5, 32.0)
    assert clear_of([16.0], [], 1.5) == (16.0,)


def test_gaps_are_the_clear_bays_between_sticks_and_none_where_they_touch() -> None:
    assert gaps([32.0, 0.75, 2.25, 16.0], 1.5) == ((3.0, 15.25), (16.75, 31.25))
    assert gaps([5.0], 1.5) == ()
