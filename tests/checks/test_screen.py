"""Each check of the screening, kept by one plan and broken by another; sources stand in ``rules.csv``."""

from __future__ import annotations

from typing import Any

import pytest
from shop import built, gable, roofed

from takeoff.catalog.rules import rules
from takeoff.checks.screen import screen
from takeoff.findings import Finding, Severity

Keys = dict[str, Any]

BOARD: Keys = {"kind": "board", "size": "2x12"}
BEAM: Keys = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}
RAKED: Keys = {"barge": {"size": "2x10"}, "outlookers": {}}


def beam(**keys: Any) -> Keys:
    return {"ridge": {**BEAM, **keys}}


def raked(rake: float, spacing: float = 16.0) -> Keys:
    return {**RAKED, "overhang": {"rake": rake}, "rafters": {"size": "2x10", "spacing": spacing}}


def findings(rule: str, *, roof: Keys | None = None, **building: Any) -> tuple[Finding, ...]:
    # 32 feet: the last rafter stands as far from its end as the first, at any spacing that goes into a sheet
    plan = gable(**{"length": "32'", "roof": roof, **building})
    return tuple(finding for finding in screen(built(plan), plan) if finding.rule == rule)


# Rule, a roof that keeps it, a roof that breaks it. The arithmetic is of what is found.
CASES: list[tuple[str, Keys, Keys]] = [
    # 2x6 at 12/12: a seat of 3-1/2 notches 2.47 square to the edge, a quarter of the depth is 1-3/8
    ("notch.end-depth", {"pitch": "12/12", "rafters": {"size": "2x6"}},
     {"pitch": "12/12", "rafters": {"size": "2x6", "seat": '3-1/2"'}}),
    # the automatic seat of a 2x10 at 8/12 is 4-1/8
    ("bearing.rafter", {}, {"rafters": {"size": "2x10", "seat": '1"'}}),
    # a tail ripped to a 2x4 is 3-1/2 deep, to a 2x3 2-1/2
    ("notch.tail-depth", {"overhang": {"eave": '12"'}, "tail": {"size": "2x4"}},
     {"overhang": {"eave": '12"'}, "tail": {"size": "2x3"}}),
    # at 12/12 an overhang of 16 is 22.6 along the slope, one of 18 is 25.5
    ("notch.tail-length", {"pitch": "12/12", "overhang": {"eave": '16"'}, "tail": {"size": "2x6"}},
     {"pitch": "12/12", "overhang": {"eave": '18"'}, "tail": {"size": "2x6"}}),
    # a 2x12 is 6 to 1, unblocked
    ("lateral.bearing-ratio", {"rafters": {"size": "2x12"}, "blocking": {"eave": "solid"}},
     {"rafters": {"size": "2x12"}, "blocking": {"eave": "none"}}),
    ("eave.overhang", {"overhang": {"eave": '24"'}}, {"overhang": {"eave": '24-1/2"'}}),
    # three feet out wants outlookers of six; first inside rafter at 48: 36 - 1-1/2 + 48 - 3/4 = 81-3/4 long
    ("rake.overhang", raked(24.0, spacing=48.0), raked(36.0, spacing=48.0)),
    # 12 - 1-1/2 + 16 - 3/4 = 25-3/4 long, half is 12-7/8; for a rake of 18 it is 31-3/4 and 15-7/8
    ("rake.overhang-share", raked(12.0), raked(18.0)),
    # 15-1/4 inside: twice 6-1/2 outside, but not twice 10-1/2
    ("outlooker.back-span", raked(8.0), raked(12.0)),
    # 2x10 at 8/12: the plumb cut is 11.12; a 2x12 is 11-1/4, a 2x10 is 9-1/4
    ("ridge.board-depth", {"ridge": BOARD}, {"ridge": {**BOARD, "size": "2x10"}}),
    ("ridge.structural-slope", {"ridge": BOARD, "pitch": "3/12"}, {"ridge": BOARD, "pitch": "2/12"}),
    # a 1/2 sheet rated 32/16 spans 28 with its edges free, 32 on clips
    ("sheathing.span", {"sheathing": {"field": "cdx-1/2"}, "rafters": {"size": "2x10", "spacing": '24"'}},
     {"sheathing": {"field": "cdx-1/2"}, "rafters": {"size": "2x10", "spacing": '36"'}}),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "kept", "broken"), CASES, ids=[case[0] for case in CASES])
def test_a_roof_that_keeps_a_rule_is_noted_and_one_that_breaks_it_is_warned_of(
    rule: str, kept: Keys, broken: Keys
) -> None:
    passed, failed = findings(rule, roof=kept), findings(rule, roof=broken)
    assert {finding.severity for finding in passed} == {Severity.NOTE}
    assert Severity.WARNING in {finding.severity for finding in failed}
    for finding in (*passed, *failed):
        assert (finding.building, bool(finding.where)) == ("hut", True)
        assert finding.found in finding.message
        assert finding.limit in finding.message


def test_a_narrow_building_s_overhang_is_held_to_a_third_of_the_rafter_s_span() -> None:
    # 8 feet wide on a 1-1/2 board: (48 - 3/4) / 3 = 15-3/4
    narrow: Keys = {"ridge": BOARD, "rafters": {"size": "2x8"}}
    within = findings("eave.overhang-share", span="8'", roof={**narrow, "overhang": {"eave": '15"'}})
    beyond = findings("eave.overhang-share", span="8'", roof={**narrow, "overhang": {"eave": '16"'}})
    assert [f.severity for f in within] == [Severity.NOTE]
    assert [f.severity for f in beyond] == [Severity.WARNING]
    assert beyond[0].limit == "1'-3 3/4\""


def test_vented_eaves_without_a_vented_ridge_have_to_give_all_the_air() -> None:
    # 32' x 20' is 92160 sq in, a 150th of it 614; 1-1/8 of air over 345 of bays, twice, is 770. 32' x 32' wants 983.
    (kept,), (broken,) = (findings("vent.area", span=span, roof=beam(vent=0)) for span in ("20'", "32'"))
    assert (kept.severity, broken.severity) == (Severity.NOTE, Severity.WARNING)
    assert kept.limit.startswith("614 sq in")
    assert broken.limit.startswith("983 sq in")
    assert findings("vent.area", roof={"blocking": {"eave": "solid"}}) == ()


def test_eaves_with_a_vented_ridge_have_to_give_half_of_half_the_air() -> None:
    # 92160 / 300 / 2
    (kept,) = findings("vent.area-reduced", roof=beam(vent='1"'))
    assert (kept.severity, kept.limit) == (Severity.NOTE, "154 sq in at the eaves")


def test_a_rake_without_outlookers_is_warned_of() -> None:
    (finding,) = findings("rake.no-outlookers", roof={"overhang": {"rake": '12"'}, "barge": {"size": "2x10"}})
    assert finding.severity is Severity.WARNING
    assert findings("rake.no-outlookers", roof=raked(12.0)) == ()
    assert findings("rake.no-outlookers", roof={}) == ()


def test_a_ridge_beam_always_wants_a_design_and_a_board_always_wants_ties() -> None:
    for rule, ridge, other in (("ridge.beam-design", BEAM, BOARD), ("ridge.board-ties", BOARD, BEAM)):
        (finding,) = findings(rule, roof={"ridge": ridge})
        assert finding.severity is Severity.WARNING
        assert finding.section
        assert findings(rule, roof={"ridge": other}) == ()


def test_a_beam_shallower_than_the_plumb_cut_is_warned_of() -> None:
    # 2x12 at 12/12: the plumb cut is 15.91, the beam 14
    deep: Keys = {"pitch": "12/12", "rafters": {"size": "2x12"}}
    (finding,) = findings("ridge.beam-depth", roof={**deep, "ridge": BEAM})
    assert (finding.severity, finding.found, finding.limit) == (Severity.WARNING, "1'-2\"", "1'-3 15/16\"")
    assert findings("ridge.beam-depth", roof={**deep, "ridge": {**BEAM, "size": "5-1/2x18"}}) == ()


def test_what_a_gap_for_air_takes_off_a_beam_s_contact_is_not_held_against_it() -> None:
    # 2x10 at 8/12: 11.12 less an inch is within the 14 of the beam
    assert findings("ridge.beam-depth", roof=beam(vent='1"')) == ()


@pytest.mark.parametrize(
    ("height", "frame", "severity"),
    [
        ("8'-1 1/8\"", "platform", Severity.NOTE),
        ("8'-1 1/8\"", "balloon", Severity.WARNING),
        ("10'-4 1/2\"", "platform", Severity.NOTE),  # less three plates: studs of 120
        ("10'-6\"", "platform", Severity.WARNING),
    ],
)
def test_studs_over_ten_feet_are_warned_of(height: str, frame: str, severity: Severity) -> None:
    walls = {"height": height, "by_side": {"east": {"frame": frame}, "west": {"frame": frame}}}
    told = findings("stud.bearing-height", span="14'", walls=walls, roof={"pitch": "6/12"})
    by_wall = {finding.where.split(",")[0]: finding.severity for finding in told}
    assert by_wall["east wall"] == severity
    assert by_wall["south wall"] == (Severity.WARNING if height == "10'-6\"" else Severity.NOTE)


def test_screening_names_the_published_section_and_says_what_was_only_recalled() -> None:
    plan = gable(roof={"overhang": {"eave": '16"'}, "tail": {"size": "2x6"}})
    published = {rule.id: rule for rule in rules()}
    for finding in screen(built(plan), plan):
        if finding.rule in published:
            rule = published[finding.rule]
            assert rule.section in finding.section
            assert ("recalled" in finding.section) == (rule.how_known == "memory" and bool(rule.section))


def test_screening_is_the_same_each_time_and_never_an_error() -> None:
    plan = gable(roof={**raked(12.0), "overhang": {"eave": '16"', "rake": '12"'}})
    first, second = (screen(built(plan), plan) for _ in range(2))
    assert first == second
    assert {finding.severity for finding in first} <= {Severity.NOTE, Severity.WARNING}


@pytest.mark.parametrize("over", [0.0, 16.0])
def test_a_hip_with_a_short_seat_is_warned_of_with_its_length_and_the_depth_that_mends_it(over: float) -> None:
    def told(hips: str) -> list[Finding]:
        rafters = {"size": "2x12", "seat": 4.5}
        plan = roofed(
            [(0, 0), (288, 0), (288, 200), (0, 200)], rafters=rafters, hips={"size": hips}, overhang={"eave": over}
        )
        return [f for f in screen(built(plan), plan) if f.rule == "bearing.rafter" and f.where.startswith("rafters HP")]

    # At 8/12 a 2x12 seated 4-1/2 stands 10.521 high; under the hip, dropped by 0.75 * 0.4714, that is 10.167. The plumb
    # cut of a 2x10 is 9.25 * 1.10554 = 10.226: (10.226 - 10.167) / 0.4714 = 0.125. A seat of 1-1/2 takes
    # (10.167 + 0.707) / 1.10554 = 9.836.
    (short,) = told("2x10")
    assert short.severity is Severity.WARNING
    assert short.found == 'a bearing of 1/8" on the plate'
    assert 'write hips: with a size at least 9 7/8" deep' in short.message
    (long,) = told("2x12")
    assert long.severity is Severity.NOTE


def test_a_valley_has_to_have_the_same_seat() -> None:
    ell = [(0, 0), (360, 0), (360, 400), (192, 400), (192, 240), (0, 240)]
    plan = roofed(ell, rafters={"size": "2x12", "seat": 5.25}, hips={"size": "2x14"}, valleys={"size": "2x10"})
    found = [f for f in screen(built(plan), plan) if f.rule == "bearing.rafter" and "V" in f.where]
    assert [f.severity for f in found] == [Severity.WARNING]
    assert "write valleys: with a size at least" in found[0].message
