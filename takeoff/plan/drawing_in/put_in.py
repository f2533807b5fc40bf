"""Puts what drawings give into a plan's tree, before the plan is read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from takeoff.findings import Finding, PlanError, Severity
from takeoff.measure import MeasureError, parse_length
from takeoff.plan.drawing_in.document import open_drawing
from takeoff.plan.drawing_in.drawn import Drawn
from takeoff.plan.drawing_in.elevations import drawn_elevations
from takeoff.plan.drawing_in.expand import shapes
from takeoff.plan.drawing_in.house import House, house, lines, usual_or_drawn
from takeoff.plan.drawing_in.inside import (
    Drawing,
    partitions_of,
    with_drawn_posts,
    with_floors,
    with_girders,
    with_minors,
    with_partitions,
)
from takeoff.plan.drawing_in.nodes import listing, node_at, with_entry, word
from takeoff.plan.drawing_in.openings import drawn_openings
from takeoff.plan.drawing_in.overhangs import SAME_IN, drawn_overhangs
from takeoff.plan.drawing_in.roof_parts import RoofParts, roof_parts
from takeoff.plan.drawing_in.settings import DrawnOutline
from takeoff.plan.drawing_in.shapes import Shapes
from takeoff.plan.drawing_in.sides import marks
from takeoff.plan.drawing_in.skylights import drawn_skylights
from takeoff.plan.drawing_in.slopes import with_slopes
from takeoff.plan.drawing_in.trace import Trace, refused, told
from takeoff.plan.drawing_in.units import BY_CODE, INCHES
from takeoff.plan.flaws import path_text
from takeoff.plan.footprint import Footprint, Side, footprint_of
from takeoff.plan.tree import Entry, Keys, Listing, Loc, Node, Spot, plain


@dataclass(frozen=True, slots=True, kw_only=True)
class PutIn:
    """A plan's tree with the drawings' values in it.

    ``drawn``: of buildings that a drawing gives, by number, what comes beside the tree. ``undrawn``: buildings whose
    drawing couldn't be read; a square stands in for their outline.
    """

    root: Node
    findings: tuple[Finding, ...] = ()
    drawn: dict[int, Drawn] = field(default_factory=dict)
    undrawn: frozenset[int] = frozenset()


def put_in(root: Node, file: str, folder: Path, drawing: Path | None = None) -> PutIn:
    """Put what drawings give into a plan's tree.

    Args:
        root: of the plan, or of settings to a drawing.
        file: the plan's name.
        folder: where the plan lies, and the drawings that it names.
        drawing: a drawing that gives all outlines; what it has goes before what the plan writes.
    """
    listed = node_at(root, "buildings")
    if not isinstance(root, Keys) or not isinstance(listed, Listing):
        return PutIn(root=root)
    reader = _Reader(file, folder, drawing, alone=len(listed.items) == 1)
    buildings = tuple(reader.building(index, node) for index, node in enumerate(listed.items))
    entries = tuple(
        replace(entry, node=replace(listed, items=buildings)) if entry.node is listed else entry
        for entry in root.entries
    )
    return PutIn(
        root=replace(root, entries=entries),
        findings=tuple(reader.findings),
        drawn=reader.drawn,
        undrawn=frozenset(reader.undrawn),
    )


class _Reader:
    """Goes through the buildings of one plan."""

    def __init__(self, file: str, folder: Path, drawing: Path | None, *, alone: bool) -> None:
        self.file = file
        self.folder = folder
        self.drawing = drawing
        self.alone = alone
        self.findings: list[Finding] = []
        self.drawn: dict[int, Drawn] = {}
        self.undrawn: set[int] = set()
        self._opened: dict[tuple[Path, frozenset[str], str | None, float, str], Shapes] = {}

    def building(self, index: int, node: Node) -> Node:
        """A building with what its drawing gives."""
        if not isinstance(node, Keys):
            return node
        outline = node_at(node, "outline")
        if not isinstance(outline, Keys) and self.drawing is None:
            return node
        loc = ("buildings", index, "outline")
        settings = self._settings(outline, loc)
        if settings is not None:
            try:
                path = self._path(settings, outline, loc)
                read = self._shapes(path, settings)
                name = plain(node_at(node, "name") or Keys(node.spot, ()))
                found, doubts = house(read, settings, str(name), alone=self.alone)
                self.findings += [one for one in doubts if one not in self.findings]
                if found is not None:
                    return self._filled(index, node, found, settings, read)
            except PlanError as error:
                self.findings += error.findings
        self.undrawn.add(index)
        corners = [(0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)]
        trace = Trace(self.file)
        stand_in = listing(trace, (listing(trace, (word(trace, x), word(trace, y))) for x, y in corners))
        return with_entry(node, ("outline",), trace, stand_in)

    def _settings(self, outline: Node | None, loc: Loc) -> DrawnOutline | None:
        from takeoff.plan.mismatch import mismatches  # it reads the whole schema, which has a drawing in it

        if not isinstance(outline, Keys):
            return DrawnOutline()
        try:
            return DrawnOutline.model_validate(plain(outline))
        except ValidationError as error:
            under = Keys(outline.spot, (Entry(outline.spot, "outline", outline),))
            for flaw in mismatches(error, loc):
                spot = flaw.under(()).finding(self.file, _wrapped(under, loc))
                self.findings.append(spot)
            return None

    def _path(self, settings: DrawnOutline, outline: Node | None, loc: Loc) -> Path:
        if self.drawing is not None:
            return self.drawing
        path = self.folder / (settings.dxf or "")
        if settings.dxf is None:
            message = "expected dxf, the name of a drawing; or give the drawing to the command, and this as --settings"
        elif not path.resolve().is_relative_to(self.folder.resolve()) or not path.is_file():
            message = f"found no file {settings.dxf!r} in the plan's folder, expected a drawing (DXF)"
        else:
            return path
        spot = outline.spot if outline else Spot(0, 0)
        place = spot.place(self.file, path_text(loc))
        raise PlanError([Finding(rule="drawing.unreadable", severity=Severity.ERROR, message=message, place=place)])

    def _shapes(self, path: Path, settings: DrawnOutline) -> Shapes:
        key = (path, settings.layers, settings.units, settings.curve, settings.posts)
        if key not in self._opened:
            document = open_drawing(path, settings.layers)
            drawn_in = BY_CODE.get(document.units)
            stated = INCHES[settings.units] if settings.units else None
            where = Trace(path.name)
            if drawn_in is None and stated is None:
                message = (
                    "found no unit ($INSUNITS), expected one told in the plan as outline: {units: in}; or ft, mm, m"
                )
                raise refused(where, "units", message)
            if drawn_in and stated and abs(drawn_in / stated - 1) > 1e-5:
                message = f'found a drawing that says its unit is {drawn_in:g}"; {settings.units} is taken, as stated'
                self.findings.append(told(where, "units", Severity.WARNING, message))
            found = shapes(document, settings.layers, stated or drawn_in or 1.0, settings.curve, settings.posts)
            self._opened[key] = found if found.on(settings.layer) else replace(found, layers=document.layers())
            self.findings += self._opened[key].findings
        return self._opened[key]

    def _filled(self, index: int, node: Keys, found: House, settings: DrawnOutline, read: Shapes) -> Keys:
        """The building's block with corners, sides, openings, skylights and overhangs from the drawing."""
        ring, first = found.ring, found.ring.traces[0]
        corners = (
            listing(trace, (word(trace, x), word(trace, y)))
            for (x, y), trace in zip(ring.points, ring.traces, strict=True)
        )
        filled = with_entry(node, ("outline",), first, listing(first, corners))
        if found.names and node_at(node, "sides") is None:
            filled = with_entry(filled, ("sides",), first, listing(first, (word(first, name) for name in found.names)))
        walls = self._walls(filled, found)
        if walls is None:
            return filled
        parts = roof_parts(plain(node_at(node, "roof") or Keys(node.spot, ())), walls)
        filled = self._inside(
            filled, Drawing(found=found, walls=walls, settings=settings, first=self.drawing is not None)
        )
        if parts is not None:
            filled = self._skylights(filled, found, walls, settings, parts)
            filled, findings = with_slopes(filled, found, settings, first=self.drawing is not None)
            self.findings += findings
            if node_at(filled, "outlines", "slopes") is None:
                filled = self._overhangs(filled, found, walls, settings, parts)
        name, sides = str(plain(node_at(node, "name") or Keys(node.spot, ()))), [side.name for side in walls.sides]
        elevations, doubts = drawn_elevations(read, settings, name, sides, alone=self.alone)
        self.findings += doubts
        self.drawn[index] = Drawn(
            elevations=elevations,
            folds=tuple(
                line for kind, layer in settings.fold_layers.items() for line in lines(found.shapes.on(layer), kind)
            ),
        )
        return filled

    def _walls(self, node: Keys, found: House) -> Footprint | None:
        """The footprint, with its names as written or drawn; none where they don't fit, which the plan's rules tell."""
        written: Any = plain(node_at(node, "sides") or Keys(node.spot, ()))
        names = tuple(str(name) for name in written) if isinstance(written, list) else usual_or_drawn(found)
        return footprint_of(found.ring.points, names) if len(names) == len(found.ring.points) else None

    def _inside(self, node: Keys, drawing: Drawing) -> Keys:
        """Openings, partitions, floors, porches and dormers."""
        partitions, findings = partitions_of(node, drawing)
        self.findings += findings
        drawn = self._openings(drawing, [each.side for each in partitions])
        mine = [opening for side, opening in drawn if side in drawing.walls.sides]
        if mine:
            trace = marks(drawing.found.shapes.on(drawing.settings.openings))[0].trace
            node = self._entered(node, ("walls", "openings"), trace, listing(trace, mine))
        node, findings = with_partitions(node, drawing, partitions, drawn)
        self.findings += findings
        for put in (with_floors, with_girders, with_minors, with_drawn_posts):
            node, findings = put(node, drawing)
            self.findings += findings
        return node

    def _openings(self, drawing: Drawing, partitions: Sequence[Side]) -> tuple[tuple[Side, Keys], ...]:
        layer, shapes = drawing.settings.openings, drawing.found.shapes
        mine = marks(shapes.on(layer))
        if len(mine) > 500 or len(shapes.texts(layer)) > 2000:
            message = f"found {len(mine):,} openings and their labels, expected those of a house"
            raise refused(mine[0].trace, "too-large", message)
        if not mine:
            return ()
        drawn, findings = drawn_openings(mine, shapes.texts(layer), drawing.walls, partitions)
        self.findings += findings
        return drawn

    def _skylights(self, node: Keys, found: House, walls: Footprint, settings: DrawnOutline, parts: RoofParts) -> Keys:
        mine = marks(found.shapes.on(settings.skylights))
        if not mine:
            return node
        nodes, findings = drawn_skylights(mine, found.shapes.texts(settings.skylights), walls, parts)
        self.findings += findings
        return self._entered(node, ("roof", "skylights"), mine[0].trace, listing(mine[0].trace, nodes))

    def _overhangs(self, node: Keys, found: House, walls: Footprint, settings: DrawnOutline, parts: RoofParts) -> Keys:
        drawn = lines(found.shapes.on(settings.roof), "eave")
        if not drawn:
            return node
        agreed, findings = drawn_overhangs(drawn, walls, parts)
        self.findings += findings
        trace = drawn[0].trace
        for key, inches in agreed.items():
            written = _inches(node_at(node, "roof", "overhang", key))
            if written is None and key == "high":
                written = agreed.get("eave")  # left out, it is as the eave's
            if written is None or abs(written - inches) > SAME_IN:
                node = self._entered(node, ("roof", "overhang", key), trace, word(trace, inches))
        return node

    def _entered(self, node: Keys, path: tuple[str, ...], trace: Trace, value: Node) -> Keys:
        """The block with a drawn value; where the plan has one too, one of the two is taken, and told."""
        if node_at(node, *path) is None:
            return with_entry(node, path, trace, value)
        what = "overhang" if "overhang" in path else path[-1]
        goes_before = "the drawing's are" if self.drawing else "the plan's are"
        message = f"found {what} in the drawing and in {self.file}; {goes_before} taken"
        self.findings.append(told(trace, "not-used", Severity.NOTE, message))
        return with_entry(node, path, trace, value) if self.drawing else node


def _inches(node: Node | None) -> float | None:
    try:
        return parse_length(plain(node)) if node is not None else None
    except MeasureError:
        return None


def _wrapped(under: Keys, loc: Loc) -> Node:
    """A tree in which the outline stands at its path."""
    listed = Listing(under.spot, (under,) * (int(loc[1]) + 1))
    return Keys(under.spot, (Entry(under.spot, "buildings", listed),))
