"""A spreadsheet program that calculates a workbook anew, as a yard's or a builder's would."""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from pathlib import Path

import openpyxl
import pytest

SOFFICE = shutil.which("soffice")
needs_calculator = pytest.mark.skipif(SOFFICE is None, reason="no spreadsheet program here to calculate the formulas")


def opened(content: bytes, *, values: bool = True) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(content), data_only=values)


def formulas(content: bytes) -> Iterator[tuple[str, str, str]]:
    """Sheet, cell and text of every formula."""
    for page in opened(content, values=False):
        for cells in page.iter_rows():
            for cell in cells:
                if cell.data_type == "f":
                    yield page.title, cell.coordinate, str(cell.value)


def calculated(contents: Sequence[bytes], folder: Path) -> tuple[openpyxl.Workbook, ...]:
    """Workbooks as a spreadsheet program calculates them anew."""
    (folder / "in").mkdir()
    names = [f"book-{number}.xlsx" for number in range(len(contents))]
    for name, content in zip(names, contents, strict=True):
        (folder / "in" / name).write_bytes(content)
    home = f"-env:UserInstallation={(folder / 'home').as_uri()}"
    command = [str(SOFFICE), home, "--headless", "--convert-to", "xlsx", "--outdir", str(folder / "out")]
    written = [str(folder / "in" / name) for name in names]
    subprocess.run([*command, *written], check=True, capture_output=True, timeout=120)
    return tuple(opened((folder / "out" / name).read_bytes()) for name in names)


def assert_same(content: bytes, anew: openpyxl.Workbook) -> None:
    """What stands beside every formula is what it gives when it is calculated."""
    ours = opened(content)
    for name, at, text in formulas(content):
        shown, fresh = ours[name][at].value, anew[name][at].value
        if shown is None or isinstance(shown, str):  # None: how an empty text is read back
            assert (fresh or "") == (shown or ""), (name, at, text)
        else:
            assert fresh == pytest.approx(shown, abs=1e-9, rel=1e-12), (name, at, text)
