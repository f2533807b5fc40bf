"""Lines 2 to 6 of the framing square's rafter table, and the figures that go with them, against framed hip roofs.

Sources, row by row in ``data/steel_square_hips.csv``. Line 2, length of hip or valley per foot of common run; lines 3
and 4, difference in length of jacks at 16 and 24 inches; lines 5 and 6, side cut of jacks and of hips. Most printed
figures are from memory and agree with the computation (the table as commonly printed on the blade); 18.00 and 23.32
and others so marked were read. The printed side cuts of hips for rises 11 to 18 were not found: exact values only.
Exact values are derived from the square's own triangles.

A roof of 12 ft run is framed for each rise and measured off the placed sticks: outlines and end planes, in the world.
The table runs to the meeting of the centre lines; the sticks stop short of it.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import atan, atan2, degrees, hypot
from pathlib import Path

import pytest
from roof_measure import (
    TopLine,
    angle_between,
    end_normals,
    on_slope,
    side_cut,
    slope_plane,
    top_line,
    upper_end_on_centre,
)
from shop import built, roofed, with_role

from takeoff.geometry.vec import Vec, dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "steel_square_hips.csv").read_text().splitlines()))
RUN_IN = 144.0
LENGTH_IN = 384.0
HALF_IN = 0.75
"""Half of the hip's 1-1/2 in."""


def of(quantity: str, *, printed: bool = False):
    """One case a rise of the table; with ``printed`` only those whose printed figure is known."""
    rows = [row for row in ROWS if row["quantity"] == quantity and (row["printed"] or not printed)]
    return pytest.mark.parametrize("row", rows, ids=lambda row: f"{row['rise_in']}/12")


def printed_figure(row: dict[str, str]) -> object:
    """As printed, to half a unit of its last digit; fractions to half of a sixteenth, or of the eighth they show.

    One figure, 21.70 for 21.7051, is rounded down on the blade: hence a hair over half a unit.
    """
    text = row["printed"]
    if "." in text:
        return pytest.approx(float(text), abs=0.51 * 10 ** -len(text.partition(".")[2]))
    value = sum(Fraction(part) for part in text.split())
    return pytest.approx(float(value), abs=1 / 32 if value.denominator == 16 else 1 / 16)


@cache
def roof(rise: str, spacing: int = 16) -> FramedBuilding:
    """A hip roof of 12 ft run, 32 ft long."""
    points = [(0.0, 0.0), (LENGTH_IN, 0.0), (LENGTH_IN, 2 * RUN_IN), (0.0, 2 * RUN_IN)]
    return built(
        roofed(
            points,
            pitch=f"{rise}/12",
            rafters={"size": "2x6", "spacing": spacing},
            overhang={"eave": 12},
            ridge={"kind": "board", "size": "2x12"},
        )
    )


def corner_hip(framed: FramedBuilding) -> Member:
    """The hip over the south-west corner."""
    return next(m for m in with_role(framed.members, "hip") if max(top_line(m).low[:2]) < 0)


def south_jacks(framed: FramedBuilding) -> tuple[Member, ...]:
    """Jacks of the south slope that run to that hip, west to east."""
    jacks = on_slope(framed, "side 1 slope", "hip-jack")
    return tuple(m for m in jacks if m.placement.origin[0] < RUN_IN - 1.5)


def hip_per_ft(framed: FramedBuilding) -> float:
    """Along the hip's top edge from over the corner of the walls to over the meeting of the centre lines, a foot."""
    line = top_line(corner_hip(framed))
    apex = (RUN_IN, RUN_IN)
    assert line.beside((0.0, 0.0)) == pytest.approx(0, abs=1e-6), "the hip runs over the corner"
    assert line.beside(apex) == pytest.approx(0, abs=1e-6), "the hip runs to the end of the ridge's centre line"
    return line.between((0.0, 0.0), apex) * 12 / RUN_IN


def jack_steps(framed: FramedBuilding) -> list[float]:
    """Difference in length of each two neighbouring jacks."""
    lengths = [top_line(jack).length for jack in south_jacks(framed)]
    return [b - a for a, b in pairwise(lengths)]


def planes_over_the_hip(framed: FramedBuilding) -> tuple[Vec, Vec]:
    """Upward normals of the two slopes that meet on the hip, off their jacks' top edges."""
    jacks = (south_jacks(framed)[0], on_slope(framed, "side 4 slope", "hip-jack")[0])
    gradients = [slope_plane(jack).gradient for jack in jacks]
    one, other = ((-gx, -gy, 1.0) for gx, gy in gradients)
    return one, other


def drop(framed: FramedBuilding) -> float:
    """Plumb from the line in which the slopes meet down to the hip's top edge, over the corner of the walls [in]."""
    fold = slope_plane(south_jacks(framed)[0]).height_over((0.0, 0.0))
    other = slope_plane(on_slope(framed, "side 4 slope", "hip-jack")[0]).height_over((0.0, 0.0))
    assert fold == pytest.approx(other, abs=1e-6), "the slopes meet over the corner"
    return fold - top_line(corner_hip(framed)).height_over((0.0, 0.0))


def test_all_lines_of_the_table_from_2_to_18_are_here():
    quantities = {row["quantity"] for row in ROWS}
    assert {(row["rise_in"], row["quantity"]) for row in ROWS} == {
        (str(r), q) for r in range(2, 19) for q in quantities
    }
    assert len(quantities) == 9


@of("hip_per_ft", printed=True)
def test_line_2_length_of_hip_per_foot_of_common_run_is_the_printed_one(row):
    assert hip_per_ft(roof(row["rise_in"])) == printed_figure(row)


@of("hip_per_ft")
def test_line_2_length_of_hip_per_foot_of_common_run_is_exact(row):
    assert hip_per_ft(roof(row["rise_in"])) == pytest.approx(float(row["exact"]), abs=1e-6)


@pytest.mark.parametrize("spacing", [16, 24])
@pytest.mark.parametrize("rise", range(2, 19))
def test_lines_3_and_4_difference_in_length_of_jacks(rise, spacing):
    (row,) = (r for r in ROWS if r["rise_in"] == str(rise) and r["quantity"] == f"jacks_{spacing}")
    steps = jack_steps(roof(row["rise_in"], spacing))
    assert len(steps) >= RUN_IN // spacing - 3
    assert steps == pytest.approx([float(row["exact"])] * len(steps), abs=2e-6)
    assert steps[0] == printed_figure(row)


@of("side_cut_jack", printed=True)
def test_line_5_side_cut_of_jacks_is_the_printed_one(row):
    for jack in south_jacks(roof(row["rise_in"])):
        (normal,) = end_normals(jack, 1)
        assert side_cut(normal) == printed_figure(row)


@of("side_cut_jack")
def test_line_5_side_cut_of_jacks_is_exact(row):
    cuts = [side_cut(normal) for jack in south_jacks(roof(row["rise_in"])) for normal in end_normals(jack, 1)]
    assert cuts == pytest.approx([float(row["exact"])] * len(cuts), abs=1e-6)


@of("side_cut_hip", printed=True)
def test_line_6_side_cut_of_hips_is_the_printed_one(row):
    for normal in end_normals(corner_hip(roof(row["rise_in"])), 1):
        assert side_cut(normal) == printed_figure(row)


@of("side_cut_hip")
def test_line_6_side_cut_of_hips_is_exact_on_both_cheeks_at_the_ridge_and_at_the_tail(row):
    hip = corner_hip(roof(row["rise_in"]))
    cuts = [side_cut(normal) for end in (0, 1) for normal in end_normals(hip, end)]
    assert cuts == pytest.approx([float(row["exact"])] * 4, abs=1e-6)


@of("hip_plumb_deg")
def test_hips_are_cut_to_the_plumb_angle(row):
    hip = corner_hip(roof(row["rise_in"]))
    assert degrees(atan(top_line(hip).slope)) == pytest.approx(float(row["exact"]), abs=2e-6), "the pitch of the hip"
    for end in (0, 1):
        for normal in end_normals(hip, end):
            assert hip.placement.direction_to_world(normal)[2] == pytest.approx(0, abs=1e-9), "a plumb plane"
            # Seen from the side, the plane leans off square by the plumb angle.
            leans = degrees(atan2(abs(normal[1]), abs(normal[0])))
            assert leans == pytest.approx(float(row["exact"]), abs=2e-6)


@of("backing_deg")
def test_the_drop_of_the_hip_is_what_its_backing_would_take_off_half_its_thickness(row):
    framed = roof(row["rise_in"])
    square_drop = drop(framed) / hypot(1, top_line(corner_hip(framed)).slope)
    assert degrees(atan(square_drop / HALF_IN)) == pytest.approx(float(row["exact"]), abs=2e-5)


@of("backing_deg")
def test_the_hip_drops_by_half_its_thickness_times_the_fall_of_the_slopes_square_to_it(row):
    """For equal pitches the slopes fall rise / (12 x root 2) for one inch square to the hip."""
    assert drop(roof(row["rise_in"])) == pytest.approx(HALF_IN * int(row["rise_in"]) / (12 * 2**0.5), abs=1e-6)


@of("dihedral_deg")
def test_the_slopes_meet_over_the_hip_at_the_dihedral_angle(row):
    one, other = planes_over_the_hip(roof(row["rise_in"]))
    assert 180 - degrees(angle_between(one, other)) == pytest.approx(float(row["exact"]), abs=2e-6)


@of("jack_to_hip_deg")
def test_a_jack_meets_the_hip_at_this_angle_in_the_roof(row):
    """Between the jack's top edge and the line in which the slopes meet, both lying in the slope."""
    framed = roof(row["rise_in"])
    jack, hip = top_line(south_jacks(framed)[0]), top_line(corner_hip(framed))
    assert degrees(angle_between(direction(jack), direction(hip))) == pytest.approx(float(row["exact"]), abs=2e-6)


def direction(line: TopLine) -> Vec:
    return (line.high[0] - line.low[0], line.high[1] - line.low[1], line.high[2] - line.low[2])


@of("jack_to_hip_deg")
def test_the_jacks_are_cut_parallel_to_the_side_of_the_hip(row):
    framed = roof(row["rise_in"])
    hip = corner_hip(framed)
    for jack in south_jacks(framed):
        (normal,) = end_normals(jack, 1)
        across = jack.placement.direction_to_world(normal)
        assert abs(dot(across, hip.placement.z)) == pytest.approx(1, abs=1e-9)


@of("hip_per_ft")
def test_jacks_stop_short_of_the_hips_centre_line_by_half_its_thickness_at_45_degrees(row):
    """Half of 1-1/2 in, over the sine of 45 degrees, measured level along the jack."""
    for jack in south_jacks(roof(row["rise_in"])):
        x, y = upper_end_on_centre(jack)
        assert x - y == pytest.approx(HALF_IN * 2**0.5, abs=1e-6)
