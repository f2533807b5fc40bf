from __future__ import annotations

import pytest
from shapely import box
from stock_shop import a_member

from takeoff.order.weights import member_weight_lb


def test_a_beam_weighs_its_volume_times_its_density():
    beam = a_member("RB1", 352.0, role_name="ridge-beam", profile_name="5-1/2x14", grade="glulam")
    assert member_weight_lb(beam, "spf") == pytest.approx(5.5 * 14 * 352 / 1728 * 35)  # glulam 35 lb a cubic foot


def test_what_is_cut_out_is_not_lifted():
    whole = a_member("R1", 160.0, role_name="common-rafter", profile_name="2x10", grade="no2")
    half = a_member(
        "R2", 160.0, role_name="common-rafter", profile_name="2x10", grade="no2", side=box(0.0, 0.0, 160.0, 4.625)
    )
    assert member_weight_lb(half, "dfl") == pytest.approx(member_weight_lb(whole, "dfl") / 2)
