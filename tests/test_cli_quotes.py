"""Prices asked of yards and compared, as a builder runs the commands."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result
from openpyxl.worksheet.worksheet import Worksheet
from shop import CABIN

from takeoff.cli import main


def takeoff(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def request_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("asked") / "deep" / "request.xlsx"
    done = takeoff("quote-request", CABIN, "--into", file)
    assert done.exit_code == 0, done.output
    assert str(file) in done.stdout
    return file


def answered(request_file: Path, file: Path, yard: str, price: object, delivery: object) -> Path:
    book = openpyxl.load_workbook(request_file)
    sheet = book.active
    assert isinstance(sheet, Worksheet)
    sheet["C5"], sheet["C7"] = yard, delivery
    for row in range(10, sheet.max_row):
        sheet.cell(row, 3).value = price
    book.save(file)
    return file


def test_answers_are_compared_and_the_cheapest_is_told(request_file: Path, tmp_path: Path) -> None:
    near = answered(request_file, tmp_path / "a.xlsx", "Near Yard", 10, 50)
    far = answered(request_file, tmp_path / "b.xlsx", "Far Yard", "$9.00", "$ 20")
    table = tmp_path / "compared.csv"
    done = takeoff("quotes", CABIN, near, far, "--into", table)
    assert done.exit_code == 0, done.output
    assert "Cheapest single yard: Far Yard" in done.stdout
    assert "from Far Yard" in done.stdout
    assert table.read_text().startswith("code,item,qty,unit,Near Yard,Far Yard,load 1 from")


def test_every_wrong_price_of_every_answer_is_told_at_once(request_file: Path, tmp_path: Path) -> None:
    one = answered(request_file, tmp_path / "a.xlsx", "One", "ten", 1)
    other = answered(request_file, tmp_path / "b.xlsx", "Other", -4, 1)
    done = takeoff("quotes", CABIN, one, other, "--into", tmp_path / "compared.csv")
    assert done.exit_code == 1
    assert "a.xlsx" in done.stderr
    assert "b.xlsx" in done.stderr
    assert not (tmp_path / "compared.csv").exists()


def test_more_answers_than_are_compared_is_wrong_use(tmp_path: Path) -> None:
    assert takeoff("quotes", CABIN, *[tmp_path / f"{k}.xlsx" for k in range(9)]).exit_code == 2


def test_a_drawing_with_settings_is_asked_about_like_a_plan(tmp_path: Path) -> None:
    plan, drawing, file = (tmp_path / name for name in ("framing.yaml", "house.dxf", "request.xlsx"))
    plan.write_text(takeoff("start").stdout)
    drawing.write_bytes(takeoff("start", "--dxf").stdout_bytes)
    asked = takeoff("quote-request", drawing, "--settings", plan, "--into", file)
    assert asked.exit_code == 0, asked.output
    assert f"ANSWER... --settings {plan}" in asked.stdout
    answer = answered(file, tmp_path / "a.xlsx", "Near Yard", 10, 50)
    assert "Near Yard" in takeoff("quotes", drawing, answer, "--settings", plan).stdout
    assert takeoff("quotes", drawing, answer).exit_code == 2
