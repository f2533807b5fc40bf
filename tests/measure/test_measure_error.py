"""What every reader of measures owes whatever it is given: a value, or one clear error."""

from __future__ import annotations

import copy
import math
import pickle
import time
from collections.abc import Callable

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from takeoff.measure import MeasureError, parse_call, parse_length, parse_pitch

NASTY = st.text(alphabet="0123456789 .,-–−+/⁄:'’′\"”½⅛°xX×eEinftcmdeg\t\n\u00a0\u0301\ud800", max_size=45)


@pytest.mark.parametrize(
    "value",
    [
        True,
        False,
        math.nan,
        math.inf,
        -math.inf,
        120_000.1,
        -120_001,
        pytest.param(10**5000, id="5001 figures"),
        None,
        [],
        {},
        b"6",
    ],
)
@pytest.mark.parametrize("parse", [parse_length, parse_pitch, parse_call])
def test_values_that_are_no_measure_are_refused(parse: Callable[[object], object], value: object) -> None:
    with pytest.raises(MeasureError, match="write "):
        parse(value)


def test_what_has_no_column_of_its_own_is_shown_as_a_dot() -> None:
    with pytest.raises(MeasureError) as caught:
        parse_length("1\t2\n'\ud800")
    assert str(caught.value).split("\n")[1] == "    1·2·'·"
    assert str(caught.value).encode()


def test_an_error_can_be_copied_and_pickled() -> None:
    error = MeasureError("feet twice", "1' 2'", 4)
    for twin in (copy.copy(error), pickle.loads(pickle.dumps(error))):
        assert (str(twin), twin.at) == (str(error), 4)


def test_long_text_is_refused_without_being_searched() -> None:
    started = time.perf_counter()
    for text in ("1 " * 500_000, "1/" * 500_000, "'" * 1_000_000, " " * 1_000_000 + "x"):
        for parse in (parse_length, parse_pitch, parse_call):
            with pytest.raises(MeasureError):
                parse(text)
    assert time.perf_counter() - started < 1  # a search that doubles with each character would never end


@given(st.one_of(st.text(), NASTY))
@example("⅟16")
@example("0" * 37 + "/12")
@example("9" * 38 + "/1")
@example("89.99999999999999999deg")
def test_no_text_raises_anything_but_a_measure_error(text: str) -> None:
    for parse in (parse_length, parse_pitch, parse_call):
        said = refusal(parse, text)
        assert said == b"" or (b"write " in said and said.endswith(b"^"))


def refusal(parse: Callable[[str], object], text: str) -> bytes:
    """The whole message, as a terminal gets it, where the text is refused; nothing where it is read."""
    try:
        parse(text)
    except MeasureError as error:
        return str(error).encode()
    return b""
