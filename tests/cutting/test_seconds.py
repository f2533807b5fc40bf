from __future__ import annotations

import pytest

from takeoff.cutting.seconds import MaxSeconds


def test_no_seconds_are_over_at_once_and_many_are_not():
    assert MaxSeconds(0.0).reached(1)
    assert not MaxSeconds(1e6).reached(10**9)


def test_a_time_below_zero_is_refused():
    with pytest.raises(ValueError, match="time limit"):
        MaxSeconds(-1.0)
