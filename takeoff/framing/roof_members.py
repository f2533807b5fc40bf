"""The sticks of a roof, made from its design: of a building's own roof and of a minor roof alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import Profile, profile
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.eaves import eave_blocks, fascia, fascia_drop, high_blocks
from takeoff.framing.fold_members import false_ridges, ridge_members, sloped_member
from takeoff.framing.gablet_members import gablet_members
from takeoff.framing.gablet_rakes import gablet_rakes
from takeoff.framing.gablets import GabletError
from takeoff.framing.laid_over import trimmed
from takeoff.framing.ledgers import ledgers
from takeoff.framing.rafters import rafters
from takeoff.framing.rakes import barges, ladder_blocks, outlookers
from takeoff.framing.roof_frame import RoofFrame, fascia_runs, rafters_along
from takeoff.framing.roof_headers import roof_headers
from takeoff.framing.soffits import soffit_boxes, soffit_members
from takeoff.framing.square_eaves import lean_fault
from takeoff.framing.tails import fold_lean
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.plan.roof import Roof
    from takeoff.plan.schema import Building


def roof_members(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> tuple[Member, ...]:
    """All sticks of a roof: rafters, headers, ridges, hips, valleys, ledgers, blocks, rakes, fascia, soffits.

    Raises:
        PlanError: one of them can't be made.
    """
    roof = building.roof
    return (
        *(m for row in frame.rows for m in rafters(row)),
        *(m for row in frame.rows for m in roof_headers(row)),
        *_fold_members(roof, frame, written),
        *gablet_members(building, frame),
        *_gablet_rakes(building, frame, written),
        *_ledgers(roof, frame),
        *(
            m
            for row, block in zip(frame.rows, frame.blocking, strict=True)
            if block
            for m in eave_blocks(row, block, roof.rafters.grade)
        ),
        *(
            m
            for row, block in zip(frame.rows, frame.high_blocking, strict=True)
            if block
            for m in high_blocks(row, block, roof.rafters.grade)
        ),
        *_rake_members(roof, frame),
        *_fascia(roof, frame, written("roof.tail.cut")),
        *_soffits(building, frame, written("roof.soffit")),
    )


def _fold_members(roof: Roof, frame: RoofFrame, written: Callable[[str], Place]) -> Iterator[Member]:
    level = (fold for fold in frame.plan.folds if fold.kind == "ridge")
    for ridge, fold in zip(frame.ridges, level, strict=True):
        made = ridge_members(ridge, longest_of(ridge.profile, ridge.grade), rafters_along(frame, ridge))
        yield from filter(None, (trimmed(m, fold.laid_on) for m in made)) if fold.laid_on else made
    for purlin in frame.purlins:
        yield from ridge_members(purlin, longest_of(purlin.profile, purlin.grade), ())
    tail = profile(roof.tail.size).depth_in if roof.tail.size else None
    for stick in frame.sloped:
        slope = max((frame.plan.slopes[k] for k in stick.fold.slopes), key=lambda s: frame.plan.under(s).plate)
        size = profile(roof.hip_size if stick.fold.kind == "hip" else roof.valley_size)
        try:
            yield sloped_member(
                stick,
                bench=slope.bench,
                size=size,
                grade=roof.rafters.grade,
                plate=frame.plan.under(slope).plate,
                tail_plumb=None if tail is None else tail / slope.level,
                tail_level_drop=slope.common.tail_level_drop,
                tail_lean=fold_lean(roof, slope.common.slope, stick.fold.slope),
            )
        except ValueError as error:
            raise refused("frame.rafter", written("roof"), f"the {stick.fold.kind} rafter: {error}") from error


def _gablet_rakes(building: Building, frame: RoofFrame, written: Callable[[str], Place]) -> tuple[Member, ...]:
    try:
        return tuple(gablet_rakes(building, frame))
    except GabletError as error:
        raise refused("frame.gablet", written(f"roof.gablets.{error.side}.overhang"), str(error)) from error


def _ledgers(roof: Roof, frame: RoofFrame) -> Iterator[Member]:
    size, grade = profile(roof.ledger_size), roof.rafters.grade
    for row in frame.rows:
        yield from ledgers(row, size, grade, longest_of(size, grade))


def _rake_members(roof: Roof, frame: RoofFrame) -> Iterator[Member]:
    if not roof.overhang.rake:
        return
    barge = profile(roof.barge.size) if roof.barge else None
    back = barge.thickness_in if barge else 0.0
    if roof.outlookers:
        size = profile(roof.outlookers.size)
        sticks = ladder_blocks if roof.outlookers.method == "ladder" else outlookers
        for row in frame.rows:
            yield from sticks(row, size, roof.rafters.grade, back)
    if barge and roof.barge:
        for row in frame.rows:
            drop = fascia_drop(row.slope.common.slope, profile(roof.fascia.size)) if roof.fascia else None
            yield from barges(row, barge, roof.barge.grade, drop)
        yield from false_ridges(frame.ridge_ends, barge, roof.barge.grade, back)


def _fascia(roof: Roof, frame: RoofFrame, place: Place) -> Iterator[Member]:
    board = profile(roof.fascia.size) if roof.fascia else None
    faults = (lean_fault(row.slope, board) for row in frame.rows if row.slope.outline.edges_with("eave"))
    for fault in filter(None, faults):
        raise refused("frame.tail", place, fault)
    if not roof.fascia:
        return
    size, grade = profile(roof.fascia.size), roof.fascia.grade
    for row in frame.rows:
        yield from fascia(row, fascia_runs(frame.plan, row.slope), size, grade, longest_of(size, grade))


def _soffits(building: Building, frame: RoofFrame, place: Place) -> Iterator[Member]:
    for box in soffit_boxes(building, frame.rows, place):
        yield from soffit_members(box, longest_of(box.ledger, box.grade))


def longest_of(stick: Profile, grade: str) -> float:
    """Longest board on sale of a size and grade [in]; no end to it where none is listed."""
    lengths = stock_lengths(stick, grade)
    return lengths[-1] if lengths else float("inf")


def refused(rule: str, place: Place, message: str) -> PlanError:
    """The error for what can't be framed."""
    return PlanError([Finding(rule=rule, severity=Severity.ERROR, message=message, place=place)])
