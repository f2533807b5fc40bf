"""Sizes of openings: the four-figure call, and width by height."""

from __future__ import annotations

import pytest

from takeoff.measure import MeasureError, parse_call


@pytest.mark.parametrize(
    ("call", "size"),
    [
        (3040, (36, 48)),
        ("3040", (36, 48)),
        (" 2668 ", (30, 80)),
        ("0640", (6, 48)),
        ("3'-0\" x 4'-0\"", (36, 48)),
        ("36x48", (36, 48)),
        ("36 X 48", (36, 48)),
        ("2'-10\" × 6'-8\"", (34, 80)),
        ("900mm x 2m", (900 / 25.4, 2000 / 25.4)),
    ],
)
def test_the_size_of_an_opening_is_width_then_height(call: str | int, size: tuple[float, float]) -> None:
    assert parse_call(call) == pytest.approx(size)


@pytest.mark.parametrize(
    ("call", "at", "says"),
    [
        (304, 0, "four figures"),
        (21068, 0, "four figures"),
        ("260108", 0, "four figures"),
        (-3040, 0, "four figures"),
        ("", 0, "four figures"),
        ("3'-0\"", 0, "four figures"),
        ("3x4x5", 3, "four figures"),
        ("3000", 0, "above zero"),
        ("0x48", 0, "above zero"),
        ("-36x48", 0, "above zero"),
        ("36x", 3, "a number is wanted"),
        ("36 x 4 8", 7, "two numbers"),
    ],
)
def test_other_calls_are_refused_and_told_to_be_written_out(call: str | int, at: int, says: str) -> None:
    with pytest.raises(MeasureError) as caught:
        parse_call(call)
    assert says in caught.value.fault
    assert caught.value.at == at


def test_a_call_of_five_figures_is_told_the_long_form() -> None:
    with pytest.raises(MeasureError, match=r"\{width: .*, height: .*\}"):
        parse_call(21068)
