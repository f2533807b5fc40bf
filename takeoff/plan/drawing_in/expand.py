"""Puts blocks in place and takes what is drawn as straight pieces, in inches."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist, radians, tau

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.affine import MIRRORED, Affine, moved, scaled, turned
from takeoff.plan.drawing_in.curves import arc_points, bulged
from takeoff.plan.drawing_in.document import Block, Document
from takeoff.plan.drawing_in.shapes import Label, Path, Shapes
from takeoff.plan.drawing_in.splines import spline_points
from takeoff.plan.drawing_in.tags import Record, TagError, number
from takeoff.plan.drawing_in.trace import Point, Trace, refused, told

MAX_DEPTH = 12
"""Deepest nesting of blocks."""

MAX_SHAPES, MAX_INSERTS = 20_000, 10_000
"""Most shapes on wanted layers, and most inserts followed, once blocks are in place."""

_XREF = 4 | 8
_LEVEL = 1e-6
_FORMAT = re.compile(r"\\[A-Za-z*][^;\\{}]*;|[{}]")
_ESCAPED = re.compile(r"\\U\+([0-9A-Fa-f]{4})")
_SIGNS = re.compile(r"%%([dDpPcCuUoOkK%])")
_SIGN = {"d": "°", "p": "±", "c": "Ø", "%": "%"}
"""Signs that are written with two percent signs; those that only underline, overline or strike out are left out."""
_SILENT = frozenset({"ATTDEF", "SEQEND", "DIMENSION", "LEADER", "HATCH", "POINT", "VIEWPORT", "ENDBLK", "VERTEX"})
"""Kinds that mark up a drawing or belong to another entity; no outline is lost with them."""


@dataclass(frozen=True, slots=True)
class _Setting:
    """Where a block has been put: its map to inches, the layer that "0" stands for, the blocks around it, its group."""

    place: Affine
    layer: str
    around: tuple[str, ...] = ()
    group: int = 0


def shapes(document: Document, layers: frozenset[str], scale: float, arc_within: float, spots: str = "") -> Shapes:
    """All that lies on wanted layers.

    Args:
        document: the drawing.
        layers: names wanted, in capitals.
        scale: inches in a unit of the drawing.
        arc_within: how far straight pieces may stand off a curve [in].
        spots: layer whose points and circles only say where something is.

    Raises:
        PlanError: blocks without end, or numbers that can't be read.
    """
    expander = _Expander(document, layers, arc_within, spots.upper())
    expander.records(document.entities, _Setting(scaled(scale), "0"))
    return Shapes(
        file=document.file,
        paths=tuple(expander.paths),
        labels=tuple(expander.labels),
        findings=tuple(expander.findings),
    )


class _Expander:
    def __init__(self, document: Document, layers: frozenset[str], arc_within: float, spots: str) -> None:
        self.spots = spots
        self.document = document
        self.layers = layers
        self.arc_within = arc_within
        self.paths: list[Path] = []
        self.labels: list[Label] = []
        self.findings: list[Finding] = []
        self.inserts = 0
        self._read: dict[str, tuple[Record, tuple[Record, ...]]] = {}

    def records(self, records: Sequence[Record], setting: _Setting) -> None:
        """Take the entities of a block, or of the drawing itself."""
        waiting = iter(records)
        for record in waiting:
            layer = record.layer if record.layer != "0" else setting.layer
            trace = Trace(self.document.file, layer, record.handle)
            try:
                if record.whole(67):
                    continue  # on the paper, not in the building
                if record.kind == "INSERT":
                    self._insert(record, trace, setting)
                elif record.kind == "POLYLINE":
                    vertices = self._vertices(waiting)
                    if layer.upper() in self.layers:
                        self._polyline(record, vertices, trace, setting)
                elif layer.upper() in self.layers:
                    self._entity(record, trace, setting)
            except TagError as error:
                raise refused(trace, "syntax", str(error)) from error

    @staticmethod
    def _vertices(waiting: Iterator[Record]) -> list[Record]:
        vertices: list[Record] = []
        for record in waiting:
            if record.kind != "VERTEX":
                break
            vertices.append(record)
        return vertices

    def _entity(self, record: Record, trace: Trace, setting: _Setting) -> None:
        if record.kind in ("TEXT", "MTEXT", "ATTRIB"):
            self._text(record, trace, setting)
        elif record.kind == "LINE":
            ends = [(record.real(10), record.real(20)), (record.real(11), record.real(21))]
            self._level((record.real(30), record.real(31)), trace)
            self._add(ends, trace, setting, closed=False)
        elif record.kind == "LWPOLYLINE":
            points, bulges = _vertices_of(record)
            self._bent(points, bulges, record, trace, setting, closed=bool(record.whole(70) & 1))
        elif record.kind in ("ARC", "CIRCLE"):
            self._arc(record, trace, setting)
        elif record.kind == "ELLIPSE":
            self._ellipse(record, trace, setting)
        elif record.kind == "SPLINE":
            self._spline(record, trace, setting)
        elif record.kind == "POINT" and trace.layer.upper() == self.spots:
            self._count(trace)
            point = setting.place((record.real(10), record.real(20)))
            self.paths.append(Path(trace=trace, points=(point,), group=setting.group))
        elif record.kind not in _SILENT:
            self._leave(trace, f"found {_a(record.kind)}, which isn't read; draw it as a polyline or lines")

    def _arc(self, record: Record, trace: Trace, setting: _Setting) -> None:
        place = self._placed(record, trace, setting)
        radius = record.real(40)
        if place is None or radius <= 0:
            return
        whole = record.kind == "CIRCLE"
        start = radians(record.real(50))
        sweep = tau if whole else (radians(record.real(51)) - start) % tau or tau
        centre = (record.real(10), record.real(20))
        points = arc_points(centre, radius, start, sweep, self.arc_within / max(place.largest_scale, 1e-300))
        self._curve(trace, len(points) - 1)
        self._add(points[:-1] if whole else points, trace, setting, closed=whole, place=place)

    def _ellipse(self, record: Record, trace: Trace, setting: _Setting) -> None:
        """Half axes from its centre: the longer as drawn, the shorter by its share of that."""
        major, share = (record.real(11), record.real(21)), record.real(40, 1.0)
        flat = max(abs(record.real(210)), abs(record.real(220))) <= _LEVEL * abs(record.real(230, 1.0))
        if not flat or not any(major) or share <= 0:
            self._leave(trace, "found an ELLIPSE drawn in a tilted plane or without extent, expected it in plan")
            return
        up = share if record.real(230, 1.0) > 0 else -share
        round_to_it = Affine(major[0], major[1], -major[1] * up, major[0] * up, record.real(10), record.real(20))
        place = setting.place.after(round_to_it)
        start = record.real(41)
        sweep = (record.real(42, tau) - start) % tau or tau
        points = arc_points((0.0, 0.0), 1.0, start, sweep, self.arc_within / max(place.largest_scale, 1e-300))
        whole = sweep > tau - _LEVEL
        self._curve(trace, len(points) - 1)
        self._add(points[:-1] if whole else points, trace, setting, closed=whole, place=place)

    def _spline(self, record: Record, trace: Trace, setting: _Setting) -> None:
        """Its points are the drawing's own, whatever plane it says it lies in."""
        self._level([number(code, value) for code, value in record.tags if code in (30, 31)], trace)
        points = spline_points(record, self.arc_within / max(setting.place.largest_scale, 1e-300))
        whole = len(points) > 3 and dist(points[0], points[-1]) <= _LEVEL * max(1.0, *map(abs, points[0]))
        self._curve(trace, len(points) - 1)
        self._add(points[:-1] if whole else points, trace, setting, closed=whole)

    def _polyline(self, record: Record, vertices: list[Record], trace: Trace, setting: _Setting) -> None:
        flags = record.whole(70)
        if flags & (16 | 64):
            self._leave(trace, "found a mesh, which isn't read; draw its outline as a polyline")
            return
        real = [vertex for vertex in vertices if not vertex.whole(70) & 16]  # less the frame of a spline
        points = [(vertex.real(10), vertex.real(20)) for vertex in real]
        if flags & 8:
            self._level([vertex.real(30) for vertex in real], trace)
            self._add(points, trace, setting, closed=bool(flags & 1))
            return
        bulges = [vertex.real(42) for vertex in real]
        self._bent(points, bulges, record, trace, setting, closed=bool(flags & 1))

    def _bent(
        self,
        points: list[Point],
        bulges: list[float],
        record: Record,
        trace: Trace,
        setting: _Setting,
        *,
        closed: bool,
    ) -> None:
        place = self._placed(record, trace, setting)
        if place is None:
            return
        if any(bulges[: None if closed else -1]):
            straight = len(points)
            points = bulged(points, bulges, closed=closed, within=self.arc_within / max(place.largest_scale, 1e-300))
            self._curve(trace, len(points) - straight + sum(1 for bulge in bulges if bulge))
        self._add(points, trace, setting, closed=closed, place=place)

    def _text(self, record: Record, trace: Trace, setting: _Setting) -> None:
        place = self._placed(record, trace, setting)
        if place is None:
            return
        aligned = record.kind != "MTEXT" and (record.whole(72) or record.whole(73) or record.whole(74))
        point = (record.real(11), record.real(21)) if aligned else (record.real(10), record.real(20))
        words = "".join(str(value) for code, value in record.tags if code in (1, 3))
        if words.strip():
            self._count(trace)
            self.labels.append(Label(trace=trace, at=place(point), words=_plain(words)))

    def _insert(self, record: Record, trace: Trace, setting: _Setting) -> None:
        name = record.text(2).strip().upper()
        if name not in self.document.leading and trace.layer.upper() not in self.layers:
            return
        block = self.document.blocks.get(name)
        if block is None:
            self._leave(trace, f"found an insert of the block {record.text(2)!r}, which the drawing doesn't have")
            return
        if name in setting.around or len(setting.around) >= MAX_DEPTH:
            why = "in itself" if name in setting.around else f"over {MAX_DEPTH} deep in others"
            raise refused(trace, "block", f"found the block {record.text(2)!r} {why}, expected blocks with an end")
        head, inside = self._block(name, block)
        if head.whole(70) & _XREF:
            self._leave(trace, f"found {record.text(2)!r}, a drawing outside this file, which isn't followed; bind it")
            return
        place = self._placed(record, trace, setting)
        if place is None:
            return
        columns, rows = max(record.whole(70, 1), 1), max(record.whole(71, 1), 1)
        self._count_inserts(columns * rows, trace)
        stretch = scaled(record.real(41, 1.0), record.real(42, 1.0))
        base = moved(-head.real(10), -head.real(20))
        put = place.after(moved(record.real(10), record.real(20))).after(turned(record.real(50)))
        group = setting.group or self.inserts
        for row in range(rows):
            for column in range(columns):
                step = moved(column * record.real(44), row * record.real(45))  # along the turned axes, not scaled
                inner = put.after(step).after(stretch).after(base)
                self.records(inside, _Setting(inner, trace.layer, (*setting.around, name), group))

    def _block(self, name: str, block: Block) -> tuple[Record, tuple[Record, ...]]:
        if name not in self._read:
            self._read[name] = (self.document.head(block), self.document.inside(block))
        return self._read[name]

    def _placed(self, record: Record, trace: Trace, setting: _Setting) -> Affine | None:
        """The entity's map to inches; none, and a word about it, where it doesn't lie in plan."""
        x, y, z = record.real(210), record.real(220), record.real(230, 1.0)
        if max(abs(x), abs(y)) <= _LEVEL * abs(z):
            return setting.place if z > 0 else setting.place.after(MIRRORED)
        self._leave(trace, f"found a {record.kind} drawn in a tilted plane, expected it in plan")
        return None

    def _level(self, heights: Sequence[float], trace: Trace) -> None:
        if heights and max(heights) - min(heights) > _LEVEL * max(1.0, *(abs(z) for z in heights)):
            message = "found a line that isn't level, expected a plan; it is taken as seen from above"
            self.findings.append(told(trace, "left-out", Severity.WARNING, message))

    def _add(
        self, points: Sequence[Point], trace: Trace, setting: _Setting, *, closed: bool, place: Affine | None = None
    ) -> None:
        self._count(trace)
        if len(points) < 2:
            message = "found a polyline without corners, left out"
            self.findings.append(told(trace, "healed", Severity.NOTE, message))
            return
        to_inches = place or setting.place
        self.paths.append(
            Path(trace=trace, points=tuple(to_inches(point) for point in points), closed=closed, group=setting.group)
        )

    def _curve(self, trace: Trace, pieces: int) -> None:
        if trace.layer.upper() == self.spots:
            return
        message = f'found a curve, taken as {pieces} straight pieces within {self.arc_within:g}" of it'
        self.findings.append(told(trace, "flattened", Severity.WARNING, message))

    def _leave(self, trace: Trace, message: str) -> None:
        self._count(trace)
        self.findings.append(told(trace, "left-out", Severity.WARNING, message))

    def _count(self, trace: Trace) -> None:
        if len(self.paths) + len(self.labels) + len(self.findings) >= MAX_SHAPES:
            raise refused(trace, "too-large", f"found over {MAX_SHAPES:,} shapes on layers of the plan")

    def _count_inserts(self, more: int, trace: Trace) -> None:
        self.inserts += more
        if self.inserts > MAX_INSERTS:
            raise refused(trace, "too-large", f"found over {MAX_INSERTS:,} inserts of blocks, each in others")


def _vertices_of(record: Record) -> tuple[list[Point], list[float]]:
    """Vertices of a light polyline, and the bulge after each."""
    xs: list[float] = []
    ys: list[float] = []
    bulges: list[float] = []
    for code, value in record.tags:
        if code == 10:
            xs.append(number(code, value))
            bulges.append(0.0)
        elif code == 20:
            ys.append(number(code, value))
        elif code == 42 and bulges:
            bulges[-1] = number(code, value)
    if len(xs) != len(ys):
        raise TagError(f"found {len(xs)} x and {len(ys)} y of a polyline's corners, expected as many of both")
    return list(zip(xs, ys, strict=True)), bulges


def _a(kind: str) -> str:
    return f"{'an' if kind[:1] in 'AEIOU' else 'a'} {kind}"


def _plain(words: str) -> str:
    """A text without the marks of its lettering."""
    words = _ESCAPED.sub(lambda found: chr(int(found[1], 16)), words)
    words = words.replace("\\P", " ").replace("\\~", " ")
    words = _SIGNS.sub(lambda found: _SIGN.get(found[1].lower(), ""), words)
    return " ".join(_FORMAT.sub("", words).split())
