"""Pitches: every form that is read, what is refused, the two cuts they give."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeoff.measure import MeasureError, Pitch, parse_pitch


@pytest.mark.parametrize(
    ("text", "rise"),
    [
        ("8/12", 8),
        ("8:12", 8),
        ("8 : 12", 8),
        ("8 in 12", 8),
        ("8-in-12", 8),
        ("8 IN 12", 8),
        ("8in12", 8),
        ("6.5/12", 6.5),
        ("6 1/2 /12", 6.5),
        ("6 1/2/12", 6.5),
        ("6-1/2 in 12", 6.5),
        ("6½/12", 6.5),
        ("8⁄12", 8),
        ("10/24", 5),
        ("1:4", 3),
        ("1 in 1", 12),
        ("24/12", 24),
        ("45deg", 12),
        ("45°", 12),
        ("45 degrees", 12),
        ("45 deg.", 12),
    ],
)
def test_every_form_of_a_pitch_is_read(text: str, rise: float) -> None:
    assert parse_pitch(text).rise == pytest.approx(rise, rel=1e-15)


@pytest.mark.parametrize("text", ["33.69deg", "33.69°", "33.690 degrees"])
def test_degrees_give_the_rise_they_stand_for(text: str) -> None:
    assert parse_pitch(text).deg == pytest.approx(33.69, abs=1e-12)
    assert str(parse_pitch(text)) == "8/12"


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        ("", 0, "no run"),
        ("8", 1, "no run and no degrees; write 8/12 or 8deg"),
        ("33.7", 4, "write 33.7/12 or 33.7deg"),
        ("steep", 5, "no run"),
        ("1/4", 2, "over the run, or over the span?"),
        ("6 1/2", 4, "over the run, or over the span?"),
        ("8/0", 2, "a run of nothing"),
        ("8:0", 2, "a run of nothing"),
        ("0/12", 0, "above level"),
        ("0°", 0, "above level"),
        ("-8/12", 0, "a number is wanted"),
        ("/12", 0, "a number is wanted"),
        ("deg", 0, "a number is wanted"),
        ("90deg", 0, "below plumb"),
        ("135deg", 0, "below plumb"),
        ("8//12", 1, "one whole number over another"),
        ("8'/12", 1, "does not belong"),
        ("8/-12", 5, "no run"),
        ("9" * 39 + "/12", 40, "more than 40 characters"),
    ],
)
def test_an_unclear_pitch_is_refused_with_a_caret(text: str, at: int, says: str) -> None:
    with pytest.raises(MeasureError) as caught:
        parse_pitch(text)
    assert says in caught.value.fault
    assert "write " in caught.value.fault
    assert caught.value.at == at


def test_a_pitch_given_as_a_number_is_told_both_ways_to_write_it() -> None:
    with pytest.raises(MeasureError, match="write 8/12 or 8deg"):
        parse_pitch(8)


def test_a_pitch_gives_slope_and_both_cuts() -> None:
    pitch = Pitch(8)
    assert pitch.slope == pytest.approx(2 / 3)
    # atan(8/12), and its complement at the seat
    assert pitch.deg == pytest.approx(33.690, abs=5e-4)
    assert pitch.seat_deg == pytest.approx(56.310, abs=5e-4)


@pytest.mark.parametrize("rise", [0, -8, math.nan, math.inf])
def test_a_pitch_is_above_level_and_below_plumb(rise: float) -> None:
    with pytest.raises(ValueError, match="above level and below plumb"):
        Pitch(rise)


@given(st.integers(1, 48 * 16))
def test_parse_undoes_the_text_of_a_pitch_on_every_sixteenth_of_rise(sixteenths: int) -> None:
    pitch = Pitch(sixteenths / 16)
    assert parse_pitch(str(pitch)) == pitch


@given(st.floats(0.01, 89.9))
def test_a_pitch_keeps_its_degrees(deg: float) -> None:
    assert parse_pitch(f"{deg:.6f} deg").deg == pytest.approx(deg, abs=1e-6)
