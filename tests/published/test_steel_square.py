"""The rafter table of the framing square and the figures that go with it, against framed roofs.

Sources, row by row in ``data/steel_square.csv``: line 1 of the table, length of common rafter per foot of run, printed
to a hundredth (read: a how-to article that lists it, NAVEDTRA 14044 Builder 3&2 vol. 2 ch. 2, Carpentry 1916 App. IV,
Army EN0069). Exact lengths, angles and slope factors are derived from the square's own right triangle: rise on the
tongue, 12 on the body. The difference of neighbouring gable studs is the rise on their spacing (NAVEDTRA 14044
ch. 2, end framing, fig. 2-29, read for 6 in 12 at 24 in).

A roof of 12 ft run is framed for each rise, and measured off the placed sticks. The table runs to the centre line of
the ridge, the rafter only to its face.
"""

from __future__ import annotations

import csv
from functools import cache
from math import hypot
from pathlib import Path

import pytest
from rafter_measure import Section, gable_stud_tops, ridge_centre, section, south, steps_of
from shop import built, gable

from takeoff.measure import format_inches
from takeoff.model.building import FramedBuilding

SQUARE = list(csv.DictReader((Path(__file__).parent / "data" / "steel_square.csv").read_text().splitlines()))
RUN_FT = 12
BOARD_IN = 1.5


def half_last_digit(printed: str) -> float:
    """Half a unit of the last digit printed."""
    return 0.5 * 10 ** -len(printed.partition(".")[2])


@cache
def roof(rise: str, stud_spacing: int = 16) -> FramedBuilding:
    """A gable of 12 ft run with a ridge board, so that nothing interrupts the layout of the gable studs."""
    return built(
        gable(
            length="8'",
            span=f"{2 * RUN_FT}'",
            walls={"spacing": stud_spacing},
            roof={
                "pitch": f"{rise}/12",
                "rafters": {"size": "2x6"},
                "overhang": {"eave": 12},
                "ridge": {"kind": "board", "size": "2x12"},
            },
        )
    )


def length_per_ft_of_run(rise: str) -> float:
    """From the heel plumb line to the centre line of the ridge, along the top edge [in]."""
    framed = roof(rise)
    rafter = section(framed)
    return rafter.along(rafter.heel.a[0], ridge_centre(framed)) / RUN_FT


def per_rise(test):
    return pytest.mark.parametrize("row", SQUARE, ids=lambda row: f"{row['rise_in']}/12")(test)


def test_the_whole_table_from_2_to_18_is_here():
    assert [row["rise_in"] for row in SQUARE] == [str(rise) for rise in range(2, 19)]


@per_rise
def test_length_of_common_rafter_per_foot_of_run_is_the_printed_one(row):
    printed = row["printed_in_per_ft"]
    assert length_per_ft_of_run(row["rise_in"]) == pytest.approx(float(printed), abs=half_last_digit(printed))


@per_rise
def test_length_of_common_rafter_per_foot_of_run_is_exact(row):
    assert length_per_ft_of_run(row["rise_in"]) == pytest.approx(float(row["exact_in_per_ft"]), abs=1e-6)


@per_rise
def test_line_length_and_ridge_shortening_of_the_rafter_table_add_up_to_it(row):
    rafter = south(roof(row["rise_in"]), "common-rafter")[0].rafter
    total = rafter.line_length + rafter.ridge_shortening
    assert total == pytest.approx(RUN_FT * float(row["exact_in_per_ft"]), abs=1e-5)


@per_rise
def test_the_rafter_ends_half_the_boards_thickness_short_of_the_centre_line_measured_level(row):
    framed = roof(row["rise_in"])
    assert ridge_centre(framed) - section(framed).ridge_cut.a[0] == pytest.approx(BOARD_IN / 2, abs=1e-6)


@per_rise
def test_tail_heel_and_ridge_are_cut_to_the_plumb_angle(row):
    rafter = section(roof(row["rise_in"]))
    angles = [rafter.off_square(cut) for cut in rafter.plumb_cuts]
    assert angles == pytest.approx([float(row["plumb_deg"])] * 3, abs=2e-5)


@per_rise
def test_the_seat_is_cut_to_the_complement(row):
    rafter = section(roof(row["rise_in"]))
    assert rafter.off_square(rafter.seat) == pytest.approx(90 - float(row["plumb_deg"]), abs=2e-5)


@per_rise
def test_the_saw_is_turned_to_the_plumb_angle_at_both_ends(row):
    plumb = float(row["plumb_deg"])
    miters = [cut.miter_deg for cut in south(roof(row["rise_in"]), "common-rafter")[0].cuts]
    assert miters == pytest.approx([plumb, -plumb], abs=1e-6)


@per_rise
def test_slope_factor(row):
    rafter: Section = section(roof(row["rise_in"]))
    run = rafter.ridge_cut.b[0] - rafter.tail_cut.b[0]
    along = hypot(run, rafter.ridge_cut.b[1] - rafter.tail_cut.b[1])
    assert along / run == pytest.approx(float(row["slope_factor"]), abs=1e-6)


@pytest.mark.parametrize("spacing", [12, 16, 24])
@pytest.mark.parametrize("face", ["east", "west"])
@per_rise
def test_gable_studs_differ_by_the_rise_on_their_spacing(row, face, spacing):
    """At 12 in centres that is the rise itself, at 24 in twice the rise."""
    steps = steps_of(gable_stud_tops(roof(row["rise_in"], spacing), face), spacing, peak=12.0 * RUN_FT)
    assert len(steps) >= 12 * RUN_FT // spacing - 3  # three bays may go: to the corner, to the low end and to the peak
    assert steps == pytest.approx([spacing * int(row["rise_in"]) / 12] * len(steps), abs=1e-6)


@pytest.mark.parametrize(
    ("rise", "spacing", "printed"),
    [
        pytest.param("6", 24, '12"', id="builder"),  # NAVEDTRA 14044: 2 ft x 6 in a foot
        pytest.param("6", 16, '8"', id="builder at 16"),  # the same rule; derived
        pytest.param("8", 16, '10 11/16"', id="eight in twelve"),  # 16 x 8 / 12 is 10.667; derived
        pytest.param("5", 16, '6 11/16"', id="five in twelve"),  # 16 x 5 / 12 is 6.667; derived
        pytest.param("9", 16, '12"', id="nine in twelve"),
    ],
)
def test_common_difference_of_gable_studs_as_it_is_written(rise, spacing, printed):
    steps = steps_of(gable_stud_tops(roof(rise, spacing), "west"), spacing, peak=12.0 * RUN_FT)
    assert {format_inches(step) for step in steps} == {printed}
