"""The audit finds what is wrong with a frame: sticks taken away, moved, or lifted off their slope."""

from __future__ import annotations

from dataclasses import replace

from shop import built, gable, roofed, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Severity
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member


def told(frame: FramedBuilding) -> list[str]:
    return [f"{f.rule} {f.where}: {f.message}" for f in audit(frame) if f.severity is Severity.WARNING]


def without(frame: FramedBuilding, *roles: str) -> FramedBuilding:
    return replace(frame, members=tuple(m for m in frame.members if m.role.name not in roles))


def moved(frame: FramedBuilding, member: Member, up: float, east: float = 0.0) -> FramedBuilding:
    x, y, z = member.placement.origin
    shifted = replace(member, placement=replace(member.placement, origin=(x + east, y, z + up)))
    return replace(frame, members=tuple(shifted if m is member else m for m in frame.members))


HIP = roofed([(0, 0), (288, 0), (288, 200), (0, 200)], overhang={"eave": 16})


def test_a_sound_frame_gives_one_note() -> None:
    (note,) = audit(built(HIP))
    assert note.severity is Severity.NOTE
    assert "rafters are where they should be" in note.message


def test_rafters_without_plates_under_them_are_told_by_their_seats() -> None:
    found = told(without(built(gable()), "cap-plate"))
    assert found
    assert all(line.startswith("audit.end") and "the seat of" in line for line in found)


def test_the_shortest_seat_of_a_hip_is_contact_and_half_a_tape_line_over_the_plate_is_none() -> None:
    frame = built(
        roofed([(0, 0), (288, 0), (288, 200), (0, 200)], rafters={"size": "2x12", "seat": 4.5}, hips={"size": "2x10"})
    )
    assert told(frame) == []
    hip = with_role(frame.members, "hip")[0]
    assert any("the seat of hip rafter" in line for line in told(moved(frame, hip, up=1 / 16)))


def test_jacks_without_their_hip_are_told_by_their_heads() -> None:
    frame = built(HIP)
    jacks = with_role(frame.members, "hip-jack")
    found = [line for line in told(without(frame, "hip")) if "the head of hip jack" in line]
    assert len(jacks) - len(found) <= 2  # the longest ones beside an apex touch the end of the ridge or its common


def test_a_rafter_lifted_off_its_slope_is_told_by_how_much() -> None:
    frame = built(gable())
    rafter = with_role(frame.members, "common-rafter")[0]
    found = told(moved(frame, rafter, up=0.5))
    # Half an inch plumb is 1/2 * cos of 8/12 square to the slope: 0.416.
    assert any(line.startswith("audit.top") and '13/32" over' in line for line in found)
    assert any(line.startswith("audit.end") and "carried by nothing" in line for line in found)


def test_a_stick_moved_into_another_is_told_with_both_and_where() -> None:
    frame = built(gable())
    stud = with_role(frame.members, "stud")[3]
    found = told(moved(frame, stud, up=0.25))
    assert len(found) == 1
    assert found[0].startswith("audit.overlap")
    assert 'stand 1/4" in each other at x' in found[0]
