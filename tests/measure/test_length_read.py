"""Lengths: every form that is read, and what is refused, with a caret under the fault."""

from __future__ import annotations

import math

import pytest

from takeoff.measure import MAX_LENGTH_IN, MeasureError, parse_length


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12'", 144),
        ("12' 6\"", 150),
        ("12'6\"", 150),
        ("12'6", 150),
        ("12'-6", 150),
        ("12' - 6\"", 150),
        ("12'-6 1/2\"", 150.5),
        ("12'-6-1/2\"", 150.5),
        ("12'-6 1/2", 150.5),
        ("12'-6.5\"", 150.5),
        ("12'-1/2\"", 144.5),
        ("12'-0 1/2\"", 144.5),
        ("12'-11 15/16\"", 155.9375),
        ("12.5'", 150),
        ("12 1/2'", 150),
        ("0'-6\"", 6),
        ("5-1/2", 5.5),
        ('5-1/2"', 5.5),
        ('1/2"', 0.5),
        ("1/2", 0.5),
        ("7 1/16", 7.0625),
        ("7 1 / 16", 7.0625),
        ("6.5", 6.5),
        (".5", 0.5),
        ('16"', 16),
        ("  16  ", 16),
        ("16", 16),
        ("0", 0),
    ],
)
def test_every_plain_form_is_read(text: str, inches: float) -> None:
    assert parse_length(text) == inches


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12 ft", 144),
        ("12ft 6in", 150),
        ("12ft6in", 150),
        ("12 ft. 6 in.", 150),
        ("12 FT 6", 150),
        ("12 feet 6 inches", 150),
        ("1 foot 1 inch", 13),
        ("6 in", 6),
        ("12’-6”", 150),
        ("12′6″", 150),
        ("12′ 6′′", 150),
        ("12'6''", 150),
        ("6''", 6),
        ("6’’", 6),
        ("½", 0.5),
        ('5½"', 5.5),
        ("5-½", 5.5),
        ("12'-6⅛\"", 150.125),
        ("⅝", 0.625),
        ("5 1⁄2", 5.5),
        ("12'–6 1/2\"", 150.5),
        ("12\u00a0ft\u20096\u00a0in", 150),
    ],
)
def test_typographic_marks_and_words_are_read(text: str, inches: float) -> None:
    assert parse_length(text) == inches


@pytest.mark.parametrize(("text", "mm"), [("3.2m", 3200), ("305mm", 305), ("305 MM", 305), ("30cm", 300), ("-5mm", -5)])
def test_metric_lengths_are_converted_at_25_4_mm_an_inch(text: str, mm: float) -> None:
    # The inch is 25.4 mm exactly: international yard and pound agreement, 1959 (from memory).
    assert parse_length(text) == pytest.approx(mm / 25.4, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "inches"),
    [('-3/4"', -0.75), ("−3/4", -0.75), ("–3/4", -0.75), ("-1'-2\"", -14), ("- 5-1/2", -5.5), ("-12' 6\"", -150)],
)
def test_a_leading_minus_applies_to_the_whole_length(text: str, inches: float) -> None:
    assert parse_length(text) == inches


@pytest.mark.parametrize("zero", ["-0", "-0'-0\"", -0.0])
def test_there_is_no_minus_zero(zero: str | float) -> None:
    assert math.copysign(1, parse_length(zero)) == 1


@pytest.mark.parametrize(("number", "inches"), [(16, 16.0), (92.625, 92.625), (-3, -3.0)])
def test_a_bare_number_is_inches(number: float, inches: float) -> None:
    assert parse_length(number) == inches
    assert type(parse_length(number)) is float


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        ("", 0, "a number is wanted"),
        ("   ", 3, "a number is wanted"),
        ("-", 1, "a number is wanted"),
        ("'", 0, "a number is wanted"),
        ("“6”", 0, "a number is wanted"),
        ("12 6", 3, "write 12'-6\" if feet and inches"),
        ("12-6", 3, "write 12'-6\" if feet and inches"),
        ("12-6 1/2", 3, "write 12'-6 1/2\" if feet and inches"),
        ("12 - 6", 5, "write 12'-6\" if feet and inches"),
        ("12-14", 3, "no foot mark between them; write 12'-6 1/2\""),
        ("1 2 3", 2, "write 1'-2\""),
        ("5 1/2/3", 5, "one whole number over another"),
        ("1.5/2", 3, "one whole number over another"),
        ("5.5 1/2", 4, "a decimal and a fraction"),
        ("1/2 3/4", 4, "does not belong"),
        ("51/2", 0, "a fraction of one or more"),
        ('3/2"', 0, "a fraction of one or more"),
        ("1/0", 0, "over zero"),
        ("12'-1/0\"", 4, "over zero"),
        ("5 - 1/2", 2, 'reads as a minus; write 5-1/2"'),
        ("5 -1/2", 2, "reads as a minus"),
        ("8/12", 0, "a pitch, where a length is wanted"),
        ("12' 6'", 5, "feet twice; write 12'-6\""),
        ("6\" 2'", 3, "feet come first, then inches"),
        ("12'-", 4, "a number is wanted"),
        ("12'-14\"", 4, "write 13'-2\""),
        ("12'-12", 4, "write 13'-0\""),
        ("12'-14 1/2\"", 4, "write 13'-2 1/2\""),
        ("12'-14.3\"", 4, "write 13'-2.3\""),
        ("12.5' 6\"", 6, "write 13'-0\""),
        ("12'-6\" 3", 7, "does not belong"),
        ("12'--6", 4, "a number is wanted"),
        ("--6", 1, "a number is wanted"),
        ("1,5", 1, "a comma"),
        ("1,200", 1, "a comma"),
        ("1.2.3", 3, "two numbers"),
        ("12.", 2, "does not belong"),
        ("1e3", 1, "does not belong"),
        ("nan", 0, "a number is wanted"),
        ("inf", 0, "a number is wanted"),
        ("+6", 0, "a number is wanted"),
        ("6 yd", 2, "does not belong"),
        ("3m 20cm", 3, "does not belong"),
        ("12'-30mm", 6, "does not belong"),
        ("٣", 0, "a number is wanted"),
        ("10000'-0 1/16\"", 0, "more than 10,000 feet"),
        ("-10001'", 0, "more than 10,000 feet"),
        ("9" * 41, 40, "more than 40 characters"),
    ],
)
def test_unclear_text_is_refused_with_a_caret_under_the_fault(text: str, at: int, says: str) -> None:
    with pytest.raises(MeasureError) as caught:
        parse_length(text)
    assert says in caught.value.fault
    assert "write " in caught.value.fault
    assert caught.value.at == at
    first, shown, caret = str(caught.value).split("\n")
    assert first == caught.value.fault
    assert shown.startswith("    " + text[:40])
    assert caret == " " * (4 + at) + "^"


def test_ten_thousand_feet_are_still_a_length() -> None:
    assert parse_length("10000'") == parse_length(120_000) == MAX_LENGTH_IN
