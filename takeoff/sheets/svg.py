"""A drawing as SVG: black on white, real text, one user unit a millimetre of paper."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin
from xml.sax.saxutils import escape, quoteattr

from takeoff.sheets.dimension import dimension_parts
from takeoff.sheets.drawing import Arc, Dimension, Drawing, Hatch, Item, Line, Pen, Point, Polyline, Text, View
from takeoff.sheets.hatching import hatch_lines
from takeoff.sheets.lettering import font_size_mm

FONT_FAMILY = "'IBM Plex Sans', sans-serif"
_LOWERED = {"base": 0.0, "middle": 0.5, "top": 1.0}


def svg(drawing: Drawing, *, margin_mm: float = 0.0) -> bytes:
    """The drawing as an SVG file (UTF-8), with white paper around it where it stands alone.

    Each view is a group with an id; the outline of a piece carries its mark as ``data-mark``.
    """
    return ("\n".join(_document(drawing, margin_mm)) + "\n").encode()


def _document(drawing: Drawing, margin_mm: float) -> Iterator[str]:
    wide, high = (_number(size + 2 * margin_mm) for size in (drawing.width_mm, drawing.height_mm))
    corner = _number(-margin_mm)
    name = drawing.name
    yield (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm"'
        f' viewBox="{corner} {corner} {wide} {high}"'
        f' role="img" aria-labelledby={quoteattr(f"{name}-title {name}-desc")} fill="none" stroke="none"'
        f' font-family="{FONT_FAMILY}">'
    )
    yield f"<title id={quoteattr(f'{name}-title')}>{escape(drawing.title)}</title>"
    yield f"<desc id={quoteattr(f'{name}-desc')}>{escape(drawing.description)}</desc>"
    yield f'<rect x="{corner}" y="{corner}" width="{wide}" height="{high}" fill="#fff"/>'
    for view in drawing.views:
        yield f'<g id={quoteattr(f"{name}-{view.name}")} stroke-linecap="round" stroke-linejoin="round">'
        sheet = _Sheet(drawing.height_mm, view)
        for item in view.items:
            yield from sheet.drawn(item)
        yield "</g>"
    yield "</svg>"


class _Sheet:
    """Writes the items of one view; the paper's y runs down."""

    def __init__(self, height_mm: float, view: View) -> None:
        self.height_mm = height_mm
        self.view = view

    def at(self, point: Point) -> tuple[str, str]:
        x, y = self.view.to_paper(point)
        return _number(x), _number(self.height_mm - y)

    def drawn(self, item: Item) -> Iterator[str]:
        match item:
            case Line():
                yield self.line(item)
            case Polyline():
                yield self.polyline(item)
            case Arc():
                yield self.arc(item)
            case Text():
                yield self.text(item)
            case Hatch():
                yield from (self.line(line) for line in hatch_lines(item, self.view.one_to))
            case Dimension():
                parts = dimension_parts(item, self.view.one_to)
                yield from (self.line(line) for line in parts.lines)
                yield from (self.text(text) for text in parts.texts)

    def line(self, line: Line) -> str:
        (x1, y1), (x2, y2) = self.at(line.a), self.at(line.b)
        return f'<path d="M{x1} {y1}L{x2} {y2}"{_stroke(line.pen)}/>'

    def polyline(self, lines: Polyline) -> str:
        way = "L".join(" ".join(self.at(point)) for point in lines.points)
        mark = f" data-mark={quoteattr(lines.mark)}" if lines.mark else ""
        filled = ' fill="#fff"' if lines.covers else ""
        return f'<path d="M{way}{"Z" if lines.closed else ""}"{mark}{filled}{_stroke(lines.pen)}/>'

    def arc(self, arc: Arc) -> str:
        (x1, y1), (x2, y2) = (self.at(_on_circle(arc, deg)) for deg in (arc.start_deg, arc.end_deg))
        r = _number(arc.radius * self.view.mm_per_in)
        large = int(arc.end_deg - arc.start_deg > 180)
        return f'<path d="M{x1} {y1}A{r} {r} 0 {large} 0 {x2} {y2}"{_stroke(arc.pen)}/>'

    def text(self, text: Text) -> str:
        px, py = self.view.to_paper(text.at)
        # Lowered along the lettering's own upright, so that a capital's base, middle or top stands on the point.
        low = _LOWERED[text.level] * text.height_mm
        turn = radians(text.turned_deg)
        x, y = _number(px + sin(turn) * low), _number(self.height_mm - (py - cos(turn) * low))
        turned = f' transform="rotate({_number(-text.turned_deg)} {x} {y})"' if text.turned_deg else ""
        weight = ' font-weight="700"' if text.bold else ""
        size = _number(font_size_mm(text.height_mm))
        return (
            f'<text x="{x}" y="{y}" font-size="{size}" text-anchor="{text.anchor}" fill="#000"{weight}{turned}>'
            f"{escape(text.words)}</text>"
        )


def _on_circle(arc: Arc, deg: float) -> Point:
    return (arc.centre[0] + arc.radius * cos(radians(deg)), arc.centre[1] + arc.radius * sin(radians(deg)))


def _stroke(pen: Pen) -> str:
    dashes = f' stroke-dasharray="{" ".join(_number(mm) for mm in pen.dashes_mm)}"' if pen.dashes_mm else ""
    return f' stroke="#000" stroke-width="{_number(pen.weight_mm)}"{dashes}'


def _number(value: float) -> str:
    """To a thousandth of a millimetre, without trailing zeros or a negative zero."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
