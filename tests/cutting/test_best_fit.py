from __future__ import annotations

from takeoff.cutting.best_fit import best_fit


def test_a_width_goes_where_it_leaves_the_least_rest():
    # 60 and 50 open a bin each, rests 40 and 50; 45 fits the second only, 38 the first.
    assert best_fit([60, 50, 45, 38], lambda _: 100) == ((0, 3), (1, 2))


def test_a_bin_is_opened_for_what_fits_nowhere():
    opened = []
    assert best_fit([60, 50, 30], lambda position: opened.append(position) or 60) == ((0,), (1,), (2,))
    assert opened == [0, 1, 2]
