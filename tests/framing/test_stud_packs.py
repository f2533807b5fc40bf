"""Studs packed in the walls behind the ends of loft beams, and what is said where none can stand."""

from __future__ import annotations

from typing import Any

from shop import built, gable, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, Severity
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building


def lofted(*openings: dict[str, Any], posts: tuple[str, ...] = ()) -> Building:
    beam = {"size": "3-1/2x11-7/8", "grade": "lvl", "posts": list(posts)}
    loft = {"side": "west", "depth": "9'", "height": "7'-6\"", "joists": {"size": "2x8"}, "beam": beam}
    return gable(length="24'", span="16'", walls={"openings": list(openings)}, floors={"lofts": [loft]})


def told(building: Building) -> list[tuple[Severity, str]]:
    _, findings = frame(building, lambda path: Place(path=path))
    return [(f.severity, f.message) for f in findings if f.rule == "frame.stud-pack"]


def test_a_pack_as_wide_as_the_beam_stands_at_each_end() -> None:
    hut = built(lofted())
    for side in ("south", "north"):
        pack = with_role([m for m in hut.members if m.face == side], "post")
        assert len(pack) * 1.5 >= 3.5
        assert {m.length_in for m in pack} == {97.125 - 4.5}
    assert [severity for severity, _ in told(lofted())] == [Severity.NOTE, Severity.NOTE]
    assert all(f.severity is Severity.NOTE for f in audit(hut))


def test_a_beam_on_posts_of_its_own_asks_for_no_pack() -> None:
    assert told(lofted(posts=('8"', "15'-4\""))) == []


def test_a_beam_that_ends_over_a_window_is_reported() -> None:
    window = {"side": "south", "center": "8'-10\"", "size": "4040"}
    messages = [message for severity, message in told(lofted(window)) if severity is Severity.WARNING]
    assert len(messages) == 1
    assert "over the window 4040" in messages[0]
