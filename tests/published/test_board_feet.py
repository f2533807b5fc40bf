"""Worked examples of board measure in manuals.

Sources (read): Building Trades Pocketbook (I.C.S., about 1905); NAVEDTRA 14044, ch. 2; Army EN5155, para. 1-5.
"""

from __future__ import annotations

import pytest

from takeoff.catalog.profiles import profile


@pytest.mark.parametrize(
    ("name", "pieces", "length_ft", "board_feet"),
    [
        pytest.param("3x10", 1, 20, 50, id="pocketbook-3x10"),
        pytest.param("2x6", 1, 26, 26, id="pocketbook-2x6"),
        pytest.param("2x10", 1, 18, 30, id="pocketbook-2x10"),
        pytest.param("1x10", 1, 10, 8 + 4 / 12, id="navedtra-1x10"),  # printed 8 4/12
        pytest.param("1x4", 14, 8, 37 + 1 / 3, id="en5155-1x4"),  # printed 37 1/3
    ],
)
def test_board_feet_of_worked_examples(name, pieces, length_ft, board_feet):
    assert pieces * length_ft * profile(name).board_feet_per_ft == pytest.approx(board_feet, rel=1e-12)
