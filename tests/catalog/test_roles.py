"""Roles, loads, waste and hardware: the order's words."""

from __future__ import annotations

import pytest

from takeoff.catalog.hardware import hardware, hardware_items
from takeoff.catalog.roles import CATEGORIES, load_words, role, roles
from takeoff.catalog.unknown import UnknownItem
from takeoff.catalog.waste import default_waste_pct, waste_categories


@pytest.mark.parametrize("each", roles(), ids=lambda each: each.name)
def test_every_role_has_a_category_with_waste_and_a_load_with_words(each):
    assert 0 <= default_waste_pct(each.category) <= 10
    assert load_words(each.load)


def test_no_two_roles_share_a_name_or_a_letter():
    assert len({each.name for each in roles()}) == len({each.letter for each in roles()}) == len(roles())


def test_letters_and_layout_symbols_are_easy_to_write():
    for each in roles():
        assert each.letter.isascii()
        assert each.letter.isalpha()
        assert each.letter.isupper()
        assert 1 <= len(each.layout_symbol) <= 2
        assert all(33 <= ord(character) < 127 for character in each.layout_symbol)


def test_sticks_that_stand_on_one_layout_have_marks_of_their_own():
    standing = ("stud", "king-stud", "jack-stud", "cripple", "corner-stud", "post", "common-rafter", "end-rafter")
    assert len({role(name).layout_symbol for name in standing}) == len(standing)


def test_the_barge_goes_up_with_the_roof_frame_and_the_fascia_after_the_sheathing():
    assert (role("barge").load, role("false-ridge").load, role("fascia").load) == (2, 2, 4)


def test_a_role_is_taken_with_a_space_or_a_hyphen():
    assert role("Common rafter") is role("common-rafter")


def test_deliveries_are_numbered_from_one_to_five():
    assert load_words(1) == "walls and floors"
    assert load_words(5) == "dry-in"
    with pytest.raises(UnknownItem):
        load_words(6)


def test_waste_covers_every_category_of_the_order():
    assert set(waste_categories()) == {*CATEGORIES, "sheathing", "hardware", "fasteners"}
    with pytest.raises(UnknownItem, match="did you mean 'rafters'"):
        default_waste_pct("rafter")


def test_hardware_is_known_by_what_it_does():
    assert hardware("rafter hanger").by_profile
    others = {
        "hurricane-tie",
        "post-cap",
        "panel-clip",
        "anchor-bolt",
        "sill-gasket",
        "backing-clip",
        "header-packing",
        "bridging-pair",
        "deck-glue",
    }
    hangers = {"rafter-hanger", "square-hanger", "header-hanger", "joist-hanger", "floor-header-hanger"}
    porch = {"post-base", "beam-hanger"}
    assert {item.name for item in hardware_items()} == {*hangers, *others, *porch}
    with pytest.raises(UnknownItem):
        hardware("glue")
