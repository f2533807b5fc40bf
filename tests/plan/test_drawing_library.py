"""Drawings that a general-purpose drawing library makes by its own helpers (ezdxf: forms, paths, exporters)."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from drawing_shop import BOX, SETTINGS, outline_of, read
from ezdxf import path as paths
from ezdxf import xref
from ezdxf.addons import r12export
from ezdxf.addons.r12writer import r12writer
from ezdxf.document import Drawing
from ezdxf.math import Matrix44, Vec3
from ezdxf.render import forms

HUT = {"layer": "WALLS"}


def by_forms(space: Any) -> None:
    """Its forms: a square of 1, scaled and drawn as a polyline."""
    square = Matrix44.scale(360, 240, 1).transform_vertices(forms.square(1))
    space.add_lwpolyline(list(square), format="xyz", close=True, dxfattribs=HUT)


def by_a_path(render: Callable[..., Any]) -> Callable[[Any], None]:
    """Its path of a rectangle, rendered as one or another kind of entity."""

    def draw(space: Any) -> None:
        rectangle = paths.rect(360, 240).transform(Matrix44.translate(180, 120, 0))
        render(space, [rectangle], dxfattribs=HUT)

    return draw


def by_a_block(space: Any) -> None:
    """A rectangle in a block, put in turned by a quarter and back by its own arithmetic of matrices."""
    held = space.doc.blocks.new("HUT")
    held.add_lwpolyline([(0, 0), (0, -360), (240, -360), (240, 0)], close=True, dxfattribs=HUT)
    space.add_auto_blockref("HUT", (0, 0), {}, dxfattribs={"rotation": 90})


WAYS: dict[str, Callable[[Any], None]] = {
    "forms": by_forms,
    "a path as light polylines": by_a_path(paths.render_lwpolylines),
    "a path as old polylines": by_a_path(paths.render_polylines2d),
    "a path as lines in space": by_a_path(paths.render_polylines3d),
    "a path as single lines": by_a_path(paths.render_lines),
    "a block with attributes": by_a_block,
}


def made(draw: Callable[[Any], None]) -> Drawing:
    document = ezdxf.new("R2018", units=1, setup=True)  # with all line types, text and dimension styles it has
    draw(document.modelspace())
    return document


def written(document: Drawing) -> str:
    text = io.StringIO()
    document.write(text)
    return text.getvalue()


def normal(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    return sorted(points)


@pytest.mark.parametrize("way", WAYS)
def test_outlines_are_read_however_the_library_draws_them(tmp_path: Path, way: str) -> None:
    assert normal(outline_of(tmp_path, written(made(WAYS[way])))) == sorted(BOX)


@pytest.mark.parametrize("way", WAYS)
def test_what_its_exporter_makes_of_them_for_release_12_is_read(tmp_path: Path, way: str) -> None:
    text = io.StringIO()
    r12export.write(made(WAYS[way]), text)
    assert normal(outline_of(tmp_path, text.getvalue())) == sorted(BOX)


def test_what_its_quick_writer_writes_is_read(tmp_path: Path) -> None:
    with r12writer(tmp_path / "quick.dxf") as quick:
        quick.add_polyline_2d(list(BOX), closed=True, layer="WALLS")
        quick.add_line((60, 0), (96, 0), layer="OPENINGS")
        quick.add_text("3040", insert=(78, 20), align="MIDDLE_CENTER", layer="OPENINGS")
    got, findings = read(tmp_path, (tmp_path / "quick.dxf").read_bytes())
    assert got is not None, [str(finding) for finding in findings]
    assert got.plan.buildings[0].walls.openings[0].center == 78


def test_a_drawing_loaded_into_another_by_it_is_read(tmp_path: Path) -> None:
    inside = ezdxf.new("R2000", units=1)
    xref.load_modelspace(made(by_forms), inside)
    assert normal(outline_of(tmp_path, written(inside))) == sorted(BOX)


def test_its_dimensions_leaders_and_long_texts_beside_an_outline_are_no_part_of_it(tmp_path: Path) -> None:
    document = made(by_forms)
    space = document.modelspace()
    space.add_linear_dim(base=(0, -30), p1=(0, 0), p2=(360, 0), dxfattribs=HUT).render()
    space.add_aligned_dim(p1=Vec3(360, 0), p2=Vec3(360, 240), distance=20, dxfattribs=HUT).render()
    space.add_hatch(dxfattribs=HUT).paths.add_polyline_path(list(BOX))
    space.add_point((5, 5), dxfattribs=HUT)
    space.add_mtext("{\\H2.5x;A hut\\Pof two lines}", dxfattribs={"layer": "NOTES"})
    assert normal(outline_of(tmp_path, written(document), SETTINGS)) == sorted(BOX)
