"""The first sheet: what is built and its key dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from takeoff.geometry.polygon import corners
from takeoff.geometry.rafter import RafterGeometry
from takeoff.measure import Pitch
from takeoff.model.building import FramedBuilding
from takeoff.model.member import Member
from takeoff.sheets.crew.alike import by_number, short_ids
from takeoff.sheets.crew.figures import Figures, Labelled, saw
from takeoff.sheets.crew.jack_series import jack_series
from takeoff.sheets.crew.marked import Marked, by_mark, short_words
from takeoff.sheets.crew.wall_sheet import wall_height
from takeoff.sheets.rafter_tops import base_of, top_of
from takeoff.sheets.rafter_words import JACKS, OUTSIDE_OF
from takeoff.sheets.second_mouth import second_mouth

_COMMON, _RIDGES, _PLATES = "common-rafter", ("ridge-beam", "ridge-board"), ("cap-plate", "top-plate")


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildingFront:
    """A building's key dimensions."""

    name: str
    count: int
    walls: tuple[Labelled, ...]
    heights: tuple[Labelled, ...]
    """Pitches, runs and heights, roof by roof."""
    rafters: tuple[Labelled, ...]
    """How many of each mark, jacks by the series."""
    drawing: str
    """File of the view of its frame; empty where there is none."""


def building_front(building: FramedBuilding, drawing: str, figures: Figures) -> BuildingFront:
    """Key dimensions of one building; what it doesn't have is left out. ``drawing`` is the file of its view."""
    return BuildingFront(
        name=building.name,
        count=building.count,
        walls=tuple(_walls(building, figures)),
        heights=tuple(_all_heights(building, figures)),
        rafters=tuple(_rafters(building, figures)),
        drawing=drawing,
    )


def _walls(building: FramedBuilding, figures: Figures) -> Iterator[Labelled]:
    for face in building.faces:
        if face.kind == "wall":
            u0, _, u1, _ = face.outline.bounds
            yield Labelled(f"{face.name} wall", f"{figures.length(u1 - u0)} long", wall_height(building, face, figures))


def _all_heights(building: FramedBuilding, figures: Figures) -> Iterator[Labelled]:
    for part in dict.fromkeys(("", *(face.part for face in building.faces))):
        own = replace(building, members=tuple(m for m in building.members if _part(building, m) == part))
        # What two kinds of rafters have in common is said once.
        yield from dict.fromkeys((*_heights(building, own, part, figures), *_ridges(own, part, figures)))


def _rafters(building: FramedBuilding, figures: Figures) -> Iterator[Labelled]:
    for series in _rafter_series(building):
        members = [marked.member for marked in series]
        lengths = dict.fromkeys(figures.length(length) for length in sorted(member.length_in for member in members))
        shortest, *_, longest = [*lengths, *lengths]
        spread = shortest if shortest == longest else f"{shortest} to {longest}"
        words = f"{short_words(members[0].role)} {short_ids(by_number(member.mark for member in members))}"
        stick = f"{members[0].profile.name} {members[0].grade}, {spread}"
        yield Labelled(words, str(sum(marked.count for marked in series)), stick)


def _part(building: FramedBuilding, member: Member) -> str:
    """The minor roof that a stick belongs to; empty for the main building."""
    parts = dict.fromkeys(face.part for face in building.faces if face.part)
    return next((part for part in parts if member.face.startswith(f"{part} ")), "")


def _heights(building: FramedBuilding, own: FramedBuilding, part: str, figures: Figures) -> Iterator[Labelled]:
    """Pitch, run and heights of a part's common rafters; ``own`` has its sticks alone."""
    of = f"{part}, " if part else ""
    for member, rafter in _common_rafters(own):
        top, base = top_of(member, (building,)), base_of(member, (building,))
        yield Labelled(f"{of}pitch", str(Pitch(12 * rafter.slope)), f"plumb cut {saw(rafter.plumb_deg)}")
        yield Labelled(f"{of}run to {top.run_to}", figures.length(rafter.run), f"rise {figures.length(rafter.rise)}")
        stand = figures.length(rafter.height_above_plate)
        yield Labelled(f"{of}height above {base}", stand, f"top of rafter, outside of {OUTSIDE_OF[base]}")
        high = figures.length(rafter.top_at(rafter.run))
        yield Labelled(f"{of}top of rafters over {top.run_to}", high, f"above the {base}")
        second = second_mouth(rafter)
        if second and not second.holds_the_end:  # a beam's top is among the ridges
            yield Labelled(f"{of}top of {second.under}", figures.length(second.bearing), "above the plate")


def _rafter_series(building: FramedBuilding) -> Iterator[tuple[Marked, ...]]:
    """Marks of rafters one by one, jacks by the series."""
    yield from ((m,) for m in by_mark((building,), lambda m: m.rafter is not None and m.role.name not in JACKS))
    yield from jack_series((building,))


def _common_rafters(building: FramedBuilding) -> tuple[tuple[Member, RafterGeometry], ...]:
    """One of each mark."""
    found = by_mark((building,), lambda member: member.role.name == _COMMON)
    return tuple((marked.member, marked.member.rafter) for marked in found if marked.member.rafter is not None)


def _ridges(building: FramedBuilding, part: str, figures: Figures) -> Iterator[Labelled]:
    """Tops of ridges, above the deck and above the plates that the same roof stands on."""
    plates = [_top(member) for member in building.members if member.role.name in _PLATES]
    for marked in by_mark((building,), lambda member: member.role.name in _RIDGES):
        top = _top(marked.member)
        over = f"{figures.length(top - max(plates))} above the plate" if plates else ""
        words = f"top of {short_words(marked.member.role)}"
        yield Labelled(f"{part}, {words}" if part else words, f"{figures.length(top)} above the deck", over)


def _top(member: Member) -> float:
    """Height of a stick's highest corner over the deck [in]."""
    half = member.profile.thickness_in / 2
    points = [(x, y, z) for x, y in corners(member.side) for z in (-half, half)]
    return max(member.placement.to_world(point)[2] for point in points)
