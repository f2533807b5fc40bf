"""Drawings of rafters with cheek cuts: both ends from above, true to their planes, legible."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from shapely import LineString, Polygon

from takeoff.model.member import Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import Drawing, Polyline, View
from takeoff.sheets.extent import extent, texts_of
from takeoff.sheets.lettering import text_box
from takeoff.sheets.rafter_drawing import rafter_drawing
from takeoff.sheets.sheet_drawings import sheet_drawing
from takeoff.sheets.stick_end import has_cheeks, stick_ends

JOBS = pytest.mark.parametrize("job", ["hip_takeoff", "ell_takeoff"])


def compound(takeoff: Takeoff) -> dict[str, Member]:
    """One member of each mark that has a cheek cut."""
    members = (m for b in takeoff.buildings for m in b.members if m.rafter is not None)
    return {member.mark: member for member in members if has_cheeks(member)}


def view(drawing: Drawing, name: str) -> View:
    return next(view for view in drawing.views if view.name == name)


@JOBS
def test_no_lettering_lies_on_lettering_or_off_the_paper(job: str, request: pytest.FixtureRequest) -> None:
    takeoff: Takeoff = request.getfixturevalue(job)
    for mark, member in compound(takeoff).items():
        drawing = sheet_drawing(member, takeoff)
        boxes = []
        for one in drawing.views:
            x0, y0, x1, y1 = extent(one.items, one.one_to)
            (left, low), (right, high) = one.to_paper((x0, y0)), one.to_paper((x1, y1))
            assert -0.01 <= left <= right <= drawing.width_mm + 0.01, (mark, one.name)
            assert -0.01 <= low <= high <= drawing.height_mm + 0.01, (mark, one.name)
            texts = (text for text in texts_of(one.items, one.one_to) if text.words)
            boxes += [(t.words, Polygon([one.to_paper(p) for p in text_box(t, one.one_to)])) for t in texts]
        assert [
            (mark, a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.intersection(two).area > 0.05
        ] == []


@JOBS
def test_no_lettering_lies_on_an_outline(job: str, request: pytest.FixtureRequest) -> None:
    takeoff: Takeoff = request.getfixturevalue(job)
    for mark, member in compound(takeoff).items():
        struck = []
        for one in sheet_drawing(member, takeoff).views:
            lines = [LineString([*i.points, *i.points[: int(i.closed)]]) for i in one.items if isinstance(i, Polyline)]
            for text in texts_of(one.items, one.one_to):
                box = Polygon(text_box(text, one.one_to))
                struck += [text.words for line in lines if text.words and box.buffer(-0.02).intersects(line)]
        assert (mark, struck) == (mark, [])


def test_a_cheek_is_drawn_from_above_as_its_planes_leave_it(hip_takeoff: Takeoff) -> None:
    for member in compound(hip_takeoff).values():
        upper = stick_ends(member)[1]
        outline = next(i for i in view(rafter_drawing(member), "upper-top").items if isinstance(i, Polyline))
        drawn = sorted(outline.points[1:-1], key=lambda point: -point[1])
        assert [(x + upper.long_point, -y) for x, y in drawn] == [pytest.approx(corner) for corner in upper.corners()]


def test_each_cheek_end_is_drawn_from_above_and_no_square_one(hip_takeoff: Takeoff) -> None:
    for member in compound(hip_takeoff).values():
        names = {one.name for one in rafter_drawing(member).views}
        lower, upper = stick_ends(member)
        assert ("upper-top" in names, "lower-top" in names) == (upper.is_cheek, lower.is_cheek)


def test_a_hip_shows_its_side_cut_and_the_tilt_of_the_blade(hip_takeoff: Takeoff) -> None:
    member = next(m for m in compound(hip_takeoff).values() if m.role.name == "hip")
    one = view(sheet_drawing(member, hip_takeoff), "upper-top")
    words = {text.words for text in texts_of(one.items, one.one_to)}
    # across the top edge of a hip of 6/12: 16.97 and 18 on the square, 46.69 degrees; 3/4 set back times 1.0607
    assert {"side cut 46.7°", "blade tilted 45.0°", '13/16"', "left face", "right face"} <= words


def test_the_steps_along_a_hip_are_those_of_the_common_rafters(hip_takeoff: Takeoff) -> None:
    member = next(m for m in compound(hip_takeoff).values() if m.role.name == "hip")
    ticks = [i for i in view(sheet_drawing(member, hip_takeoff), "whole").items if getattr(i, "pen", None) is not None]
    ticks = [i for i in ticks if i.pen.layer == "LAYOUT" and hasattr(i, "a") and i.a[1] == member.profile.depth_in]
    apart = [b.a[0] - a.a[0] for a, b in pairwise(ticks)]
    # 16.97 of run at 4.243 in 12: 16.97 * 1.0607 = 18
    assert apart == [pytest.approx(18.0)] * len(apart)
    assert apart
