"""Worked examples of hips, valleys and jacks in manuals, against framed roofs.

Sources (read, unless a test says derived): NAVEDTRA 14044 Builder 3&2 vol. 2, ch. 2; Carpentry (1916), sec. 23 and
App. IV; a cyclopedia of construction, vol. 3; a cyclopedia of carpentry and building (c. 1907), hips; slides of a
carpentry course on hip and ridge theory.

Published lengths run to the meeting of the centre lines, from over the corner of the walls. Each intermediate value
of an example is checked before its answer.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from roof_measure import RIDGES, Spot, TopLine, on_slope, slope_plane, top_line, upper_end_on_centre
from shop import built, roofed, with_role

from takeoff.measure import format_length
from takeoff.model.building import FramedBuilding

TRIM = {"rafters": {"size": "2x8"}, "overhang": {"eave": 12}, "ridge": {"kind": "board", "size": "2x10"}}


@cache
def hipped(pitch: str, span: float, spacing: float = 16) -> FramedBuilding:
    """A hip roof over a rectangle 10 ft longer than wide."""
    points = [(0.0, 0.0), (span + 120, 0.0), (span + 120, span), (0.0, span)]
    return built(roofed(points, pitch=pitch, **{**TRIM, "rafters": {"size": "2x8", "spacing": spacing}}))


def south_west_hip(framed: FramedBuilding) -> TopLine:
    return next(line for line in map(top_line, with_role(framed.members, "hip")) if max(line.low[:2]) < 0)


def from_corner(line: TopLine, run: float, corner: Spot = (0.0, 0.0), toward: Spot = (1, 1)) -> tuple[float, float]:
    """Level and along the stick, from over a corner of the walls to over the spot that far in along both walls [in]."""
    spot = (corner[0] + toward[0] * run, corner[1] + toward[1] * run)
    assert line.beside(corner) == pytest.approx(0, abs=1e-6)
    assert line.beside(spot) == pytest.approx(0, abs=1e-6)
    return line.level_to(spot) - line.level_to(corner), line.between(corner, spot)


def ridge_start(framed: FramedBuilding) -> Spot:
    """West end of the ridge's centre line, in plan."""
    (ridge,) = with_role(framed.members, *RIDGES)
    low, high = ridge.centre_line
    return min(low, high)[:2]


def test_hip_of_a_half_pitch_roof_of_25_ft_span():
    """Carpentry (1916), App. IV: 12 1/2 x 20.78; the answer is worked out from its printed constant (derived)."""
    framed = hipped("12/12", 300)
    assert ridge_start(framed) == pytest.approx((150, 150)), "the run"
    _, length = from_corner(south_west_hip(framed), 150)
    assert length * 12 / 150 == pytest.approx(20.78, abs=0.005), "a foot of common run"
    assert length == pytest.approx(259.75, abs=12.5 * 0.005), "the answer, of a constant to a hundredth"


def test_hip_of_30_ft_span_at_8_in_12():
    """NAVEDTRA 14044, ch. 2, hip rafter: 16.97 to 18.76 as 21.21 to 23.45 ft."""
    framed = hipped("8/12", 360)
    line = south_west_hip(framed)
    run, length = from_corner(line, 180)
    assert run / 12 == pytest.approx(21.21, abs=0.005), "the hip's run"
    assert run * line.slope / 12 == pytest.approx(10, abs=1e-6), "the total rise"
    assert length * 12 / 180 == pytest.approx(18.76, abs=0.005), "a foot of common run"
    assert length / 12 == pytest.approx(23.45, abs=0.005), "the answer"


def test_valley_of_an_addition_of_30_ft_span_at_9_in_12():
    """NAVEDTRA 14044, ch. 2, valley rafter, fig. 2-41: 15 x 19.21 (misprinted 9.21) is 24.01 ft."""
    points = [(0.0, 0.0), (720.0, 0.0), (720.0, 480.0), (540.0, 480.0), (540.0, 720.0)]
    points += [(180.0, 720.0), (180.0, 480.0), (0.0, 480.0)]
    framed = built(roofed(points, pitch="9/12", **TRIM))
    valleys = [top_line(valley) for valley in with_role(framed.members, "valley")]
    assert len(valleys) == 2
    for line, corner, toward in zip(
        sorted(valleys, key=lambda v: v.low), [(180.0, 480.0), (540.0, 480.0)], [(1, -1), (-1, -1)], strict=True
    ):
        run, length = from_corner(line, 180, corner, toward)
        assert run == pytest.approx(180 * 2**0.5), "the run"
        assert length == pytest.approx(288.15, abs=15 * 0.005), "the answer, of a constant to a hundredth"
        assert length / 12 == pytest.approx(24.01, abs=0.005), "in feet"


@pytest.mark.parametrize(
    ("pitch", "printed", "within"),
    [
        pytest.param("8/12", 19.23, 0.005, id="builder"),  # NAVEDTRA 14044, ch. 2: 12 to 14.42 as 16 to 19.23
        pytest.param("6/12", 18.0, 0.25, id="cyclopedia"),  # vol. 3: 1 1/3 x 13 5/12 is 1'-6", to the half inch
    ],
)
def test_common_difference_of_jacks_at_16_in(pitch, printed, within):
    jacks = [top_line(jack) for jack in on_slope(hipped(pitch, 288), "side 1 slope", "hip-jack")]
    west = [line.length for line in jacks if line.low[0] < 142]
    steps = [b - a for a, b in pairwise(west)]
    assert len(steps) >= 6
    assert steps == pytest.approx([printed] * len(steps), abs=within)
    first = min((line.low[0], line) for line in jacks)[1]
    assert first.between((16.0, 0.0), (16.0, 16.0)) == pytest.approx(printed, abs=within), "the shortest is as long"


def test_a_hip_of_1_1_2_in_shortens_a_jack_by_1_1_16_in_level():
    """NAVEDTRA 14044, ch. 2: half the 45-degree thickness of the hip, measured level along the jack."""
    for jack in on_slope(hipped("8/12", 288), "side 1 slope", "hip-jack"):
        x, y = upper_end_on_centre(jack)
        fold = min(x, 408 - x)  # the hip's centre line is as far from one wall as from the other
        assert fold - y == pytest.approx(1.0625, abs=1 / 32)


def test_the_ridge_of_a_hip_roof_28_by_64_ft_is_36_ft():
    """Slides of a carpentry course: length less width, 36 ft, to the meeting of the centre lines."""
    points = [(0.0, 0.0), (768.0, 0.0), (768.0, 336.0), (0.0, 336.0)]
    framed = built(roofed(points, pitch="6/12", **TRIM))
    ridges = with_role(framed.members, *RIDGES)
    ends = [spot for ridge in ridges for spot in ridge.centre_line]
    assert min(ends)[:2] == pytest.approx((168, 168)), "half the width in from the west"
    assert max(ends)[:2] == pytest.approx((600, 168)), "and from the east"
    assert format_length(sum(ridge.length_in for ridge in ridges)) == "36'-0\""


def test_the_last_7_in_of_common_run_step_9_11_12_in_along_the_hips_run():
    """Carpentry (1916), sec. 23: quarter pitch, run of 12'-7"; stepped with 17 and 6, the part step is 7/12 of it."""
    line = south_west_hip(hipped("6/12", 2 * 151))
    (whole, _), (feet, _) = from_corner(line, 151), from_corner(line, 144)
    assert whole - feet == pytest.approx(9 + 11 / 12, abs=1 / 24), "run, to a twelfth of an inch"
    assert (whole - feet) * line.slope == pytest.approx(3.5, abs=1e-6), "rise"


def test_the_run_of_a_hip_for_6_in_of_common_run_is_8_1_2_in():
    """Cyclopedia of carpentry and building (c. 1907), hips: to the half inch."""
    run, _ = from_corner(south_west_hip(hipped("8/12", 288)), 6)
    assert run == pytest.approx(8.5, abs=0.25)


def test_the_slopes_over_the_hip_and_the_hip_rise_by_the_same_total():
    """NAVEDTRA 14044, ch. 2: hip and common have one total rise; the hip makes it on the longer run."""
    framed = hipped("8/12", 360)
    common = slope_plane(on_slope(framed, "side 1 slope", "common-rafter")[0])
    line = south_west_hip(framed)
    rise = common.height_over((180.0, 180.0)) - common.height_over((180.0, 0.0))
    assert rise == pytest.approx(line.height_over((180.0, 180.0)) - line.height_over((0.0, 0.0)))
