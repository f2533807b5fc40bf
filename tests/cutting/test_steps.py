from __future__ import annotations

import pytest

from takeoff.cutting.steps import cents, holds, inches, steps_down, steps_up, whole_feet_up


def test_a_piece_is_rounded_up_and_stock_down():
    assert steps_up(10.01) == 161
    assert steps_down(10.06) == 160


def test_float_noise_is_no_step():
    assert steps_up(92.625 + 1e-9) == steps_down(92.625 - 1e-9) == 1482


def test_steps_are_sixteenths():
    assert inches(1482) == 92.625


def test_a_piece_may_end_flush_with_its_stock():
    assert holds(240.0, 240.0)
    assert not holds(240.0, 240.01)


@pytest.mark.parametrize(("length_in", "feet"), [(240.0, 20), (240.01, 21), (251.99, 21), (252.0, 21), (252.1, 22)])
def test_special_sticks_are_whole_feet(length_in, feet):
    assert whole_feet_up(length_in) == 12 * feet


@pytest.mark.parametrize(("usd", "expected"), [(0.0, 0), (4.27, 427), (0.125, 13), (693.0000001, 69300)])
def test_money_is_whole_cents_half_up(usd, expected):
    assert cents(usd) == expected
