"""Dressed sizes of every profile sold against the softwood lumber standard.

Sources: PS 20, American Softwood Lumber Standard, table of nominal and minimum dressed sizes (read), in
``data/dressed_sizes.csv``; section areas of timbers in the NDS Supplement, Table 1B (recalled, not read).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from takeoff.catalog.profiles import Kind, profile, profiles
from takeoff.measure import parse_length

PS_20 = list(csv.DictReader((Path(__file__).parent / "data" / "dressed_sizes.csv").read_text().splitlines()))


@pytest.mark.parametrize("row", PS_20, ids=lambda row: row["name"])
def test_dressed_size_is_the_standards(row):
    """Dry for boards and dimension lumber, green for timbers: the state they are sold in."""
    sold = profile(row["name"])
    state = "green" if row["class"] == "timber" else "dry"
    assert sold.kind == row["class"]
    assert sold.thickness_in == parse_length(row[f"{state}_thickness"])
    assert sold.depth_in == parse_length(row[f"{state}_width"])


@pytest.mark.parametrize("row", PS_20, ids=lambda row: row["name"])
def test_board_feet_a_foot_are_the_nominal_size_over_twelve(row):
    assert profile(row["name"]).board_feet_per_ft == pytest.approx(float(row["board_feet_per_ft"]), abs=5e-5)


def test_every_sawn_profile_in_the_catalog_is_checked():
    sawn = {known.name for known in profiles() if known.kind not in (Kind.ENGINEERED, Kind.PREFAB)}
    assert sawn == {row["name"] for row in PS_20}


@pytest.mark.parametrize(
    ("name", "area_in2"),
    [("6x6", "30.25"), ("6x8", "41.25"), ("8x8", "56.25"), ("6x10", "52.25"), ("8x10", "71.25"), ("10x10", "90.25")],
)
def test_section_area_of_timbers(name, area_in2):
    """NDS Supplement, Table 1B; from memory. It takes the green size, as the catalog does."""
    assert profile(name).area_in2 == pytest.approx(float(area_in2), abs=0.005)
