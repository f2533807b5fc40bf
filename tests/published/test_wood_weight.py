"""Weights against published densities and against air-dry shipping weights.

Sources: NDS Supplement, section 3.1.3 (formula, read) with the specific gravities of NDS Table 12.3.3A (from memory);
Wood Handbook FPL-GTR-190, ch. 4, worked example (read, on a page citing it); air-dry weights of an Oregon State
University table after the Wood Handbook (read); Canadian Wood Council note on the weight of strand board (read).
"""

from __future__ import annotations

import pytest

from takeoff.catalog.profiles import profile
from takeoff.catalog.sheets import sheet_product, sheet_products
from takeoff.catalog.weights import density, weight_per_ft, wood_density


@pytest.mark.parametrize(
    ("specific_gravity", "moisture_pct", "lb_ft3"),
    [
        (0.50, 12, "33.154"),
        (0.50, 15, "33.611"),
        (0.50, 19, "34.204"),
        (0.42, 15, "28.522"),
        (0.43, 19, "29.743"),
        (0.55, 12, "36.283"),
        (0.36, 15, "24.636"),
    ],
)
def test_density_from_specific_gravity(specific_gravity, moisture_pct, lb_ft3):
    """Worked by hand from the formula, e.g. 62.4 x 0.50 / (1 + 0.50 x 0.009 x 12) x 1.12 = 33.154."""
    assert wood_density(specific_gravity, moisture_pct) == pytest.approx(float(lb_ft3), abs=0.0005)


def test_both_published_formulas_agree_on_one_wood():
    """Wood Handbook: G 0.40 on volume at 12 % weighs 27.968 lb/ft3 (62.43 x 0.40 x 1.12).

    The same wood on oven-dry volume has G / (1 - 0.009 x 12 G) = 0.40 / (1 - 0.0432) = 0.41806. The handbook takes
    62.43 lb/ft3 for water, the supplement 62.4: half a pound in a thousand.
    """
    assert wood_density(0.40 / (1 - 0.0432), 12) == pytest.approx(27.968, rel=0.001)


@pytest.mark.parametrize(
    ("species", "least", "most"),
    [("dfl", 34, 36), ("hf", 26, 31), ("spf", 27, 31)],  # Douglas-fir 34, larch 36; firs 26, hemlock 31; spruce 27
)
def test_densities_are_near_the_air_dry_shipping_weights_of_their_species(species, least, most):
    assert least - 0.5 <= density(species) <= most + 0.5


@pytest.mark.parametrize(
    ("species", "name", "lb_ft"),
    [
        ("dfl", "2x4", "1.225"),
        ("dfl", "2x10", "3.239"),
        ("dfl", "6x6", "7.061"),
        ("hf", "2x6", "1.671"),
        ("hf", "2x12", "3.418"),
        ("spf", "2x4", "1.040"),
        ("spf", "2x6", "1.634"),
        ("spf", "2x8", "2.154"),
        ("spf", "2x10", "2.748"),
        ("spf", "2x12", "3.342"),
        ("spf", "4x12", "7.799"),
        ("sp", "4x4", "3.125"),
        ("sp", "2x8", "2.775"),
    ],
)
def test_weight_a_foot_of_sawn_lumber_at_15_percent(species, name, lb_ft):
    """Dressed area / 144 x density, worked by hand: 2x10 of spf is 13.875 / 144 x 28.522 = 2.748."""
    assert weight_per_ft(profile(name), "no2", species) == pytest.approx(float(lb_ft), abs=0.0006)


@pytest.mark.parametrize(
    ("name", "material", "lb_ft"),
    [
        ("1-3/4x9-1/2", "lvl", "4.849"),
        ("1-3/4x11-7/8", "lvl", "6.061"),
        ("3-1/2x11-7/8", "lvl", "12.122"),
        ("5-1/4x14", "psl", "22.969"),
        ("5-1/8x15", "glulam", "18.685"),
    ],
)
def test_weight_a_foot_of_engineered_wood(name, material, lb_ft):
    """Worked by hand from densities of maker and association literature (from memory)."""
    assert weight_per_ft(profile(name), material) == pytest.approx(float(lb_ft), abs=0.0006)


@pytest.mark.parametrize("product", [each for each in sheet_products() if each.material == "osb"], ids=lambda p: p.name)
def test_strand_board_weighs_forty_pounds_a_cubic_foot(product):
    """Canadian Wood Council: 40 lb/ft3 and nominal thickness; the tabled weights are rounded or cut to a tenth."""
    assert product.weight_psf == pytest.approx(product.thickness_in / 12 * 40, abs=0.1)


def test_a_sheet_of_wall_board_weighs_about_46_pounds():
    """An article on strand board and plywood prints 46 lb for 7/16 in, 4 by 8 ft; 1.4 psf x 32 is 44.8."""
    assert sheet_product("osb-7/16").weight_psf * 32 == pytest.approx(46, abs=1.6)  # half a tenth of a psf on 32 sq ft
