"""Nails, clips and blocks counted from the edges of placed panels."""

from __future__ import annotations

from shapely import box

from takeoff.geometry.outline import Outline, rectangle
from takeoff.geometry.placement import Placement
from takeoff.model.face import Cover, Face, FaceKind, Supports
from takeoff.model.panel import Panel
from takeoff.sheathing.edges import panel_edges


def face(kind: FaceKind, spacing: float, product: str) -> Face:
    return Face(
        kind=kind,
        name="south",
        outline=Outline(rectangle(0.0, 0.0, 96.0, 96.0, ("eave", "rake", "ridge", "rake"))),
        placement=Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        supports=Supports(
            centres=tuple(spacing * k for k in range(int(96 / spacing) + 1)), thickness=1.5, rows=(), from_right=False
        ),
        cover=Cover(field=product, exposed=product),
        shown=None,
    )


def panel(u: tuple[float, float], v: tuple[float, float], product: str) -> Panel:
    return Panel(
        building="hut",
        face="south",
        product=product,
        zone="field",
        polygon=box(u[0], v[0], u[1], v[1]),
        strength_axis="u",
    )


def test_a_whole_sheet_on_rafters_takes_nails_at_six_inches_on_its_ends_and_at_twelve_between() -> None:
    # Ends on two rafters: 48 / 6 + 1 = 9 each. Five rafters between: 2 at the edges, 3 in the field (12, 24, 36).
    counts = panel_edges(face("slope", 16.0, "cdx-5/8"), [panel((0.0, 96.0), (0.0, 48.0), "cdx-5/8")])
    assert (counts.edge_nails, counts.field_nails) == (2 * 9 + 5 * 2, 5 * 3)


def test_clips_stand_between_supports_that_are_too_far_apart_for_bare_edges() -> None:
    # 24/0 sheets may stand 20 in apart bare, 7/16 strand board stamped 24/16 up to 24.
    halves = [panel((0.0, 96.0), (v, v + 48.0), "cdx-1/2") for v in (0.0, 48.0)]
    assert panel_edges(face("slope", 24.0, "cdx-1/2"), halves).clips == 0  # 32/16: 28 in
    assert panel_edges(face("slope", 32.0, "cdx-1/2"), halves).clips == 3


def test_narrow_pieces_take_clips_and_very_narrow_ones_blocks() -> None:
    def of(width: float) -> tuple[int, float]:
        pieces = [panel((0.0, 96.0), (0.0, width), "cdx-5/8"), panel((0.0, 96.0), (width, width + 48.0), "cdx-5/8")]
        counts = panel_edges(face("slope", 16.0, "cdx-5/8"), pieces)
        return counts.clips, counts.blocking_in

    assert of(24.0) == (0, 0.0)
    assert of(16.0) == (6, 0.0)  # one in each of six bays
    assert of(10.0) == (0, 6 * 14.5)


def test_walls_take_no_clips() -> None:
    counts = panel_edges(face("wall", 16.0, "osb-7/16"), [panel((0.0, 48.0), (0.0, 96.0), "osb-7/16")])
    assert counts.clips == 0
    assert counts.edge_nails > counts.field_nails > 0
