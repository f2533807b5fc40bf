r"""Where a dormer stands on its slope: levels and distances that its opening, its walls and its roof share.

::

                              ,-'  main slope: tops of the rafters
                          ,-',-'
        _______________,-',-'      upper header: where the plates' tops run into the slope
       |plates      ,-',-'
       |front    ,-',-'            cheeks stand on soles on the sheathing over the trimmers
       |_     ,-',-'
         `.,-',-'                  lower header, under the sole of the front wall
        ,-',-'
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import Profile, profile
from takeoff.catalog.sheets import sheet_product
from takeoff.framing.seat import decided_seat
from takeoff.framing.slope_openings import SlopeOpening
from takeoff.geometry.placement import Placement
from takeoff.measure import format_length
from takeoff.plan.dormers import Dormer, dormer_labels
from takeoff.plan.skylights import covering_size

if TYPE_CHECKING:
    from takeoff.findings import Place
    from takeoff.framing.slope import Slope
    from takeoff.plan.schema import Building

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A dormer on its slope. u along the main eave, h level in from the main wall, v up the main slope [in]."""

    dormer: Dormer
    label: str
    path: str
    """Where the plan has it, within its building."""
    slope: Slope
    """Of the main roof."""
    main_rafter: Profile
    studs: Profile
    sheathing: float
    """Thickness of the main roof's sheathing [in]."""
    valley: Profile
    """Of its valley plates."""

    @property
    def rise(self) -> float:
        """Of the main slope over its run."""
        return self.slope.common.slope

    @property
    def pitch(self) -> float:
        """Rise over run of its own roof."""
        return self.dormer.pitch.slope if self.dormer.pitch else self.rise

    @property
    def supporting(self) -> bool:
        """Whether valley rafters carry its roof."""
        return self.dormer.valleys.method == "supporting"

    @property
    def valley_rafter(self) -> str:
        """Size of its valley rafters."""
        return self.dormer.valleys.size or covering_size(self.main_rafter.name, self.rise)

    @property
    def stand(self) -> float:
        """Height of its rafters' tops over its plates, at the outside of its cheeks [in]."""
        size = self.dormer.rafters.size
        depth = profile(size).depth_in if size else self.main_rafter.depth_in
        seat = decided_seat(depth=depth, plate_width=self.studs.depth_in, slope=self.pitch, stated=None)
        return depth * hypot(1, self.pitch) - seat.length * self.pitch

    def meeting_h(self, inside: float) -> float:
        """Where its slope meets the tops of the main rafters, so far inside of a cheek's outside [in]."""
        return self.front + (self.dormer.height + self.stand + inside * self.pitch) / self.rise

    @property
    def shoulder_h(self) -> float:
        """Where its valleys pass the insides of the trimmers [in]."""
        return self.meeting_h(self.studs.depth_in)

    @property
    def ridge_h(self) -> float:
        """Where its ridge meets the main slope [in]."""
        return self.meeting_h(self.dormer.width / 2)

    @property
    def layer(self) -> float:
        """From the tops of the main rafters to the tops of soles and valley plates, square to the slope [in]."""
        return self.sheathing + self.valley.thickness_in

    @property
    def front(self) -> float:
        """Outside of its front wall [in], along h."""
        return self.dormer.front

    @property
    def foot(self) -> float:
        """Height of the main rafters' tops at the outside of its front wall, above the deck [in]."""
        return self.slope.bench.placement.origin[2] + self.front * self.rise

    @property
    def plate(self) -> float:
        """Height of its walls' plates above the deck [in]."""
        return self.foot + self.dormer.height

    def plane(self, above: float) -> Placement:
        """The main slope, so far above the tops of its rafters: u along the eave, v up, the third axis out."""
        face = self.slope.bench.placement
        return Placement(face.to_world((0.0, 0.0, above)), face.x, face.y)

    def v_of(self, h: float, above: float) -> float:
        """Where a place at a level distance lies on a plane so far above the tops of the rafters [in]."""
        return h / self.slope.level + above * self.rise

    @property
    def sole_v(self) -> Span:
        """Lower and upper edge of the sole of its front wall [in], its outer top edge flush with the studs."""
        low = self.v_of(self.front, self.layer)
        return low, low + self.studs.depth_in

    @property
    def reach(self) -> float:
        """How far in from its front its inside is open [in].

        To where its ceiling runs into the main slope: level with the plates of a gable dormer, and along the undersides
        of a shed dormer's rafters.
        """
        return (self.dormer.height - self.layer * hypot(1, self.rise)) / self.fall

    @property
    def fall(self) -> float:
        """How much the main slope gains on its ceiling for one inch level."""
        return self.rise - (0.0 if self.dormer.shape == "gable" else self.pitch)


def spots_on(slope: Slope, building: Building) -> tuple[Spot, ...]:
    """The dormers of a building that stand on one of its slopes."""
    labels = dormer_labels(building.roof.dormers)
    walls = profile(building.walls.for_side(slope.side).studs)
    return tuple(
        Spot(
            dormer=dormer,
            label=label,
            path=f"roof.dormers[{index}]",
            slope=slope,
            main_rafter=profile(building.roof.rafters.size),
            studs=walls,
            sheathing=sheet_product(building.roof.sheathing.field).thickness_in,
            valley=profile(dormer.valley),
        )
        for index, (dormer, label) in enumerate(zip(building.roof.dormers, labels, strict=True))
        if dormer.side == slope.side
    )


def dormer_openings(slope: Slope, building: Building, written: Callable[[str], Place]) -> tuple[SlopeOpening, ...]:
    """The openings that dormers need in a slope: doubled trimmers under their cheeks, a header below and above."""
    rafter = profile(building.roof.rafters.size)
    return tuple(
        SlopeOpening(
            what=f"{spot.dormer.shape} dormer {format_length(spot.dormer.width)}",
            u=(spot.dormer.across_in[0] + spot.studs.depth_in, spot.dormer.across_in[1] - spot.studs.depth_in),
            v=(spot.sole_v[1], spot.v_of(spot.ridge_h if spot.supporting else spot.front + spot.reach, 0.0)),
            plumb=spot.supporting,
            plies=2,
            # Jacks and valleys are cut plumb on it: it covers their cuts.
            header=profile(covering_size(rafter.name, spot.rise)) if spot.supporting else rafter,
            trimmer=rafter,
            level=slope.level,
            clearance=0.0,
            written=written(spot.path),
            dormer_fall=spot.fall,
            shoulder=spot.v_of(spot.shoulder_h, 0.0) if spot.supporting else None,
        )
        for spot in spots_on(slope, building)
    )
