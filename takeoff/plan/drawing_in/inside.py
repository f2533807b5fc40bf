"""What stands in and at a building's walls: partitions with their openings, floors, porches, dormers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.floors import drawn_lofts, drawn_main, loft_name, untold_lofts
from takeoff.plan.drawing_in.girders import LOFTS, MAIN, drawn_girders, with_loft_beams, with_main_girders
from takeoff.plan.drawing_in.house import House
from takeoff.plan.drawing_in.minor_roofs import Kind, drawn_minors, names_by_side
from takeoff.plan.drawing_in.named_parts import Listed, with_parts, word_at, written_parts
from takeoff.plan.drawing_in.nodes import node_at, with_entry
from takeoff.plan.drawing_in.partitions import DrawnPartition, drawn_partitions, part_of
from takeoff.plan.drawing_in.posts import with_posts
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.drawing_in.sides import marks
from takeoff.plan.drawing_in.trace import told
from takeoff.plan.footprint import Footprint, Side
from takeoff.plan.tree import Keys

PARTITIONS = ("walls", "partitions")


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One building's part of a drawing, ready to be put into its block."""

    found: House
    walls: Footprint
    settings: DrawnOutline
    first: bool
    """What it shows goes before what the plan writes."""


def partitions_of(node: Keys, drawing: Drawing) -> tuple[tuple[DrawnPartition, ...], tuple[Finding, ...]]:
    """The partitions drawn."""
    shapes, layer = drawing.found.shapes, drawing.settings.partitions
    return drawn_partitions(shapes.on(layer), shapes.texts(layer), written_parts(node, PARTITIONS))


def with_partitions(
    node: Keys, drawing: Drawing, drawn: Sequence[DrawnPartition], openings: Sequence[tuple[Side, Keys]]
) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the partitions drawn, and the openings drawn in them."""
    parts = [part_of(each, [opening for side, opening in openings if side == each.side]) for each in drawn]
    names = tuple(word_at(block, "name") for block in written_parts(node, PARTITIONS))
    listed = Listed(what="the partition", path=PARTITIONS, names=names)
    return with_parts(node, listed, parts, drawing_first=drawing.first)


def with_floors(node: Keys, drawing: Drawing) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the main floor and the lofts drawn."""
    shapes, gap = drawing.found.shapes, drawing.settings.tolerance
    layer = drawing.settings.floor
    main, findings = drawn_main(shapes.on(layer), shapes.texts(layer), gap, drawing.walls)
    if main is not None:
        told_by = {path for path, _ in main.values}
        if node_at(node, *MAIN) is None and ("joists", "size") not in told_by:
            message = "found a main floor, expected floors: main in the plan with its joists, or a label: joists 2x10"
            findings += (told(main.trace, "not-used", Severity.WARNING, message),)
        else:
            for path, value in main.values:
                if drawing.first or node_at(node, *MAIN, *path) is None:
                    node = with_entry(node, (*MAIN, *path), main.trace, value)
    layer, written = drawing.settings.lofts, written_parts(node, LOFTS)
    lofts, doubts = drawn_lofts(shapes.on(layer), shapes.texts(layer), gap, drawing.walls, written)
    lofts, untold = untold_lofts(lofts, written)
    listed = Listed(what="the loft", path=LOFTS, names=tuple(loft_name(block) for block in written))
    node, more = with_parts(node, listed, lofts, drawing_first=drawing.first)
    return node, (*findings, *doubts, *untold, *more)


def with_girders(node: Keys, drawing: Drawing) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the girders and loft beams drawn, in floors and lofts that are in it by now."""
    shapes, settings, first = drawing.found.shapes, drawing.settings, drawing.first
    under, findings = drawn_girders(shapes.on(settings.girders), shapes.texts(settings.girders), "a girder")
    beams, doubts = drawn_girders(shapes.on(settings.beams), shapes.texts(settings.beams), "a beam")
    node, more = with_main_girders(node, under, drawing_first=first)
    node, others = with_loft_beams(node, beams, drawing.walls, drawing_first=first)
    return node, (*findings, *doubts, *more, *others)


def with_minors(node: Keys, drawing: Drawing) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the porches and dormers drawn; what they are made of stands in the plan."""
    findings: tuple[Finding, ...] = ()
    kinds: tuple[tuple[Kind, str, str, str], ...] = (
        ("porch", "porches", drawing.settings.porches, "with its pitch, beam and posts"),
        ("dormer", "dormers", drawing.settings.dormers, "with its shape and height"),
    )
    for kind, key, layer, asked in kinds:
        shapes, path = drawing.found.shapes, ("roof", key)
        parts = drawn_minors(marks(shapes.on(layer)), shapes.texts(layer), drawing.walls, kind)
        names = names_by_side(written_parts(node, path), kind)
        listed = Listed(what=f"the {kind}", path=path, names=names, alone=asked, named=False)
        node, more = with_parts(node, listed, parts, drawing_first=drawing.first)
        findings += more
    return node, findings


def with_drawn_posts(node: Keys, drawing: Drawing) -> tuple[Keys, tuple[Finding, ...]]:
    """The block with the posts drawn, under girders and porches that are in it by now."""
    posts = drawing.found.shapes.spots(drawing.settings.posts)
    return with_posts(node, marks(posts), drawing.walls, drawing_first=drawing.first)
