"""Gable dormers whose roofs stand on valley rafters, hung between the trimmers and a header at the dormer's ridge.

Worked by hand; no source. The dormer is 5'-0" wide, its walls of 2x6 4'-0" high over a slope of 12/12, 14" in from the
outside of the wall; in plan its valleys run from the inside of the trimmers, 5-1/2" in, to its ridge, 30" in.
"""

from __future__ import annotations

from functools import cache
from math import hypot, sqrt
from typing import Any

import pytest
from pydantic import ValidationError
from shop import built, gable, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.geometry.vec import dot
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

DORMER = {
    "side": "south",
    "shape": "gable",
    "center": "10'",
    "width": "5'",
    "front": 14,
    "height": "4'",
    "pitch": "12/12",
    "rafters": {"size": "2x6"},
    "overhang": {"eave": 6},
    "windows": [{"size": "2620"}],
    "valleys": {"method": "supporting"},
}


def house(main: str = "12/12", span: str = "24'", **dormer: Any) -> Building:
    roof = {"pitch": main, "overhang": {"eave": 12}, "fascia": {"size": "2x6"}, "dormers": [{**DORMER, **dormer}]}
    return gable(span=span, roof=roof)


@cache
def equal() -> FramedBuilding:
    """Both roofs of 12/12."""
    return built(house())


@pytest.mark.parametrize(
    ("main", "dormer"),
    [
        ("12/12", {}),
        ("12/12", {"pitch": "8/12"}),
        ("14/12", {"pitch": "10/12", "overhang": {"eave": 0}}),
        ("10/12", {"pitch": "12/12", "height": "42", "windows": []}),
        ("12/12", {"width": "8'", "rafters": {"size": "2x6", "spacing": 24}, "overhang": {"eave": 12}}),
    ],
)
def test_no_stick_stands_in_another_and_all_feet_are_carried(main: str, dormer: dict[str, Any]) -> None:
    framed = built(house(main, "28'", **dormer))
    assert not list(overlaps(framed.members))
    bearing = {joint.upper for joint in framed.joints if joint.kind == "bears"}
    for index, member in enumerate(framed.members):
        cut = member.rafter
        if cut is None or not member.face.startswith("south dormer"):
            continue
        if cut.stands_on_plate or cut.surface:
            assert index in bearing
        elif member.role.name == "valley-jack":
            assert face_beside(framed, member), "its foot is cut to a valley's face"


def face_beside(framed: FramedBuilding, jack: Member) -> bool:
    """Whether the plane of a jack's foot is a face of a valley rafter, that its foot reaches."""
    normal, through = jack.placed(jack.cuts[0])
    at, point = jack.placement.direction_to_world(normal), jack.placement.to_world(through)
    for valley in with_role(framed.members, "valley"):
        x, _, z = valley.placement.from_world(point)
        parallel = abs(abs(dot(at, valley.placement.z)) - 1) < 1e-9
        if parallel and abs(abs(z) - 0.75) < 1e-6 and -1 < x < valley.length_in + 1:
            return True
    return False


def test_a_valley_runs_from_the_trimmers_inside_to_the_ridges_face() -> None:
    (one, other) = with_role(equal().members, "valley")
    for valley in (one, other):
        assert valley.rafter is not None
        # Level 24-1/2 less half the ridge across, the same up the main slope and in rise: root 3 for each inch.
        assert valley.rafter.line_length == pytest.approx((30 - 5.5 - 0.75) * sqrt(3))
        assert valley.rafter.slope == pytest.approx(1 / sqrt(2))
    # They are mirror images.
    assert one.placement.x[0] == pytest.approx(-other.placement.x[0])


def test_valleys_hang_on_trimmers_and_header() -> None:
    framed = equal()
    for index, member in enumerate(framed.members):
        if member.role.name == "valley":
            on = {framed.members[j.lower].role.name for j in framed.joints if j.upper == index and j.kind == "hangs"}
            assert on == {"trimmer-rafter", "roof-header"}


def test_main_jacks_stand_between_valleys_and_header() -> None:
    framed = equal()
    jacks = [m for m in with_role(framed.members, "valley-jack") if m.face == "south slope"]
    assert sorted(m.placement.origin[0] for m in jacks) == [112, 128], "96 and 144 are too near the trimmers"
    for jack in jacks:
        assert jack.rafter is not None
        # 22 in from the cheek's outside the valley is 8 in level below the header, less half of its 1-1/2 across.
        assert jack.rafter.line_length == pytest.approx((8 - 0.75 * sqrt(2)) * sqrt(2))
    hung = {j.upper for j in framed.joints if j.kind == "hangs" and framed.members[j.lower].role.name == "roof-header"}
    assert all(framed.members.index(jack) in hung for jack in jacks)
    assert all(face_beside(framed, jack) for jack in jacks)


def test_the_main_sheathing_is_open_up_to_the_valleys() -> None:
    framed = equal()
    (slope,) = (face for face in framed.faces if face.name == "south slope")
    (hole,) = slope.outline.holes
    us, vs = [e.a[0] for e in hole], [e.a[1] for e in hole]
    assert (min(us), max(us)) == (95.5, 144.5)
    (shoulder,) = {round(edge.b[1], 6) for edge in hole if edge.role == "trimmer"} - {round(min(vs), 6)}
    assert max(vs) - shoulder == pytest.approx(24.5 * sqrt(2)), "24-1/2 level over a slope of 12/12"


def test_the_opening_ends_where_the_ridge_meets_the_main_slope() -> None:
    (slope,) = (face for face in equal().faces if face.name == "south slope")
    (hole,) = slope.outline.holes
    # Rafters of 2x6 at 12/12 stand 5-1/2 root 2 less their seat over the plates; the seat is a quarter of the depth
    # square to the edge, in eighths: 1-7/8. Then 30 in of rise to the ridge, and 14 in from the wall.
    stand = 5.5 * sqrt(2) - 1.875
    assert max(edge.a[1] for edge in hole) == pytest.approx((14 + 48 + stand + 30) * sqrt(2))


def test_the_upper_header_covers_the_plumb_cuts_that_hang_on_it() -> None:
    framed = built(house("8/12", "28'", height="36", windows=[]))
    # A 2x10 cut plumb at 8/12 is 11.12 in: 2x12.
    assert 9.25 * hypot(12, 8) / 12 == pytest.approx(11.12, abs=0.005)
    assert {m.profile.name for m in with_role(framed.members, "roof-header")} == {"2x12"}


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"valleys": {"size": "2x10"}}, "a size for `method: supporting` only"),
        ({"valleys": {"method": "supporting", "size": "4x10"}}, "a size that is 2x"),
        ({"shape": "shed", "pitch": "3/12", "windows": []}, "no valley rafters"),
    ],
)
def test_keys_that_do_not_go_together_are_refused(keys: dict[str, Any], said: str) -> None:
    with pytest.raises(ValidationError, match=said):
        house(**keys)


def test_a_dormer_whose_ridge_finds_no_room_for_a_header_is_told_how_much_lower() -> None:
    with pytest.raises(PlanError) as caught:
        frame(house(span="16'"), lambda path: Place(path=path))
    (finding,) = caught.value.findings
    assert "its ridge would run into the slope only" in finding.message
    assert "make its walls" in finding.message
