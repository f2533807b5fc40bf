"""Limits of the code that shape a rafter and its ridge, against framed roofs and what is said about them.

Sources: IRC 2018/2021, R502.8.1 and R802.7.1 (notch at the end: read as quoted by a home inspectors' article),
R802.7.1.1 (tails: read as quoted in three articles), R802.6 (bearing: read, same article), R802.3 (ridge board: read
as set out in an inspection article; slope under 3 in 12: read in several articles). Limits in inches in
``data/notch_limits.csv`` and ``data/plumb_cuts.csv`` are derived: a quarter of the dressed depth, and the dressed
depth times the slope factor. The article prints 2-1/4 and 2-3/4 for a 2x10 and a 2x12, a quarter is 2-5/16 and 2-13/16.
"""

from __future__ import annotations

import csv
from math import atan2, sin
from pathlib import Path

import pytest
from rafter_measure import section
from shop import built, gable

from takeoff.catalog.profiles import profile
from takeoff.checks.rafters import notch_depth, tail
from takeoff.checks.roof import ridge
from takeoff.findings import Severity
from takeoff.framing.one_rafter import one_rafter
from takeoff.framing.seat import decided_seat
from takeoff.geometry.rafter import RafterGeometry
from takeoff.measure import parse_pitch
from takeoff.plan.schema import Building

DATA = Path(__file__).parent / "data"
RISES = (2, 3, 4, 5, 6, 8, 10, 12, 16, 18, 24)
PLATE_IN = 5.5
STEP_IN = 1 / 8


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text().splitlines()))


def hut(*, size: str, pitch: str, board: str = "2x12", overhang: float = 12, tail: str | None = None) -> Building:
    roof = {
        "pitch": pitch,
        "rafters": {"size": size},
        "overhang": {"eave": overhang},
        "tail": {"size": tail},
        "ridge": {"kind": "board", "size": board},
    }
    return gable(length="8'", span="16'", roof=roof)


@pytest.mark.parametrize("row", rows("notch_limits.csv"), ids=lambda row: row["size"])
@pytest.mark.parametrize("rise", RISES)
def test_the_seat_decided_is_the_longest_eighth_that_keeps_to_a_quarter_of_the_depth(row, rise):
    limit, slope = float(row["deepest_notch_in"]), rise / 12
    seat = decided_seat(depth=profile(row["size"]).depth_in, plate_width=PLATE_IN, slope=slope).length
    square = sin(atan2(rise, 12))
    assert seat * square <= limit + 1e-9
    if seat < PLATE_IN:
        assert seat % STEP_IN == 0
        assert (seat + STEP_IN) * square > limit


@pytest.mark.parametrize("row", rows("notch_limits.csv"), ids=lambda row: row["size"])
@pytest.mark.parametrize("rise", [3, 6, 8, 12, 18])
def test_the_bird_s_mouth_of_a_framed_rafter_keeps_to_it(row, rise):
    plan = hut(size=row["size"], pitch=f"{rise}/12")
    framed = built(plan)
    rafter = section(framed)
    deep = profile(row["size"]).depth_in - rafter.below_top(rafter.seat.a)
    assert 0 < deep <= float(row["deepest_notch_in"]) + 1e-6
    assert {finding.severity for finding in notch_depth(framed, plan)} == {Severity.NOTE}


@pytest.mark.parametrize(
    ("size", "pitch", "seat_in"),
    [
        # D/4 over the sine of the pitch, down to an eighth.
        ("2x6", "4/12", 4.25),  # 1.375 / 0.31623 is 4.348
        ("2x6", "8/12", 2.375),  # 1.375 / 0.55470 is 2.479
        ("2x8", "8/12", 3.25),  # 1.8125 / 0.55470 is 3.268
        ("2x10", "8/12", 4.125),  # 2.3125 / 0.55470 is 4.169
        ("2x12", "8/12", 5.0),  # 2.8125 / 0.55470 is 5.070
        ("2x10", "12/12", 3.25),  # 2.3125 / 0.70711 is 3.270
        ("2x12", "6/12", 5.5),  # 2.8125 / 0.44721 is 6.289: the plate's width
        ("2x6", "2/12", 5.5),  # 1.375 / 0.16440 is 8.364: the plate's width
    ],
)
def test_seats_worked_by_hand(size, pitch, seat_in):
    rafter, _ = one_rafter(pitch=parse_pitch(pitch), run=120.0, size=size, plate=PLATE_IN)
    assert rafter.seat == seat_in


def test_a_rafter_keeps_its_least_bearing_of_1_1_2_in_even_where_the_notch_goes_too_deep_and_says_so():
    """R802.6. A 2x4 at 12 in 12 may be notched 0.875 in, a seat of 1.237 in."""
    plan = hut(size="2x4", pitch="12/12")
    framed = built(plan)
    assert section(framed).seat.length == pytest.approx(1.5, abs=1e-6)
    assert {finding.severity for finding in notch_depth(framed, plan)} == {Severity.WARNING}


@pytest.mark.parametrize("row", rows("plumb_cuts.csv"), ids=lambda row: f"{row['size']} at {row['pitch']}")
def test_plumb_cut_of_a_rafter(row):
    published = pytest.approx(float(row["plumb_cut_in"]), abs=5e-5)
    depth, slope = profile(row["size"]).depth_in, parse_pitch(row["pitch"]).slope
    assert RafterGeometry(slope=slope, depth=depth, run=96.0, overhang=0.0).plumb_depth == published
    assert section(built(hut(size=row["size"], pitch=row["pitch"]))).ridge_cut.length == published


@pytest.mark.parametrize("row", rows("plumb_cuts.csv"), ids=lambda row: f"{row['size']} at {row['pitch']}")
def test_a_ridge_board_is_found_too_shallow_where_it_is_under_the_plumb_cut(row):
    """R802.3: a depth of no less than the cut end of the rafter."""
    severities = {}
    for board in ("2x6", "2x8", "2x10", "2x12", "2x14"):
        plan = hut(size=row["size"], pitch=row["pitch"], board=board)
        found = [finding for finding in ridge(built(plan), plan) if finding.rule == "ridge.board-depth"]
        severities[board] = [finding.severity for finding in found]
    assert severities == {
        board: [Severity.NOTE if profile(board).depth_in >= float(row["plumb_cut_in"]) else Severity.WARNING]
        for board in severities
    }


@pytest.mark.parametrize(("rise", "severity"), [("2.9", Severity.WARNING), ("3", Severity.NOTE)])
def test_under_3_in_12_a_ridge_board_does_not_do(rise, severity):
    plan = hut(size="2x8", pitch=f"{rise}/12")
    (found,) = (finding for finding in ridge(built(plan), plan) if finding.rule == "ridge.structural-slope")
    assert found.severity == severity


@pytest.mark.parametrize(
    ("size", "overhang_in", "depth", "length"),
    [
        pytest.param("2x6", 16, Severity.NOTE, Severity.NOTE, id="usual"),
        pytest.param("2x4", 16, Severity.NOTE, Severity.NOTE, id="3-1/2 in left"),
        pytest.param("2x3", 16, Severity.WARNING, Severity.NOTE, id="2-1/2 in left"),
        # At 8 in 12 a ripped tail 24 in along the slope stands out 19.969 in.
        pytest.param("2x6", 19.9375, Severity.NOTE, Severity.NOTE, id="just under 24 in"),
        pytest.param("2x6", 20, Severity.NOTE, Severity.WARNING, id="just over 24 in"),
    ],
)
def test_a_ripped_tail_keeps_3_1_2_in_and_is_no_longer_than_24_in(size, overhang_in, depth, length):
    """R802.7.1.1."""
    plan = hut(size="2x10", pitch="8/12", overhang=overhang_in, tail=size)
    framed = built(plan)
    found = {finding.rule: finding.severity for finding in tail(framed, plan)}
    assert found == {"notch.tail-depth": depth, "notch.tail-length": length}
    rafter = section(framed)
    assert rafter.below_top(rafter.tail_cut.a) == pytest.approx(profile(size).depth_in, abs=1e-6)
