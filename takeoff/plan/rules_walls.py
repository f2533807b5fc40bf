"""Rules of walls: sides that are named exist, balloon frames stand in gables, sizes are made in the grade asked for."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.catalog.grades import grade, grades_for
from takeoff.catalog.profiles import profile
from takeoff.findings import Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import side_names
from takeoff.plan.rules_openings import rises_to_the_rake, unknown_side
from takeoff.plan.rules_porches import porch_grades
from takeoff.plan.schema import Building
from takeoff.plan.tree import Loc

SHEET_IN = 96.0
"""Length of the usual sheet; other lengths on sale are for walls, and stand upright."""


def by_side_known(building: Building) -> Iterator[Flaw]:
    """Every side under ``by_side`` is a side."""
    names = side_names(building)
    for name in building.walls.by_side:
        if name not in names:
            yield unknown_side(("walls", "by_side", name), name, names, at_key=True)


def balloon_in_gables(building: Building) -> Iterator[Flaw]:
    """Balloon-framed walls have a rake for their studs to run to."""
    names = side_names(building)
    gables = [name for name in names if building.roof.is_gable(name)]
    gable_words = " and ".join(gables) or "no side has one here"
    for name in names:
        if building.walls.for_side(name).frame != "balloon" or name in gables:
            continue
        own = building.walls.by_side.get(name)
        loc: Loc = ("walls", "by_side", name, "frame") if own and own.frame else ("walls", "frame")
        message = f"found balloon for {name!r}, expected it on gable sides only ({gable_words})"
        if gables:
            message += f"; write by_side: {{{', '.join(f'{gable}: {{frame: balloon}}' for gable in gables)}}}"
        yield Flaw(rule="plan.frame", loc=loc, message=message, found="balloon", limit=gable_words)


def through_walls_known(building: Building) -> Iterator[Flaw]:
    """Walls that are told to run through carry rafters: beside a gable the end rafter stands on the other walls."""
    names, roof = side_names(building), building.roof
    for index, name in enumerate(building.walls.through):
        loc: Loc = ("walls", "through", index)
        if name not in names:
            yield unknown_side(loc, name, names)
        elif roof.is_gable(name) and not roof.is_abutment(name):
            message = (
                f"found the gable side {name!r} running through, expected it to butt: at its corners the end rafters"
                " stand on the plates of the walls beside it"
            )
            yield Flaw(rule="plan.frame", loc=loc, message=message, found=name)


def rake_plates_under_rakes(building: Building) -> Iterator[Flaw]:
    """A side that is told to have plates up its rake has studs that run on to it."""
    for name, own in building.walls.by_side.items():
        if own.rake_plates and name in side_names(building) and not rises_to_the_rake(building, name):
            message = f"found rake_plates for {name!r}, expected them on a balloon-framed gable side"
            loc: Loc = ("walls", "by_side", name, "rake_plates")
            yield Flaw(rule="plan.frame", loc=loc, message=message, found="rake_plates")


def grades_go_with_sizes(building: Building) -> Iterator[Flaw]:
    """Every size is made in the grade asked for."""
    for loc, size, asked in _graded(building):
        stick = profile(size)
        if not grade(asked).fits(stick):
            limit = ", ".join(known.name for known in grades_for(stick))
            message = f"found {asked} for {size}, expected a grade it is made in: {limit}"
            yield Flaw(rule="plan.grade", loc=loc, message=message, found=asked, limit=limit)


def _graded(building: Building) -> Iterator[tuple[Loc, str, str]]:
    """Every grade, with where it is written and the size it is for."""
    walls, roof = building.walls, building.roof
    yield ("walls", "grade"), walls.studs, walls.grade
    yield ("walls", "plates_grade"), walls.studs, walls.plates_grade
    for name, own in walls.by_side.items():
        if own.studs or own.grade:
            side = walls.for_side(name)
            yield ("walls", "by_side", name, "grade"), side.studs, side.grade
    yield ("roof", "rafters", "grade"), roof.rafters.size, roof.rafters.grade
    if roof.ridge:
        yield ("roof", "ridge", "material"), roof.ridge.size, roof.ridge.grade
    if roof.upper:
        yield ("roof", "upper", "purlin", "material"), roof.upper.purlin.size, roof.upper.purlin.grade
    for key, ties in (("ties", roof.ties), ("collar", roof.collar), ("ceiling", roof.ceiling)):
        if ties:
            yield ("roof", key, "grade"), ties.size, ties.grade
    if roof.purlins:
        yield ("roof", "purlins", "grade"), roof.purlins.size or roof.rafters.size, roof.purlins.grade
        yield ("roof", "purlins", "struts", "grade"), roof.purlins.struts.size, roof.purlins.struts.grade
    if roof.barge:
        yield ("roof", "barge", "grade"), roof.barge.size, roof.barge.grade
    if roof.fascia:
        yield ("roof", "fascia", "grade"), roof.fascia.size, roof.fascia.grade
    yield from porch_grades(building)
    if roof.soffit.kind == "boxed":
        for size in dict.fromkeys((roof.soffit.lookouts, roof.soffit.ledger)):
            yield ("roof", "soffit", "grade"), size, roof.soffit.grade


def spacings_fit_sheets(building: Building) -> Iterator[Flaw]:
    """The ends of sheets land on studs and rafters."""
    for loc, spacing in _spacings(building):
        bays = SHEET_IN / spacing
        if abs(bays - round(bays)) * spacing > TOLERANCE.mark:
            found, limit = format_length(spacing), 'one that goes into 96", such as 12", 16", 19.2" or 24"'
            message = f"the ends of sheets don't land on a spacing of {found}: expected {limit}"
            yield Flaw(
                rule="plan.doubtful", loc=loc, message=message, severity=Severity.WARNING, found=found, limit=limit
            )


def _spacings(building: Building) -> Iterator[tuple[Loc, float]]:
    """Every spacing of what sheets are nailed to."""
    walls = building.walls
    yield ("walls", "spacing"), walls.spacing
    for name, own in walls.by_side.items():
        if own.spacing:
            yield ("walls", "by_side", name, "spacing"), own.spacing
    yield ("roof", "rafters", "spacing"), building.roof.rafters.spacing


def sheathing_left_out(building: Building) -> Iterator[Flaw]:
    """Say so where no wall sheathing is ordered, so that nobody finds out on the site."""
    bare = [name for name in side_names(building) if building.walls.for_side(name).sheathing is None]
    if bare:
        message = f"no wall sheathing is ordered for {', '.join(bare)}: none is written"
        yield Flaw(rule="plan.left-out", loc=("walls",), message=message, severity=Severity.NOTE)
