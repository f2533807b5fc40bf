"""The table of saw cuts: figures of a hip and its jacks at 6/12, worked by hand."""

from __future__ import annotations

import csv
import io
from math import atan, cos, degrees, sqrt

import pytest
from shop import SAMPLES

from takeoff.pipeline import take_off
from takeoff.sheets.tables.rafter_cuts import RAFTER_CUTS


@pytest.fixture(scope="module")
def cuts() -> list[dict[str, str]]:
    takeoff = take_off(SAMPLES / "tern-boat-shelter.yaml")
    return list(csv.DictReader(io.StringIO(RAFTER_CUTS.csv(takeoff).decode())))


def of(cuts: list[dict[str, str]], kind: str, end: str) -> list[dict[str, str]]:
    return [row for row in cuts if row["kind"] == kind and row["end"] == end]


def test_a_hip_has_both_its_cheeks_with_the_figures_of_the_square(cuts: list[dict[str, str]]) -> None:
    rows = of(cuts, "hip", "upper")
    assert [(row["cut"], row["cheeks"], row["bevel_deg"]) for row in rows] == [
        ("1", "double", "45.000"),
        ("2", "double", "-45.000"),
    ]
    for row in rows:
        # 6 in 16.97: atan(6 / (12 sqrt 2)) = 19.471; across the top the 45 degrees are 1 / cos of that.
        assert float(row["miter_deg"]) == pytest.approx(-19.471, abs=5e-4)
        assert (row["tongue_in"], row["body_in"]) == ("6.0000", "16.9706")
        across = degrees(atan(1 / cos(atan(6 / (12 * sqrt(2))))))
        assert abs(float(row["side_cut_deg"])) == pytest.approx(across, abs=5e-4)


def test_a_hip_has_its_drop_its_backing_and_the_walls_off_its_heel(cuts: list[dict[str, str]]) -> None:
    row = of(cuts, "hip", "lower")[0]
    # Half of 1-1/2 across at 45 degrees is 3/4 * sin 45 toward each eave, at 6/12: 0.2652 plumb. Square to its edge
    # that is drop * cos 19.471 on 3/4 across.
    drop = 0.75 * sqrt(0.5) * 0.5
    assert float(row["drop_in"]) == pytest.approx(drop, abs=5e-5)
    backing = degrees(atan(drop * cos(atan(6 / (12 * sqrt(2)))) / 0.75))
    assert (float(row["backing_left_deg"]), float(row["backing_right_deg"])) == pytest.approx((backing,) * 2, abs=5e-4)
    assert (row["wall_left_deg"], row["wall_right_deg"]) == ("45.000", "45.000")


def test_a_jacks_single_cheek_is_set_back_by_its_thickness_along_the_slope(cuts: list[dict[str, str]]) -> None:
    rows = of(cuts, "hip jack", "upper")
    assert {row["cheeks"] for row in rows} == {"single"}
    for row in rows:
        # 1-1/2 level at 45 degrees is 1-1/2 / cos 26.565 along the slope: 1.6771; the centre line is half of it short.
        assert row["set_back_in"] == "1.6771"
        long, centre, short = (float(row[f"top_{name}_in"]) for name in ("long_point", "centre_line", "short_point"))
        assert (long - centre, centre - short) == pytest.approx((1.6771 / 2,) * 2, abs=2e-4)
