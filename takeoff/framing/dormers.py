"""Dormers: each a small building on a slope of the main roof, its roof laid over that slope."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from takeoff.framing.covered import covered_edges
from takeoff.framing.dormer import Spot, spots_on
from takeoff.framing.dormer_lines import MainEave, with_cap_lengths
from takeoff.framing.dormer_room import refuse_roof_beyond
from takeoff.framing.dormer_valleys import on_valleys
from takeoff.framing.dormer_walls import dormer_walls
from takeoff.framing.laid_over import laid_over, trimmed
from takeoff.framing.minor import Host, Minor
from takeoff.framing.part import Part
from takeoff.geometry.outline import Outline
from takeoff.plan.by_name import ByName
from takeoff.plan.dormers import Dormer, dormer_labels
from takeoff.plan.footprint import footprint
from takeoff.plan.outlines import Outlines
from takeoff.plan.roof import Overhangs, Rafters, Ridge, Tail
from takeoff.plan.skylights import covering_size
from takeoff.plan.soffit import Soffit
from takeoff.plan.walls import WallSheathing

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.framing.roof_plan import RoofPlan
    from takeoff.model.member import Member
    from takeoff.plan.openings import Opening
    from takeoff.plan.roof import Roof
    from takeoff.plan.schema import Building
    from takeoff.plan.walls import Walls, WallSettings

PLATES = 2
"""Top plate and cap plate."""


def dormers(host: Host) -> tuple[Minor, ...]:
    """The dormers of a building as minor roofs."""
    return tuple(_minor(host, spot) for slope in host.roof.plan.slopes for spot in spots_on(slope, host.building))


def _minor(host: Host, spot: Spot) -> Minor:
    building = _building(host.building, spot)
    top = spot.plane(spot.layer)

    def under(minor: Minor, roof: RoofFrame) -> Part:
        return dormer_walls(spot, minor, roof, host.written, _rafters_under(spot, host), _main_eave(spot, host))

    def reshape(plan: RoofPlan) -> RoofPlan:
        laid = on_valleys(plan, spot, building.roof.rafters.size) if spot.supporting else laid_over(plan, top)
        refuse_roof_beyond(spot, laid, host)
        return laid

    return Minor(
        kind="dormer",
        label=spot.label,
        side=spot.slope.side,
        building=building,
        ground=footprint(building),
        path=spot.path,
        under=under,
        reshape=reshape,
        finish=lambda part: _trimmed_to(part, spot),
    )


def _main_eave(spot: Spot, host: Host) -> MainEave:
    side = host.ground.side(spot.slope.side)
    return MainEave(
        edge=Outline(covered_edges(host.building.roof, spot.slope)).bounds[1],
        left_end=f"{host.ground.left_of(side.name).name} end of the {side.name} wall",
        length=side.length_in,
    )


def _rafters_under(spot: Spot, host: Host) -> tuple[float, ...]:
    """Centre lines of the main rafters of its slope [in]."""
    return next(row.centres for row in host.roof.rows if row.slope.name == spot.slope.name)


def dormer_plans(main: Building) -> tuple[tuple[str, Building], ...]:
    """The dormers of a building, each with its label and the plan that holds for its roof, as the checks ask for it.

    The main walls' openings are none of theirs.
    """
    walls = main.walls.model_copy(update={"openings": ()})
    return tuple(
        (label, main.model_copy(update={"roof": _roof(main.roof, dormer, label), "walls": walls}))
        for label, dormer in zip(dormer_labels(main.roof.dormers), main.roof.dormers, strict=True)
    )


def _trimmed_to(part: Part, spot: Spot) -> Part:
    """Its roof's sticks, those that are not laid on the main roof already cut off along it."""
    top = spot.plane(spot.layer)
    whole = (m if _stays(m, spot) else trimmed(m, top) for m in part.members)
    lines = with_cap_lengths(spot, part.lines) if spot.dormer.shape == "gable" else part.lines
    return replace(part, members=tuple(filter(None, whole)), lines=lines)


def _stays(member: Member, spot: Spot) -> bool:
    """Whether a stick is cut as it is to be: where it is laid on the main roof, or carried by valley rafters."""
    if member.rafter and member.rafter.surface:
        return True
    return spot.supporting and (member.rafter is not None or member.role.name == "ridge-board")


def _building(main: Building, spot: Spot) -> Building:
    """A dormer as a plan of its own: its rectangle runs far enough into the main slope for its roof to meet it."""
    side, names = spot.label, ("front", "right cheek", "back", "left cheek")
    return main.model_copy(
        update={
            "outline": tuple(_corners(spot)),
            "sides": tuple(f"{side} {name}" for name in names),
            "walls": _walls(main.walls, spot),
            "roof": _roof(main.roof, spot.dormer, spot.label),
            "outlines": Outlines(),
        }
    )


def _corners(spot: Spot) -> Iterator[tuple[float, float]]:
    face, (left, right) = spot.slope.bench.placement, spot.dormer.across_in
    flat = spot.pitch if spot.dormer.shape == "shed" else 0.0
    high = spot.dormer.height + 3 * spot.slope.common.plumb_depth + spot.dormer.width * spot.pitch
    back = spot.front + high / max(spot.rise - flat, 1 / 24)
    for u, h in ((left, spot.front), (right, spot.front), (right, back), (left, back)):
        x, y, _ = face.to_world((u, h / spot.slope.level, 0.0))
        yield x, y


def _walls(main: Walls, spot: Spot) -> Walls:
    own = main.for_side(spot.slope.side)
    return main.model_copy(
        update={
            "height": spot.plate,
            "studs": own.studs,
            "spacing": own.spacing_in,
            "grade": own.grade,
            # A shed dormer's cheeks run on to the rake: no hinge at the height of its front.
            "frame": "balloon" if spot.dormer.shape == "shed" else "platform",
            "sheathing": _sheathing(own),
            "openings": tuple(_windows(spot, spot.studs)),
            "by_side": ByName({}),
        }
    )


def _sheathing(own: WallSettings) -> WallSheathing | None:
    return WallSheathing(product=own.sheathing, at_openings=own.at_openings) if own.sheathing else None


def _windows(spot: Spot, studs: Profile) -> Iterator[Opening]:
    """Its windows as openings of its front wall, heights above the deck."""
    for window in spot.dormer.windows:
        plain = window.opening(f"{spot.label} front", spot.dormer.width / 2)
        header = plain.header_size
        highest = spot.plate - PLATES * studs.thickness_in - (header.profile.depth_in if header else 0.0)
        yield plain.model_copy(update={"head": highest if window.head is None else spot.foot + window.head})


def _roof(main: Roof, dormer: Dormer, label: str) -> Roof:
    rafters = dormer.rafters
    size = rafters.size or main.rafters.size
    gable, front = dormer.shape == "gable", f"{label} front"
    pitch = dormer.pitch or main.pitch_of(dormer.side) or main.pitch
    cheeks = "eave" if gable else "gable"
    edges = {
        front: "gable" if gable else "eave",
        f"{label} back": "abutment",
        f"{label} right cheek": cheeks,
        f"{label} left cheek": cheeks,
    }
    eave, rake = dormer.overhang.eave, dormer.overhang.rake
    return main.model_copy(
        update={
            "shape": "edges",
            "gables": None,
            "low": None,
            "edges": ByName(edges),
            "pitch": pitch,
            "pitches": ByName({}),
            "rafters": Rafters(
                size=size, spacing=rafters.spacing or main.rafters.spacing, grade=rafters.grade or main.rafters.grade
            ),
            "overhang": Overhangs(eave=main.overhang.eave if eave is None else eave, rake=rake),
            "tail": Tail(cut="square" if main.tail.cut == "square" else "plumb"),
            "ridge": Ridge(kind="board", size=dormer.ridge or covering_size(size, pitch.slope)) if gable else None,
            "ties": None,
            "collar": None,
            "ceiling": None,
            "soffit": Soffit(),
            "upper": None,
            "purlins": None,
            "clips": ByName({}),
            "gablets": ByName({}),
            "skylights": (),
            "dormers": (),
            "porches": (),
        }
    )
