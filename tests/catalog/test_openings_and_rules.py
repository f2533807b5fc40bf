"""Usual openings and headers, and the limits of the screening."""

from __future__ import annotations

import pytest

from takeoff.catalog.openings import opening_kind, opening_kinds, usual_header
from takeoff.catalog.rules import rule, rules
from takeoff.catalog.unknown import UnknownItem


@pytest.mark.parametrize(
    ("kind", "rough"),
    [
        ("window", (36.5, 48.5)),
        ("door", (38.0, 50.5)),
        ("cased", (36.0, 48.0)),
        ("sliding", (36.5, 48.5)),
        ("garage", (39.0, 49.5)),
    ],
)
def test_rough_openings_are_the_call_and_an_allowance(kind, rough):
    assert opening_kind(kind).rough_size(36.0, 48.0) == rough


def test_heads_line_up_over_all_kinds_of_opening():
    # a 6'-8" door with 2-1/2 in added has its rough head at 82-1/2 in: 80 + 2-1/2
    assert {kind.head_in for kind in opening_kinds()} == {82.5}


def test_only_a_window_keeps_the_bottom_plate():
    assert {kind.name for kind in opening_kinds() if kind.sill} == {"window"}


@pytest.mark.parametrize(
    ("clear_in", "ply"),
    [(30, "2x6"), (48, "2x6"), (48.01, "2x8"), (72, "2x8"), (96, "2x10"), (97, "2x12"), (144, "2x12")],
)
def test_the_usual_header_grows_with_the_opening(clear_in, ply):
    header = usual_header(clear_in)
    assert header is not None
    assert (header.plies, header.profile.name) == (2, ply)


def test_an_opening_wider_than_the_table_has_no_usual_header():
    assert usual_header(144.5) is None


def test_no_two_rules_share_an_id():
    assert len({each.id for each in rules()}) == len(rules())


@pytest.mark.parametrize("each", rules(), ids=lambda each: each.id)
def test_a_rule_names_its_section_and_edition_or_is_common_practice(each):
    assert each.value > 0
    assert (each.how_known == "practice") == (each.section == "") == (each.edition == "")


@pytest.mark.parametrize(
    ("rule_id", "value", "section"),
    [
        ("notch.end-depth", 0.25, "R502.8.1, R802.7.1"),
        ("notch.tail-depth", 3.5, "R802.7.1.1"),
        ("bearing.rafter", 1.5, "R802.6"),
        ("plate.joint-offset", 24, "R602.3.2"),
        ("fireblock.interval", 120, "R302.11"),
        ("vent.area", 1 / 150, "R806.2"),
    ],
)
def test_limits_stand_with_their_sections(rule_id, value, section):
    assert (rule(rule_id).value, rule(rule_id).section) == (value, section)


@pytest.mark.parametrize(("look_up", "written"), [(rule, "notch.end-dept"), (opening_kind, "windw")])
def test_a_misspelt_name_offers_the_right_one(look_up, written):
    with pytest.raises(UnknownItem, match="did you mean"):
        look_up(written)
