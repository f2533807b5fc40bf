"""Rules of eaves and rakes: tail cuts that can be made, boxes that have something to hold on to."""

from __future__ import annotations

from collections.abc import Iterator

from takeoff.findings import Severity
from takeoff.plan.flaws import Flaw
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building


def level_cut_is_told(building: Building) -> Iterator[Flaw]:
    """A level cut is so far down as a fascia reaches, or as the plan says; and a cut tail needs an eave."""
    roof = building.roof
    if roof.tail.cut == "plumb":
        return
    if not roof.overhang.eave and roof.tail.cut == "level":
        message = "tails are cut level, but the eave doesn't stand out: no tail is cut"
        yield Flaw(rule="plan.doubtful", loc=("roof", "tail", "cut"), message=message, severity=Severity.WARNING)
    if roof.tail.cut == "level" and roof.tail.soffit_drop is None and roof.fascia is None:
        message = (
            "found a level cut at no height, expected a fascia, to whose lower edge it goes,"
            " or soffit_drop, how far below the top of the tail it is"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "tail", "cut"), message=message)


def square_tails_meet(building: Building) -> Iterator[Flaw]:
    """Square tails of unequal pitches lean unequally, and can't end on one hip or valley."""
    roof = building.roof
    if roof.tail.cut != "square":
        return
    if not roof.overhang.eave:
        message = (
            "found square tails on eaves that don't stand out, expected an overhang: the cut would take off the seat"
        )
        yield Flaw(rule="plan.roof", loc=("roof", "tail", "cut"), message=message)
    sides = footprint(building).sides
    for side, after in zip(sides, (*sides[1:], sides[0]), strict=True):
        pitches = roof.pitch_of(side.name), roof.pitch_of(after.name)
        if None not in pitches and pitches[0] != pitches[1]:
            message = (
                f"found square tails on {side.name} and {after.name}, which meet at unequal pitches"
                f" ({pitches[0]} and {pitches[1]}), expected tails cut plumb or level there"
            )
            yield Flaw(rule="plan.roof", loc=("roof", "tail", "cut"), message=message)
            return


def boxed_over_level_tails(building: Building) -> Iterator[Flaw]:
    """A boxed eave stands out, and no tail hangs through its soffit."""
    roof = building.roof
    if roof.soffit.kind != "boxed":
        return
    loc = ("roof", "soffit", "kind")
    if not roof.overhang.eave:
        message = "found boxed eaves on a roof without them, expected an overhang at the eave"
        yield Flaw(rule="plan.roof", loc=loc, message=message)
    elif roof.tail.cut != "level":
        message = (
            f"found boxed eaves under tails cut {roof.tail.cut}, expected tail: {{cut: level}}:"
            " other tails hang through the soffit"
        )
        yield Flaw(rule="plan.roof", loc=loc, message=message)
