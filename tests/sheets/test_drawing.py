"""The display list, and what its writers make of it."""

from __future__ import annotations

from io import StringIO
from xml.etree import ElementTree

import ezdxf
import pytest
from ezdxf.bbox import extents

from takeoff.measure import format_length
from takeoff.sheets.dimension import dimension_parts
from takeoff.sheets.drawing import LAYOUT, OUTLINE, WASTE, Dimension, Drawing, Hatch, Polyline, Text, View
from takeoff.sheets.dxf import dxf
from takeoff.sheets.hatching import hatch_lines
from takeoff.sheets.lettering import text_box, width_mm
from takeoff.sheets.svg import svg

SVG = "{http://www.w3.org/2000/svg}"
BOARD = ((0.0, 0.0), (48.0, 0.0), (48.0, 9.25), (0.0, 9.25))


def drawing() -> Drawing:
    items = (
        Polyline(BOARD, OUTLINE, closed=True, mark="R1"),
        Hatch(((0.0, 0.0), (3.0, 0.0), (0.0, 3.0)), WASTE),
        Text(at=(24.0, 4.0), words='cut & "check" <both>', height_mm=3.0, anchor="middle", turned_deg=90.0),
        Dimension(a=(0.0, 0.0), b=(48.0, 0.0), offset_mm=-8.0, label="length"),
        Dimension(a=(0.0, 0.0), b=(0.0, 9.25), offset_mm=8.0, lettering="beside"),
    )
    view = View(name="whole", one_to=12.0, items=items, origin_mm=(30.0, 30.0))
    return Drawing(
        name="board", title="A board", description="For tests", width_mm=190.0, height_mm=60.0, views=(view,)
    )


def test_svg_is_xml_with_a_title_a_description_and_the_mark_on_its_piece() -> None:
    root = ElementTree.fromstring(svg(drawing()))
    assert root.find(f"{SVG}title").text == "A board"
    assert root.find(f"{SVG}desc").text == "For tests"
    assert root.find(f"{SVG}g").get("id") == "board-whole"
    assert [path.get("data-mark") for path in root.iter(f"{SVG}path") if path.get("data-mark")] == ["R1"]


def test_svg_is_to_scale() -> None:
    root = ElementTree.fromstring(svg(drawing()))
    (outline,) = (path.get("d") for path in root.iter(f"{SVG}path") if path.get("data-mark"))
    corners = [tuple(float(n) for n in pair.split()) for pair in outline.strip("MZ").split("L")]
    # 48 in at 1:12 are 4 in of paper, 101.6 mm; the paper's y runs down from 60 mm
    assert corners[0] == pytest.approx((30.0, 30.0))
    assert corners[1] == pytest.approx((131.6, 30.0))


def test_svg_keeps_its_lettering_as_text() -> None:
    words = [text.text for text in ElementTree.fromstring(svg(drawing())).iter(f"{SVG}text")]
    assert words == ['cut & "check" <both>', "4'-0\"", "length", '9 1/4"']


def test_dxf_reads_back_clean_at_full_size_with_live_dimensions() -> None:
    document = ezdxf.read(StringIO(dxf(drawing()).decode()))
    assert not document.audit().has_issues
    space = document.modelspace()
    (outline,) = space.query("LWPOLYLINE")
    assert extents([outline]).size.x == pytest.approx(48.0)
    assert outline.get_xdata("TAKEOFF")[0].value == "R1"
    assert outline.dxf.layer == "OUTLINE"
    assert {round(entity.get_measurement(), 6) for entity in space.query("DIMENSION")} == {48.0, 9.25}
    assert {entity.dxf.text for entity in space.query("DIMENSION")} == {"<>"}


def test_the_block_of_a_dxf_dimension_shows_feet_and_inches() -> None:
    document = ezdxf.read(StringIO(dxf(drawing()).decode()))
    shown = {
        text.plain_text() if text.dxftype() == "MTEXT" else text.dxf.text
        for dimension in document.modelspace().query("DIMENSION")
        for text in dimension.get_geometry_block().query("TEXT MTEXT")
    }
    assert shown == {"4'-0\"", '9 1/4"'}


@pytest.mark.parametrize("write", [svg, dxf])
def test_a_drawing_written_twice_gives_the_same_bytes(write) -> None:  # type: ignore[no-untyped-def]
    assert write(drawing()) == write(drawing())


def test_a_dimension_is_lettered_as_it_measures() -> None:
    dimension = Dimension(a=(0.0, 0.0), b=(30.0, 40.0), offset_mm=5.0)
    assert dimension_parts(dimension, 12.0).figure.words == format_length(50.0)


def test_lettering_along_a_dimension_is_never_upside_down() -> None:
    for a, b in [((0, 0), (50, 0)), ((50, 0), (0, 0)), ((0, 0), (0, 50)), ((0, 50), (0, 0)), ((50, 50), (0, 0))]:
        figure = dimension_parts(Dimension(a=a, b=b, offset_mm=5.0), 4.0).figure
        assert -90 < figure.turned_deg <= 90


def test_a_figure_too_wide_for_its_dimension_stands_outside() -> None:
    parts = dimension_parts(Dimension(a=(0.0, 0.0), b=(1.5, 0.0), offset_mm=5.0), 12.0)
    assert min(x for x, _ in text_box(parts.figure, 12.0)) > 1.5


def test_a_dimension_between_a_point_and_itself_is_refused() -> None:
    with pytest.raises(ValueError, match="itself"):
        dimension_parts(Dimension(a=(1.0, 1.0), b=(1.0, 1.0), offset_mm=5.0), 12.0)


def test_hatch_lines_stay_inside_their_polygon_at_the_spacing_asked() -> None:
    lines = hatch_lines(Hatch(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), LAYOUT, spacing_mm=2.54), 10.0)
    # an inch apart across a diagonal of 14.14 in
    assert len(lines) == 14
    assert all(0 <= value <= 10 for line in lines for point in (line.a, line.b) for value in point)


def test_widths_are_those_of_the_face_the_sheets_are_set_in() -> None:
    import fontpkg_ibm_plex_sans as face
    from fontTools.ttLib import TTFont

    font = TTFont(next((face.ROOT / "files").glob("IBMPlexSans[[]*.ttf")))
    glyphs, advances = font.getBestCmap(), font["hmtx"]
    for char in map(chr, range(32, 127)):
        em = advances[glyphs[ord(char)]][0] / font["head"].unitsPerEm
        assert width_mm(char, 0.698) == pytest.approx(em, abs=0.0101), char
