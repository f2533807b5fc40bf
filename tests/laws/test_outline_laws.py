"""Laws of lay-ups on any outline: 500 of them, with slanted ends, notches and holes, drawn by a fixed seed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from random import Random

import pytest
from shapely import Polygon, union_all

from takeoff.geometry.outline import Outline, Point, rectangle, ring
from takeoff.geometry.placement import Placement
from takeoff.model.face import Cover, Face, FaceKind, Shown, Supports
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.sheathe import face_panels, plain_lay_up
from takeoff.sheathing.slopes import slope_courses_of, slope_division
from takeoff.sheathing.ways import LEAST_STEP_IN, plainest

EACH = 250
WHERE = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def a_ring(random: Random, length: float, height: float) -> list[Point]:
    """Four sides, ends slanted or not; or with a notch in its top."""
    slant = [random.choice([0.0, 0.0, random.uniform(0.0, 0.45) * length]) for _ in range(2)]
    points = [(0.0, 0.0), (length, 0.0), (length - slant[1], height), (slant[0], height)]
    if random.random() < 0.3:
        top = length - slant[1] - slant[0]
        left, right = slant[0] + top * 0.3, slant[0] + top * random.uniform(0.5, 0.8)
        low = height * random.uniform(0.3, 0.8)
        points[3:3] = [(right, height), (right, low), (left, low), (left, height)]
    return points


def a_face(random: Random, kind: FaceKind) -> Face:
    length = random.uniform(40.0, 500.0)
    height = random.uniform(30.0, 250.0) if kind == "slope" else random.uniform(60.0, 120.0)
    spacing = random.choice([12.0, 16.0, 19.2, 24.0])
    holes = []
    if random.random() < 0.4 and length > 150:
        u, v = random.uniform(60.0, length - 80.0), random.uniform(0.1, 0.4) * height
        roles = ("sill", "jamb", "header", "jamb")
        holes.append(rectangle(u, v, u + random.uniform(10, 40), v + 0.3 * height, roles))
    points = a_ring(random, length, height)
    centres = {0.75, length - 0.75, *(spacing * k for k in range(1, 50) if spacing * k < length - 1.5)}
    sheet = "cdx-5/8" if kind == "slope" else "osb-7/16"
    exposed = random.choice([sheet, "sanded-5/8"]) if kind == "slope" else sheet
    eave = random.uniform(4.0, 24.0)
    return Face(
        kind=kind,
        name="face",
        outline=Outline(ring(points, ["eave"] * len(points)), tuple(holes)),
        placement=WHERE,
        supports=Supports(centres=tuple(sorted(centres)), thickness=1.5, rows=(), from_right=random.random() < 0.5),
        cover=Cover(field=sheet, exposed=exposed),
        shown=Shown(eave=eave, eave_hidden_to=eave + 6.0, left=0.0, right=length) if kind == "slope" else None,
    )


def faces(kind: FaceKind) -> Iterator[Face]:
    random = Random(20)  # cheap outlines, always the same
    for _ in range(EACH):
        yield a_face(random, kind)


@pytest.mark.parametrize("kind", ["slope", "wall"])
def test_panels_cover_any_outline_exactly_once(kind: FaceKind) -> None:
    for face in faces(kind):
        panels = [panel.polygon for panel in face_panels("hut", face, plain_lay_up(face))]
        outline = face.outline.polygon
        assert sum(panel.area for panel in panels) == pytest.approx(outline.area, abs=1e-6 * max(1.0, outline.area))
        assert union_all(panels).symmetric_difference(outline).area < 1e-6 * outline.area


@pytest.mark.parametrize("kind", ["slope", "wall"])
def test_end_joints_are_on_the_middle_of_a_support(kind: FaceKind) -> None:
    for face in faces(kind):
        cells = plain_lay_up(face)
        for v in {cell.v for cell in cells}:
            band = sorted((cell for cell in cells if cell.v == v), key=lambda cell: cell.u)
            for left, right in pairwise(band):
                assert left.u[1] == right.u[0]
                assert left.u[1] in face.supports.centres


def joints(cells: tuple[Cell, ...], v: tuple[float, float]) -> set[float]:
    band = sorted((cell for cell in cells if cell.v == v), key=lambda cell: cell.u)
    return {left.u[1] for left, _ in pairwise(band)}


def test_no_four_corners_meet_wherever_the_supports_allow() -> None:
    for face in faces("slope"):
        for courses in slope_courses_of(face)[:3]:
            divided = slope_division(face, courses)
            cells = plainest(divided)
            lines = sorted({cell.v for cell in cells})
            in_line = any(
                abs(a - b) < LEAST_STEP_IN
                for below, above in pairwise(lines)
                for a in joints(cells, below)
                for b in joints(cells, above)
            )
            # Of two courses a way free of faults is taken if there is one; of more, one may be in another's way.
            free = all((~clashes).any() for clashes in divided.clashes)
            assert not in_line or not free or len(divided.bands) > 2


def test_no_piece_of_a_slope_is_larger_than_a_sheet() -> None:
    for face in faces("slope"):
        for panel in face_panels("hut", face, plain_lay_up(face)):
            assert isinstance(panel.polygon, Polygon)
            assert panel.length_in <= 96 + 1e-6
            assert panel.width_in <= 48 + 1e-6
