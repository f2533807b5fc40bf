"""Worked examples of common rafters in manuals and courses, against framed roofs.

Sources (read, unless a row or a test says derived): NAVEDTRA 14044 Builder 3&2 vol. 2, ch. 2; Army correspondence
course EN0069, lesson 2 (Frame Structures; text of TM 5-551B); Carpentry (1916), App. IV; The Carpenters' Guide; a
college estimating course, chapter 8 worksheet (a student's answer sheet: medium trust); a cost-estimating textbook,
p. 187, fig. 11.10. Rows of several examples of one kind are in ``data/rafter_line_lengths.csv``,
``data/rafters_to_order.csv`` and ``data/plumb_both_ends.csv``, each with its source.

Published lengths run to the centre line of the ridge unless said otherwise. Each intermediate value of an example is
checked before its answer, and the message names the step.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from math import ceil
from pathlib import Path

import pytest
from rafter_measure import Section, ridge_centre, section, south
from shop import built, gable

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile
from takeoff.checks.rafters import notch_depth
from takeoff.findings import Severity
from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.schema import Building

DATA = Path(__file__).parent / "data"
BOARD = {"kind": "board", "size": "2x12"}
SIXTEENTH = 1 / 32
"""Half of the last step of an answer given to the sixteenth [in]."""


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text().splitlines()))


def by_example(name: str):
    return pytest.mark.parametrize("row", rows(name), ids=lambda row: row["example"])


def hut(
    *, pitch: str, span: str = "20'", size: str = "2x8", overhang: float = 12, studs: str = "2x6", **rafters: str
) -> Building:
    return gable(
        length="8'",
        span=span,
        walls={"studs": studs},
        roof={
            "pitch": pitch,
            "rafters": {"size": size, **rafters},
            "overhang": {"eave": overhang},
            "ridge": BOARD,
        },
    )


def line_length(framed: FramedBuilding) -> float:
    """Heel plumb line to the centre line of the ridge, along the top edge [in]."""
    rafter = section(framed)
    return rafter.along(rafter.seat.a[0], ridge_centre(framed))


@by_example("rafter_line_lengths.csv")
def test_line_length_of_a_common_rafter(row):
    framed = built(hut(pitch=row["pitch"], span=row["span"]))
    rafter = section(framed)
    assert ridge_centre(framed) - rafter.heel.a[0] == pytest.approx(float(row["run_in"]), abs=1e-6), "the run"
    a_foot = rafter.along(0.0, 12.0)
    assert a_foot == pytest.approx(float(row["bridge_measure_in_per_ft"]), abs=0.005), "the bridge measure"
    answer = pytest.approx(float(row["published_in"]), abs=float(Fraction(row["tolerance_in"])))
    assert line_length(framed) == answer, f"the answer ({row['tolerance_reason']})"


@pytest.mark.parametrize(
    "row", [row for row in rows("rafter_line_lengths.csv") if row["denominator"]], ids=lambda row: row["example"]
)
def test_line_length_reads_as_the_manual_prints_it(row):
    length = line_length(built(hut(pitch=row["pitch"], span=row["span"])))
    assert format_length(length, denominator=int(row["denominator"])) == row["published_text"]


@by_example("rafters_to_order.csv")
def test_length_of_a_rafter_to_order(row):
    """Slope length from the tail to the centre of the ridge, and what the plumb cut adds; up to whole feet."""
    framed = built(hut(pitch=row["pitch"], span=row["span"], size=row["size"], overhang=float(row["overhang_in"])))
    rafter, stick = section(framed), south(framed, "common-rafter")[0]
    slope_length = rafter.along(rafter.tail_cut.b[0], ridge_centre(framed)) / 12
    assert slope_length == pytest.approx(float(row["slope_length_ft"]), abs=5e-5), "the slope length"
    over = (stick.length_in - rafter.along(rafter.tail_cut.b[0], rafter.ridge_cut.b[0])) / 12
    assert over == pytest.approx(float(row["depth_term_ft"]), abs=5e-5), "what the cut adds"
    assert ceil(slope_length + over) == int(row["whole_ft"]), "whole feet"
    on_sale = stock_lengths(profile(row["size"]), "no2")
    assert min(length for length in on_sale if length >= stick.length_in) == 12 * int(row["stick_ft"]), "the stick"


@by_example("plumb_both_ends.csv")
def test_long_point_length_of_a_rafter_with_plumb_cuts_and_no_seat(row):
    """Published for jacks; here a barge, which is cut the same: plumb at both ends, no seat, no shortening."""
    roof = {
        "pitch": row["pitch"],
        "rafters": {"size": "2x8"},
        "overhang": {"rake": 12},
        "barge": {"size": row["size"]},
        "ridge": BOARD,
    }
    framed = built(gable(length="8'", span=f"{2 * int(row['run_ft'])}'", roof=roof))
    barge = section(framed, "barge")
    run = barge.ridge_cut.b[0] - barge.tail_cut.b[0]
    assert run == pytest.approx(12 * int(row["run_ft"]), abs=1e-6), "the run"
    depth_term = south(framed, "barge")[0].length_in - barge.along(0.0, run)
    assert depth_term == pytest.approx(7.25 * 6 / 12, abs=1e-6), "what the depth adds"
    assert south(framed, "barge")[0].length_in / 12 == pytest.approx(float(row["published_ft"]), abs=0.0095)


def test_16_in_more_run_at_8_in_12_make_a_rafter_19_23_in_longer():
    """NAVEDTRA 14044, ch. 2, fig. 2-41: common difference of jacks at 16 in; the second is twice that longer."""
    lengths = [line_length(built(hut(pitch="8/12", span=f'{2 * (120 + more)}"'))) for more in (0, 16, 32)]
    assert [length - lengths[0] for length in lengths[1:]] == pytest.approx([19.23, 2 * 19.23], abs=0.005)


def test_a_ridge_of_1_1_2_in_shortens_a_common_rafter_by_3_4_in_level():
    """NAVEDTRA 14044, ch. 2: half the thickness, measured square to the plumb cut."""
    framed = built(hut(pitch="8/12"))
    rafter = section(framed)
    assert ridge_centre(framed) - rafter.ridge_cut.a[0] == pytest.approx(0.75, abs=1e-6)
    # Along the slope 0.75 / cos 33.69 deg, which is 0.901 (derived).
    assert rafter.along(rafter.ridge_cut.b[0], ridge_centre(framed)) == pytest.approx(0.901, abs=0.0005)


def test_a_run_of_8_ft_at_8_in_12_rises_5_ft_4_in():
    """The Carpenters' Guide: rise times run in feet is 64 in above the measuring line at the plate."""
    framed = built(hut(pitch="8/12", span="16'"))
    rafter = section(framed)
    assert ridge_centre(framed) == pytest.approx(96, abs=1e-6), "the run"
    rise = rafter.top_at(ridge_centre(framed))[1] - rafter.top_at(0.0)[1]
    assert rise == pytest.approx(64, abs=1e-6)
    assert format_length(rise) == "5'-4\""


def test_a_rise_of_3_ft_in_a_run_of_9_is_4_in_12():
    """Army EN0069, lesson 2 answers, no. 7. The plan may say it as it was asked."""
    plan = hut(pitch="3:9", span="18'")
    assert str(plan.roof.pitch) == "4/12", "the pitch"
    framed = built(plan)
    rafter = section(framed)
    assert rafter.top_at(12.0)[1] - rafter.top_at(0.0)[1] == pytest.approx(4, abs=1e-6), "rise a foot"
    assert rafter.top_at(ridge_centre(framed))[1] - rafter.top_at(0.0)[1] == pytest.approx(36, abs=1e-6), "total rise"


def test_the_run_of_a_span_of_20_ft_6_in_is_10_ft_3_in():
    """Army EN0069, lesson 2 answers, no. 8."""
    assert format_length(ridge_centre(built(hut(pitch="8/12", span="20'-6\"")))) == "10'-3\""


def test_total_run_of_a_rafter_with_overhang_and_ridge():
    """Cost-estimating textbook, p. 187: 14 ft and 1 ft less 3/4 in is 14'-11 1/4"; the slope length is derived."""
    rafter = section(built(hut(pitch="8/12", span="28'", size="2x10", overhang=12)))
    outer, inner = rafter.tail_cut.b[0], rafter.ridge_cut.b[0]
    assert -outer == pytest.approx(12, abs=1e-6), "the overhang"
    assert inner == pytest.approx(14 * 12 - 0.75, abs=1e-6), "to the ridge's face"
    assert format_length(inner - outer) == "14'-11 1/4\"", "the total run"
    assert rafter.along(outer, inner) == pytest.approx(215.43, abs=0.005), "the slope length"  # 179.25 x 1.20185
    assert format_length(rafter.along(outer, inner)) == "17'-11 7/16\""


def test_plumb_cut_of_a_2x8_at_8_in_12_is_8_11_16_in():
    """Derived: 7-1/4 in over cos 33.69 deg."""
    assert section(built(hut(pitch="8/12"))).ridge_cut.length == pytest.approx(8.6875, abs=SIXTEENTH)


def notch(framed: FramedBuilding) -> tuple[Section, float]:
    """The rafter, and how deep its bird's mouth goes square to the edge [in]."""
    rafter = section(framed)
    depth = south(framed, "common-rafter")[0].profile.depth_in
    return rafter, depth - rafter.below_top(rafter.seat.a)


def test_a_full_seat_on_a_2x4_plate_notches_a_2x8_at_8_in_12_too_deep():
    """Derived: 3.5 x 8 / 12 plumb, 3.5 x sin 33.69 deg square to the edge; limit D/4 of R802.7.1, R502.8.1."""
    plan = hut(pitch="8/12", studs="2x4", seat='3-1/2"')
    framed = built(plan)
    rafter, deep = notch(framed)
    assert rafter.seat.length == pytest.approx(3.5, abs=1e-6), "the seat"
    assert rafter.heel.length == pytest.approx(2.3125, abs=SIXTEENTH), "the heel"
    assert deep == pytest.approx(1.94, abs=0.005), "the notch"
    assert deep > 1.8125, "the limit"
    assert {finding.severity for finding in notch_depth(framed, plan)} == {Severity.WARNING}


def test_the_seat_decided_for_that_rafter_is_the_largest_eighth_under_3_268_in():
    """Derived: D/4 is 1.8125; over sin 33.69 deg it lets the seat be 3.268 in."""
    plan = hut(pitch="8/12", studs="2x4")
    framed = built(plan)
    assert notch(framed)[0].seat.length == pytest.approx(3.25, abs=1e-6)
    assert {finding.severity for finding in notch_depth(framed, plan)} == {Severity.NOTE}


def test_a_full_seat_on_a_2x4_plate_suits_a_2x6_at_4_in_12():
    """Derived: 3.5 x 4 / 12 plumb, 3.5 x sin 18.43 deg square to the edge, of 1.375 that D/4 allows."""
    plan = hut(pitch="4/12", size="2x6", studs="2x4")
    framed = built(plan)
    rafter, deep = notch(framed)
    assert rafter.seat.length == pytest.approx(3.5, abs=1e-6), "the seat"
    assert rafter.heel.length == pytest.approx(1.1875, abs=SIXTEENTH), "the heel"
    assert deep == pytest.approx(1.107, abs=0.0005), "the notch"
    assert {finding.severity for finding in notch_depth(framed, plan)} == {Severity.NOTE}
