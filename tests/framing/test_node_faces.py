"""Jacks where hips meet over outlines that are not square."""

from __future__ import annotations

import pytest
from shop import roofed, with_role

from takeoff.checks.audit import audit
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building

BAY = [(0, 0), (240, 0), (240, 168), (156, 168), (120, 204), (84, 204), (48, 168), (0, 168)]
"""A bay of three sides: its two short hips meet a third, and the corner of their faces lies beside the node."""


def octagon(side: float, cut: float) -> list[tuple[float, float]]:
    """An outline with eight sides, those that cut the corners off at 45 degrees."""
    a, b, whole = cut, cut + side, 2 * cut + side
    return [(a, 0), (b, 0), (whole, a), (whole, b), (b, whole), (a, whole), (0, b), (0, a)]


@pytest.mark.parametrize("outline", [BAY, octagon(96, 96 / 2**0.5), octagon(120, 48)], ids=["bay", "regular", "oblong"])
def test_no_jack_stands_in_the_hips_of_a_roof_with_corners_of_45_degrees(outline: list[tuple[float, float]]) -> None:
    assert audited(roofed(outline, hips={"size": "2x12"})) == []


def test_a_jack_beside_the_node_is_cut_to_both_hips() -> None:
    framed, _ = frame(roofed(BAY), lambda path: Place(path=path))
    # Its slices all end on the hip that runs up from the node; the short hip's face comes round into its wood.
    jacks = [m for m in with_role(framed.members, "hip-jack") if m.face in ("side 4 slope", "side 6 slope")]
    double = [m for m in jacks if m.cheeks[1]]
    assert [m.face for m in double] == ["side 4 slope", "side 6 slope"]


def refusal(building: Building) -> str:
    """What is said of a roof that can't be framed."""
    with pytest.raises(PlanError) as caught:
        frame(building, lambda path: Place(path=path))
    return str(caught.value)


def audited(building: Building) -> list[str]:
    """What the audit warns of."""
    framed, _ = frame(building, lambda path: Place(path=path))
    return [str(found) for found in audit(framed) if found.severity is not Severity.NOTE]


SLENDER = [
    (0, 0),
    (216, 0),
    (216, 275.375),
    (168, 275.375),
    (144, 299.375),
    (61.25, 299.375),
    (37.25, 275.375),
    (0, 275.375),
]


def test_a_jack_at_an_inner_corner_of_two_hips_is_moved_to_one_of_them() -> None:
    roof = roofed(SLENDER, pitch="12/12", rafters={"size": "2x6", "spacing": 19.2}, overhang={"eave": 12})
    framed, _ = frame(roof, lambda path: Place(path=path))
    # The corner of the faces lies 19/32" from the layout line, inside of the stick.
    jacks = [m for m in with_role(framed.members, "hip-jack") if m.face == "side 8 slope"]
    off = [round(abs(m.centre_line[0][1] / 19.2 - round(m.centre_line[0][1] / 19.2)) * 19.2, 3) for m in jacks]
    assert [x for x in off if x] == [max(off)]
    assert max(off) < 0.75
    assert audited(roof) == []


def test_a_fascia_over_a_wall_shorter_than_the_overhang_is_mitred_with_its_own_neighbours() -> None:
    bay = [(0, 0), (356, 0), (356, 192), (332, 192), (306, 218), (210, 218), (184, 192), (0, 192)]
    roof = roofed(bay, pitch="9/12", rafters={"size": "2x10"}, overhang={"eave": 24}, fascia={"size": "2x6"})
    assert audited(roof) == []


def test_a_gable_that_is_not_square_to_its_eave_is_refused_with_how_far_it_is_off() -> None:
    roof = roofed(octagon(96, 60), shape="edges", edges={"side 2": "gable"}, hips={"size": "2x12"})
    said = refusal(roof)
    assert "a gable beside the side 1 eave isn't square to it" in said
    assert "2'-6\" along the eave" in said
    assert "make that side an eave" in said


def test_points_where_hips_end_so_near_each_other_that_they_share_wood_are_refused_with_the_inches() -> None:
    bay = [(0, 0), (228, 0), (228, 252), (168, 252), (144, 276), (106.25, 276), (82.25, 252), (0, 252)]
    said = refusal(roofed(bay, pitch="9/12", rafters={"size": "2x6", "spacing": 12}, hips={"size": "2x12"}))
    assert "side 3" in said
    assert '19/32" apart' in said
    assert "move a side or change a pitch" in said


def test_posts_under_a_short_ridge_beam_that_share_wood_are_refused_with_the_inches() -> None:
    beam = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}
    hut = [(48, 0), (120, 0), (168, 48), (168, 149.875), (120, 197.875), (48, 197.875), (0, 149.875), (0, 48)]
    said = refusal(roofed(hut, pitch="4/12", rafters={"size": "2x10", "spacing": 19.2}, ridge=beam))
    assert 'would stand in each other: their middles are 5 1/4" apart' in said
    assert "kind: board" in said
