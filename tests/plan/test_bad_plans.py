"""Plans that are wrong, each a file whose faulty lines name the rule that must be found there; nothing else may be."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from takeoff.findings import Finding, PlanError, Severity
from takeoff.plan import __doc__ as card
from takeoff.plan.read import MAX_BYTES, read_plan

BAD = sorted((Path(__file__).parent / "bad").glob("*.yaml"))
MARK = re.compile(r"# <- (\S+)$")


def findings(path: Path) -> tuple[Finding, ...]:
    try:
        return read_plan(path)[1]
    except PlanError as error:
        return error.findings


def wanted(path: Path) -> set[tuple[int, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return {(number, mark[1]) for number, line in enumerate(lines, 1) if (mark := MARK.search(line))}


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.stem)
def test_a_bad_plan_is_told_what_is_wrong_in_that_line_and_nothing_else(path: Path) -> None:
    assert {(finding.place.line, finding.rule) for finding in findings(path)} == wanted(path)


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.stem)
def test_every_finding_is_one_line_with_its_place_and_a_documented_rule(path: Path) -> None:
    for finding in findings(path):
        head = f"{path.name}:{finding.place.line}:{finding.place.column}: {finding.severity}: "
        assert str(finding).startswith(head)
        assert "\n" not in str(finding)
        assert f"    {finding.rule} " in (card or "")


def test_every_documented_rule_has_a_bad_plan() -> None:
    documented = set(re.findall(r"^ {4}([a-z]+\.[a-z-]+) ", card or "", re.MULTILINE))
    shown = {rule for path in BAD for _, rule in wanted(path)}
    told_below = {"plan.unreadable", "plan.encoding"}  # no text file can be these
    assert documented == shown | told_below


def test_a_misspelled_key_is_told_in_the_documented_form() -> None:
    [finding] = findings(Path(__file__).parent / "bad" / "key_misspelled.yaml")
    where = "key_misspelled.yaml:14:7: error: buildings[0].roof"
    assert str(finding) == f"{where}: found 'picth', expected a key of roof; did you mean 'pitch'?"


def test_a_crossing_says_which_sides_and_where() -> None:
    [finding] = findings(Path(__file__).parent / "bad" / "outline_crosses.yaml")
    assert "'east' and 'west' touching or crossing at (8'-0\", 6'-0\")" in finding.message


def test_an_opening_says_by_how_much_it_fails() -> None:
    # Centre 15'-6" and half of 36-1/2: 204-1/4. King and jack 3, wall and end stud 5: 212-1/4 on a side of 192.
    [finding] = findings(Path(__file__).parent / "bad" / "opening_past_the_wall.yaml")
    assert finding.found == "1'-8 1/4\""


def test_an_ambiguous_pitch_says_how_to_write_it() -> None:
    [finding] = findings(Path(__file__).parent / "bad" / "pitch_of_a_number.yaml")
    assert "8/12" in finding.message
    assert "8deg" in finding.message


def test_a_missing_file_a_folder_and_an_empty_file_are_told(tmp_path: Path) -> None:
    (tmp_path / "empty.yaml").write_bytes(b"")
    rules = {name: [f.rule for f in findings(tmp_path / name)] for name in ("none.yaml", ".", "empty.yaml")}
    assert rules == {"none.yaml": ["plan.unreadable"], ".": ["plan.unreadable"], "empty.yaml": ["plan.empty"]}


def test_bytes_that_are_no_text_are_told_with_their_place(tmp_path: Path) -> None:
    (tmp_path / "latin.yaml").write_bytes(b"job: x\nname: caf\xe9\n")
    [finding] = findings(tmp_path / "latin.yaml")
    assert (finding.rule, finding.place.line, finding.place.column) == ("plan.encoding", 2, 10)


def test_a_file_larger_than_any_plan_is_refused_unread(tmp_path: Path) -> None:
    (tmp_path / "large.yaml").write_bytes(b"#" * (MAX_BYTES + 1))
    assert [f.rule for f in findings(tmp_path / "large.yaml")] == ["plan.too-large"]


def test_a_price_list_linked_from_elsewhere_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    (tmp_path / "prices.csv").write_text("item\n")
    (folder / "prices.csv").symlink_to(tmp_path / "prices.csv")
    text = (Path(__file__).parent / "bad" / "prices_not_there.yaml").read_text().replace("none.csv", "prices.csv")
    (folder / "plan.yaml").write_text(text)
    assert [f.rule for f in findings(folder / "plan.yaml")] == ["plan.prices"]


def test_a_warning_does_not_refuse_a_plan() -> None:
    written, told = read_plan(Path(__file__).parent / "bad" / "sheathing_steps.yaml")
    assert written.plan.job == "Reed Shed"
    assert [finding.severity for finding in told] == [Severity.WARNING]
    assert "lay sanded-1/2 with cdx-1/2 or osb-5/8 with sanded-5/8" in told[0].message
