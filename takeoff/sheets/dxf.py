"""A drawing as DXF (R2010): full size in inches, named layers, real dimension entities.

Views to different scales stand where they stand on the paper, apart by the scale of the smallest-drawn one.
A piece's mark rides on its outline as extended data of the application ``TAKEOFF``.
"""

from __future__ import annotations

import io
from math import atan2, degrees
from typing import TYPE_CHECKING

from takeoff.sheets.dimension import dimension_parts
from takeoff.sheets.drawing import (
    DIMENSIONS,
    FIGURE_MM,
    LABEL_MM,
    LAYOUT,
    LETTERS,
    MM_PER_IN,
    PENS,
    Arc,
    Dimension,
    Drawing,
    Hatch,
    Item,
    Line,
    Pen,
    Point,
    Polyline,
    Text,
    View,
)
from takeoff.sheets.extent import extent

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.entities.dxfentity import DXFEntity

APPLICATION = "TAKEOFF"
STYLE = "TAKEOFF"
_FONT = "txt"  # a stroke font every CAD program has
_WEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100)  # hundredths of a mm that DXF knows
_ARCHITECTURAL, _INCHES = 4, 1


def dxf(drawing: Drawing) -> bytes:
    """The drawing as a DXF file; the same drawing gives the same bytes."""
    from ezdxf import options  # type: ignore[attr-defined]  # exported without being declared so
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no clock and no random ids in the file
    try:
        document = new("R2010", units=_INCHES)
        _set_up(document, drawing)
        base = max(view.one_to for view in drawing.views)
        for view in drawing.views:
            _Model(document, view, base).draw()
        for name in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(name)  # before the library does, in the order of a set
        text = io.StringIO(newline="\n")
        document.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return text.getvalue().encode(document.output_encoding)


def _set_up(document: Document, drawing: Drawing) -> None:
    used = {item.pen.layer for view in drawing.views for item in view.items if not isinstance(item, Text | Dimension)}
    used |= {DIMENSIONS.layer, LAYOUT.layer, LETTERS.layer}  # what dimensions and lettering are made of
    document.header["$LUNITS"] = _ARCHITECTURAL
    document.header.custom_vars.append("title", drawing.title)
    document.appids.add(APPLICATION)
    document.styles.add(STYLE, font=_FONT)
    for pen in PENS:
        if pen.layer not in used:
            continue
        layer = document.layers.add(pen.layer, lineweight=_weight(pen))
        if pen.dashes_mm:
            layer.dxf.linetype = _linetype(document, pen)


def _weight(pen: Pen) -> int:
    return min(_WEIGHTS, key=lambda known: abs(known - 100 * pen.weight_mm))


def _linetype(document: Document, pen: Pen) -> str:
    """Name of the layer's line type, made if it isn't there: dashes positive, gaps negative, in inches of paper."""
    lengths = [mm / MM_PER_IN * (1 if index % 2 == 0 else -1) for index, mm in enumerate(pen.dashes_mm)]
    document.linetypes.add(pen.layer, [sum(abs(length) for length in lengths), *lengths])
    return pen.layer


class _Model:
    """Writes the items of one view into model space."""

    def __init__(self, document: Document, view: View, base: float) -> None:
        self.document = document
        self.space = document.modelspace()
        self.view = view
        # What stands lower left in the view stands on its paper spot; the rest follows full size.
        corner = extent(view.items, view.one_to)[:2]
        spot = view.to_paper((corner[0], corner[1]))
        self.offset = (spot[0] / MM_PER_IN * base - corner[0], spot[1] / MM_PER_IN * base - corner[1])
        self.k = view.one_to / MM_PER_IN

    def draw(self) -> None:
        for item in self.view.items:
            self.add(item)

    def at(self, point: Point) -> Point:
        return (point[0] + self.offset[0], point[1] + self.offset[1])

    def attributes(self, pen: Pen) -> dict[str, object]:
        # Dashes are inches of paper; full size they grow with the scale.
        return {"layer": pen.layer, "ltscale": self.view.one_to} if pen.dashes_mm else {"layer": pen.layer}

    def add(self, item: Item) -> None:
        match item:
            case Line():
                self.space.add_line(self.at(item.a), self.at(item.b), dxfattribs=self.attributes(item.pen))
            case Polyline():
                self.polyline(item)
            case Arc():
                self.space.add_arc(
                    self.at(item.centre),
                    item.radius,
                    item.start_deg,
                    item.end_deg,
                    dxfattribs=self.attributes(item.pen),
                )
            case Text():
                self.text(item)
            case Hatch():
                self.hatch(item)
            case Dimension():
                self.dimension(item)

    def polyline(self, lines: Polyline) -> None:
        points = [self.at(point) for point in lines.points]
        entity = self.space.add_lwpolyline(points, close=lines.closed, dxfattribs=self.attributes(lines.pen))
        self.marked(entity, lines.mark)

    def marked(self, entity: DXFEntity, mark: str) -> None:
        if mark:
            entity.set_xdata(APPLICATION, [(1000, mark)])

    def text(self, text: Text) -> None:
        from ezdxf.enums import TextEntityAlignment

        across = {"start": "LEFT", "middle": "CENTER", "end": "RIGHT"}[text.anchor]
        up = {"base": "", "middle": "MIDDLE_", "top": "TOP_"}[text.level]
        entity = self.space.add_text(
            text.words,
            height=text.height_mm * self.k,
            rotation=text.turned_deg,
            dxfattribs={"layer": LETTERS.layer, "style": STYLE},
        )
        entity.set_placement(self.at(text.at), align=TextEntityAlignment[up + across])

    def hatch(self, hatch: Hatch) -> None:
        entity = self.space.add_hatch(dxfattribs={"layer": hatch.pen.layer})
        # The stock pattern has its lines 1/8 inch apart.
        entity.set_pattern_fill("ANSI31", scale=hatch.spacing_mm * self.k * 8)
        for ring in (hatch.points, *hatch.clear):
            entity.paths.add_polyline_path([self.at(point) for point in ring], is_closed=True)

    def dimension(self, dimension: Dimension) -> None:
        """A live dimension, drawn with our own figure in its block until a CAD program makes it anew."""
        parts = dimension_parts(dimension, self.view.one_to)
        style = self.dimension_style(dimension.denominator, dimension.enlarged)
        (x0, y0), (x1, y1) = dimension.a, dimension.b
        made = self.space.add_linear_dim(
            base=self.at(parts.foot),
            p1=self.at(dimension.a),
            p2=self.at(dimension.b),
            angle=degrees(atan2(y1 - y0, x1 - x0)),
            text=parts.figure.words,
            text_rotation=parts.figure.turned_deg,
            dimstyle=style,
            dxfattribs={"layer": DIMENSIONS.layer},
        )
        made.set_location(self.at(parts.figure_middle(self.view.one_to)), leader=False)
        made.render()
        made.dimension.dxf.text = "<>"
        if parts.label is not None:
            self.text(parts.label)

    def dimension_style(self, denominator: int, enlarged: float) -> str:
        """Name of the style for the size it has full size, made if it isn't there."""
        scale = self.view.one_to * enlarged
        name = f"TAKEOFF-{scale:g}-{denominator}"
        if name in self.document.dimstyles:
            return name
        style = self.document.dimstyles.new(name)
        sizes = {"dimtxt": FIGURE_MM, "dimasz": LABEL_MM, "dimexe": 1.2, "dimexo": 1.0, "dimgap": 0.8, "dimdle": 0.0}
        for key, mm in sizes.items():
            style.set_dxf_attrib(key, mm / MM_PER_IN)
        style.update_dxf_attribs(
            {
                "dimscale": scale,
                "dimlfac": 1.0,
                "dimtad": 1,
                "dimlunit": _ARCHITECTURAL,
                "dimfrac": 2,
                "dimrnd": 1 / denominator,
                "dimtxsty": STYLE,
                "dimtih": 0,
                "dimtoh": 0,
            }
        )
        style.set_arrows(blk="ARCHTICK", blk1="ARCHTICK", blk2="ARCHTICK")
        return name
