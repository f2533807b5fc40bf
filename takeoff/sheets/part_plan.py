"""Enlarged plans of minor roofs: what carries a porch, what of a dormer lies on the slope, and the roof over it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from takeoff.sheets.blocks import GAP_MM, MARGIN_MM, WIDTH_MM, Block, Part, first_fit, fitted
from takeoff.sheets.drawing import Drawing, View
from takeoff.sheets.extent import extent
from takeoff.sheets.face_sticks import part_of
from takeoff.sheets.laid_view import LaidView, host_slope
from takeoff.sheets.plan_scale import scale_for
from takeoff.sheets.porch_view import PorchView, has_posts
from takeoff.sheets.roof_drawing import RoofDrawing
from takeoff.sheets.slug import slugs

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

_ROOM_MM = WIDTH_MM - 2 * MARGIN_MM
_HEIGHTS_MM = (130.0, 110.0, 95.0, 80.0, 65.0)  # that a view may have, so that all of them go on
_PAGE_MM = 220.0
_LEAST_MM = 60.0  # of paper for the roof
_LARGEST, _FALLBACK = 24.0, 96.0  # inches of the thing to an inch of paper
_LEFT_MM = 104.0  # for what is measured, its figures beside it
_RIGHT_MM = WIDTH_MM - 2 * MARGIN_MM - GAP_MM - _LEFT_MM


def part_plans(building: FramedBuilding, *, name: str, denominator: int = 16) -> tuple[Drawing, ...]:
    """A drawing of each minor roof of a building.

    Args:
        building: framed and marked.
        name: of the drawings, fit for a file; each has the part's own behind it.
        denominator: figures are shown to one over this of an inch.
    """
    parts = tuple(dict.fromkeys(face.part for face in building.faces if face.part))
    names = slugs(parts)
    return tuple(_drawing(building, part, f"{name}-{names[part]}", denominator) for part in parts)


def _drawing(building: FramedBuilding, part: str, name: str, denominator: int) -> Drawing:
    members = tuple(member for member in building.members if part_of(building, member) == part)
    rows = _laid_out(tuple(_measured(building, members, denominator)), _roof(building, part, members, denominator))
    tall = [max(block.tall for block in row) for row in rows]
    height = _height(rows) + 2 * MARGIN_MM
    tops = [height - MARGIN_MM - sum(tall[:k]) - GAP_MM * k for k in range(len(rows))]
    return Drawing(
        name=name,
        title=f"{building.name}: {part}, enlarged",
        description=f"{len(members)} sticks of the {part}.",
        width_mm=WIDTH_MM,
        height_mm=height,
        views=tuple(view for row, top in zip(rows, tops, strict=True) for view in _side_by_side(row, top)),
    )


def _laid_out(measured: Sequence[Part], roof: Part) -> list[list[Block]]:
    """Blocks in rows on a page: what is measured one under the other, the roof beside or below, as large as may be."""
    ways: list[list[list[Block]]] = []
    for most_mm in _HEIGHTS_MM:
        blocks = [_block(view, _ROOM_MM, most_mm) for view in measured]
        rows = [[block] for block in blocks if block is not None]
        if len(rows) == len(blocks):
            ways += [way for way in _with_roof(rows, roof) if _height(way) <= _PAGE_MM]
    if ways:
        return min(ways, key=_scales)
    return [[fitted(view, _ROOM_MM, _PAGE_MM, least=_FALLBACK)] for view in (*measured, roof)]


def _scales(rows: Sequence[Sequence[Block]]) -> list[float]:
    """Scales of what is drawn, the smallest drawing first."""
    return sorted((block.view.one_to for row in rows for block in row), reverse=True)


def _with_roof(rows: list[list[Block]], roof: Part) -> Iterator[list[list[Block]]]:
    """The rows with the roof beside the last of them, and with it below, where there is room for it at all."""
    beside = _ROOM_MM - GAP_MM - rows[-1][0].wide if rows else 0.0
    if beside > _LEAST_MM and (made := _block(roof, beside, max(_LEAST_MM, rows[-1][0].tall))):
        yield [*rows[:-1], [*rows[-1], made]]
    below = _PAGE_MM - _height(rows) - GAP_MM
    if below > _LEAST_MM and (made := _block(roof, _ROOM_MM, min(below, _HEIGHTS_MM[0]))):
        yield [*rows, [made]]


def _height(rows: Sequence[Sequence[Block]]) -> float:
    return sum(max(block.tall for block in row) for row in rows) + GAP_MM * max(len(rows) - 1, 0)


def _side_by_side(row: Sequence[Block], top: float) -> Iterator[View]:
    left = MARGIN_MM
    for block in row:
        yield block.placed(left, top)
        left += block.wide + GAP_MM


def _measured(building: FramedBuilding, members: tuple[Member, ...], denominator: int) -> Iterator[Part]:
    """What is set out before the roof goes on."""
    if has_posts(members):
        porch = PorchView(building, members, denominator)
        yield Part("posts", f"Posts and beams, from the left end of the {porch.wall.name} wall", cache(porch.items))
    slope = host_slope(building, members)
    if slope is not None:
        laid = LaidView(building, slope, members, denominator)
        yield Part("laid", f"Plates on the {slope.name}, from the left end of its wall", cache(laid.items))


def _roof(building: FramedBuilding, part: str, members: tuple[Member, ...], denominator: int) -> Part:
    faces = tuple(face for face in building.faces if face.part == part)
    roof = RoofDrawing(replace(building, faces=faces, members=members, panels=()), denominator)
    return Part("roof", "Roof framing plan", cache(lambda one_to: tuple(roof.at(one_to).items())))


def _block(view: Part, width_mm: float, most_mm: float) -> Block | None:
    """At the largest scale of the rule at which it has room with its lettering."""
    x0, y0, x1, y1 = extent(view.build(_LARGEST), _LARGEST)
    # Lettering takes no less at a smaller scale, so what goes in at the end is no larger than this.
    least = scale_for((x1 - x0) / 2, (y1 - y0) / 2, width_mm, most_mm)
    return first_fit(view, width_mm, most_mm, least=least)
