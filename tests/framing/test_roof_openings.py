"""Skylights and chimneys: trimmers, headers and cut rafters round an opening in a slope, and where none may be."""

from __future__ import annotations

from math import cos, hypot, radians, tan
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from measured import world_corners
from shapely import union_all
from shop import Written, built, gable, roofed, with_role

from takeoff.checks.audit import overlaps, solid
from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.geometry.vec import UP
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.member import Member
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

NEAR = 1e-6
SLOPE_COS = cos(radians(33.690067525979785))  # 8/12

TRIMMED: Written = {
    "overhang": {"eave": 16.0, "rake": 12.0},
    "tail": {"size": "2x6"},
    "barge": {"size": "2x10"},
    "outlookers": {"spacing": 32.0},
    "fascia": {"size": "2x6"},
}
RECTANGLE = [(0.0, 0.0), (288.0, 0.0), (288.0, 192.0), (0.0, 192.0)]
ELL = [(0.0, 0.0), (360.0, 0.0), (360.0, 192.0), (168.0, 192.0), (168.0, 384.0), (0.0, 384.0)]


def skylight(**keys: Any) -> Written:
    """Three feet square, from 126 to 162 along the south eave and from 48 to 84 up the slope."""
    written = {"side": "south", "center": "12'", "up": "4'", "width": "3'", "height": "3'", **keys}
    return {key: value for key, value in written.items() if value is not None}


def lit(*skylights: Written, **roof: Any) -> Building:
    """A gabled cabin of 2x10 rafters at 16 inches under 8/12, with openings in its slopes."""
    return gable(roof={**TRIMMED, "skylights": list(skylights), **roof})


def hipped(*skylights: Written, points: list[tuple[float, float]] = RECTANGLE, **roof: Any) -> Building:
    return roofed(points, overhang={"eave": 16.0}, fascia={"size": "2x6"}, skylights=list(skylights), **roof)


def shed(*skylights: Written, **roof: Any) -> Building:
    """Sixteen feet deep, rising from side 1 at 4/12, its plates 5-1/2 wide."""
    return hipped(*skylights, shape="shed", low="side 1", ridge=None, pitch="4/12", **roof)


def slope_of(building: FramedBuilding, name: str) -> Face:
    return next(face for face in building.faces if face.name == name)


def centres(building: FramedBuilding, role: str, side: str = "south") -> list[float]:
    """Middles of the sticks of a role along a side's eave, left to right."""
    face = slope_of(building, f"{side} slope")
    here = [m for m in with_role(building.members, role) if m.face == face.name]
    return sorted(face.placement.from_world(m.placement.origin)[0] for m in here)


def reach(building: FramedBuilding, member: Member, axis: int) -> tuple[float, float]:
    """Extent of a stick along u (0), v (1) or out of its slope (2) [in]."""
    face = slope_of(building, member.face)
    values = [face.placement.from_world(corner)[axis] for corner in world_corners(member)]
    return min(values), max(values)


def near(*values: float) -> Any:
    return pytest.approx(values, abs=NEAR)


def refusal(building: Building) -> str:
    with pytest.raises(PlanError) as refused:
        frame(building, lambda path: Place(path=path))
    (finding,) = refused.value.findings
    assert finding.rule == "frame.opening"
    assert finding.place.path == "roof.skylights[0]"
    return finding.message


# Trimmers and cut rafters


def test_doubled_trimmers_stand_beside_the_opening_and_the_layout_runs_on_between_them() -> None:
    hut = built(lit(skylight()))
    # 126 less 3/4 and 2-1/4; 162 and the same
    assert centres(hut, "trimmer-rafter") == pytest.approx([123.75, 125.25, 162.75, 164.25])
    assert centres(hut, "cut-common") == pytest.approx([128.0, 128.0, 144.0, 144.0, 160.0, 160.0])
    whole = centres(hut, "common-rafter")
    assert [u for u in whole if 100 < u < 190] == pytest.approx([112.0, 176.0])


def test_a_trimmer_stands_for_a_rafter_of_the_layout_that_has_no_room_beside_it() -> None:
    # left edge at 130: trimmers at 127.75 and 129.25, an eighth and more inside the rafter at 128
    building = lit(skylight(left=130.0, center=None))
    assert 128.0 not in [round(u, 6) for u in centres(built(building), "common-rafter")]
    _, found = frame(building, lambda path: Place(path=path))
    assert any(f.rule == "frame.opening" and "stand for 1 of the rafters on the layout" in f.message for f in found)
    # a sixteenth of room is room: the trimmer's side at 126-13/16 is clear of the rafter's at 127.25 - 3/8
    assert 112.0 in [round(u, 6) for u in centres(built(lit(skylight(left=116.5625, center=None))), "common-rafter")]


def test_cut_rafters_reach_from_the_tail_to_the_lower_header_and_from_the_upper_one_to_the_ridge() -> None:
    lower, upper = sorted(
        {m.mark: m for m in with_role(built(lit(skylight())).members, "cut-common")}.values(), key=lambda m: m.mark
    )
    assert lower.rafter is not None
    assert upper.rafter is not None
    # two plies of 1-1/2 under the opening: 48 - 3 = 45 from the heel line; and over it 84 + 3 = 87
    assert lower.rafter.line_length == pytest.approx(45.0)
    assert lower.rafter.seat == pytest.approx(4.125)
    # ten feet of run less half of 5-1/2, over cos: 140.917
    assert upper.rafter.line_length == pytest.approx(117.25 / SLOPE_COS - 87.0)
    assert upper.rafter.seat == 0.0
    assert upper.rafter.ridge_shortening == pytest.approx(2.75 / SLOPE_COS)


def test_cut_rafters_are_cut_square_at_square_headers_and_plumb_at_plumb_ones() -> None:
    for headers, miter in (("square", 0.0), ("plumb", 33.690067525979785)):
        members = with_role(built(lit(skylight(headers=headers))).members, "cut-common")
        at_header = [m.cuts[1] if m.rafter is not None and m.rafter.seat else m.cuts[0] for m in members]
        assert {round(abs(cut.miter_deg), 6) for cut in at_header} == {round(miter, 6)}
        assert all(cut.bevel_deg == 0 for cut in at_header)


def test_upper_cut_rafters_of_a_shed_bear_on_the_high_wall_as_whole_ones_do() -> None:
    hut = built(shed(skylight(side="side 1", up="6'", height="2'")))
    bears = {j.upper: j.bearing_in for j in hut.joints if j.kind == "bears"}
    seats = []
    for index, member in enumerate(hut.members):
        if member.role.name == "cut-common" and member.rafter is not None and not member.rafter.seat:
            assert member.rafter.upper_seat is not None
            seats.append(bears[index])
            assert bears[index] == pytest.approx(member.rafter.upper_seat)
    # 7-1/4 at 4/12: the plate's full width notches 1.74, within a quarter of the depth
    assert seats == pytest.approx([5.5] * 3)


def test_on_a_hip_roof_cut_rafters_run_on_to_the_hip_with_its_cheek() -> None:
    # near the south-west hip: what is cut above the upper header ends on the hip
    hut = built(hipped(skylight(side="side 1", center="7'-6\"", up="1'", height="2'")))
    upper = [m for m in with_role(hut.members, "cut-common") if m.rafter is not None and not m.rafter.seat]
    assert upper
    assert all(m.cuts[1].bevel_deg for m in upper)
    assert list(overlaps(hut.members)) == []


def test_openings_in_line_one_above_the_other_share_their_trimmers() -> None:
    hut = built(shed(skylight(side="side 1", up="3'", height="2'"), skylight(side="side 1", up="9'", height="2'")))
    assert len(with_role(hut.members, "trimmer-rafter")) == 4
    assert len(with_role(hut.members, "roof-header")) == 8
    # three on the layout between the trimmers, each in three pieces; the middle one is cut square at both ends
    cut = with_role(hut.members, "cut-common")
    assert len(cut) == 9
    middle = [m for m in cut if m.rafter is not None and m.rafter.square_foot and m.rafter.square_head]
    # 9' less 3' + 2' less two headers of 3: 48 - 6
    assert [m.length_in for m in middle] == pytest.approx([42.0] * 3)


# Headers


def test_square_headers_fill_the_bands_over_and_under_the_opening_between_the_trimmers() -> None:
    hut = built(lit(skylight()))
    plies = with_role(hut.members, "roof-header")
    assert [m.profile.name for m in plies] == ["2x10"] * 4
    assert all(reach(hut, m, 0) == near(126.0, 162.0) for m in plies)
    assert sorted(reach(hut, m, 1) for m in plies) == [near(45, 46.5), near(46.5, 48), near(84, 85.5), near(85.5, 87)]
    assert all(reach(hut, m, 2) == near(-9.25, 0.0) for m in plies)


def test_plumb_headers_stand_upright_each_ply_with_its_outer_top_edge_in_the_slope() -> None:
    hut = built(lit(skylight(headers="plumb")))
    plies = with_role(hut.members, "roof-header")
    # a 2x10 is 11.12 plumb at 8/12; the next size that covers it is a 2x12
    assert [m.profile.name for m in plies] == ["2x12"] * 4
    assert all(m.placement.y == UP for m in plies)
    assert all(reach(hut, m, 2)[1] == pytest.approx(0.0, abs=NEAR) for m in plies)
    faces = sorted(m.placement.to_world((0.0, 0.0, 0.75))[1] for m in plies)  # their outer faces, level from the south
    low, high = 48 * SLOPE_COS, 84 * SLOPE_COS
    assert faces == pytest.approx([low - 3, low - 1.5, high, high + 1.5])


def test_one_ply_is_one_header_and_one_trimmer() -> None:
    hut = built(lit(skylight(plies=1)))
    assert centres(hut, "trimmer-rafter") == pytest.approx([125.25, 162.75])
    assert len(with_role(hut.members, "roof-header")) == 2


def test_every_cut_rafter_hangs_on_a_header_and_on_the_beam_and_headers_meet_the_trimmers() -> None:
    hut = built(lit(skylight(width="5'"), skylight(side="north", width="7'")))
    joints = [(j.kind, hut.members[j.upper].role.name, hut.members[j.lower].role.name) for j in hut.joints]
    cut = with_role(hut.members, "cut-common")
    assert joints.count(("hangs", "cut-common", "roof-header")) == len(cut)
    assert joints.count(("hangs", "cut-common", "ridge-beam")) == len(cut) / 2
    assert joints.count(("bears", "cut-common", "cap-plate")) == len(cut) / 2
    # four plies of each opening meet a trimmer at both ends; only those over six feet want hangers
    assert joints.count(("butts", "roof-header", "trimmer-rafter")) == 8
    assert joints.count(("hangs", "roof-header", "trimmer-rafter")) == 8


# Chimneys


@pytest.mark.parametrize("headers", ["plumb", "square"])
@pytest.mark.parametrize("pitch", ["3/12", "8/12", "14/12"])
def test_all_framing_keeps_two_inches_from_a_chimney(pitch: str, headers: str) -> None:
    """IRC R1003.18, from memory: two inches of air round a masonry chimney inside the building."""
    from manifold3d import Manifold

    stack = {"side": "south", "kind": "chimney", "center": "12'", "from_wall": "4'", "width": '32"', "depth": '24"'}
    hut = built(lit({**stack, "headers": headers}, pitch=pitch))
    # 144 less and plus 16; 48 to 72 from the wall's outside; two inches wider all round, less a hair
    air = Manifold.cube((36 - 2e-3, 28 - 2e-3, 800.0)).translate((126 + 1e-3, 46 + 1e-3, 99.0))
    inside = [m.role.name for m in hut.members if (air ^ solid(m).body).volume() > 0]
    assert inside == []
    if headers == "plumb":
        # and no more: a quarter inch wider meets trimmers and headers
        wide = Manifold.cube((36.5, 28.5, 800.0)).translate((125.75, 45.75, 99.0))
        met = {m.role.name for m in hut.members if (wide ^ solid(m).body).volume() > 0}
        assert met == {"trimmer-rafter", "roof-header"}


def test_a_chimney_stands_between_plumb_headers_unless_told_otherwise() -> None:
    stack = {"side": "south", "kind": "chimney", "center": "12'", "from_wall": "4'", "width": '32"', "depth": '24"'}
    assert all(m.placement.y == UP for m in with_role(built(lit(stack)).members, "roof-header"))


def test_from_wall_and_up_are_one_place() -> None:
    level = built(lit(skylight(up=None, from_wall=48 * SLOPE_COS)))
    along = built(lit(skylight(up=48)))
    assert [m.mark for m in level.members] == [m.mark for m in along.members]


# Layout and sheathing


def test_the_plate_shows_the_edges_of_the_opening_and_the_trimmers_show_its_headers() -> None:
    hut = built(lit(skylight()))
    lines = {line.name: [(m.position_in, m.symbol) for m in line.marks] for line in hut.lines}
    plate = lines["south wall, top of cap plate"]
    assert [mark for mark in plate if mark[1] in ("[", "CL", "]")] == [(126.0, "["), (144.0, "CL"), (162.0, "]")]
    assert [at for at, symbol in plate if symbol == "T"] == pytest.approx([123.75, 125.25, 162.75, 164.25])
    tail = 16 / SLOPE_COS
    (trimmers,) = (marks for name, marks in lines.items() if "trimmers" in name)
    assert [at for at, _ in trimmers] == pytest.approx([tail + v for v in (45, 48, 84, 87)], abs=1e-5)
    (headers,) = (marks for name, marks in lines.items() if name.endswith("headers"))
    assert headers == [(2.0, "C"), (18.0, "C"), (34.0, "C")]  # 128, 144 and 160 less 126


def test_sheets_are_cut_round_the_opening_and_cover_the_rest_once() -> None:
    hut = built(lit(skylight()))
    face = slope_of(hut, "south slope")
    panels = [p.polygon for p in hut.panels if p.face == face.name]
    hole = 36.0 * 36.0
    assert sum(p.area for p in panels) == pytest.approx(union_all(panels).area)
    other = sum(p.polygon.area for p in hut.panels if p.face == "north slope")
    assert sum(p.area for p in panels) == pytest.approx(other - hole)


# Refusals


@pytest.mark.parametrize(
    ("building", "says"),
    [
        # hips of equal pitch run 45 degrees in plan: left trimmer at 48 - 18 - 3 = 27 from the corner, on 2x8 rafters
        (hipped(skylight(side="side 1", center="4'", height="2'")), "into the hip"),
        (hipped(skylight(side="side 1", up="7'", height="2'")), "into the ridge"),
        (hipped(skylight(side="side 1", up="16'", height="2'")), "into the ridge"),
        (hipped(skylight(side="side 3", center="14'-6\"", up="3'", height="2'"), points=ELL), "stand on the valley"),
        (hipped(skylight(side="side 3", center="15'-6\"", up="1'", height="2'"), points=ELL), "into the valley"),
        (lit(skylight(up="9'")), "into the ridge"),
        (lit(skylight(left='4"', center=None)), 'runs 1/2" into the end rafter at the left rake'),
        (lit(skylight(left="27'", center=None)), 'runs 4 1/2" into the end rafter at the right rake'),
        (shed(skylight(side="side 1", up="14'", height="2'")), "into the high wall"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_an_opening_across_an_edge_of_its_slope_is_refused_with_the_edge_and_a_mend(
    building: Building, says: str
) -> None:
    message = refusal(building)
    assert says in message
    assert "; " in message
    assert any(word in message for word in ("move it", "lower it", "raise it"))


def test_how_far_an_opening_runs_into_the_ridge_is_measured_level() -> None:
    # v of the upper header's face 108 + 36 + 3 = 147, its foot further in by the rafter's depth, and 1-1/2 to spare,
    # against ten feet of run less half a beam of 5-1/2
    lean = 9.25 * tan(radians(33.690067525979785)) * SLOPE_COS
    over = 147 * SLOPE_COS + lean + 1.5 - 117.25
    assert over == pytest.approx(11.69, abs=0.01)
    assert 'runs 11 11/16" into the ridge' in refusal(lit(skylight(up="9'")))


def test_an_opening_right_up_to_its_limits_is_framed() -> None:
    # trimmers tight beside the end rafter: 1-1/2 and 3; the lower header's face tight inside the 5-1/2 plate
    up = 5.5 / SLOPE_COS + 3
    building = lit(skylight(left='4-1/2"', center=None, up=up))
    assert [flaw for flaw in building_flaws(building) if flaw.severity is Severity.ERROR] == []
    assert list(overlaps(built(building).members)) == []


# Laws


SLOPED = {
    "gable": (lit, ("south", "north")),
    "gable on a board": (
        lambda *s: lit(*s, ridge={"kind": "board", "size": "2x12"}, pitch="5/12", rafters={"size": "2x8"}),
        ("south", "north"),
    ),
    "hip": (hipped, ("side 1", "side 2", "side 3", "side 4")),
    "ell": (lambda *s: hipped(*s, points=ELL), ("side 1", "side 3", "side 4", "side 6")),
    "shed": (shed, ("side 1",)),
}


@st.composite
def any_lit(draw: st.DrawFn) -> Building:
    make, sides = SLOPED[draw(st.sampled_from(sorted(SLOPED)))]
    place = st.integers(0, 300).map(float)
    size = st.sampled_from([14.5, 22.5, 30.5, 48.0, 84.0])
    written: Written = {
        "side": draw(st.sampled_from(sides)),
        "center": draw(place),
        "from_wall": draw(st.integers(4, 110).map(float)),
        "width": draw(size),
        "plies": draw(st.sampled_from([1, 2])),
        "headers": draw(st.sampled_from(["square", "plumb"])),
    }
    chimney = draw(st.booleans())
    written |= {"kind": "chimney", "depth": draw(size)} if chimney else {"height": draw(size)}
    return make(written)


def framed_or_refused(building: Building) -> FramedBuilding | str:
    """The building as built, or the rule that refuses it."""
    try:
        return built(building)
    except PlanError as error:
        (finding,) = error.findings
        return finding.rule


@settings(max_examples=30, deadline=None)
@given(building=any_lit())
@example(building=hipped(skylight(side="side 2", center="8'", up='18"', height='18"')))
@example(building=hipped(skylight(side="side 3", center="12'", up="3'", height="2'"), points=ELL))
def test_an_opening_anywhere_is_refused_in_words_or_framed_with_no_stick_in_another(building: Building) -> None:
    if any(flaw.severity is Severity.ERROR for flaw in building_flaws(building)):
        return
    hut = framed_or_refused(building)
    if isinstance(hut, str):
        assert hut == "frame.opening"
        return
    assert list(overlaps(hut.members)) == []
    trimmers = with_role(hut.members, "trimmer-rafter")
    assert len(trimmers) == 2 * building.roof.skylights[0].plies
    assert all(m.rafter is not None and m.rafter.seat for m in trimmers)
    cut = [i for i, m in enumerate(hut.members) if m.role.name == "cut-common"]
    hung = [j.upper for j in hut.joints if hut.members[j.lower].role.name == "roof-header"]
    assert sorted(hung) == cut, "every cut rafter hangs on one header"
    for face in hut.faces:
        panels = [p.polygon for p in hut.panels if p.face == face.name]
        assert sum(p.area for p in panels) == pytest.approx(face.outline.polygon.area, rel=1e-6)


def test_the_steeper_the_slope_the_longer_a_chimney_s_opening_along_it() -> None:
    stack = {"side": "south", "kind": "chimney", "center": "12'", "from_wall": "4'", "width": '32"', "depth": '24"'}
    for pitch, rise in (("4/12", 4), ("12/12", 12)):
        building = lit(stack, pitch=pitch)
        low, high = building.roof.skylights[0].reach_in(rise / 12, 0.0)
        assert high - low == pytest.approx(28 * hypot(1, rise / 12))  # 24 and two inches at both faces
