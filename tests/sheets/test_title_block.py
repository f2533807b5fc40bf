"""The strip under drawings that stand alone."""

from __future__ import annotations

from dataclasses import replace
from io import StringIO
from xml.etree import ElementTree

import ezdxf
import pytest

from takeoff.model.takeoff import BookSettings, Takeoff
from takeoff.sheets.cautions import DRAWING_CAUTION
from takeoff.sheets.drawing_files import drawing_files
from takeoff.sheets.sheet_drawings import sheet_drawings


@pytest.fixture(scope="module")
def files(hip_takeoff: Takeoff) -> dict[str, bytes]:
    book = BookSettings(company="Sandpiper", revision="B")
    job = replace(hip_takeoff, settings=replace(hip_takeoff.settings, book=book))
    return drawing_files(job, sheet_drawings(job))


def test_every_svg_carries_job_caution_builder_and_revision(files: dict[str, bytes]) -> None:
    for name, content in files.items():
        if name.endswith(".svg"):
            words = [
                text.text or "" for text in ElementTree.fromstring(content).iter("{http://www.w3.org/2000/svg}text")
            ]
            assert any(each.startswith("Hip test · ") for each in words), name
            assert {DRAWING_CAUTION, "Sandpiper · rev. B"} <= set(words), name


def test_in_a_file_for_drafting_the_strip_lies_under_the_drawing_at_its_scale(files: dict[str, bytes]) -> None:
    document = ezdxf.read(StringIO(files["drawings/roof-plan-shelter.dxf"].decode()))  # type: ignore[attr-defined]
    assert not document.audit().has_errors
    texts = {text.dxf.text: text for text in document.modelspace().query("TEXT")}
    caution = texts[DRAWING_CAUTION]
    # 1.9 mm on paper at 1:64
    assert caution.dxf.height == pytest.approx(1.9 / 25.4 * 64)
    others = [text for words, text in texts.items() if not words.startswith(("Hip test", "Screening", "Sandpiper"))]
    assert all(text.dxf.insert.y > caution.dxf.insert.y for text in others)
