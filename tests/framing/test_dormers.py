"""Dormers: small buildings on a slope of the main roof, their roofs laid over it on valley plates."""

from __future__ import annotations

from functools import cache
from math import atan, degrees, hypot
from typing import Any

import numpy as np
import pytest
from shapely import Polygon
from shop import built, gable, roofed, with_role

from takeoff.checks.audit import overlaps
from takeoff.findings import Place, PlanError
from takeoff.framing.frame import frame
from takeoff.framing.valley_plates import in_lengths
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.plan.schema import Building

GABLE = {
    "side": "south",
    "shape": "gable",
    "center": "10'",
    "width": "5'",
    "front": '14"',
    "height": "4'",
    "pitch": "10/12",
    "rafters": {"size": "2x6"},
    "overhang": {"eave": '6"'},
    "windows": [{"size": "2620"}],
}
SHED = {
    **GABLE,
    "side": "north",
    "shape": "shed",
    "center": "16'",
    "width": "9'",
    "pitch": "3/12",
    "windows": [{"center": "2'-6\"", "size": "2020"}, {"center": "6'-6\"", "size": "2020"}],
}
LAYER_IN = 5 / 8 + 1.5
"""Sheathing and a plate lying flat on it."""


def house(*dormers: dict[str, Any], pitch: str = "12/12", **roof: Any) -> Building:
    """A gabled house with dormers."""
    trim = {"overhang": {"eave": '12"', "rake": '12"'}, "fascia": {"size": "2x6"}, "barge": {"size": "2x8"}}
    return gable(
        walls={"studs": "2x4"},
        roof={
            **trim,
            "pitch": pitch,
            "rafters": {"size": "2x8"},
            "outlookers": {},
            "ridge": {"kind": "board", "size": "2x10"},
            "dormers": list(dormers),
            **roof,
        },
    )


@cache
def both() -> FramedBuilding:
    """A house with a dormer of either kind."""
    return built(house(GABLE, SHED))


def of(framed: FramedBuilding, part: str, *roles: str) -> tuple[Member, ...]:
    """Sticks of some roles in the faces that have a part's words in their name."""
    return tuple(m for m in with_role(framed.members, *roles) if part in m.face)


def plane_of(rafters: tuple[Member, ...]) -> tuple[np.ndarray, float]:
    """Upward unit normal and distance of the plane through the tops of rafters, from three points of two of them."""
    first, last = rafters[0], rafters[-1]
    spots = [(first, 0.0), (first, 20.0), (last, 0.0)]
    a, b, c = (np.array(m.placement.to_world((x, m.profile.depth_in, 0.0))) for m, x in spots)
    normal = np.cross(b - a, c - a)
    normal = normal / np.linalg.norm(normal) * np.sign(normal[2])
    return normal, float(normal @ a)


def deck(framed: FramedBuilding, side: str) -> tuple[np.ndarray, float]:
    """The plane of the tops of plates that lie on a main slope's sheathing."""
    normal, away = plane_of(tuple(m for m in with_role(framed.members, "common-rafter") if m.face == f"{side} slope"))
    return normal, away + LAYER_IN


@pytest.mark.parametrize(
    "building",
    [
        house(GABLE, SHED),
        house({**GABLE, "overhang": {"rake": '8"'}, "pitch": "6/12"}),
        house({**GABLE, "pitch": "12/12", "overhang": {"eave": '8"'}}, tail={"cut": "square"}),
        house(
            {**SHED, "overhang": {"rake": '8"'}, "height": "3'", "windows": []},
            {**GABLE, "center": "22'"},
            pitch="9/12",
        ),
    ],
    ids=["one of each", "with a rake", "square tails", "two slopes"],
)
def test_no_stick_of_a_dormer_stands_in_another(building: Building) -> None:
    main_walls = ("south", "east", "north", "west")
    assert not list(overlaps([member for member in built(building).members if member.face not in main_walls]))


def test_a_valley_jack_ends_where_three_planes_meet() -> None:
    """The planes: tops of the dormer's slope, the main slope raised by sheathing and plate, the jack's own middle."""
    framed = both()
    jacks = of(framed, "right cheek", "valley-jack")
    slope = plane_of(of(framed, "south dormer right cheek slope", "common-rafter"))
    main = deck(framed, "south")
    assert jacks
    for jack in jacks:
        across = np.array(jack.placement.z)
        planes = (slope, main, (across, float(across @ np.array(jack.placement.origin))))
        spot = np.linalg.solve([normal for normal, _ in planes], [away for _, away in planes])
        cut = jack.cuts[0]
        normal, through = (np.array(part) for part in jack.placed(cut))
        # The cut's plane in the world is the raised main slope, and its centre is that spot.
        assert np.array(jack.placement.direction_to_world(tuple(normal))) == pytest.approx(-main[0], abs=1e-9)
        x = through[0] - (normal[1] * (jack.profile.depth_in - through[1]) - normal[2] * through[2]) / normal[0]
        assert jack.placement.to_world((x, jack.profile.depth_in, 0.0)) == pytest.approx(tuple(spot), abs=1e-6)


@pytest.mark.parametrize(("main", "own"), [("12/12", "10/12"), ("8/12", "8/12"), ("14/12", "6/12")])
def test_a_valley_jacks_foot_is_sawn_level_with_the_blade_at_the_main_pitch(main: str, own: str) -> None:
    """Closed form: it runs along the main eave, so its foot is a level cut, tilted as the main roof is."""
    dormer = {**GABLE, "pitch": own, "height": '36"', "width": "4'", "windows": []}
    framed = built(house(dormer, pitch=main))
    over, up = (degrees(atan(int(pitch.split("/")[0]) / 12)) for pitch in (own, main))
    jacks = with_role(framed.members, "valley-jack")
    assert {round(jack.cuts[0].bevel_deg, 6) for jack in jacks} == {round(up, 6), round(-up, 6)}
    assert {round(jack.cuts[0].miter_deg, 6) for jack in jacks} == {round(over - 90, 6)}


def test_a_shed_dormers_rafters_end_on_the_main_slope() -> None:
    framed = both()
    normal, away = deck(framed, "north")
    rafters = of(framed, "north dormer", "common-rafter", "end-rafter")
    assert len(rafters) == 8  # two at the cheeks, 16" on centre between
    for rafter in rafters:
        ends = [rafter.placement.to_world((x, y, 0.0)) for x, y in rafter.side.exterior.coords]
        over = sorted(float(normal @ np.array(end)) - away for end in ends)
        assert over[:2] == pytest.approx([0.0, 0.0], abs=1e-6)  # both ends of its upper cut
        # At the main pitch over its own: off square by the complement of their difference.
        assert rafter.cuts[1].miter_deg == pytest.approx(-(90 - 45 + degrees(atan(3 / 12))), abs=1e-9)


def test_every_rafter_that_is_laid_on_the_main_roof_bears_on_a_valley_plate() -> None:
    framed = both()
    laid = {k for k, m in enumerate(framed.members) if m.rafter and (m.rafter.laid_foot or m.rafter.laid_head)}
    bearing = {
        joint.upper: joint.bearing_in
        for joint in framed.joints
        if framed.members[joint.lower].role.name == "valley-plate"
    }
    assert set(bearing) == laid
    assert len(laid) == 12  # two jacks a hand, eight rafters of the shed
    assert min(bearing.values()) > 1.5


def test_valley_plates_lie_on_the_sheathing_under_the_lines_where_the_roofs_meet() -> None:
    framed = both()
    normal, away = deck(framed, "south")
    plates = of(framed, "south dormer", "valley-plate")
    slopes = [plane_of(of(framed, f"south dormer {hand} cheek slope", "common-rafter")) for hand in ("left", "right")]
    assert [plate.profile.name for plate in plates] == ["2x6", "2x6"]
    for plate in plates:
        corners = list(plate.side.exterior.coords)[:-1]
        tops = [
            np.array(max((plate.placement.to_world((x, y, z)) for z in (-0.75, 0.75)), key=lambda spot: spot[2]))
            for x, y in corners
        ]
        assert [float(normal @ top) - away for top in tops] == pytest.approx([0.0] * len(tops), abs=1e-6)
        # Its outer edge lies in the plane of the dormer's rafters' tops, and no corner of it stands out of that.
        over = [max(float(n @ top) - a for n, a in slopes) for top in tops]
        assert sum(abs(height) < 1e-6 for height in over) == 2
        assert max(over) < 1e-6


def test_the_main_slope_has_an_opening_with_doubled_trimmers_under_the_cheeks() -> None:
    framed = both()
    trimmers = of(framed, "south slope", "trimmer-rafter")
    faces = sorted(m.placement.origin[0] for m in trimmers)
    # Cheeks of 2x4 from 90 to 150: the trimmers flush with their insides.
    assert faces == pytest.approx([91.25, 92.75, 147.25, 148.75])
    assert len(of(framed, "south slope", "roof-header")) == 4
    face = next(face for face in framed.faces if face.name == "south slope")
    (hole,) = face.outline.holes
    open_to_it = Polygon([edge.a for edge in hole])
    panels = [panel.polygon for panel in framed.panels if panel.face == "south slope"]
    assert max(panel.intersection(open_to_it).area for panel in panels) < 1e-6


def test_studs_of_a_dormer_stand_on_its_soles() -> None:
    framed = both()
    for side in ("south", "north"):
        normal, away = deck(framed, side)
        studs = of(framed, f"{side} dormer", "stud", "king-stud", "corner-stud", "gable-stud", "jack-stud")
        assert len(studs) > 8
        for stud in (one for one in studs if one.cuts[0].miter_deg or one.cuts[0].bevel_deg):
            cut_normal, through = stud.placed(stud.cuts[0])
            assert stud.placement.direction_to_world(cut_normal) == pytest.approx(tuple(-normal), abs=1e-9)
            assert float(normal @ np.array(stud.placement.to_world(through))) == pytest.approx(away)
        square = [one for one in studs if not (one.cuts[0].miter_deg or one.cuts[0].bevel_deg)]
        # Those that stand on the top plate of the front, in its gable, are cut square.
        assert {one.role.name for one in square} <= {"gable-stud", "king-stud"}
        assert len(of(framed, f"{side} dormer", "bottom-plate")) == 3


def test_cheeks_and_front_are_sheathed_down_to_the_main_roof() -> None:
    framed = both()
    cheek = next(face for face in framed.faces if face.name == "south dormer right cheek")
    # Main pitch 12/12: a triangle as long as it is high, from the sheathing's top at the front to the plates.
    high = 48 - 5 / 8 * hypot(1, 1)
    assert cheek.outline.polygon.area == pytest.approx(high * high / 2)
    sheets = [panel.polygon.area for panel in framed.panels if panel.face == cheek.name]
    assert sum(sheets) == pytest.approx(high * high / 2)


def test_a_window_stands_in_the_front_under_its_header() -> None:
    framed = both()
    headers = of(framed, "south dormer front", "header")
    top = next(iter(of(framed, "south dormer front", "top-plate")))
    assert len(headers) == 2
    low = min(member.placement.origin[2] for member in headers)
    assert low + headers[0].profile.depth_in == pytest.approx(top.placement.origin[2] - 0.75)  # its middle


def refusal(building: Building) -> tuple[str, str]:
    """Where and what is said of a house that can't be framed."""
    with pytest.raises(PlanError) as caught:
        frame(building, lambda path: Place(path=path))
    (finding,) = caught.value.findings
    return finding.place.path, finding.message


@pytest.mark.parametrize(
    ("dormers", "said", "mend"),
    [
        ([{**GABLE, "width": "12'"}], "past the main ridge of the south slope", "narrower or lower"),
        (
            [{**SHED, "pitch": "9/12"}],
            "too high for the north slope: its ceiling",
            "lower, or bring its front further out",
        ),
        (
            [{**GABLE, "height": "9'"}],
            "too high for the south slope: its ceiling",
            "lower, or bring its front further out",
        ),
        ([{**GABLE, "center": "2'-6\""}], "end rafter at the left rake", "move it along the eave"),
        ([GABLE, {**GABLE, "center": "15'"}], "the south dormer 1 runs into the south dormer 2", "move them apart"),
        ([{**GABLE, "windows": [{"size": "2640"}]}], "too far down", "greater height"),
    ],
    ids=["too wide", "never clear", "too high", "at the rake", "two in one place", "window in the roof"],
)
def test_a_dormer_without_room_is_refused_with_a_mend(dormers: list[dict[str, Any]], said: str, mend: str) -> None:
    path, message = refusal(house(*dormers))
    assert path.startswith("roof.dormers[0]")
    assert said in message
    assert mend in message


def test_a_dormer_across_a_hip_is_refused() -> None:
    points = [(0.0, 0.0), (360.0, 0.0), (360.0, 240.0), (0.0, 240.0)]
    roof = {"rafters": {"size": "2x8"}, "ridge": {"kind": "board", "size": "2x10"}, "dormers": []}
    dormer = {**GABLE, "side": "side 1", "center": "5'"}
    roof["dormers"] = [dormer]
    path, message = refusal(roofed(points, pitch="12/12", **roof))
    assert path == "roof.dormers[0]"
    assert "the hip" in message
    assert "away from the hip" in message


def test_a_dormer_over_a_skylight_is_refused() -> None:
    skylight = {"side": "south", "center": "10'", "from_wall": "7'", "width": '24"', "height": '24"'}
    path, message = refusal(house(GABLE, skylights=[skylight]))
    assert path == "roof.dormers[0]"
    assert "stands over the skylight" in message


def test_a_dormer_comes_with_the_roof_it_stands_on() -> None:
    framed = both()
    assert {m.role.load for m in framed.members if "dormer" in m.face and m.role.name != "fascia"} == {2}
    assert {m.role.load for m in of(framed, "south", "stud") if "dormer" not in m.face} == {1}
    # Equal sticks of two deliveries have marks of their own.
    loads: dict[str, set[int]] = {}
    for member in framed.members:
        loads.setdefault(member.mark, set()).add(member.role.load)
    assert all(len(of_mark) == 1 for of_mark in loads.values())


def test_a_valley_plate_longer_than_stock_is_parted_over_rafters_or_at_full_length() -> None:
    plate = Polygon([(0, 0), (300, 300), (300, 307), (0, 7)])
    pieces = tuple(in_lengths(plate, 240.0, tuple(range(0, 301, 16))))
    # At 45 degrees 240 less 4.95, the slanted end, is 235.05 along: 166.2 level, so the joint falls on 160.
    assert [piece.bounds[0::2] for piece in pieces] == [(0.0, 160.0), (160.0, 300.0)]
    assert sum(piece.area for piece in pieces) == pytest.approx(plate.area)
    assert next(piece.bounds[2] for piece in in_lengths(plate, 240.0, ())) == pytest.approx(166.2, abs=0.01)
    assert len(tuple(in_lengths(plate, 480.0, ()))) == 1
