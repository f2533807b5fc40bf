from __future__ import annotations

import csv
import io
import json
from collections import Counter
from dataclasses import replace

import pytest

from takeoff.findings import Place
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.document import is_document, takeoff_json
from takeoff.sheets.tables import TABLES
from takeoff.sheets.tables.table import Table, not_a_formula

COLUMNS = {
    "order.csv": "load,category,item,profile,grade,stock_length_in,qty_net,waste_pct,qty_order,unit,board_feet,"
    "weight_lb,unit_price,cost",
    "pieces.csv": "building,load,mark,role,profile,grade,qty,length_in,length_text,left_miter_deg,left_bevel_deg,"
    "right_miter_deg,right_bevel_deg,face",
    "members.csv": "building,mark,role,profile,grade,face,length_in,x0,y0,z0,x1,y1,z1",
    "rafters.csv": "building,mark,kind,pitch,run_in,rise_in,line_length_in,plumb_deg,seat_deg,seat_in,heel_in,"
    "height_above_plate_in,ridge_shortening_in,tail_in,overall_in,stock_length_in,qty",
    "panels.csv": "building,face,mark,product,grade,zone,area_sqft,width_in,height_in,sheet",
    "cutting.csv": "stock_id,profile,grade,stock_length_in,position,mark,length_in,leftover_in,begins_in,ends_in",
    "sheets.csv": "sheet,product,grade,mark,x_in,y_in,width_in,height_in",
    "layout.csv": "building,line,mark_no,position_in,position_text,symbol,what",
    "checks.csv": "building,severity,rule,section,where,found,limit,message",
    "lay_ups.csv": "building,faces,courses,sheets,cost,taken",
    "sheet_proofs.csv": "product,grade,sheets,area_bound,cost,bound,gap_pct,sheet_bound,sheets_over",
    "leftovers.csv": "sheet,product,x_in,y_in,width_in,height_in",
    "panel_edges.csv": "building,face,edge_nails,field_nails,clips,blocking_in",
    "rafter_cuts.csv": "building,mark,kind,end,cut,cheeks,miter_deg,bevel_deg,side_cut_deg,tongue_in,body_in,"
    "set_back_in,top_long_point_in,top_centre_line_in,top_short_point_in,drop_in,backing_left_deg,backing_right_deg,wall_left_deg,"
    "wall_right_deg",
}
"""The columns that other people's scripts read; they never change."""


def table(file: str) -> Table:
    return next(table for table in TABLES if table.file == file)


def rows(takeoff: Takeoff, file: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(table(file).csv(takeoff).decode())))


@pytest.mark.parametrize("file", COLUMNS)
def test_columns_are_the_published_ones(hand_takeoff: Takeoff, file: str) -> None:
    assert table(file).csv(hand_takeoff).decode().splitlines()[0] == COLUMNS[file]


def test_every_table_is_a_published_one() -> None:
    assert {table.file for table in TABLES} == set(COLUMNS)


@pytest.mark.parametrize("file", COLUMNS)
def test_lines_end_in_one_newline_and_bytes_repeat(hand_takeoff: Takeoff, file: str) -> None:
    written = table(file).csv(hand_takeoff)
    assert b"\r" not in written
    assert written.endswith(b"\n")
    assert written == table(file).csv(hand_takeoff)


def test_common_rafter_row_has_the_figures_worked_by_hand(hand_takeoff: Takeoff) -> None:
    """8/12 on a run of 10 ft, worked from the slope formulas: seat 4-1/8, ridge 5-1/2, tail ripped to 5-1/2."""
    row = next(row for row in rows(hand_takeoff, "rafters.csv") if row["mark"] == "R1")
    assert row == {
        "building": "cabin",
        "mark": "R1",
        "kind": "common",
        "pitch": "8/12",
        "run_in": "120.0000",
        "rise_in": "80.0000",
        "line_length_in": "140.9170",  # (120 - 2.75) / cos 33.690
        "plumb_deg": "33.690",
        "seat_deg": "56.310",
        "seat_in": "4.1250",
        "heel_in": "2.7500",  # 4.125 x 8/12
        "height_above_plate_in": "8.3671",  # 9.25 / cos 33.690 - 2.75
        "ridge_shortening_in": "3.3051",  # 2.75 / cos 33.690
        "tail_in": "19.2296",  # 16 / cos 33.690
        "overall_in": "163.8132",  # (120 - 2.75 + 16) / cos 33.690 + 5.5 x 8/12
        "stock_length_in": "168.0000",
        "qty": "4",
    }


def test_barge_row_has_no_bird_s_mouth(hand_takeoff: Takeoff) -> None:
    row = next(row for row in rows(hand_takeoff, "rafters.csv") if row["mark"] == "BG1")
    assert (row["kind"], row["seat_in"], row["heel_in"], row["qty"]) == ("barge", "0.0000", "0.0000", "2")


def test_pieces_members_and_cuts_count_the_same_sticks(hand_takeoff: Takeoff) -> None:
    copies = {building.name: building.count for building in hand_takeoff.buildings}
    pieces = {row["mark"]: int(row["qty"]) for row in rows(hand_takeoff, "pieces.csv")}
    members: Counter[str] = Counter()
    for row in rows(hand_takeoff, "members.csv"):
        members[row["mark"]] += copies[row["building"]]
    cuts = Counter(row["mark"] for row in rows(hand_takeoff, "cutting.csv"))
    assert pieces == members == cuts


def test_panel_rows_name_a_sheet_that_holds_their_mark(hand_takeoff: Takeoff) -> None:
    on_sheet = {(row["sheet"], row["mark"]) for row in rows(hand_takeoff, "sheets.csv")}
    panels = rows(hand_takeoff, "panels.csv")
    assert len(panels) == 3
    assert {(row["sheet"], row["mark"]) for row in panels} <= on_sheet


def test_panel_row_says_grade_area_and_extents(hand_takeoff: Takeoff) -> None:
    row = rows(hand_takeoff, "panels.csv")[0]
    assert (row["grade"], row["zone"]) == ("premium", "exposed")
    assert (row["area_sqft"], row["width_in"], row["height_in"]) == ("8.000", "48.0000", "24.0000")


def test_lengths_are_also_written_as_a_tape_reads_them(hand_takeoff: Takeoff) -> None:
    texts = {row["mark"]: row["length_text"] for row in rows(hand_takeoff, "pieces.csv")}
    assert texts["R1"] == "13'-7 13/16\""
    assert texts["S1"] == "7'-8 5/8\""


def test_layout_positions_round_to_the_settings_sixteenth(hand_takeoff: Takeoff) -> None:
    # 15-1/4 and a third is 15.583: 15-9/16 is 15.5625.
    assert [row["position_text"] for row in rows(hand_takeoff, "layout.csv")] == ['3/4"', "1'-3 9/16\""]
    assert [row["mark_no"] for row in rows(hand_takeoff, "layout.csv")] == ["1", "2"]


def test_a_line_without_price_has_empty_price_and_cost(hand_takeoff: Takeoff) -> None:
    beam = next(row for row in rows(hand_takeoff, "order.csv") if row["category"] == "beams")
    assert (beam["unit_price"], beam["cost"]) == ("", "")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-2x", "@SUM(A1)", "\t=1", "-1'-2\""])
def test_text_never_becomes_a_formula(hand_takeoff: Takeoff, text: str) -> None:
    building = replace(hand_takeoff.buildings[0], name=text)
    written = rows(replace(hand_takeoff, buildings=(building,)), "members.csv")
    assert {row["building"] for row in written} == {"'" + text}


@pytest.mark.parametrize("text", ["", "=", "-", "X", "2x10", "cabin =1"])
def test_harmless_text_is_left_alone(text: str) -> None:
    assert not_a_formula(text) == text


def test_commas_quotes_and_letters_of_all_kinds_are_read_back(hand_takeoff: Takeoff) -> None:
    name = 'Küche, "north" ½'
    building = replace(hand_takeoff.buildings[0], name=name)
    assert rows(replace(hand_takeoff, buildings=(building,)), "layout.csv")[0]["building"] == name


def test_document_holds_every_row_of_every_table(hand_takeoff: Takeoff) -> None:
    document = json.loads(takeoff_json(hand_takeoff))
    for each in TABLES:
        assert [list(found) for found in document[each.name]] == [list(row) for row in rows(hand_takeoff, each.file)], (
            each.name
        )


def test_document_has_numbers_as_the_tables_write_them(hand_takeoff: Takeoff) -> None:
    document = json.loads(takeoff_json(hand_takeoff))
    for each in TABLES:
        for found, row in zip(document[each.name], rows(hand_takeoff, each.file), strict=True):
            numbers = {name: value for name, value in found.items() if isinstance(value, int | float)}
            assert numbers == {name: float(row[name]) for name in numbers}


def test_document_says_version_job_settings_and_the_plan_s_file_name_only(hand_takeoff: Takeoff) -> None:
    document = json.loads(takeoff_json(hand_takeoff))
    assert document["schema_version"] == 1
    assert document["job"] == "Curlew & Plover"
    assert document["plan_file"] == "curlew.yaml"
    assert document["settings"]["denominator"] == 16
    assert document["cutting_proof"]["stopped_by"] == "fitted"


def test_document_is_known_again_and_other_files_are_not(hand_takeoff: Takeoff) -> None:
    assert is_document(takeoff_json(hand_takeoff))
    assert not any(map(is_document, [b"", b"[]", b"{}", b'"job"', b"\xff\xfe", b'{"job": "x"}']))


def test_a_table_without_rows_is_its_heading_and_an_empty_list(hand_takeoff: Takeoff) -> None:
    bare = replace(hand_takeoff, findings=())
    assert table("checks.csv").csv(bare).decode() == COLUMNS["checks.csv"] + "\n"
    assert json.loads(takeoff_json(bare))["checks"] == []


def test_a_finding_of_the_plan_says_its_path_where_it_has_no_words_for_the_place(hand_takeoff: Takeoff) -> None:
    place = Place(file="curlew.yaml", line=7, column=3, path="buildings[0].roof.pitch")
    findings = tuple(replace(finding, where="", place=place) for finding in hand_takeoff.findings)
    written = rows(replace(hand_takeoff, findings=findings), "checks.csv")
    assert [row["where"] for row in written] == ["buildings[0].roof.pitch"]
