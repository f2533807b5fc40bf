"""Laws of a whole take-off, from the plan's text to the text of the tables: nothing is lost, added or made up."""

from __future__ import annotations

import csv
import io
import json
import os
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from shop import ROOT
from strategies import BALLOON, NASTY, TRIMMED, Written, any_plans, nasty

from takeoff.findings import PlanError
from takeoff.model.takeoff import Takeoff
from takeoff.pipeline import take_off
from takeoff.sheets.tables import TABLES

pytestmark = pytest.mark.xdist_group("take-offs")  # they share what is taken off, which takes longest

ANGLES = ("left_miter_deg", "left_bevel_deg", "right_miter_deg", "right_bevel_deg")

ROUNDED = 5e-5
"""What a length in a table may be off by [in]: four decimals."""

Rows = list[dict[str, str]]


def job(*plans: Written, counts: tuple[int, ...] = (1, 1), **job_settings: Any) -> str:
    """A plan's text; JSON is YAML."""
    buildings = [
        {**plan, "name": f"hut {i}", "count": count} for i, (plan, count) in enumerate(zip(plans, counts, strict=False))
    ]
    return json.dumps({"job": "Two Huts", "buildings": buildings, "settings": job_settings}, indent=1)


def with_openings() -> Written:
    openings = [
        {"side": "south", "center": "7'", "size": 3040},
        {"side": "north", "left": "13'", "size": 3068, "kind": "door"},
    ]
    return nasty(360.0, 240.0, TRIMMED, {**BALLOON, "openings": openings})


JOBS = (
    job(with_openings()),
    job(with_openings(), NASTY[0], counts=(3, 2), kerf=0.25, waste={"studs": 0, "rafters": 10}),
    job(nasty(720.0, 384.0, {**TRIMMED, "rafters": {"size": "2x12"}}), kerf=0),  # rafters just under the longest stock
    job(nasty(720.0, 720.0, TRIMMED), nasty(720.0, 720.0, TRIMMED), kerf=0.1875),  # longer than any stock
)


@st.composite
def jobs(draw: st.DrawFn) -> str:
    plans = draw(st.lists(any_plans() | st.sampled_from(NASTY), min_size=1, max_size=2))
    counts = tuple(draw(st.integers(1, 4)) for _ in plans)
    return job(*plans, counts=counts, kerf=draw(st.sampled_from([0, 0.125, 0.25])))


def for_any_job(law: Callable[[str], None]) -> Callable[[], None]:
    asked: Callable[[], None] = settings(max_examples=1)(given(text=jobs())(law))
    for text in reversed(JOBS):
        asked = example(text=text)(asked)
    return asked


@lru_cache(maxsize=4 * len(JOBS))
def taken_off(text: str) -> Takeoff:
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder, "job.yaml")
        plan.write_text(text, encoding="utf-8")
        try:
            return take_off(plan)
        except PlanError:
            assume(False)
            raise


def tables(text: str) -> dict[str, Rows]:
    """The tables as another program reads them."""
    takeoff = taken_off(text)
    return {t.name: list(csv.DictReader(io.StringIO(t.csv(takeoff).decode()))) for t in TABLES}


def counts_of(text: str) -> dict[str, int]:
    return {building["name"]: building["count"] for building in json.loads(text)["buildings"]}


def kerf_of(text: str) -> float:
    return float(json.loads(text)["settings"].get("kerf", 0.125))


def boards(read: dict[str, Rows]) -> dict[str, Rows]:
    found: dict[str, Rows] = defaultdict(list)
    for row in read["cutting"]:
        found[row["stock_id"]].append(row)
    return found


@for_any_job
def test_pieces_members_and_cutting_agree_on_how_many_there_are_of_each_mark(text: str) -> None:
    read, copies = tables(text), counts_of(text)
    placed, listed, cut = Counter[tuple[str, str]](), Counter[tuple[str, str]](), Counter[str]()
    for row in read["members"]:
        placed[row["building"], row["mark"]] += copies[row["building"]]
    for row in read["pieces"]:
        listed[row["building"], row["mark"]] += int(row["qty"])
    cut.update(row["mark"] for row in read["cutting"])
    assert listed == placed
    by_mark = Counter[str]()
    for (_, mark), qty in listed.items():
        by_mark[mark] += qty
    assert cut == by_mark


@for_any_job
def test_pieces_of_a_mark_are_cut_to_its_length_from_its_profile_and_grade(text: str) -> None:
    read = tables(text)
    wanted: dict[str, set[tuple[str, str]]] = defaultdict(set)
    longest: dict[str, float] = defaultdict(float)
    for row in read["pieces"]:
        wanted[row["mark"]].add((row["profile"], row["grade"]))
        longest[row["mark"]] = max(longest[row["mark"]], float(row["length_in"]))
    assert all(len(sorts) == 1 for sorts in wanted.values())
    for row in read["cutting"]:
        assert wanted[row["mark"]] == {(row["profile"], row["grade"])}
        assert float(row["length_in"]) == pytest.approx(longest[row["mark"]], abs=1 / 32)
    for row in read["members"]:
        assert float(row["length_in"]) <= longest[row["mark"]] + ROUNDED


@for_any_job
def test_cuts_and_kerfs_fit_their_board_and_what_is_left_over_is_said_rightly(text: str) -> None:
    kerf, read = kerf_of(text), tables(text)
    slanted = {row["mark"] for row in read["pieces"] if any(float(row[angle]) for angle in ANGLES)}
    for rows in boards(read).values():
        (stock,) = {float(row["stock_length_in"]) for row in rows}
        slack = ROUNDED * (len(rows) + 1)
        assert float(rows[0]["begins_in"]) == 0.0
        for row in rows:
            reach = float(row["begins_in"]) + float(row["length_in"])
            assert float(row["ends_in"]) == pytest.approx(reach, abs=slack)
        for before, row in pairwise(rows):
            lap = float(before["ends_in"]) + kerf - float(row["begins_in"])
            assert -slack <= lap < float(row["length_in"])
            assert lap <= slack or row["mark"] in slanted, "only slanted ends lie in each other"
        end = float(rows[-1]["ends_in"])
        assert end <= stock + slack
        left = max(0.0, stock - end - kerf)
        assert [float(row["leftover_in"]) for row in rows] == pytest.approx([left] * len(rows), abs=slack)
        assert [int(row["position"]) for row in rows] == list(range(1, len(rows) + 1))


@for_any_job
def test_the_order_has_every_board_and_sheet_that_is_cut(text: str) -> None:
    read = tables(text)
    cut: Counter[tuple[str, str, float]] = Counter()
    for rows in boards(read).values():
        cut[rows[0]["profile"], rows[0]["grade"], float(rows[0]["stock_length_in"])] += 1
    net: Counter[tuple[str, str, float]] = Counter()
    lumber = [row for row in read["order"] if row["category"] not in ("sheathing", "hardware", "fasteners")]
    for row in lumber:
        net[row["profile"], row["grade"], float(row["stock_length_in"])] += int(row["qty_net"])
    assert net == cut
    sheets = Counter(product for product, _ in {(row["product"], row["sheet"]) for row in read["sheets"]})
    of_sheets = Counter[str]()
    for row in read["order"]:
        if row["category"] == "sheathing":
            of_sheets[row["profile"]] += int(row["qty_net"])
    assert of_sheets == sheets
    for row in read["order"]:
        assert int(row["qty_order"]) >= int(row["qty_net"]) * (1 + float(row["waste_pct"]) / 100) - 1e-6
        assert int(row["qty_order"]) < int(row["qty_net"]) * (1 + float(row["waste_pct"]) / 100) + 1


@for_any_job
def test_board_feet_and_cost_are_of_what_is_ordered(text: str) -> None:
    for row in tables(text)["order"]:
        qty = int(row["qty_order"])
        thickness, _, width = row["profile"].partition("x")
        if row["category"] != "hardware" and thickness.isdecimal() and width.isdecimal():
            # nominal inches times nominal inches times feet over 12
            feet = int(thickness) * int(width) * float(row["stock_length_in"]) / 12 / 12
            assert float(row["board_feet"]) == pytest.approx(qty * feet, abs=0.002 + qty * 1e-4)
        if row["unit_price"]:
            assert float(row["cost"]) == pytest.approx(qty * float(row["unit_price"]), abs=0.005 + 1e-9)


@for_any_job
def test_panels_have_the_area_of_their_faces(text: str) -> None:
    read = tables(text)
    listed: dict[tuple[str, str], list[float]] = defaultdict(list)
    for row in read["panels"]:
        listed[row["building"], row["face"]].append(float(row["area_sqft"]))
    faces = {(b.name, f.name): f for b in taken_off(text).buildings for f in b.faces if f.cover}
    assert listed.keys() == faces.keys()
    for key, areas in listed.items():
        assert sum(areas) == pytest.approx(faces[key].outline.polygon.area / 144, abs=5e-4 * len(areas) + 1e-6)


@for_any_job
def test_every_panel_of_every_copy_is_on_a_sheet_of_its_product_or_in_the_field_of_the_better_grade(text: str) -> None:
    read, copies = tables(text), counts_of(text)
    wanted: Counter[str] = Counter()
    made_of: dict[str, set[str]] = {}
    better = {
        (face.cover.field, face.cover.exposed) for b in taken_off(text).buildings for face in b.faces if face.cover
    }
    for row in read["panels"]:
        wanted[row["mark"]] += copies[row["building"]]
        others = {exposed for field, exposed in better if field == row["product"]} if row["zone"] == "field" else set()
        made_of[row["mark"]] = {row["product"], *others}
    assert Counter(row["mark"] for row in read["sheets"]) == wanted
    assert all(row["product"] in made_of[row["mark"]] for row in read["sheets"])
    on_sheets = {(row["sheet"], row["mark"]) for row in read["sheets"]}
    assert all((row["sheet"], row["mark"]) in on_sheets for row in read["panels"])


@for_any_job
def test_the_rafter_table_has_every_rafter_and_a_board_that_it_can_be_cut_from(text: str) -> None:
    read = tables(text)
    rafters = {(r["building"], r["mark"]): r for r in read["rafters"]}
    wanted = {(r["building"], r["mark"]): r for r in read["pieces"] if r["role"] in ROLES}
    assert rafters.keys() == wanted.keys()
    for key, row in rafters.items():
        assert row["qty"] == wanted[key]["qty"]
        assert row["overall_in"] == wanted[key]["length_in"]
        assert float(row["overall_in"]) <= float(row["stock_length_in"]) + ROUNDED


ROLES = ("common-rafter", "end-rafter", "barge")


def test_a_plan_gives_the_same_bytes_in_fresh_processes_whatever_the_hash_seed(tmp_path: Path) -> None:
    huts = tmp_path / "huts.yaml"
    huts.write_text(JOBS[1], encoding="utf-8")
    first, second = (run_in_fresh_process(huts, tmp_path / seed, seed) for seed in ("1", "4242"))
    assert {"order.xlsx", "takeoff.json"} <= first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


def run_in_fresh_process(plan: Path, folder: Path, hash_seed: str) -> dict[str, bytes]:
    command = [sys.executable, "-c", "from takeoff.cli import main; main()", "run", str(plan), "--into", str(folder)]
    environment = {**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(ROOT)}
    subprocess.run(command, check=True, capture_output=True, env=environment)
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}
