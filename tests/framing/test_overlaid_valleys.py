"""Wings whose roofs are laid over the main one, on valley plates. Lengths are worked by hand unless a source is named.

The T: a bar 32' x 14', ridge along it over y = 84; a wing 12' wide north of it, x = 120 to 264, its mouth at y = 168.
"""

from __future__ import annotations

from functools import cache
from math import hypot
from typing import Any

import pytest
from measured import world_corners
from shapely import Polygon, union_all
from shop import Written, built, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import Finding, Place, PlanError
from takeoff.framing.frame import frame
from takeoff.framing.roof_plan import roof_plan
from takeoff.model.building import FramedBuilding
from takeoff.model.layout import LayoutLine
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

TEE = (
    [[0, 0], [384, 0], [384, 168], [264, 168], [264, 288], [120, 288], [120, 168], [0, 168]],
    ["south", "east", "court east", "wing east", "north", "wing west", "court west", "west"],
    ["east", "north", "west"],
)
ELL = (
    [[0, 0], [336, 0], [336, 168], [144, 168], [144, 312], [0, 312]],
    ["south", "east", "court north", "court east", "north", "west"],
    ["east", "north"],
)
YOU = (
    [[0, 0], [432, 0], [432, 312], [300, 312], [300, 168], [144, 168], [144, 312], [0, 312]],
    ["south", "east", "right north", "court east", "court", "court west", "left north", "west"],
    ["right north", "left north"],
)
WIDE_TEE = ([[x + (12 if x == 264 else -12 if x == 120 else 0), y] for x, y in TEE[0]], *TEE[1:])
"""Its wing is as wide as the bar: two ridges of one height."""

LAYER_IN = 5 / 8 + 1.5
"""Sheathing and a valley plate lying flat on it."""
PER_LEVEL = hypot(12, 8) / 12
"""Along a slope of 8/12 for one inch level."""
OVERLAID = {"method": "overlaid", "beam": "3-2x10"}


def plan(shape: Any, *, walls: Written | None = None, **roof: Any) -> Building:
    """A roof of wings with all its trim."""
    outline, sides, gables = shape
    return Building.model_validate(
        {
            "name": "hut",
            "outline": outline,
            "sides": sides,
            "walls": {"studs": "2x6", **(walls or {})},
            "roof": {
                "shape": "edges",
                "edges": dict.fromkeys(gables, "gable"),
                "pitch": "8/12",
                "rafters": {"size": "2x8"},
                "hips": {"size": "2x10"},
                "valleys": OVERLAID,
                "overhang": {"eave": 12, "rake": 12},
                "ridge": {"kind": "board", "size": "2x10"},
                "outlookers": {"size": "2x4"},
                "barge": {"size": "2x8"},
                "fascia": {"size": "2x6"},
                "sheathing": {"field": "cdx-5/8", "exposed": "sanded-5/8"},
                **roof,
            },
        }
    )


@cache
def tee() -> FramedBuilding:
    return built(plan(TEE))


def line_named(framed: FramedBuilding, start: str) -> LayoutLine:
    (line,) = (line for line in framed.lines if line.name.startswith(start))
    return line


STEEP_WING: Written = {"pitches": {"wing east": "10/12", "wing west": "10/12"}}
CASES = {
    "tee": (TEE, {}),
    "tee, wing 6/12": (TEE, {"pitches": {"wing east": "6/12", "wing west": "6/12"}}),
    "tee, wing's ridge off its middle": (TEE, {"pitches": {"wing east": "10/12", "wing west": "7/12"}}),
    "tee, wing 12/12 and higher": (TEE, {"pitches": {"wing east": "12/12", "wing west": "12/12"}}),
    "tee, ridges of one height": (WIDE_TEE, {}),
    "tee, no overhang": (TEE, {"overhang": {}, "barge": None, "outlookers": None}),
    "tee, square tails": (TEE, {"tail": {"cut": "square"}}),
    "tee, boxed": (TEE, {"tail": {"cut": "level"}, "soffit": {"kind": "boxed"}}),
    "tee, wide eaves": (TEE, {"overhang": {"eave": 24, "rake": 16}}),
    "ell": (ELL, {}),
    "ell, wing 6/12": (ELL, {"pitches": {"court east": "6/12"}}),
    "ell, wing 12/12 and higher": (ELL, {"pitches": {"court east": "12/12"}}),
    "u": (YOU, {}),
    "u, wings 6/12": (YOU, {"pitches": {"court east": "6/12", "court west": "6/12"}}),
}


@pytest.mark.parametrize("case", CASES)
def test_no_stick_stands_in_another_and_every_rafter_bears(case: str) -> None:
    shape, roof = CASES[case]
    framed = built(plan(shape, **roof))
    assert not list(overlaps(framed.members))
    bearing = {joint.upper: framed.members[joint.lower].role.name for joint in framed.joints if joint.kind == "bears"}
    for index, member in enumerate(framed.members):
        if member.rafter is None or member.role.name in ("barge", "hip"):
            continue
        if member.rafter.stands_on_plate:
            assert bearing[index] in ("cap-plate", "top-plate", "mouth-beam")
        if member.role.name == "valley-jack":
            assert bearing[index] == "valley-plate"


def test_main_rafters_run_straight_on_past_the_mouth_and_bear_on_the_beam_as_on_the_plates() -> None:
    framed = tee()
    north = [m for m in with_role(framed.members, "common-rafter") if m.face == "court east slope"]
    over = [m for m in north if 120 < m.placement.origin[0] < 264]
    assert len(over) == 9, "16 in apart from x = 0: 128, 144, ... 256"
    for rafter in over:
        assert rafter.rafter is not None
        # From y = 168 to the ridge board's face at 84.75, and the plumb cut's lean over 7-1/4 less the corner that the
        # seat takes off at the foot: 3-1/4 level, so 2.17 plumb, which leans by the sine of 33.69 degrees.
        corner = 3.25 * 8 / 12 * 8 / hypot(12, 8)
        assert rafter.length_in == pytest.approx(83.25 * PER_LEVEL + 7.25 * 8 / 12 - corner)
        assert rafter.rafter.tail == 0
    assert len({m.rafter.seat for m in north if m.rafter}) == 1, "one bird's mouth"
    on_beam = [j for j in framed.joints if framed.members[j.lower].role.name == "mouth-beam"]
    assert len(on_beam) == len(over)
    assert min(j.bearing_in for j in on_beam) >= 1.5


def test_the_beam_stands_between_the_wings_walls_on_posts_level_with_the_plates() -> None:
    framed = tee()
    beams = with_role(framed.members, "mouth-beam")
    assert {m.length_in for m in beams} == {144 - 2 * 5.5}
    corners = [spot for m in beams for spot in world_corners(m)]
    assert max(z for _, _, z in corners) == pytest.approx(97.125)
    assert {round(y, 6) for _, y, _ in corners} >= {168.0, 168.0 - 4.5}
    posts = with_role(framed.members, "mouth-post")
    assert len(posts) == 2 * 3, "at each end as many studs as the beam has plies"
    assert {m.length_in for m in posts} == {97.125 - 9.25}
    carried = {j.upper for j in framed.joints if framed.members[j.lower].role.name == "mouth-post"}
    assert len(carried) == len(beams)


def test_jacks_differ_by_the_common_difference_of_the_steel_square() -> None:
    """Source: steel square, 8 in rise: difference in length of jacks 16 in apart, 19-1/4 in (19.23)."""
    jacks = sorted(m.length_in for m in with_role(tee().members, "valley-jack"))
    # The laid line starts 3.83 in from the wing's wall and ends at its ridge; jacks 16, 32 and 48 in inside the mouth
    # on each side, one at 64 would be 4.2 in long before the ridge takes its half.
    assert len(jacks) == 6
    assert jacks[4] - jacks[2] == pytest.approx(16 * PER_LEVEL)
    assert jacks[2] - jacks[0] == pytest.approx(19.23, abs=0.005)


def test_a_jacks_foot_is_sawn_level_with_the_blade_at_the_main_pitch() -> None:
    jack = with_role(tee().members, "valley-jack")[0]
    foot = jack.cuts[0]
    assert abs(foot.normal[2]) == pytest.approx(8 / hypot(12, 8)), "sine of 33.69 degrees, the main pitch"


def test_valley_plates_start_where_the_tape_says() -> None:
    """The wing's rafters' tops meet the plates' tops where they are the layer's plumb height over the main rafters."""
    framed = tee()
    back = LAYER_IN * PER_LEVEL / (8 / 12)
    assert back == pytest.approx(3.831, abs=0.001)
    along = line_named(framed, "north wing, valley plates on the main sheathing, along")
    assert [mark.position_in for mark in along.marks] == pytest.approx([back, 72, 144 - back])
    up = line_named(framed, "north wing, valley plates on the main sheathing, up")
    # Square to the slope, so 2-1/8 times 8/12 further up it than plumb over the mouth; the peak 72 - 3.83 further in.
    assert [mark.position_in for mark in up.marks] == pytest.approx(
        [LAYER_IN * 8 / 12, LAYER_IN * 8 / 12 + (72 - back) * PER_LEVEL], abs=1e-5
    )


def test_a_tape_on_a_valley_plate_meets_jacks_by_the_valleys_length_a_spacing() -> None:
    framed = tee()
    # Unit line of a valley of 8/12: root of 12 + 12 squared and 8 squared, 18.76 a foot (steel square: 18.76).
    per_level = hypot(12, 12, 8) / 12
    for side in ("east", "west"):
        line = line_named(framed, f"north wing valley plate under the wing {side} slope")
        assert line.length_in == pytest.approx((72 - 3.8306) * per_level, abs=0.001)
        assert [m.position_in for m in line.marks] == pytest.approx([16 * k * per_level for k in (1, 2, 3)])
    plates = with_role(framed.members, "valley-plate")
    assert [m.length_in for m in plates] == pytest.approx([(72 - 3.8306) * per_level] * 2, abs=0.001)


def test_rafters_over_the_mouth_have_a_tape_of_their_own() -> None:
    framed = tee()
    beam = line_named(framed, "north wing mouth, top of beam")
    assert (beam.start, beam.length_in) == ("outside of the wing east wall", 144)
    assert [m.position_in for m in beam.marks] == pytest.approx([8 + 16 * k for k in range(9)])
    plate = line_named(framed, "court east wall, top of cap plate")
    # Pulled from the east end: the mouth is 120 to 264 from there.
    assert not [m for m in plate.marks if 120 < m.position_in < 264]


def test_a_wings_ridge_is_laid_out_from_its_gable_and_ends_on_the_main_slope() -> None:
    framed = tee()
    (wing,) = (line for line in framed.lines if line.name.startswith("ridge") and line.start == "north end")
    (ridge,) = (m for m in with_role(framed.members, "ridge-board") if abs(m.placement.x[1]) > 0.5)
    # Its top stands 2/3 of 3/4 in under the slopes' line, so it ends 3/4 in before the plates' peak at 168 - 68.17.
    assert ridge.length_in == pytest.approx(288 - (168 - (72 - 3.8306) + 0.75), abs=0.001)
    assert wing.length_in == pytest.approx(ridge.length_in)


def roofing(building: Building) -> float:
    """Area of the roof's surface [sq in], whatever lies under it: all slopes have one pitch."""
    framed = built(building)
    shapes = []
    for face in framed.faces:
        if face.kind == "slope":
            spots = [face.placement.to_world((*edge.a, 0.0)) for edge in face.outline.edges]
            shapes.append(Polygon([(x, y) for x, y, _ in spots]))
    return float(union_all(shapes).area) * PER_LEVEL


@pytest.mark.parametrize("shape", [TEE, ELL, YOU], ids=["tee", "ell", "u"])
def test_the_area_to_be_roofed_is_that_over_supporting_valleys(shape: Any) -> None:
    assert roofing(plan(shape)) == pytest.approx(roofing(plan(shape, valleys={"size": "2x10"})), rel=1e-9)


def test_the_main_slope_is_sheathed_under_the_wing_and_shows_no_face_inside_of_the_mouth() -> None:
    framed = tee()
    (main,) = (face for face in framed.faces if face.name == "court east slope")
    # Between the walls from the mouth to the ridge, whole: 144 by 84 level.
    inside = Polygon([(120, 0), (264, 0), (264, 84 * PER_LEVEL), (120, 84 * PER_LEVEL)])
    assert main.outline.polygon.covers(inside)
    lying = [(panel.polygon.bounds, panel.zone) for panel in framed.panels if panel.face == main.name]
    zones = {zone for (low, _, high, _), zone in lying if low > 120 and high < 264}
    assert zones == {"field"}
    assert {zone for (low, *_), zone in lying if low < 0} == {"exposed"}


def test_fascias_meet_in_a_mitre_where_the_eaves_do() -> None:
    fascias = [m for m in with_role(tee().members, "fascia") if m.face in ("court east eave", "wing east eave")]
    # The wing's from the outside of its rake at y = 300 to the eaves' corner at 180; the bar's from 396 to 276, twice.
    assert [m.length_in for m in fascias] == pytest.approx([120, 120, 120])


def refusal(building: Building) -> str:
    with pytest.raises(PlanError) as caught:
        frame(building, lambda path: Place(path=path))
    (finding,) = caught.value.findings
    return f"{finding.place.path}: {finding.message}"


def test_a_mouth_with_nothing_across_it_is_refused_with_the_beam_and_the_partition_that_would_do() -> None:
    said = refusal(plan(TEE, valleys={"method": "overlaid"}))
    assert said.startswith("roof.valleys: nothing carries the main rafters across the mouth of the north wing, 11'-1\"")
    assert "beam: 3-2x10" in said
    assert "8'-1 1/8\" high" in said
    assert "from: [21'-6 1/2\", 13'-9 1/4\"], to: [10'-5 1/2\", 13'-9 1/4\"]" in said


def test_the_partition_that_the_refusal_names_carries_the_main_rafters() -> None:
    run = {"name": "hall", "from": ["21'-6 1/2\"", "13'-9 1/4\""], "to": ["10'-5 1/2\"", "13'-9 1/4\""], "studs": "2x6"}
    framed = built(plan(TEE, valleys={"method": "overlaid"}, walls={"partitions": [run]}))
    assert not with_role(framed.members, "mouth-beam", "mouth-post")
    assert not list(overlaps(framed.members))
    caps = [j for j in framed.joints if framed.members[j.lower].face == "hall" and j.kind == "bears"]
    assert len(caps) == 9


def test_a_beam_longer_than_stock_is_refused() -> None:
    wide = ([[x + (168 if x >= 264 else 0), y] for x, y in TEE[0]], *TEE[1:])
    said = refusal(plan(wide, pitches={"wing east": "3/12", "wing west": "3/12"}))
    assert "the beam 3-2x10 across the mouth of the north wing is 25'-1\" long, stock 24'-0\"" in said


def test_a_wing_lower_than_the_main_walls_is_refused_with_how_much() -> None:
    low = {"by_side": {"wing east": {"height": "7'"}, "wing west": {"height": "7'"}}}
    assert "the court east wall would stand 1'-1 1/8\" higher than the wing east wall" in refusal(plan(TEE, walls=low))


def told(building: Building) -> list[Finding]:
    return [finding for finding in frame(building, lambda path: Place(path=path))[1] if finding.rule == "frame.valley"]


def test_it_is_told_which_roof_is_the_main_one_and_why() -> None:
    note, warning = told(plan(TEE))
    assert "the court east slope is the main roof's (its top is 13'-3 11/16\" over the deck, the wing's 12'-7" in (
        note.message
    )
    assert "need a design" in warning.message
    # Of two ridges of one height the longer line goes through: the bar's, 34 ft over its rakes.
    assert "the court east slope is the main roof's" in told(plan(WIDE_TEE))[0].message


def test_overlaid_without_wings_is_doubted() -> None:
    flat = ([[0, 0], [384, 0], [384, 168], [0, 168]], ["south", "east", "north", "west"], ["east", "west"])
    (warning,) = told(plan(flat))
    assert "no wings meet in a valley" in warning.message


def test_the_valleys_are_where_valley_rafters_would_stand() -> None:
    """The plan keeps the folds that a drawing is compared with."""
    building = plan(TEE)
    folds = roof_plan(building, footprint(building), lambda path: Place(path=path)).folds
    assert sum(fold.kind == "valley" for fold in folds) == 2
