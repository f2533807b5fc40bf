"""Lengths: rounding, how they are written, and that reading undoes writing."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeoff.measure import MAX_LENGTH_IN, format_inches, format_length, parse_length, round_to

DENOMINATORS = st.sampled_from([1, 2, 4, 8, 16, 32, 64])
LENGTHS_IN = st.floats(-MAX_LENGTH_IN + 1, MAX_LENGTH_IN - 1)


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (150.5, "12'-6 1/2\""),
        (0, '0"'),
        (0.75, '3/4"'),
        (5.5, '5 1/2"'),
        (96, "8'-0\""),
        (144.5, "12'-0 1/2\""),
        (-14, "-1'-2\""),
        (-0.75, '-3/4"'),
        (11.97, "1'-0\""),  # 11 31/32 and a little: rounds to the foot
        (11.96, '11 15/16"'),
        (-0.01, '0"'),
        (140.917, "11'-8 15/16\""),
        (163.81, "13'-7 13/16\""),
    ],
)
def test_a_length_is_written_in_feet_and_inches(inches: float, text: str) -> None:
    assert format_length(inches) == text


@pytest.mark.parametrize(
    ("inches", "text"), [(150.5, '150 1/2"'), (0, '0"'), (-0.25, '-1/4"'), (8.367, '8 3/8"'), (96, '96"')]
)
def test_inches_alone_have_no_feet(inches: float, text: str) -> None:
    assert format_inches(inches) == text


def test_fractions_are_reduced_at_every_denominator() -> None:
    assert [format_inches(0.5, denominator=d) for d in (2, 4, 8, 16, 32, 64)] == ['1/2"'] * 6
    assert format_length(12.515625, denominator=64) == "1'-0 33/64\""
    assert format_length(12.5, denominator=1) == "1'-1\""


@pytest.mark.parametrize(
    ("inches", "rounded"),
    [
        (0.03125, 0.0625),  # a half step goes up
        (0.031249999999, 0.0625),  # and so does a half less the noise of floats
        (0.0312, 0.0),
        (0.0313, 0.0625),
        (-0.03125, -0.0625),  # away from zero
        (-0.0312, 0.0),
        (3 * 0.1 + 0.01250, 0.3125),
        (119_999.03125, 119_999.0625),
    ],
)
def test_a_half_rounds_away_from_zero(inches: float, rounded: float) -> None:
    assert round_to(inches) == rounded
    assert math.copysign(1, round_to(inches)) == math.copysign(1, rounded)


@pytest.mark.parametrize("denominator", [0, -16, 3, 10, 12, 128])
@pytest.mark.parametrize("write", [format_length, format_inches, round_to])
def test_a_denominator_that_is_on_no_tape_is_refused(write: Callable[..., object], denominator: int) -> None:
    with pytest.raises(ValueError, match="not "):
        write(1.0, denominator=denominator)


@pytest.mark.parametrize("inches", [math.nan, math.inf, -math.inf])
def test_only_finite_lengths_are_rounded(inches: float) -> None:
    with pytest.raises(ValueError, match="not a length"):
        round_to(inches)


@given(st.integers(-120_000 * 64, 120_000 * 64), DENOMINATORS)
def test_parse_undoes_format_on_every_step_of_the_tape(steps: int, denominator: int) -> None:
    inches = max(-MAX_LENGTH_IN, min(MAX_LENGTH_IN, steps / denominator))
    assert parse_length(format_length(inches, denominator=denominator)) == inches
    assert parse_length(format_inches(inches, denominator=denominator)) == inches


@given(LENGTHS_IN, DENOMINATORS)
def test_a_written_length_is_never_off_by_more_than_half_a_step(inches: float, denominator: int) -> None:
    written = parse_length(format_length(inches, denominator=denominator))
    assert abs(written - inches) <= 0.5 / denominator + 1.1e-7  # half a step, and the slack that round_to documents
    assert written == round_to(inches, denominator=denominator)


@given(LENGTHS_IN, DENOMINATORS)
def test_rounding_is_odd_and_stays_where_it_is(inches: float, denominator: int) -> None:
    rounded = round_to(inches, denominator=denominator)
    assert round_to(-inches, denominator=denominator) == -rounded
    assert round_to(rounded, denominator=denominator) == rounded
