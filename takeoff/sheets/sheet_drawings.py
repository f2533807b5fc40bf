"""All drawings of a job, each recorded once, for the crew's book and for the folder of drawings."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from takeoff.model.building import FramedBuilding
from takeoff.model.face import Face
from takeoff.model.member import Member
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.crew.sheet_list import sheet_groups
from takeoff.sheets.drawing import Drawing
from takeoff.sheets.folds import facts_in
from takeoff.sheets.frame_view import frame_view
from takeoff.sheets.panel_map import panel_map
from takeoff.sheets.part_plan import part_plans
from takeoff.sheets.rafter_drawing import rafter_drawing
from takeoff.sheets.rafter_tops import base_of, top_of
from takeoff.sheets.rafter_whole import STEP_RUN_IN
from takeoff.sheets.roof_drawing import roof_drawing
from takeoff.sheets.section_drawing import section_drawings
from takeoff.sheets.sheet_map import sheet_map
from takeoff.sheets.slug import slugs
from takeoff.sheets.wall_drawing import wall_drawing
from takeoff.sheets.wall_plan import wall_plan


@dataclass(frozen=True, slots=True)
class FaceDrawing:
    """A drawing of one face of a building."""

    building: FramedBuilding
    face: Face
    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetDrawings:
    """The drawings of a job."""

    rafters: Mapping[str, Drawing]
    """By mark."""
    grounds: tuple[tuple[FramedBuilding, Drawing], ...]
    """The walls in plan."""
    plans: tuple[tuple[FramedBuilding, Drawing], ...]
    """Framing plans of the roofs."""
    parts: tuple[tuple[FramedBuilding, Drawing], ...]
    """Enlarged plans of minor roofs."""
    sections: tuple[tuple[FramedBuilding, Drawing], ...]
    """Of the roofs, at eave and ridge."""
    walls: tuple[FaceDrawing, ...]
    """Elevations of the walls' frames."""
    maps: tuple[FaceDrawing, ...]
    """Sheathing, face by face."""
    sheets: Mapping[str, Drawing]
    """Cutting of each group of equal sheets, by the first one's id."""
    frames: Mapping[str, Drawing]
    """Views of the frames, by the building's name."""

    def wall(self, building: FramedBuilding, face: Face) -> Drawing | None:
        """The elevation of one wall; None where nothing stands in it."""
        found = (each.drawing for each in self.walls if each.building is building and each.face is face)
        return next(found, None)

    def all(self) -> Iterator[Drawing]:
        """Each drawing, in the order of the book."""
        yield from (drawing for _, drawing in (*self.grounds, *self.plans, *self.parts, *self.sections))
        yield from self.rafters.values()
        yield from (each.drawing for each in (*self.walls, *self.maps))
        yield from self.sheets.values()
        yield from self.frames.values()


def sheet_drawings(takeoff: Takeoff) -> SheetDrawings:
    """Record the drawings of a job."""
    rafters = [marked.member for marked in rafter_marks(takeoff)]
    return SheetDrawings(
        rafters={member.mark: sheet_drawing(member, takeoff) for member in rafters},
        grounds=_of_buildings(takeoff, "wall-plan", wall_plan),
        plans=roof_drawings(takeoff),
        parts=tuple(_named(takeoff, "part-plan", part_plans)),
        sections=tuple(_named(takeoff, "section", section_drawings)),
        walls=(
            *_faces(takeoff, "floor", lambda face: face.kind == "floor", wall_drawing),
            *_faces(takeoff, "wall", lambda face: face.kind == "wall", wall_drawing),
        ),
        maps=tuple(_faces(takeoff, "sheathing", lambda _: True, panel_map)),
        sheets={
            group[0].sheet_id: sheet_map(
                group[0],
                name=f"sheet-{group[0].sheet_id}",
                alike=len(group),
                denominator=takeoff.settings.denominator,
            )
            for group in sheet_groups(takeoff.sheets.sheets)
        },
        frames=dict(_frames(takeoff)),
    )


def sheet_drawing(member: Member, takeoff: Takeoff) -> Drawing:
    """The drawing of a rafter as the sheets have it, its steps those of its fold if it runs along one."""
    facts = facts_in(takeoff.buildings, member)
    step_in = facts.step_in if facts else STEP_RUN_IN
    top, base = top_of(member, takeoff.buildings), base_of(member, takeoff.buildings)
    return rafter_drawing(member, denominator=takeoff.settings.denominator, step_in=step_in, top=top, base=base)


def roof_drawings(takeoff: Takeoff) -> tuple[tuple[FramedBuilding, Drawing], ...]:
    """The framing plan of each building that has a roof."""
    return _of_buildings(takeoff, "roof-plan", roof_drawing)


def _of_buildings(
    takeoff: Takeoff, kind: str, draw: Callable[..., Drawing | None]
) -> tuple[tuple[FramedBuilding, Drawing], ...]:
    """A drawing of each building that has one, named ``roof-plan-cabin``."""
    names = slugs(building.name for building in takeoff.buildings)
    drawn = (
        (b, draw(b, name=f"{kind}-{names[b.name]}", denominator=takeoff.settings.denominator))
        for b in takeoff.buildings
    )
    return tuple((building, drawing) for building, drawing in drawn if drawing is not None)


def _named(
    takeoff: Takeoff, kind: str, draw: Callable[..., tuple[Drawing, ...]]
) -> Iterator[tuple[FramedBuilding, Drawing]]:
    """The drawings of each building that has several, named ``section-cabin-R1``."""
    names = slugs(building.name for building in takeoff.buildings)
    for building in takeoff.buildings:
        name, denominator = f"{kind}-{names[building.name]}", takeoff.settings.denominator
        yield from ((building, one) for one in draw(building, name=name, denominator=denominator))


def _frames(takeoff: Takeoff) -> Iterator[tuple[str, Drawing]]:
    names = slugs(building.name for building in takeoff.buildings)
    for building in takeoff.buildings:
        view = frame_view(building, name=f"frame-{names[building.name]}")
        if view is not None:
            yield building.name, view


def _faces(
    takeoff: Takeoff, kind: str, wanted: Callable[[Face], bool], draw: Callable[..., Drawing | None]
) -> Iterator[FaceDrawing]:
    """A drawing of each face that has one, named ``wall-cabin-south``."""
    buildings = slugs(building.name for building in takeoff.buildings)
    for building in takeoff.buildings:
        faces = slugs(face.name for face in building.faces)
        for face in filter(wanted, building.faces):
            name = f"{kind}-{buildings[building.name]}-{faces[face.name]}"
            drawing = draw(building, face, name=name, denominator=takeoff.settings.denominator)
            if drawing is not None:
                yield FaceDrawing(building, face, drawing)
