"""Grades, the lengths they are on sale in, and weights by grade."""

from __future__ import annotations

import pytest

from takeoff.catalog.grades import grade, grades, grades_for
from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile, profiles
from takeoff.catalog.unknown import UnknownItem
from takeoff.catalog.weights import density, weight_per_ft


def feet(*lengths: float) -> tuple[float, ...]:
    return tuple(length * 12 for length in lengths)


@pytest.mark.parametrize("written", ["no2", "No. 2", "#2", "NO2"])
def test_a_grade_is_taken_in_any_writing(written):
    assert grade(written).name == "no2"


def test_an_unknown_grade_offers_the_nearest():
    with pytest.raises(UnknownItem) as caught:
        grade("glulm")
    assert caught.value.nearest[0] == "glulam"


def test_engineered_materials_and_sawn_grades_do_not_mix():
    assert grade("glulam").fits(profile("5-1/2x14"))
    assert not grade("no2").fits(profile("5-1/2x14"))
    assert not grade("lvl").fits(profile("2x10"))
    assert [known.name for known in grades_for(profile("5-1/2x14"))] == ["glulam", "lvl", "psl", "lsl"]


@pytest.mark.parametrize(
    ("name", "grade_name", "expected"),
    [
        ("2x6", "no2", feet(8, 10, 12, 14, 16, 18, 20)),
        ("2x10", "no2", feet(8, 10, 12, 14, 16, 18, 20, 22, 24)),
        ("2x10", "trim", feet(8, 10, 12, 14, 16, 18, 20)),
        ("1x6", "trim", feet(8, 10, 12, 14, 16, 18, 20)),
        ("6x6", "no2", feet(8, 10, 12, 14, 16, 18, 20, 22, 24)),
        ("2x4", "lvl", ()),
        ("5-1/2x14", "glulam", feet(*range(8, 61))),
    ],
)
def test_lengths_on_sale(name, grade_name, expected):
    assert stock_lengths(profile(name), grade_name) == expected


def test_studs_are_sold_precut_beside_full_lengths():
    precut_and_full = stock_lengths(profile("2x6"), "stud")
    assert precut_and_full == (92.625, 96.0, 104.625, 108.0, 116.625, 120.0)
    assert 92.625 not in stock_lengths(profile("2x8"), "stud")


@pytest.mark.parametrize("known", profiles(), ids=lambda known: known.name)
def test_every_profile_is_sold_in_every_grade_that_fits_it(known):
    for fitting in grades_for(known):
        lengths = stock_lengths(known, fitting.name)
        assert lengths == tuple(sorted(set(lengths)))
        assert lengths


def test_every_grade_has_a_weight():
    for known in grades():
        stick = next((each for each in profiles() if known.fits(each)), None)
        assert stick is not None
        assert weight_per_ft(stick, known.name) > 0


def test_treated_lumber_weighs_more_than_dry_and_species_differ():
    joist = profile("2x10")
    assert weight_per_ft(joist, "treated") > weight_per_ft(joist, "no2", "sp") > weight_per_ft(joist, "no2", "spf")


def test_an_unknown_species_is_refused():
    with pytest.raises(UnknownItem, match="species"):
        density("balsa")
