"""Hangers round openings in slopes: square ones at square headers, one for both plies of a header that hangs."""

from __future__ import annotations

from typing import Any

from shop import built, gable

from takeoff.order.hardware import count_hardware


def hangers(**skylight: Any) -> dict[str, int]:
    """Hangers that an opening adds to a roof on a ridge board, whose rafters need none, by name."""
    written = {"side": "south", "center": "15'", "up": "3'", "height": "3'", "width": "3'", **skylight}
    plan = gable(roof={"ridge": {"kind": "board", "size": "2x12"}, "skylights": [written]}, count=2)
    return {c.name: c.qty for c in count_hardware([built(plan)]) if c.name.endswith("hanger")}


def test_cut_rafters_hang_on_square_headers_in_square_hangers_and_on_plumb_ones_in_sloped_ones() -> None:
    # 162 to 198, rafters at 176 and 192, above and below, two buildings
    assert hangers() == {"square-hanger": 8}
    assert hangers(headers="plumb") == {"rafter-hanger": 8}


def test_a_header_over_six_feet_has_one_hanger_at_each_end_for_all_its_plies() -> None:
    # two headers with two ends each, two buildings
    assert hangers(width="7'")["header-hanger"] == 8
    assert hangers(width="7'", plies=1)["header-hanger"] == 8
    assert hangers(width="7'", headers="plumb", height='6"')["header-hanger"] == 8
    assert "header-hanger" not in hangers(width="6'")
