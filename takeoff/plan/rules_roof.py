"""Rules of the roof: gables over a rectangle, cuts that leave a rafter, and parts that have something to hold on to."""

from __future__ import annotations

import math
from collections.abc import Iterator

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import rule
from takeoff.catalog.sheets import SheetProduct, sheet_product, sheet_products
from takeoff.findings import Severity
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.measure import format_length
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint, side_names
from takeoff.plan.rules_openings import unknown_side
from takeoff.plan.schema import Building

LEAST_SPAN_IN = 4 * 12.0
"""Under a narrower gable the seats of opposite rafters and the ridge run into each other."""

DEEPEST_SEAT = 1 / 2
"""Share of the rafter's depth that a stated seat may cut away; common practice, and well past any published limit."""

HEAVY_BOARD_IN = 2.0
"""Ridge boards are thinner than this, beams thicker."""


def roof_sides_known(building: Building) -> Iterator[Flaw]:
    """Gables, roles and pitches are told of sides that are there; some side has a slope."""
    names, roof = side_names(building), building.roof
    for index, name in enumerate(roof.gables or ()):
        if name not in names:
            yield unknown_side(("roof", "gables", index), name, names)
    if roof.low is not None and roof.low not in names:
        yield unknown_side(("roof", "low"), roof.low, names)
    for key in ("edges", "pitches"):
        for name in getattr(roof, key):
            if name not in names:
                yield unknown_side(("roof", key, name), name, names, at_key=True)
    if names and all(roof.is_gable(name) for name in names):
        message = "found a gable on every side, expected an eave on one at least: no slope starts anywhere"
        yield Flaw(rule="plan.roof", loc=("roof", "edges"), message=message)


def shed_over_a_rectangle(building: Building) -> Iterator[Flaw]:
    """A shed roof covers a rectangle."""
    walls = footprint(building)
    if building.roof.shape == "shed" and not walls.is_rectangle:
        found = f"{len(walls.sides)} sides" if len(walls.sides) != 4 else "corners out of square"
        message = f"found {found}, expected a rectangle under a shed roof"
        yield Flaw(rule="plan.geometry", loc=("outline",), message=message, found=found)


def gables_over_a_rectangle(building: Building) -> Iterator[Flaw]:
    """A gable roof covers a rectangle, its gables opposite each other."""
    walls, gables = footprint(building), building.roof.gables
    if gables is None:
        return
    if not walls.is_rectangle:
        found = f"{len(walls.sides)} sides" if len(walls.sides) != 4 else "corners out of square"
        message = (
            f"found {found}, expected a rectangle under a {building.roof.shape} roof;"
            " for other outlines write shape: edges, and which sides are gables"
        )
        yield Flaw(rule="plan.geometry", loc=("outline",), message=message, found=found)
        return
    if not set(gables) <= set(side_names(building)):
        return  # told by roof_sides_known
    opposite = walls.right_of(walls.right_of(gables[0]).name)
    if gables[1] != opposite.name:
        message = f"found {gables[0]} and {gables[1]}, expected opposite sides: {gables[0]} and {opposite.name}"
        yield Flaw(rule="plan.side", loc=("roof", "gables"), message=message)
    span = walls.side(gables[0]).length_in
    if span < LEAST_SPAN_IN - TOLERANCE.length:
        found, limit = format_length(span), f"at least {format_length(LEAST_SPAN_IN)}"
        message = f"found a gable {found} wide, expected {limit}"
        yield Flaw(rule="plan.geometry", loc=("roof", "gables"), message=message, found=found, limit=limit)


def tail_ripped_from_rafter(building: Building) -> Iterator[Flaw]:
    """A tail is ripped from the rafter, so it is no deeper and just as thick; and it needs an eave."""
    roof = building.roof
    if roof.tail.size is None:
        return
    tail, rafter, loc = profile(roof.tail.size), profile(roof.rafters.size), ("roof", "tail", "size")
    if tail.depth_in > rafter.depth_in or tail.thickness_in != rafter.thickness_in:
        limit = f"a size that can be ripped from {rafter.name}"
        message = f"found {tail.name}, expected {limit}"
        yield Flaw(rule="plan.roof", loc=loc, message=message, found=tail.name, limit=limit)
    elif not roof.overhang.eave:
        message = "a tail is written, but the eave doesn't stand out: no tail is cut"
        yield Flaw(rule="plan.doubtful", loc=loc, message=message, severity=Severity.WARNING)


def seat_bears(building: Building) -> Iterator[Flaw]:
    """A stated seat bears enough and leaves enough rafter."""
    roof = building.roof
    seat = roof.rafters.seat
    if seat is None:
        return
    loc, found, bearing = ("roof", "rafters", "seat"), format_length(seat), rule("bearing.rafter")
    depth = profile(roof.rafters.size).depth_in
    deepest = depth * DEEPEST_SEAT / math.sin(math.radians(roof.pitch.deg))
    plate = profile(building.walls.studs).depth_in
    if seat < bearing.value:
        limit = f"at least {format_length(bearing.value)}"
        message = f"found a seat of {found}, expected {limit} ({bearing.section})"
        yield Flaw(rule="plan.roof", loc=loc, message=message, found=found, limit=limit)
    elif seat > deepest + TOLERANCE.length:
        limit = f"at most {format_length(deepest)}"
        message = f"found a seat of {found}, expected {limit}: it may cut away half of the {roof.rafters.size}"
        yield Flaw(rule="plan.roof", loc=loc, message=message, found=found, limit=limit)
    elif seat > plate:
        limit = format_length(plate)
        message = f"a seat of {found} is longer than the plate is wide ({limit})"
        yield Flaw(rule="plan.doubtful", loc=loc, message=message, severity=Severity.WARNING, found=found, limit=limit)


def rake_is_carried(building: Building) -> Iterator[Flaw]:
    """Barge and outlookers have a rake to be in; a rake has something that carries it."""
    roof = building.roof
    rake = roof.overhang.rake
    on_hips = not rake and any(gablet.overhang for gablet in roof.gablets.values())
    if roof.barge and rake < profile(roof.barge.size).thickness_in and not on_hips:
        found, limit = format_length(rake), f"at least {format_length(profile(roof.barge.size).thickness_in)}"
        message = f"found a rake of {found}, expected {limit}: the barge has to stand outside the wall"
        yield Flaw(rule="plan.roof", loc=("roof", "barge"), message=message, found=found, limit=limit)
    elif roof.outlookers and not roof.barge:
        message = "found no barge, expected one: outlookers end at a barge rafter"
        yield Flaw(rule="plan.roof", loc=("roof", "outlookers"), message=message)
    elif rake and not roof.outlookers:
        message = f"nothing carries the rake ({format_length(rake)}) between eave and ridge: no outlookers are written"
        yield Flaw(rule="plan.doubtful", loc=("roof", "overhang"), message=message, severity=Severity.WARNING)


def ridge_is_what_it_says(building: Building) -> Iterator[Flaw]:
    """A beam is heavy, a board is not."""
    ridge = building.roof.ridge
    if ridge is None:
        return
    thickness = profile(ridge.size).thickness_in
    if (ridge.kind == "beam") == (thickness > HEAVY_BOARD_IN):
        return
    other = "board" if ridge.kind == "beam" else "beam"
    message = f"a ridge {ridge.kind} {format_length(thickness)} thick ({ridge.size}): is a {other} meant?"
    yield Flaw(rule="plan.doubtful", loc=("roof", "ridge", "kind"), message=message, severity=Severity.WARNING)


def sheathing_flush(building: Building) -> Iterator[Flaw]:
    """Both grades of roof sheathing have one thickness, or the step is called out; what shows is fit to be seen."""
    written = building.roof.sheathing
    if written.exposed is None:
        return
    field, exposed = sheet_product(written.field), sheet_product(written.exposed)
    loc = ("roof", "sheathing", "exposed")
    step = abs(field.thickness_in - exposed.thickness_in)
    if step:
        step_text = format_length(step, denominator=32)
        message = (
            f"{exposed.name} and {field.name} differ in thickness: a step of {step_text} where they meet on every slope"
            f" that shows; {_alike_words(field, exposed)}"
        )
        yield Flaw(
            rule="sheathing.thickness",
            loc=loc,
            message=message,
            severity=Severity.WARNING,
            found=format_length(exposed.thickness_in, denominator=32),
            limit=format_length(field.thickness_in, denominator=32),
        )
    if exposed.face != "premium":
        sanded = ", ".join(one.name for one in sheet_products() if one.face == "premium")
        message = f"the underside of {exposed.name} shows, and it isn't sanded: {sanded} are"
        yield Flaw(rule="plan.doubtful", loc=loc, message=message, severity=Severity.WARNING)


def _alike_words(field: SheetProduct, exposed: SheetProduct) -> str:
    """Which sheets would lie in one plane."""
    pairs = [f"{other.name} with {field.name}" for other in _as_thick_as(field, exposed.face)]
    pairs += [f"{other.name} with {exposed.name}" for other in _as_thick_as(exposed, field.face)]
    fur = "fur the rafters under the thinner one"
    return f"lay {' or '.join(pairs)}, or {fur}" if pairs else fur


def _as_thick_as(product: SheetProduct, face: str) -> Iterator[SheetProduct]:
    """Sheets for roofs of a product's thickness, with another face."""
    for other in sheet_products():
        alike = other.thickness_in == product.thickness_in and other.face == face and not other.for_floors
        if alike and other.name != product.name:
            yield other
