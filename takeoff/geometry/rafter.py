"""One rafter in its own vertical plane: every length the carpenter asks for, and its outline with all cuts.

Level distances h run inward from the outside face of the wall framing, heights z from the top of the plate.

                                           ,-' |  ridge cut (plumb), ridge_half short of the centre line
                                       ,-'     |
              top edge             ,-'    ,-'''
                               ,-'    ,-'
      tail cut             ,-'    ,-'
      (plumb)  |`,     ,-'    ,-'
               |   ,-'  |__,-'      <- seat (level), at z = 0
               |,-' heel (plumb), at h = 0
       -overhang        0    seat                         run
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, cos, degrees, floor, sin
from typing import TYPE_CHECKING

from takeoff.geometry.polygon import cleaned
from takeoff.geometry.tolerance import TOLERANCE

if TYPE_CHECKING:
    from shapely import Polygon

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Pocket:
    """A square notch in the top edge: centre measured along the top edge from the tail cut, all [in]."""

    centre: float
    width: float
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamUnder:
    """A beam that a rafter runs over, its middle under the peak; all [in]."""

    half: float
    """Half its thickness, level."""
    top: float
    """Height of its top above the rafter's plate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterGeometry:
    """Cuts of a rafter of one slope. All lengths [in]; level unless the name says otherwise.

    A barge rafter is one with ``seat`` 0 and ``stand`` given: it has no bird's mouth, only a height.

    Source: plane geometry; the names are those of the trade (bird's mouth, seat, heel, height above plate).
    """

    slope: float
    """Rise over run."""
    depth: float
    """Square to the edges."""
    run: float
    """From the outside face of the wall framing to the centre line of the ridge."""
    overhang: float
    """From that face to the tail cut."""
    ridge_half: float = 0.0
    """What the ridge, hip or valley at the top takes off on the centre line: half its thickness along the run."""
    cheek: float = 0.0
    """How far a cheek cut at the top reaches past the centre line, level, on the stick's longer face."""
    foot: float | None = None
    """Where the rafter stands on a valley: level, from the outside face of the wall to its foot cut on the centre line.
    It has no tail and no seat then."""
    foot_cheek: float = 0.0
    """How far the foot's cheek cut reaches past the centre line."""
    square_head: bool = False
    """The upper end is cut square to the edges instead of plumb, through the top of the cut."""
    square_foot: bool = False
    """The foot cut is square to the edges instead of plumb, through the top of the cut."""
    seat: float = 0.0
    tail_depth: float | None = None
    """Square to the edges, of a tail ripped from the heel outward; None leaves the full depth."""
    tail_level_drop: float | None = None
    """Plumb distance from the top of the tail cut down to a level cut, if there is one."""
    tail_lean: float = 0.0
    """How far the tail cut runs back, level, for one inch down: 0 plumb; as much as ``slope``: square to the edges."""
    stand: float | None = None
    """Height above plate, if it is not to follow from the seat."""
    upper_heel: float | None = None
    """Level, from the outside face of the wall to the inside face of a higher wall that the rafter passes over.
    It has a second bird's mouth there, its seat as long as the first."""
    upper_seat: float | None = None
    """Level length of that seat on a rafter that does not stand on the first wall."""
    beam: BeamUnder | None = None
    """Ridge beam that the rafter runs over: it has a second bird's mouth there."""
    pockets: tuple[Pocket, ...] = ()
    surface: tuple[float, float] | None = None
    """Of a rafter laid on another roof: height of what it lies on above its plate, at the outside face of its wall and
    on the face of the stick where that is lower; and its rise over run in the rafter's plumb plane."""

    def __post_init__(self) -> None:
        """Refuse what no saw can make."""
        if self.slope <= 0 or self.depth <= 0:
            raise ValueError(f"a rafter needs a slope and a depth over 0, not {self.slope} and {self.depth}")
        if self.foot is not None and self.seat and self.start >= self.seat:
            raise ValueError("a rafter that stands on a valley inside the wall has no seat")
        if self.run - self.ridge_half <= max(self.seat, self.start):
            raise ValueError("the run is too short: the seat reaches the ridge cut")
        if self.heel_square >= self.depth:
            raise ValueError("the seat cuts through the top edge")
        if self.beam and self.beam_seat <= 0:
            raise ValueError("the rafter runs clear over the ridge beam")
        if self.beam and self.beam_heel_square >= self.depth:
            raise ValueError("the seat on the ridge beam cuts through the top edge")

    @property
    def angle(self) -> float:
        """Slope above level [rad]."""
        return atan(self.slope)

    @property
    def stands_on_plate(self) -> bool:
        """Whether its seat starts at the heel; a foot on a valley may leave only a notch over the plate, or none."""
        return self.seat > 0 and (self.foot is None or self.foot < 0)

    @property
    def plumb_deg(self) -> float:
        """Plumb cut, turned off a square cut [deg]."""
        return degrees(self.angle)

    @property
    def seat_deg(self) -> float:
        """Seat cut, turned off a square cut [deg]: the complement of the plumb cut."""
        return 90 - self.plumb_deg

    @property
    def plumb_depth(self) -> float:
        """Depth measured plumb: d / cos t."""
        return self.depth / cos(self.angle)

    @property
    def heel(self) -> float:
        """Plumb height of the full bird's mouth: s * tan t."""
        return self.seat * self.slope

    @property
    def heel_square(self) -> float:
        """Depth of the bird's mouth, square to the edge: s * sin t."""
        return self.seat * sin(self.angle)

    @property
    def height_above_plate(self) -> float:
        """Plumb, from the plate to the top edge, at the outside face of the wall: d / cos t - s * tan t."""
        return self.plumb_depth - self.heel if self.stand is None else self.stand

    @property
    def rise(self) -> float:
        """Of the top edge, from the outside face of the wall to the centre line of the ridge."""
        return self.run * self.slope

    @property
    def start(self) -> float:
        """Level distance of the lower end, at its long point."""
        return -self.overhang if self.foot is None else self.foot - self.foot_cheek

    @property
    def end(self) -> float:
        """Level distance of the upper end, at its long point."""
        return self.run - self.ridge_half + self.cheek

    @property
    def line_length(self) -> float:
        """Along the slope on the centre line, heel plumb line (or foot cut) to ridge cut: (R - t/2) / cos t."""
        return (self.run - self.ridge_half - (self.foot or 0.0)) / cos(self.angle)

    @property
    def ridge_shortening(self) -> float:
        """Along the slope: (t/2) / cos t."""
        return self.ridge_half / cos(self.angle)

    @property
    def tail(self) -> float:
        """Along the slope, heel plumb line to tail cut: o / cos t."""
        return self.overhang / cos(self.angle) if self.foot is None else 0.0

    @property
    def top_edge(self) -> float:
        """Length of the top edge between its long points."""
        return (self.end - self.start) / cos(self.angle)

    @property
    def tail_depth_cut(self) -> float:
        """Depth of the tail, square to the edges."""
        return self.depth if self.tail_depth is None else self.tail_depth

    @property
    def tail_underside_at_heel(self) -> float:
        """Height above the seat at which the tail's underside meets the heel line; below 0 for a full tail."""
        return self.height_above_plate - self.tail_depth_cut / cos(self.angle)

    @property
    def upper_plate(self) -> float:
        """Height of the higher wall's plate above the first; 0 without one."""
        return 0.0 if self.upper_heel is None else self.underside_at(self.upper_heel + self.upper_seat_cut)

    @property
    def upper_seat_cut(self) -> float:
        """Level length of the seat on a higher wall; as long as the first, unless it is given."""
        return self.seat if self.upper_seat is None else self.upper_seat

    @property
    def beam_face(self) -> float:
        """Level distance to the face of the beam it runs over: the heel of its second bird's mouth."""
        return self.run - (self.beam.half if self.beam else 0.0)

    @property
    def beam_heel(self) -> float:
        """Plumb height of the bird's mouth at the beam's face; 0 without a beam under it."""
        return self.beam.top - self.underside_at(self.beam_face) if self.beam else 0.0

    @property
    def beam_heel_square(self) -> float:
        """Depth of the bird's mouth at the beam, square to the edge."""
        return self.beam_heel * cos(self.angle)

    @property
    def beam_seat(self) -> float:
        """Level length of the seat on the beam, from its face to the middle at most."""
        return min(self.beam_heel / self.slope, self.beam.half) if self.beam else 0.0

    @property
    def peak_cut(self) -> float:
        """Plumb height of the upper cut, on the centre line: less than the plumb depth where the seat reaches it."""
        low = self.underside_at(self.end)
        return self.top_at(self.end) - (max(low, self.beam.top) if self.beam else low)

    @property
    def overall(self) -> float:
        """Tip to tip along the stick, where the tape is hooked [in]; read off the outline."""
        x0, _, x1, _ = self.side().bounds
        return float(x1 - x0)

    def top_at(self, h: float) -> float:
        """Height of the top edge above the plate, at level distance ``h`` from the outside face."""
        return self.height_above_plate + h * self.slope

    def underside_at(self, h: float) -> float:
        """Height of the full depth's underside above the plate, at ``h``."""
        return self.top_at(h) - self.plumb_depth

    def to_stick(self, h: float, z: float) -> Point:
        """From the vertical plane to the stick: x along the top edge from the lower end, y up from the bottom edge."""
        c, s = cos(self.angle), sin(self.angle)
        from_tail = h - self.start
        below_top = self.top_at(h) - z
        return (from_tail / c - below_top * s, self.depth - below_top * c)

    def side(self) -> Polygon:
        """Outline seen from the side, in the stick's axes: x along, 0 at the top of the lower end; y up the depth.

        Made by taking away, from the full stick between its plumb cuts, what stands in its way: the wall under
        the plate line, the part ripped off the tail, what hangs below a level cut, the pockets.
        """
        from shapely import union_all

        mouths = (*self._bird_s_mouth(), *self._upper_mouth(), *self._beam_mouth())
        away = union_all([*mouths, *self._tail_cuts(), *self._pockets(), *self._under_surface()])
        parts = cleaned(self._between_plumb_cuts().difference(away))
        if len(parts) != 1:
            raise ValueError("the cuts leave no stick in one piece")
        return parts[0]

    def _between_plumb_cuts(self) -> Polygon:
        from shapely import Polygon

        h0, h1 = self.start, self.end
        low, high = self.underside_at, self.top_at
        foot, head = self.to_stick(h0, high(h0)), self.to_stick(h1, high(h1))
        under_foot = (foot[0], 0.0) if self.square_foot else self.to_stick(h0, low(h0))
        under_head = (head[0], 0.0) if self.square_head else self.to_stick(h1, low(h1))
        return Polygon([under_foot, under_head, head, foot])

    def _bird_s_mouth(self) -> tuple[Polygon, ...]:
        """The wall: everything below the plate, inward of its outside face."""
        from shapely import Polygon

        if not self.seat:
            return ()
        low, far = -2 * self.plumb_depth, self.seat + self.plumb_depth
        return (Polygon([self.to_stick(h, z) for h, z in [(0, low), (far, low), (far, 0), (0, 0)]]),)

    def _upper_mouth(self) -> tuple[Polygon, ...]:
        """The higher wall: everything below its plate, outward of its inside face."""
        from shapely import Polygon

        if self.upper_heel is None or not self.upper_seat_cut:
            return ()
        z, far = self.upper_plate, self.upper_heel + self.upper_seat_cut + self.plumb_depth
        low = self.underside_at(self.upper_heel) - self.plumb_depth
        corners = [(self.upper_heel, low), (far, low), (far, z), (self.upper_heel, z)]
        return (Polygon([self.to_stick(h, zz) for h, zz in corners]),)

    def _beam_mouth(self) -> tuple[Polygon, ...]:
        """The ridge beam: everything below its top, inward of its face."""
        from shapely import Polygon

        if self.beam is None:
            return ()
        face, far, low = self.beam_face, self.run + self.plumb_depth, self.underside_at(0.0) - self.plumb_depth
        corners = [(face, low), (far, low), (far, self.beam.top), (face, self.beam.top)]
        return (Polygon([self.to_stick(h, z) for h, z in corners]),)

    def surface_at(self, h: float) -> float:
        """Height above its plate of the roof that it is laid on, at ``h``; without one, far below it."""
        return self.surface[0] + h * self.surface[1] if self.surface else float("-inf")

    @property
    def laid_foot(self) -> bool:
        """Whether its lower end lies on another roof from the top edge down."""
        return self._on_surface(self.start)

    @property
    def laid_head(self) -> bool:
        """Whether its upper end lies on another roof from the top edge down."""
        return self._on_surface(self.end)

    def _on_surface(self, h: float) -> bool:
        return self.surface is not None and abs(self.top_at(h) - self.surface_at(h)) < TOLERANCE.mark

    @property
    def surface_deg(self) -> float:
        """The cut along the surface it is laid on, off square [deg]."""
        return 90 - abs(self.plumb_deg - degrees(atan(self.surface[1]))) if self.surface else 0.0

    @property
    def surface_under(self) -> float:
        """Level distance at which the surface that it is laid on meets its underside."""
        return (self.surface_at(0.0) - self.underside_at(0.0)) / (self.slope - self.surface[1]) if self.surface else 0.0

    def _under_surface(self) -> tuple[Polygon, ...]:
        """The other roof: everything below the surface that the rafter is laid on."""
        from shapely import Polygon

        if self.surface is None:
            return ()
        far = 2 * self.plumb_depth * (1 + self.slope + abs(self.surface[1]))
        h0, h1 = self.start - far, self.end + far
        low = min(self.underside_at(h0), self.surface_at(h0), self.surface_at(h1)) - far
        corners = [(h0, low), (h1, low), (h1, self.surface_at(h1)), (h0, self.surface_at(h0))]
        return (Polygon([self.to_stick(h, z) for h, z in corners]),)

    def _tail_cuts(self) -> tuple[Polygon, ...]:
        return (*self._ripped_tail(), *self._leaning_cut(), *self._level_cut())

    def _leaning_cut(self) -> tuple[Polygon, ...]:
        """What is outside a tail cut that runs back from the top corner."""
        from shapely import Polygon

        if not self.tail_lean:
            return ()
        h, z, down = self.start, self.top_at(self.start), 2 * self.plumb_depth
        corners = [(h, z), (h - down, z), (h - down, z - down), (h + self.tail_lean * down, z - down)]
        return (Polygon([self.to_stick(hh, zz) for hh, zz in corners]),)

    def _ripped_tail(self) -> tuple[Polygon, ...]:
        """What is ripped off the underside outward of the heel line."""
        from shapely import Polygon

        if self.tail_depth is None or self.tail_depth >= self.depth or self.start >= 0:
            return ()
        out = self.start - self.plumb_depth
        keep = self.tail_depth / cos(self.angle)
        low = 2 * self.plumb_depth
        corners = [(h, self.top_at(h) - below) for h, below in [(out, low), (0, low), (0, keep), (out, keep)]]
        return (Polygon([self.to_stick(h, z) for h, z in corners]),)

    def _level_cut(self) -> tuple[Polygon, ...]:
        from shapely import Polygon

        if self.tail_level_drop is None:
            return ()
        z = self.top_at(self.start) - self.tail_level_drop
        # On a rafter it ends at the wall: inside the heel line the seat is the lower cut.
        out, far = self.start - self.plumb_depth, 0.0 if self.seat or self.foot is not None else self.run
        low = z - 2 * self.plumb_depth
        return (Polygon([self.to_stick(h, zz) for h, zz in [(out, low), (far, low), (far, z), (out, z)]]),)

    def _pockets(self) -> tuple[Polygon, ...]:
        from shapely import box

        over = self.depth + 1
        return tuple(
            box(p.centre - p.width / 2, self.depth - p.depth, p.centre + p.width / 2, over) for p in self.pockets
        )


def automatic_seat(
    *, depth: float, plate_width: float, slope: float, notch_share: float, least: float, step: float = 1 / 8
) -> float:
    """Level seat of the bird's mouth [in]: the plate's full width, unless that notches too deep.

    Args:
        depth: of the rafter, square to its edge [in].
        plate_width: [in].
        slope: rise over run.
        notch_share: greatest depth of the notch square to the edge, as a share of ``depth``.
        least: bearing that is never gone under [in].
        step: a reduced seat is a whole multiple of this [in], rounded down.

    Returns:
        Seat [in]; at least ``least``, even where that notches deeper than the share allows.
    """
    deepest = depth * notch_share / sin(atan(slope))
    if deepest >= plate_width - TOLERANCE.length:
        return plate_width
    return max(least, floor(deepest / step + TOLERANCE.length) * step)
