"""What a plan says about the drawing that an outline comes from."""

from __future__ import annotations

from typing import Literal

from takeoff.plan.block import Block
from takeoff.plan.drawing_in.units import UnitName
from takeoff.plan.fields import DrawingFile, Gap, LayerName


class DrawnOutline(Block):
    """An outline that a drawing gives, with the openings, skylights and overhangs drawn there.

    Names of layers: capitals don't matter. A layer that the drawing doesn't have gives nothing.
    """

    dxf: DrawingFile | None = None
    """The drawing, a DXF file in the plan's folder. Left out: the one that `takeoff run` was given."""
    layer: LayerName = "WALLS"
    """Layer of the closed outline of the outside of the wall framing; labels on it name the building and its sides.
    Left out: WALLS."""
    openings: LayerName = "OPENINGS"
    """Layer of lines and rectangles in the walls, each with a label: 3068 door. Left out: OPENINGS."""
    partitions: LayerName = "PARTITIONS"
    """Layer of the centre lines of partitions, or of rectangles as thick as they are, each with a label such as bath
    studs 2x4, or spine studs 2x6 bearing. Left out: PARTITIONS."""
    skylights: LayerName = "SKYLIGHT"
    """Layer of rectangles: rough openings of skylights as seen from above; with the word chimney in them, chimneys by
    their own size. Left out: SKYLIGHT."""
    roof: LayerName = "ROOF"
    """Layer of the closed line of tail cuts and barges, which gives the overhangs; or of each slope's outline, so far
    out, with a label in it: front eave south pitch 8/12. Left out: ROOF."""
    ridges: LayerName = "RIDGE"
    """Layer of ridge lines, to be compared with the roof laid out. Left out: RIDGE."""
    hips: LayerName = "HIP"
    """Layer of hip lines, likewise. Left out: HIP."""
    valleys: LayerName = "VALLEY"
    """Layer of valley lines, likewise. Left out: VALLEY."""
    floor: LayerName = "FLOOR"
    """Layer of the main floor's closed outline, where it isn't the walls'; a label in it may say: joists 2x10. Left
    out: FLOOR."""
    lofts: LayerName = "LOFT"
    """Layer of the lofts' closed outlines, each with a label in it: sleeping loft height 7'-6" joists 2x8. Left out:
    LOFT."""
    girders: LayerName = "GIRDER"
    """Layer of the centre lines of girders under the main floor, or of rectangles as thick as they are, each with a
    label: 3-2x10, or 3-2x10 joists hang post 6x6; with a loft's name before it, in that loft. Left out: GIRDER."""
    beams: LayerName = "BEAM"
    """Layer of lines, likewise, of beams that carry lofts, each in the loft whose outline it lies in or along. Left
    out: BEAM."""
    porches: LayerName = "PORCH"
    """Layer of rectangles from the wall to the outside of a porch's front beam, each with its name: south porch. Left
    out: PORCH."""
    dormers: LayerName = "DORMER"
    """Layer of rectangles from a dormer's front wall inward, as wide as the dormer, with its name. Left out: DORMER."""
    posts: LayerName = "POST"
    """Layer of points, circles or rectangles: posts under girders of the main floor and under porches' fronts.
    Left out: POST."""
    gables: LayerName = "GABLE"
    """Layer of closed outlines of gables seen from outside, drawn anywhere, the side's name in each; compared with what
    is framed. Left out: GABLE."""
    faces: LayerName = "WALL FACE"
    """Layer of closed outlines of whole walls seen from outside, likewise. Left out: WALL FACE."""
    units: UnitName | None = None
    """Unit of the drawing, where it doesn't say: in, ft, yd, mm, cm, dm or m."""
    tolerance: Gap = 0.25
    """Ends and corners no further apart belong together. Left out: 1/4"."""
    curve: Gap = 0.5
    """How far straight pieces may stand off a curve that they are taken for. Left out: 1/2"."""

    @property
    def layers(self) -> frozenset[str]:
        """All layers that something is read from, in capitals."""
        named = (
            *(self.layer, self.openings, self.partitions, self.skylights, self.roof, self.floor, self.lofts),
            *(
                self.girders,
                self.beams,
                self.porches,
                self.dormers,
                self.posts,
                self.gables,
                self.faces,
                *self.fold_layers.values(),
            ),
        )
        return frozenset(name.upper() for name in named)

    @property
    def fold_layers(self) -> dict[Literal["ridge", "hip", "valley"], str]:
        """Layers of the lines in which slopes meet."""
        return {"ridge": self.ridges, "hip": self.hips, "valley": self.valleys}
