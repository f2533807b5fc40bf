"""The crew's book: what must be readable in it, from a take-off made by hand."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from io import BytesIO

import pytest
from shapely import box

from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.findings import Finding, Severity
from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.placement import Placement
from takeoff.geometry.rafter import Pocket, RafterGeometry
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face, Supports
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.model.member import EndCut, Member
from takeoff.model.panel import Panel
from takeoff.model.stock import Board, Cut, LumberCutting, Sheet, SheetCutting, SheetPiece, Stop
from takeoff.model.takeoff import Settings, Takeoff
from takeoff.sheets.crew.alike import short_ids
from takeoff.sheets.crew.figures import Figures
from takeoff.sheets.crew_book import book, crew_book_pdf
from takeoff.sheets.drawing_files import drawing_files
from takeoff.sheets.sheet_drawings import sheet_drawings

COMMON = RafterGeometry(slope=8 / 12, depth=9.25, run=120, overhang=16, ridge_half=2.75, seat=4.125, tail_depth=5.5)
POCKETS = tuple(Pocket(centre, 3.5, 1.5) for centre in (5.25, 37.25, 69.25, 101.25, 133.25))
END = replace(COMMON, pockets=POCKETS)
BARGE = RafterGeometry(slope=8 / 12, depth=9.25, run=120, overhang=16, stand=COMMON.height_above_plate)
UPRIGHT = Placement((0.0, 0.0, 97.125), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
BEVELLED = (EndCut((-1.0, 0.0, 0.0)), EndCut((0.83205, 0.0, 0.55470)))


def _stick(name: str, size: str, grade: str, mark: str, face: str, length: float = 0.0, **more: object) -> Member:
    sold = profile(size)
    geometry = more.get("rafter")
    side = geometry.side() if isinstance(geometry, RafterGeometry) else box(0, 0, length, sold.depth_in)
    return Member(
        building="cabin",
        face=face,
        role=role(name),
        profile=sold,
        grade=grade,
        side=side,
        placement=UPRIGHT,
        mark=mark,
        **more,  # type: ignore[arg-type]
    )


def _building() -> FramedBuilding:
    hole = rectangle(65.75, 34.0, 102.25, 82.5, ["sill", "jamb", "header", "jamb"])
    outline = Outline(rectangle(0.0, 0.0, 360.0, 97.125, ["bottom", "end", "top", "end"]), (hole,))
    wall = Face(
        kind="wall",
        name="south",
        outline=outline,
        placement=Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
        supports=Supports(centres=(0.75, 16.0), thickness=1.5, rows=(), from_right=False),
        cover=None,
        shown=None,
    )
    gable = [
        _stick("gable-stud", "2x6", "stud", f"G{n}", "south", 104.0417 + 10.6667 * n, cuts=BEVELLED) for n in (1, 2, 3)
    ]
    return FramedBuilding(
        name="cabin",
        count=2,
        members=(
            *[_stick("stud", "2x6", "stud", "S1", "south", 92.625)] * 2,
            *gable,
            _stick("ridge-beam", "5-1/2x14", "glulam", "RB1", "ridge", 360.0),
            *[_stick("common-rafter", "2x10", "no2", "R1", "south slope", rafter=COMMON)] * 2,
            _stick("end-rafter", "2x10", "no2", "E1", "south slope", rafter=END),
            _stick("barge", "2x10", "trim", "BG1", "south slope rake", rafter=BARGE),
        ),
        faces=(wall,),
        lines=(
            LayoutLine(
                name="south wall plates",
                start="west end",
                length_in=360.0,
                marks=(LayoutMark(0.75, "X", "stud"), LayoutMark(175.25, "X", "stud")),
            ),
        ),
        panels=(
            Panel(
                building="cabin",
                face="south",
                product="osb-7/16",
                zone="field",
                polygon=box(0, 0, 48, 96),
                strength_axis="v",
                mark="F1",
            ),
        ),
    )


@cache
def take_off() -> Takeoff:
    boards = tuple(
        Board(
            stock_id=f"2A{n}",
            load=2,
            profile="2x10",
            grade="no2",
            stock_length_in=168.0,
            cuts=(Cut(mark="R1", length_in=COMMON.overall),),
            kerf_in=0.125,
        )
        for n in range(1, 5)
    )
    studs = Board(
        stock_id="1A1",
        load=1,
        profile="2x6",
        grade="stud",
        stock_length_in=192.0,
        cuts=(Cut(mark="S1", length_in=92.625), Cut(mark="S1", length_in=92.625)),
        kerf_in=0.125,
    )
    sheet = Sheet(
        sheet_id="3A1",
        load=3,
        product="osb-7/16",
        length_in=96.0,
        width_in=48.0,
        pieces=(SheetPiece(building="cabin", mark="F1", x_in=0.0, y_in=0.0, length_in=96.0, width_in=48.0),),
    )
    return Takeoff(
        job="Test Hut [#1] *& Co*",
        plan_file="hut.yaml",
        settings=Settings(denominator=16, kerf_in=0.125, species="spf", placeholder_prices=True),
        buildings=(_building(),),
        pieces=(),
        lumber=LumberCutting(boards=(studs, *boards), cost_usd=0.0, bound_usd=0.0, stopped_by=Stop.FITTED),
        sheets=SheetCutting(sheets=(sheet,), area_bound=1),
        order=(),
        findings=(
            Finding(rule="seat", severity=Severity.NOTE, message='the seat is 4 1/8"', building="cabin"),
            Finding(rule="tall", severity=Severity.WARNING, message="a tall wall", where="east wall"),
        ),
    )


def set_book(takeoff: Takeoff) -> bytes:
    return crew_book_pdf(takeoff, sheet_drawings(takeoff))


@cache
def pages() -> tuple[str, ...]:
    from pypdf import PdfReader

    reader = PdfReader(BytesIO(set_book(take_off())))
    # The face draws fractions with numerals and a bar of their own; a copy of the text has them as plain characters.
    return tuple(page.extract_text().replace("⁄", "/").replace("\u00a0", " ") for page in reader.pages)


def page_of(title: str) -> str:
    return next(page for page in pages()[1:] if re.search(title, page))


def test_the_book_is_the_same_bytes_every_time() -> None:
    assert set_book(take_off()) == crew_book_pdf(take_off(), sheet_drawings(take_off()))


def test_the_pages_are_letter_size_and_every_one_names_job_place_and_sheet_number() -> None:
    from pypdf import PdfReader

    reader = PdfReader(BytesIO(set_book(take_off())))
    assert {(round(float(p.mediabox.width)), round(float(p.mediabox.height))) for p in reader.pages} == {(612, 792)}
    for number, page in enumerate(pages(), start=1):
        assert "Test Hut [#1] *& Co*" in page
        assert f"sheet {number} of {len(pages())}" in page
        assert re.search(r"\bcabin\b( · load \d)?", page)


@pytest.mark.parametrize("mark", ["R1  common rafter", "E1  end rafter"])
def test_a_rafter_stands_on_one_page_with_the_figures_worked_by_hand(mark: str) -> None:
    letter, words = mark.split("  ")
    (page,) = (page for page in pages() if "Steel square" in page and re.search(rf"{letter}\s+{words}", page))
    # 8/12, 10 ft run, 2x10 on a 5-1/2 beam: worked by hand from the slope formulas
    for figure in ["13'-7 13/16\"", "11'-8 15/16\"", "33.7°", "56.3°", "33.69°", "56.31°", "8/12", '8 3/8"', "1'-4\""]:
        assert figure in page, figure
    assert "8 on the tongue, 12 on the body" in page
    # 120 less 2-3/4 is 117-1/4
    assert '9 steps of 12" run and 9 1/4" over' in " ".join(page.split())


def test_an_end_rafter_has_a_table_of_its_pockets() -> None:
    rows = book(take_off(), sheet_drawings(take_off())).rafters[1].pockets
    # centres less and plus half of 3-1/2
    assert [(row.start, row.end) for row in rows[:2]] == [('3 1/2"', '7"'), ("2'-11 1/2\"", "3'-3\"")]
    assert {row.depth for row in rows} == {'1 1/2"'}


def test_a_barge_rafter_has_no_figures_of_a_birds_mouth() -> None:
    barge = book(take_off(), sheet_drawings(take_off())).rafters[2]
    assert not any("seat" in entry.label or "heel" in entry.label for entry in (*barge.headline, *barge.table))


def test_the_first_sheet_has_cautions_and_the_weight_to_lift() -> None:
    first = " ".join(pages()[0].split())
    assert "Check the first pair of rafters on the building" in first
    assert "engineer of record" in first
    assert re.search(r"RB1 structural ridge beam 2 5-1/2x14 glulam 30'-0\" \d+ lb", first)


def test_a_wall_has_its_opening_and_the_common_difference_of_its_gable_studs() -> None:
    (wall,) = book(take_off(), sheet_drawings(take_off())).walls
    assert (wall.openings[0].width, wall.openings[0].height) == ("3'-0 1/2\"", "4'-0 1/2\"")
    assert (wall.openings[0].left, wall.openings[0].sill) == ("5'-5 3/4\"", "2'-10\"")
    # 16 on centre at 8/12: 16 * 2/3 = 10.667
    assert wall.common_difference == '10 11/16"'
    assert wall.gable_ends == ("square one end, bevel 33.7° the other",)
    assert 'common difference 10 11/16"' in " ".join(page_of("cabin: south wall").split())


def test_a_board_reads_its_cuts_on_one_tape_with_the_saw_cut_between() -> None:
    (row,) = book(take_off(), sheet_drawings(take_off())).boards[0].boards
    # 92-5/8, then 1/8 of saw cut, then 92-5/8: 185-3/8; another 1/8 leaves 6-1/2 of 192
    assert [cut.reads_inches for cut in row.cuts] == ['92 5/8"', '185 3/8"']
    assert row.leftover == '6 1/2"'


def test_equal_boards_are_gathered_and_none_is_lost() -> None:
    lists = book(take_off(), sheet_drawings(take_off())).boards
    assert sum(row.count for boards in lists for row in boards.boards) == len(take_off().lumber.boards)
    assert lists[1].boards[0].ids == "2A1 to 2A4"


def test_ids_run_together_only_where_they_count_on() -> None:
    assert short_ids(["2A1", "2A2", "2A3", "2A7", "2B8", "2B9"]) == "2A1 to 2A3, 2A7, 2B8 to 2B9"


def test_steps_carry_over_when_the_odd_inches_round_to_a_foot() -> None:
    assert Figures(16).steps(119.99) == (10, '0"')


def test_warnings_stand_apart_from_what_was_assumed() -> None:
    found = book(take_off(), sheet_drawings(take_off())).found
    assert [row.message for row in found.warnings] == ["a tall wall"]
    assert [row.message for group in found.assumed for row in group.rows] == ['the seat is 4 1/8"']


def test_counts_are_of_all_copies_on_a_rafters_sheet_and_of_one_on_a_wall() -> None:
    made = book(take_off(), sheet_drawings(take_off()))
    assert [sheet.count for sheet in made.rafters] == [4, 2, 2]
    assert next(row.count for row in made.walls[0].pieces if row.mark == "S1") == 2


def test_nothing_unknown_is_printed() -> None:
    assert not any("None" in page or "none" in page for page in pages())


def test_every_character_is_in_the_face_the_book_is_set_in() -> None:
    import fontpkg_ibm_plex_sans as face
    from fontTools.ttLib import TTFont

    known = set(TTFont(next((face.ROOT / "files").glob("IBMPlexSans[[]*.ttf"))).getBestCmap())
    drawn = "".join(
        content.decode()
        for name, content in drawing_files(take_off(), sheet_drawings(take_off())).items()
        if name.endswith(".svg")
    )
    used = set("".join(pages())) | set(drawn)
    assert {char for char in used if ord(char) not in known and not char.isspace()} == set()


def test_a_job_without_rafters_walls_or_findings_still_makes_a_book() -> None:
    bare = replace(_building(), members=(), faces=(), lines=(), panels=())
    empty = replace(
        take_off(),
        buildings=(bare,),
        lumber=replace(take_off().lumber, boards=()),
        sheets=SheetCutting(sheets=(), area_bound=0),
        findings=(),
    )
    assert set_book(empty).startswith(b"%PDF")


def test_drawings_come_two_to_a_rafter_mark_and_two_to_a_sheathed_face_in_their_folder() -> None:
    rafters = {name for mark in ("R1", "E1", "BG1") for name in (f"rafter-{mark}.svg", f"pattern-{mark}.dxf")}
    faces = {f"{each}.{kind}" for each in ("wall-cabin-south", "sheathing-cabin-south") for kind in ("svg", "dxf")}
    faces |= {"patterns.pdf", "sheet-3A1.svg", "frame-cabin.svg", "section-cabin-R1.svg", "section-cabin-R1.dxf"}
    faces |= {"sheets-3-osb-7-16.dxf"}
    found = set(drawing_files(take_off(), sheet_drawings(take_off())))
    assert found == {f"drawings/{name}" for name in rafters | faces}


@pytest.mark.parametrize("title", [r"E1\s+end rafter", r"Layout marks, load \d", "Findings and assumptions"])
def test_the_list_of_sheets_gives_the_page_a_sheet_stands_on(title: str) -> None:
    listed = re.search(rf"{title}\s+(\d+)", pages()[0])
    assert listed
    assert re.search(title, pages()[int(listed[1]) - 1])
