"""Full-size patterns on letter paper: what the sheets show together is the stick, at its true size."""

from __future__ import annotations

from io import BytesIO

import pytest
from shapely import LinearRing, LineString, Point, box, unary_union

from takeoff.model.member import Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing import LAYOUT, MM_PER_IN, OUTLINE, Drawing, Line, Polyline
from takeoff.sheets.pattern_tiles import PAGE_MM, RULER_IN, WINDOW_IN, pattern_tiles
from takeoff.sheets.patterns import patterns_pdf


@pytest.fixture(scope="module")
def rafters(cabin_takeoff: Takeoff, hip_takeoff: Takeoff) -> tuple[Member, ...]:
    both = (*cabin_takeoff.buildings[0].members, *hip_takeoff.buildings[0].members)
    return tuple({(m.building, m.mark): m for m in both if m.rafter is not None}.values())


def window(tile: Drawing) -> tuple[float, float]:
    """Its lower left cross, in the stick's axes."""
    (view,) = tile.views
    crosses = [item for item in view.items if isinstance(item, Line) and item.pen.layer == "DIMENSIONS"]
    return min((line.a[0] + line.b[0]) / 2 for line in crosses), min((line.a[1] + line.b[1]) / 2 for line in crosses)


def test_every_corner_of_the_stick_is_on_a_sheet_and_lines_are_those_of_its_outline(
    rafters: tuple[Member, ...],
) -> None:
    for member in rafters:
        ring = LinearRing(member.side.exterior)
        tiles = pattern_tiles(member)
        drawn = [
            LineString(item.points)
            for tile in tiles
            for item in tile.views[0].items
            if isinstance(item, Polyline) and item.pen is OUTLINE
        ]
        assert all(ring.buffer(1e-6).contains(line) for line in drawn)
        shown = unary_union(drawn)
        assert all(shown.distance(Point(corner)) < 1e-9 for corner in member.side.exterior.coords)


def test_within_its_window_a_sheet_shows_all_of_the_outline(rafters: tuple[Member, ...]) -> None:
    for member in rafters:
        for tile in pattern_tiles(member):
            x, y = window(tile)
            inside = LinearRing(member.side.exterior).intersection(box(x, y, x + WINDOW_IN[0], y + WINDOW_IN[1]))
            drawn = [LineString(i.points) for i in tile.views[0].items if isinstance(i, Polyline) and i.pen is OUTLINE]
            assert unary_union(drawn).buffer(1e-6).contains(inside)


def test_sheets_are_at_full_size_and_all_on_the_paper(rafters: tuple[Member, ...]) -> None:
    for member in rafters[:3]:
        for tile in pattern_tiles(member):
            (view,) = tile.views
            assert (tile.width_mm, tile.height_mm) == PAGE_MM
            assert view.mm_per_in == MM_PER_IN
            ruler = next(i for i in view.items if isinstance(i, Line) and i.pen is LAYOUT and i.a[1] == i.b[1])
            (ax, _), (bx, _) = view.to_paper(ruler.a), view.to_paper(ruler.b)
            assert bx - ax == pytest.approx(RULER_IN * 25.4)
            spots = [view.to_paper(p) for i in view.items if isinstance(i, Polyline | Line) for p in points(i)]
            assert all(0 <= u <= PAGE_MM[0] and 0 <= v <= PAGE_MM[1] for u, v in spots)


def points(item: Polyline | Line) -> tuple[tuple[float, float], ...]:
    return item.points if isinstance(item, Polyline) else (item.a, item.b)


def test_the_file_has_a_letter_sheet_for_each_of_them(cabin_takeoff: Takeoff) -> None:
    from pypdf import PdfReader

    content = patterns_pdf(cabin_takeoff)
    assert content is not None
    assert content == patterns_pdf(cabin_takeoff)
    pages = PdfReader(BytesIO(content)).pages
    marks = {m.mark: m for m in cabin_takeoff.buildings[0].members if m.rafter is not None}
    assert len(pages) == sum(len(pattern_tiles(member)) for member in marks.values())
    assert {(round(float(p.mediabox.width)), round(float(p.mediabox.height))) for p in pages} == {(792, 612)}
