"""Marks: what is equal on the saw shares one, what is not does not, and a change elsewhere leaves them alone."""

from __future__ import annotations

from typing import Literal

import pytest
from shapely import Polygon, box
from shapely.affinity import scale, translate
from shop import built, gable, with_role

from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.geometry.placement import Placement
from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.model.member import SQUARE_ENDS, EndCut, Member
from takeoff.model.panel import Panel

HERE = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
LENGTH, DEPTH = 100.0, 5.5
PLAIN = box(0, 0, LENGTH, DEPTH)
NOTCHED = PLAIN.difference(box(10, 4, 14, DEPTH))
"""A stick with one notch in its top edge, near its left end."""


def stick(
    side: Polygon = PLAIN,
    *,
    name: str = "stud",
    size: str = "2x6",
    grade: str = "no2",
    cuts: tuple[EndCut, EndCut] = SQUARE_ENDS,
) -> Member:
    return Member(
        building="hut",
        face="south",
        role=role(name),
        profile=profile(size),
        grade=grade,
        side=side,
        placement=HERE,
        cuts=cuts,
    )


def sheet(polygon: Polygon, *, axis: Literal["u", "v"] = "u", product: str = "cdx-5/8") -> Panel:
    return Panel(building="hut", face="south slope", product=product, zone="field", polygon=polygon, strength_axis=axis)


def marks(*members: Member) -> list[str]:
    (building,) = mark_buildings([FramedBuilding(name="hut", count=1, members=members)])
    return [member.mark for member in building.members]


def panel_marks(*panels: Panel) -> list[str]:
    (building,) = mark_buildings([FramedBuilding(name="hut", count=1, members=(), panels=panels)])
    return [panel.mark for panel in building.panels]


def turned(side: Polygon) -> Polygon:
    """End for end, in the same plane: half a turn."""
    return scale(side, -1, -1)


def flipped(side: Polygon) -> Polygon:
    """End for end by a turn about its depth: the side is seen from the other side."""
    return scale(side, -1, 1)


def bevel(degrees_sign: float) -> EndCut:
    """A right end bevelled by 3-4-5: + leaves the face toward -z the longer."""
    return EndCut((0.8, 0.0, 0.6 * degrees_sign))


def test_equal_sticks_share_a_mark_wherever_they_lie() -> None:
    assert marks(stick(), stick(translate(PLAIN, 40, 0))) == ["S1", "S1"]


def test_a_stick_may_be_turned_end_for_end_and_rolled_over() -> None:
    assert (
        len(set(marks(stick(NOTCHED), stick(turned(NOTCHED)), stick(flipped(NOTCHED)), stick(scale(NOTCHED, 1, -1)))))
        == 1
    )


def test_bevels_that_a_half_turn_brings_over_each_other_are_equal() -> None:
    right = stick(cuts=(SQUARE_ENDS[0], bevel(1)))
    # rolled over its length the bevel leans the other way, and a plain stick has no top
    assert len(set(marks(right, stick(cuts=(SQUARE_ENDS[0], bevel(-1)))))) == 1
    end_for_end = stick(cuts=(EndCut((-0.8, 0.0, 0.6)), SQUARE_ENDS[1]))
    assert len(set(marks(right, end_for_end))) == 1


def test_mirror_images_are_not_equal() -> None:
    left_hand = stick(NOTCHED, cuts=(SQUARE_ENDS[0], bevel(1)))
    right_hand = stick(NOTCHED, cuts=(SQUARE_ENDS[0], bevel(-1)))
    assert marks(left_hand, right_hand) == ["S1", "S2"]


def test_both_ends_bevelled_alike_and_opposite_are_two_pieces() -> None:
    parallel = stick(cuts=(EndCut((-0.8, 0.0, -0.6)), bevel(1)))
    trapezoid = stick(cuts=(EndCut((-0.8, 0.0, 0.6)), bevel(1)))
    assert len(set(marks(parallel, trapezoid))) == 2


@pytest.mark.parametrize(
    "other",
    [
        stick(size="2x8"),
        stick(grade="stud"),
        stick(box(0, 0, LENGTH + 1 / 16, DEPTH)),
        stick(NOTCHED),
        stick(cuts=(SQUARE_ENDS[0], bevel(1))),
    ],
    ids=["profile", "grade", "a sixteenth longer", "a notch", "a bevel"],
)
def test_sticks_that_differ_have_marks_of_their_own(other: Member) -> None:
    assert marks(stick(), other) == ["S1", "S2"]


def test_what_a_saw_cannot_tell_apart_shares_a_mark() -> None:
    assert marks(stick(), stick(box(0, 0, LENGTH + 1e-9, DEPTH))) == ["S1", "S1"]
    # a length that lies on half a step of the tolerance, with float noise to both sides
    on_the_edge = LENGTH + 1 / 64
    assert len(set(marks(*(stick(box(0, 0, on_the_edge + noise, DEPTH)) for noise in (-1e-10, 0, 1e-10))))) == 1


def test_roles_have_letters_of_their_own_and_number_apart() -> None:
    assert marks(stick(), stick(name="king-stud"), stick(NOTCHED), stick(NOTCHED, name="king-stud")) == [
        "S1", "K1", "S2", "K2",
    ]  # fmt: skip


def test_buildings_of_a_job_share_one_series() -> None:
    first, second = mark_buildings(
        [
            FramedBuilding(name="hut", count=1, members=(stick(), stick(NOTCHED))),
            FramedBuilding(name="shed", count=1, members=(stick(NOTCHED), stick(box(0, 0, 50, DEPTH)))),
        ]
    )
    assert [m.mark for m in first.members] == ["S1", "S2"]
    assert [m.mark for m in second.members] == ["S2", "S3"]


def test_a_sheet_may_be_turned_but_its_good_face_stays_down() -> None:
    corner = Polygon([(0, 0), (96, 0), (96, 48), (20, 48)])
    assert panel_marks(sheet(corner), sheet(turned(corner)), sheet(flipped(corner))) == ["F1", "F1", "F2"]


def test_the_strength_axis_tells_sheets_apart_and_not_the_way_their_face_is_measured() -> None:
    lying, standing = box(0, 0, 96, 24), box(0, 0, 24, 96)
    assert panel_marks(sheet(lying), sheet(standing, axis="v")) == ["F1", "F1"]
    assert panel_marks(sheet(lying), sheet(standing)) == ["F1", "F2"]


def test_a_change_of_the_roof_s_trim_leaves_the_marks_of_walls_and_rafters_alone() -> None:
    plain = built(gable())
    trimmed = built(gable(roof={"fascia": {"size": "2x6"}, "overhang": {"eave": 0}}))
    roles = ("stud", "gable-stud", "common-rafter", "top-plate")
    assert [m.mark for m in with_role(plain.members, *roles)] == [m.mark for m in with_role(trimmed.members, *roles)]
    assert len({m.mark for m in with_role(plain.members, "common-rafter")}) == 1
