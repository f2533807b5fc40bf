from __future__ import annotations

from stock_shop import a_building, a_member

from takeoff.model.joint import Joint
from takeoff.order.hardware import HardwareCount, count_hardware

BEAM = a_member("RB1", 352.0, role_name="ridge-beam", profile_name="5-1/2x14", grade="glulam")
PLATE = a_member("CP1", 192.0, role_name="cap-plate", profile_name="2x6")
RAFTER = a_member("R1", 163.81, role_name="common-rafter", profile_name="2x10", grade="no2")
STUD = a_member("S1", 92.625)


def test_each_hung_end_has_a_hanger_of_its_size_and_each_rafter_on_a_plate_a_tie():
    joints = (
        Joint(kind="hangs", upper=2, lower=0, bearing_in=9.25),
        Joint(kind="bears", upper=2, lower=1, bearing_in=4.125),
        Joint(kind="hangs", upper=3, lower=0, bearing_in=9.25),
        Joint(kind="bears", upper=3, lower=1, bearing_in=4.125),
    )
    building = a_building(BEAM, PLATE, RAFTER, RAFTER, joints=joints, count=2)
    assert count_hardware([building]) == (
        HardwareCount(name="rafter-hanger", profile="2x10", qty=4),
        HardwareCount(name="hurricane-tie", profile="", qty=4),
    )


def test_a_rafter_over_the_joint_of_two_plates_is_tied_once():
    joints = (Joint(kind="bears", upper=2, lower=0), Joint(kind="bears", upper=2, lower=1))
    (tie,) = count_hardware([a_building(PLATE, PLATE, RAFTER, joints=joints)])
    assert tie.qty == 1


def test_other_joints_need_no_connector():
    joints = (
        Joint(kind="bears", upper=1, lower=0),  # a stud on its plate
        Joint(kind="butts", upper=2, lower=3),
        Joint(kind="bears", upper=2, lower=3),  # a rafter over a beam
    )
    assert count_hardware([a_building(PLATE, STUD, RAFTER, BEAM, joints=joints)]) == ()
