"""Names of profiles, as builders write them."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeoff.catalog.profiles import Kind, Profile, profile, profiles
from takeoff.catalog.unknown import UnknownItem


@pytest.mark.parametrize("written", ["2x10", "2X10", " 2 x 10 ", "2×10", '2"x10"', "2” × 10”"])
def test_a_nominal_name_is_taken_in_any_writing(written):
    known = profile(written)
    assert (known.name, known.kind, known.thickness_in, known.depth_in) == ("2x10", Kind.DIMENSION, 1.5, 9.25)


@pytest.mark.parametrize("written", ["5-1/2x14", "5 1/2 x 14", "5½x14", "5.5x14", '5-1/2"x14"', "5 – 1/2 X 14"])
def test_a_stated_size_is_engineered_wood_in_any_writing(written):
    stated = profile(written)
    assert stated == Profile(name="5-1/2x14", kind=Kind.ENGINEERED, thickness_in=5.5, depth_in=14.0)
    assert stated.board_feet_per_ft == 0


@pytest.mark.parametrize(
    ("name", "thickness_in", "depth_in"),
    [("1-3/4x11-7/8", 1.75, 11.875), ("3-1/2x9-1/2", 3.5, 9.5), ("7x14", 7.0, 14.0), ("5-1/4x5-1/4", 5.25, 5.25)],
)
def test_stated_sizes_are_the_actual_ones(name, thickness_in, depth_in):
    stated = profile(name)
    assert (stated.name, stated.kind) == (name, Kind.ENGINEERED)
    assert (stated.thickness_in, stated.depth_in) == (thickness_in, depth_in)


@pytest.mark.parametrize("written", [known.name for known in profiles()] + ["1-3/4x9-1/4", "3/4x5-1/2", "5.5x14"])
def test_a_profile_is_found_again_by_its_own_name(written):
    known = profile(written)
    assert profile(known.name) == known


@pytest.mark.parametrize("thickness", range(1, 49))
def test_stated_sizes_in_thirty_seconds_keep_their_name(thickness):
    name = profile(f"{thickness / 32 + 0.5:.5f}x11-7/8").name
    assert profile(name).name == name
    assert profile(name).thickness_in == thickness / 32 + 0.5


@pytest.mark.parametrize(("turned", "right"), [("10x2", "2x10"), ("6x5/4", "5/4x6"), ("14x5-1/2", "5-1/2x14")])
def test_a_size_the_wrong_way_round_is_told_how_to_write_it(turned, right):
    with pytest.raises(UnknownItem, match=f"write {right}, thickness first"):
        profile(turned)


def test_an_unknown_size_offers_the_sizes_beside_it():
    with pytest.raises(UnknownItem) as caught:
        profile("2x11")
    assert set(caught.value.nearest) == {"2x10", "2x12"}
    assert "2x10" in str(caught.value)


def test_whole_numbers_that_are_no_nominal_size_are_not_taken_for_an_actual_one():
    with pytest.raises(UnknownItem, match="written with its fraction"):
        profile("5x14")


@pytest.mark.parametrize(
    "bad", ["", "x", "2x", "2", "2x10x12", "5/4x7", "3'x4'", "0x5-1/2", "1/2x49.5", "1.3x4", "²x4"]
)
def test_what_is_no_size_is_refused(bad):
    with pytest.raises(UnknownItem):
        profile(bad)


@given(st.text(alphabet="0123456789x×X-/. \"½'m", max_size=30) | st.text(max_size=30))
def test_any_text_is_a_profile_or_an_unknown_item(text):
    try:
        known = profile(text)
    except UnknownItem as error:
        assert repr(text) in str(error)  # noqa: PT017  (a profile is as good a result)
    else:
        assert 0 < known.thickness_in <= known.depth_in


def test_an_unknown_item_survives_the_way_between_processes():
    error = UnknownItem("profile", "2x11", ("2x10",))
    assert str(pickle.loads(pickle.dumps(error))) == str(error)
