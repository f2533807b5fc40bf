"""Drawings of rafters: true to their outline, legible, and reproducible."""

from __future__ import annotations

from io import StringIO
from itertools import combinations, pairwise
from xml.etree import ElementTree

import ezdxf
import pytest
from ezdxf.bbox import extents
from shapely import LineString, Polygon

from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.geometry.placement import Placement
from takeoff.geometry.rafter import BeamUnder, Pocket, RafterGeometry, automatic_seat
from takeoff.model.member import Member
from takeoff.sheets.drawing import Drawing, Polyline, View
from takeoff.sheets.dxf import dxf
from takeoff.sheets.extent import extent, texts_of
from takeoff.sheets.lettering import text_box
from takeoff.sheets.pattern import rafter_pattern
from takeoff.sheets.rafter_drawing import WIDTH_MM, rafter_drawing
from takeoff.sheets.rafter_whole import spread
from takeoff.sheets.svg import svg

POCKETS = tuple(Pocket(centre, 3.5, 1.5) for centre in (5.25, 37.25, 69.25, 101.25, 133.25, 154.875))


def rafter(name: str = "common-rafter", mark: str = "R1", size: str = "2x10", **cuts: object) -> Member:
    sold = profile(size)
    given = {"slope": 8 / 12, "run": 120.0, "overhang": 16.0, "ridge_half": 2.75, "seat": 4.125, "tail_depth": 5.5}
    geometry = RafterGeometry(depth=sold.depth_in, **{**given, **cuts})  # type: ignore[arg-type]
    return Member(
        building="cabin",
        face="south slope",
        role=role(name),
        profile=sold,
        grade="no2",
        side=geometry.side(),
        placement=Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        rafter=geometry,
        mark=mark,
    )


def sloped(rise: float, size: str, run: float, overhang: float, tail: float | None) -> Member:
    depth = profile(size).depth_in
    seat = automatic_seat(depth=depth, plate_width=5.5, slope=rise / 12, notch_share=0.25, least=1.5)
    return rafter(size=size, slope=rise / 12, run=run, overhang=overhang, tail_depth=tail, seat=seat, ridge_half=0.75)


def shed(rise: float, size: str, *, mark: str = "R1", **cuts: object) -> Member:
    """A rafter from a low wall over a high one, 8 feet apart outside to outside, a foot over on each side."""
    given = {"run": 108.0, "overhang": 12.0, "ridge_half": 0.0, "seat": 3.5, "tail_depth": None, "upper_heel": 92.5}
    return rafter("common-rafter", mark, size, slope=rise / 12, **{**given, **cuts})


def over_beam(rise: float, size: str, *, mark: str = "R1", **cuts: object) -> Member:
    """A rafter over a beam 5-1/2" thick, with a level seat of 2" on it at least."""
    slope, depth = rise / 12, profile(size).depth_in
    seat = automatic_seat(depth=depth, plate_width=5.5, slope=slope, notch_share=0.25, least=1.5)
    plain = RafterGeometry(slope=slope, depth=depth, run=120.0, overhang=16.0, seat=seat)
    beam = BeamUnder(half=2.75, top=plain.underside_at(120.0 - 2.75 + 2.0))
    given = {"ridge_half": 0.0, "seat": seat, "tail_depth": None, "beam": beam}
    return rafter("common-rafter", mark, size, slope=slope, **{**given, **cuts})


MEMBERS = {
    "common": rafter(),
    "end": rafter("end-rafter", "E1", pockets=POCKETS),
    "barge": rafter("barge", "BG1", seat=0.0, stand=8.367, tail_depth=None),
    "level tail": rafter("barge", "BG2", seat=0.0, stand=8.367, tail_depth=None, tail_level_drop=6.5),
    "no tail": rafter(overhang=0.0),
    "low": sloped(3, "2x8", 144.0, 12.0, None),
    "low ripped": sloped(4, "2x12", 168.0, 18.0, 5.5),
    "steep": sloped(12, "2x10", 120.0, 12.0, None),
    "very steep": sloped(18, "2x8", 96.0, 6.0, None),
    "long": sloped(6, "2x12", 228.0, 24.0, 5.5),
    "slight": sloped(5, "2x6", 72.0, 10.0, 3.5),
    "square tail": rafter(tail_lean=8 / 12),
    "soffit": rafter(tail_depth=None, tail_level_drop=6.0),
    "square to headers": rafter(seat=0.0, foot=30.0, tail_depth=None, square_foot=True, square_head=True),
    "shed": shed(4, "2x6"),
    "shed end": shed(4, "2x6", mark="E3", pockets=POCKETS[:3]),
    "steep shed": shed(9, "2x10", tail_depth=5.5),
    "over a beam": over_beam(8, "2x10", tail_depth=5.5),
    "end over a beam": over_beam(8, "2x10", mark="E4", tail_depth=5.5, pockets=POCKETS),
    "low over a beam": over_beam(3, "2x8"),
    "steep over a beam": over_beam(12, "2x8"),
}


def view(drawing: Drawing, name: str) -> View:
    return next(view for view in drawing.views if view.name == name)


@pytest.mark.parametrize("member", MEMBERS.values(), ids=MEMBERS)
def test_no_text_overlaps_another(member: Member) -> None:
    drawing = rafter_drawing(member)
    boxes = [
        (text.words, Polygon([one.to_paper(point) for point in text_box(text, one.one_to)]))
        for one in drawing.views
        for text in texts_of(one.items, one.one_to)
        if text.words
    ]
    assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if one.intersection(other).area > 0.05] == []


@pytest.mark.parametrize("member", MEMBERS.values(), ids=MEMBERS)
def test_no_text_lies_on_the_outline(member: Member) -> None:
    struck = []
    for one in rafter_drawing(member).views:
        outlines = [LineString([*i.points, *i.points[: int(i.closed)]]) for i in one.items if isinstance(i, Polyline)]
        for text in texts_of(one.items, one.one_to):
            box = Polygon(text_box(text, one.one_to))
            struck += [(one.name, text.words) for line in outlines if text.words and box.buffer(-0.02).intersects(line)]
    assert struck == []


@pytest.mark.parametrize("member", MEMBERS.values(), ids=MEMBERS)
def test_everything_is_on_the_paper(member: Member) -> None:
    drawing = rafter_drawing(member)
    assert drawing.width_mm == WIDTH_MM
    for one in drawing.views:
        x0, y0, x1, y1 = extent(one.items, one.one_to)
        (left, low), (right, high) = one.to_paper((x0, y0)), one.to_paper((x1, y1))
        assert -0.01 <= left <= right <= drawing.width_mm + 0.01
        assert 0 <= low <= high <= drawing.height_mm


def test_the_whole_stick_is_drawn_from_the_members_own_outline() -> None:
    member = MEMBERS["end"]
    one = view(rafter_drawing(member), "whole")
    (outline,) = (item for item in one.items if isinstance(item, Polyline) and item.closed)
    assert Polygon(outline.points).symmetric_difference(member.side).area == pytest.approx(0, abs=1e-9)
    assert outline.mark == "E1"


def test_a_common_rafter_shows_the_figures_worked_by_hand() -> None:
    # 8/12, 10 ft run, 2x10 on a 5-1/2 beam: worked by hand from the slope formulas
    words = {text.words for one in rafter_drawing(rafter()).views for text in texts_of(one.items, one.one_to)}
    assert {"13'-7 13/16\"", "11'-8 15/16\"", "1'-7 1/4\"", '4 1/8"', '2 3/4"', '1 3/4"', '8 3/8"', "33.7°"} <= words
    assert "seat, level cut 56.3°" in words


def test_an_end_rafter_has_running_dimensions_to_both_edges_of_every_pocket() -> None:
    one = view(rafter_drawing(MEMBERS["end"]), "whole")
    words = {text.words for text in texts_of(one.items, one.one_to)}
    # 37-1/4 less and plus half of 3-1/2
    assert {"2'-11 1/2\"", "3'-3\"", '3 1/2"', '7"'} <= words


def test_a_barge_rafter_has_no_birds_mouth() -> None:
    assert [one.name for one in rafter_drawing(MEMBERS["barge"]).views] == ["whole", "tail", "ridge"]


def words_of(member: Member, name: str) -> set[str]:
    one = view(rafter_drawing(member), name)
    return {text.words for text in texts_of(one.items, one.one_to)}


def test_a_shed_rafter_shows_its_upper_birds_mouth_and_where_it_is() -> None:
    # 4/12, cos = 0.94868: 92-1/2 / cos = 97.504; (108 - 92-1/2) / cos = 16.338
    # stand: 5-1/2 / cos - 3-1/2 * 4/12 = 4.631
    assert {"8'-1 1/2\"", "to upper heel plumb line", "1'-4 5/16\"", "to upper plumb cut"} <= words_of(
        MEMBERS["shed"], "whole"
    )
    assert {'4 5/8"', "above high plate", '3 1/2"', '1 3/16"'} <= words_of(MEMBERS["shed"], "upper-mouth")
    assert {"above low plate"} <= words_of(MEMBERS["shed"], "mouth")


def test_a_rafter_over_a_beam_shows_its_mouth_and_peak_in_one_view() -> None:
    # 8/12: heel 2 * 8/12 = 1.333; above the beam 9-1/4 / cos - 1.333 = 9.784
    member = MEMBERS["over a beam"]
    assert [one.name for one in rafter_drawing(member).views] == ["whole", "mouth", "upper-mouth", "tail"]
    assert {'1 5/16"', '9 13/16"', "above beam", '2"', "33.7°", "plumb cut"} <= words_of(member, "upper-mouth")
    assert not any("ridge" in words for words in words_of(member, "whole"))


def test_an_end_rafter_has_a_running_dimension_to_its_second_heel() -> None:
    # (92-1/2 + 12) / 0.94868 = 110.152
    assert "9'-2 1/8\" upper heel" in words_of(MEMBERS["shed end"], "whole")


def test_a_tail_cut_square_says_so_instead_of_an_angle() -> None:
    assert "square" in words_of(MEMBERS["square tail"], "tail")
    assert "square" in words_of(MEMBERS["square to headers"], "tail")
    assert {"square"} <= words_of(MEMBERS["square to headers"], "ridge")


def test_a_soffit_cut_shows_both_its_parts() -> None:
    # plumb depth 9-1/4 / cos = 11.117; level part (11.117 - 6) / (8/12) = 7.676
    assert {'6"', "plumb part", '7 11/16"', "level cut 56.3°"} <= words_of(MEMBERS["soffit"], "tail")


def test_a_level_cut_that_passes_below_the_tail_is_not_shown() -> None:
    assert "plumb part" not in words_of(rafter(tail_level_drop=7.0), "tail")  # the 2x6 tail is 6.61 deep, plumb


def test_a_member_that_is_no_rafter_is_refused() -> None:
    from dataclasses import replace

    with pytest.raises(ValueError, match="no rafter"):
        rafter_drawing(replace(rafter(), rafter=None))


@pytest.mark.parametrize("member", MEMBERS.values(), ids=MEMBERS)
def test_a_pattern_is_the_outline_full_size(member: Member) -> None:
    content = dxf(rafter_pattern(member))
    document = ezdxf.read(StringIO(content.decode()))
    assert not document.audit().has_issues
    (outline,) = (e for e in document.modelspace().query("LWPOLYLINE") if e.dxf.layer == "OUTLINE")
    assert extents([outline]).size.x == pytest.approx(member.length_in, abs=1e-6)
    assert content == dxf(rafter_pattern(member))


def test_the_drawing_is_the_same_bytes_every_time_and_is_xml() -> None:
    content = svg(rafter_drawing(MEMBERS["end"]))
    assert content == svg(rafter_drawing(MEMBERS["end"]))
    assert ElementTree.fromstring(content).get("width") == "190mm"


def test_spread_keeps_order_and_pitch_and_moves_nothing_that_has_room() -> None:
    assert spread([0.0, 10.0, 20.0], 3.0) == [0.0, 10.0, 20.0]
    # two at 10 and 11 share the middle 10.5
    assert spread([0.0, 10.0, 11.0], 3.0) == pytest.approx([0.0, 9.0, 12.0])
    crowded = spread([0.0, 0.5, 1.0, 3.0, 3.1, 20.0], 2.0)
    assert all(b - a >= 2.0 - 1e-9 for a, b in pairwise(crowded))
