"""What lies under the sheets: nothing at all, or one stick where two are wanted."""

from __future__ import annotations

from dataclasses import replace

from shapely import box
from shop import built, gable

from takeoff.checks.roof import sheathing_span
from takeoff.checks.sheathing import NO_SUPPORT, ONE_SUPPORT, panel_supports, wall_studs
from takeoff.findings import Finding, Severity
from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face

PLAN = gable()


def a_building() -> FramedBuilding:
    return built(PLAN)


def with_face(building: FramedBuilding, face: Face) -> FramedBuilding:
    return replace(building, faces=tuple(face if one.name == face.name else one for one in building.faces))


def slope_of(building: FramedBuilding) -> Face:
    return next(face for face in building.faces if face.kind == "slope")


def test_a_roof_as_it_is_laid_has_two_supports_under_every_piece() -> None:
    building = a_building()
    assert any(panel.face == slope_of(building).name for panel in building.panels)
    assert not list(panel_supports(building, PLAN))


def test_a_face_without_supports_is_named() -> None:
    building = a_building()
    slope = slope_of(building)
    bare = replace(slope, supports=replace(slope.supports, centres=()))
    (finding,) = panel_supports(with_face(building, bare), PLAN)
    assert (finding.rule, finding.severity, finding.where) == (NO_SUPPORT, Severity.WARNING, slope.name)
    assert finding.building == "hut"


def test_a_piece_on_one_support_is_named_with_its_face_unless_it_is_small() -> None:
    building = a_building()
    slope = slope_of(building)
    first = slope.supports.centres[3]
    panel = next(panel for panel in building.panels if panel.face == slope.name)

    def findings(height: float) -> list[tuple[str, str]]:
        # 14 inches long around one rafter of a layout of 16: the neighbours are out of reach.
        narrow = replace(panel, polygon=box(first - 7, 0, first + 7, height))
        found = panel_supports(replace(building, panels=(narrow,)), PLAN)
        return [(finding.rule, finding.where) for finding in found]

    assert findings(24.0) == [(ONE_SUPPORT, slope.name)]
    assert findings(10.0) == []  # 140 sq in, less than a square foot


def test_studs_too_far_apart_for_the_sheets_of_a_wall_are_told_wall_by_wall() -> None:
    far = gable(walls={"spacing": '32"', "by_side": {"north": {"spacing": '24"'}}})
    found = [finding.where for finding in wall_studs(built(far), far)]
    assert found == ["south wall", "east wall", "west wall"]
    assert not list(wall_studs(a_building(), PLAN))


def test_sheets_that_span_only_on_clips_are_noted_and_those_that_do_not_are_told_with_their_slopes() -> None:
    def told(spacing: str) -> Finding:
        plan = gable(roof={"rafters": {"size": "2x10", "spacing": spacing}, "sheathing": {"field": "cdx-1/2"}})
        (finding,) = sheathing_span(built(plan), plan)
        return finding

    # rated 32/16: 28 with free edges, 32 on clips
    assert "without edge support" in told('24"').message
    assert told('32"').severity is Severity.NOTE
    assert "on the clips that are in the order" in told('32"').message
    assert told('36"').severity is Severity.WARNING
    assert "on south slope, north slope set the rafters nearer" in told('36"').message
