"""How the ends of rafters are sawn: one row a cut, both cheeks of a double cut apart, all from the planes in space."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, tan
from typing import TYPE_CHECKING

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.folds import FOOT_IN, fold_facts
from takeoff.sheets.rafter_words import kind_words
from takeoff.sheets.stick_end import side_cut_deg, stick_ends, top_lengths
from takeoff.sheets.tables.table import ANGLE, LENGTH, Column, Row, Table

if TYPE_CHECKING:
    from takeoff.model.building import FramedBuilding
    from takeoff.model.member import Member

CHEEKS = ("square", "single", "double")
"""What an end is, by how many of its cuts the blade is tilted for."""


def _rows(takeoff: Takeoff) -> Iterator[Row]:
    for building in takeoff.buildings:
        marks = {member.mark: member for member in building.members if member.rafter is not None}
        for piece in takeoff.pieces:
            if piece.building == building.name and piece.mark in marks:
                yield from _cuts(marks[piece.mark], building)


def _cuts(member: Member, building: FramedBuilding) -> Iterator[Row]:
    facts, top = fold_facts(member, building), top_lengths(member)
    step = facts.step_in if facts else FOOT_IN
    lengths = (top.long_point, top.centre_line, top.short_point)
    fold = (facts.drop_in, *facts.backing_deg, *facts.wall_deg) if facts else (None,) * 5
    for name, end in zip(("lower", "upper"), stick_ends(member), strict=True):
        cheeks = CHEEKS[min(len(end.cheek_cuts), 2)]
        for number, cut in enumerate(end.cuts, 1):
            rise = tan(radians(abs(cut.miter_deg))) * step
            angles = (cut.miter_deg, cut.bevel_deg, side_cut_deg(cut))
            yield (
                *(building.name, member.mark, kind_words(member), name, number, cheeks),
                *(*angles, rise, step, end.set_back, *lengths, *fold),
            )


RAFTER_CUTS = Table(
    file="rafter_cuts.csv",
    columns=(
        Column("building"),
        Column("mark"),
        Column("kind"),
        Column("end"),
        Column("cut"),
        Column("cheeks"),
        Column("miter_deg", ANGLE),
        Column("bevel_deg", ANGLE),
        Column("side_cut_deg", ANGLE),
        Column("tongue_in", LENGTH),
        Column("body_in", LENGTH),
        Column("set_back_in", LENGTH),
        Column("top_long_point_in", LENGTH),
        Column("top_centre_line_in", LENGTH),
        Column("top_short_point_in", LENGTH),
        Column("drop_in", LENGTH),
        Column("backing_left_deg", ANGLE),
        Column("backing_right_deg", ANGLE),
        Column("wall_left_deg", ANGLE),
        Column("wall_right_deg", ANGLE),
    ),
    rows=_rows,
)
"""One row a cut of an end of a rafter mark in a building.

``side_cut_deg`` is the line across the top edge, off square, + where the right face is the shorter; ``tongue_in`` and
``body_in`` are the steel square's figures for the line down the face; ``set_back_in`` is from the long point to the
short one along the top edge. Lengths along the top edge are the mark's. Of hips and valleys: the drop, the backing
angles that would take its place, and how far the walls run off the heel cut in plan, left and right looking up.
"""
