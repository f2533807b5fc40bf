"""Jacks where hips meet over outlines that are not square."""

from __future__ import annotations

import pytest
from shop import roofed, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, Severity
from takeoff.framing.frame import frame

BAY = [(0, 0), (240, 0), (240, 168), (156, 168), (120, 204), (84, 204), (48, 168), (0, 168)]
"""A bay of three sides: its two short hips meet a third, and the corner of their faces lies beside the node."""


def octagon(side: float, cut: float) -> list[tuple[float, float]]:
    """An outline with eight sides, those that cut the corners off at 45 degrees."""
    a, b, whole = cut, cut + side, 2 * cut + side
    return [(a, 0), (b, 0), (whole, a), (whole, b), (b, whole), (a, whole), (0, b), (0, a)]


@pytest.mark.parametrize("outline", [BAY, octagon(96, 96 / 2**0.5), octagon(120, 48)], ids=["bay", "regular", "oblong"])
def test_no_jack_stands_in_the_hips_of_a_roof_with_corners_of_45_degrees(outline: list[tuple[float, float]]) -> None:
    framed, _ = frame(roofed(outline, hips={"size": "2x12"}), lambda path: Place(path=path))
    assert [str(found) for found in audit(framed) if found.severity is not Severity.NOTE] == []


def test_a_jack_beside_the_node_is_cut_to_both_hips() -> None:
    framed, _ = frame(roofed(BAY), lambda path: Place(path=path))
    # Its slices all end on the hip that runs up from the node; the short hip's face comes round into its wood.
    jacks = [m for m in with_role(framed.members, "hip-jack") if m.face in ("side 4 slope", "side 6 slope")]
    double = [m for m in jacks if m.cheeks[1]]
    assert [m.face for m in double] == ["side 4 slope", "side 6 slope"]
