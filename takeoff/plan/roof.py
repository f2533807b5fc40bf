"""The roof, as the plan writes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from takeoff.catalog.profiles import Kind, profile
from takeoff.measure import Pitch
from takeoff.plan.block import Block
from takeoff.plan.clips import Clip
from takeoff.plan.dormers import Dormer
from takeoff.plan.fields import (
    Distance,
    Dormers,
    FrozenMapping,
    Gables,
    Gap,
    Grade,
    LumberSize,
    Openings,
    Overhang,
    PitchField,
    Porches,
    Posts,
    Seat,
    SheetName,
    SideName,
    SoffitDrop,
    Spacing,
    missing,
    refusal,
)
from takeoff.plan.gablets import Gablet
from takeoff.plan.gambrel import Upper
from takeoff.plan.porches import Porch
from takeoff.plan.purlins import Purlins
from takeoff.plan.skylights import Skylight
from takeoff.plan.soffit import Soffit
from takeoff.plan.ties import CeilingJoists, CollarTies, RafterTies
from takeoff.plan.valleys import Valleys

SideRole = Literal["eave", "gable", "abutment"]

GABLED = ("gable", "gambrel")
"""Shapes whose two gables are told under `gables`."""


class Rafters(Block):
    """Common rafters."""

    size: LumberSize
    """Size, such as 2x10."""
    spacing: Spacing = 16.0
    """Spacing, on centre. Left out: 16"."""
    grade: Grade = "no2"
    """Grade. Left out: no2."""
    seat: Seat | None = None
    """Level length of the seat cut. Left out: the plate's width, but no notch deeper than a quarter of the rafter."""


class Overhangs(Block):
    """How far the roof stands out, level."""

    eave: Overhang = 0.0
    """Outside of wall framing to the tail's plumb cut. Left out: none."""
    rake: Overhang = 0.0
    """Outside of wall framing to the outside of the barge. Left out: none."""
    high: Overhang | None = None
    """For a shed roof: outside of the high wall's framing to the rafters' upper plumb cut. Left out: as at the eave."""


class Tail(Block):
    """Tails of the rafters, outside the wall."""

    size: LumberSize | None = None
    """Size the tail is ripped to, such as 2x6 on a 2x10 rafter. Left out: the rafter's own."""
    cut: Literal["plumb", "square", "level"] = "plumb"
    """Cut at the end of the tail: plumb, square to the rafter's edges, or level (plumb, and level below for a soffit).
    Left out: plumb."""
    soffit_drop: SoffitDrop | None = None
    """For a level cut: plumb distance from the top of the tail down to it. Left out: to the fascia's lower edge."""

    @model_validator(mode="after")
    def _drop_of_a_level_cut(self) -> Self:
        if self.soffit_drop is not None and self.cut != "level":
            raise refusal("soffit_drop for `cut: level` only")
        return self


class Ridge(Block):
    """The ridge."""

    kind: Literal["beam", "board"]
    """A beam carries the rafters; a board only lies between them, and they need ties."""
    size: LumberSize
    """Size, such as 5-1/2x14 or 2x12."""
    material: Grade | None = None
    """Grade of sawn lumber (left out: no2), or glulam, lvl, psl, lsl: engineered wood has to say which."""
    support: Literal["face", "over"] = "face"
    """Where the rafters meet it: on its face, or over it, where they have a second bird's mouth on the beam's top and
    meet each other over its middle. Left out: face."""
    seat: Seat | None = None
    """For support over: level length of the seat on the beam, from its face inward. Left out: half the beam's
    thickness, but no notch deeper than a quarter of the rafter."""
    vent: Gap = 0.0
    """How far the rafters stand proud of its top, for air; for support over, how far the sheathing stops short of the
    peak on each side. Left out: flush, and no slot."""
    posts: Annotated[tuple[Distance, ...], Posts] = ()
    """For a gable roof on a beam: where posts stand under it between its ends, from the outside of the end wall that
    the layout along the ridge starts at. Left out: none."""
    post: LumberSize | None = None
    """Size of the posts inside, such as 6x6. Left out: built up of the walls' studs."""

    @model_validator(mode="after")
    def _material_told(self) -> Self:
        if self.material is None and profile(self.size).kind is Kind.ENGINEERED:
            raise missing("material", f"the material of {self.size}: glulam, lvl, psl or lsl")
        return self

    @model_validator(mode="after")
    def _over_a_beam(self) -> Self:
        if self.kind == "board" and self.support == "over":
            raise refusal("support: face on a board; rafters run over a beam only", found="support: over")
        if self.support == "face" and self.seat is not None:
            raise refusal("none where rafters meet the ridge's face; for a seat write support: over", found="a seat")
        if self.kind == "board" and (self.posts or self.post):
            raise refusal("none under a ridge board: it carries nothing", found="posts")
        if self.post and profile(self.post).kind is Kind.ENGINEERED:
            raise refusal("posts of sawn lumber, such as 6x6", found=self.post)
        return self

    @property
    def grade(self) -> str:
        """Grade or material."""
        return self.material or "no2"


class Sloped(Block):
    """A ledger or hip rafters."""

    size: LumberSize
    """Size, such as 2x12."""


class Outlookers(Block):
    """Outlookers, which carry the barge rafters."""

    size: LumberSize = "2x4"
    """Size; flat in pockets, else on edge. Left out: 2x4."""
    spacing: Spacing | None = None
    """Spacing along the rake between the ones at eave and ridge. Left out: one under each level edge of the sheets."""
    method: Literal["pocket", "dropped", "ladder"] = "pocket"
    """pocket: let flat into pockets of the end rafter. dropped: on edge over an end rafter that is that much lower.
    ladder: short blocks between the end rafter and the barge, for small rakes. Left out: pocket."""


class Trim(Block):
    """Boards that show: barge rafters, fascia."""

    size: LumberSize
    """Size, such as 2x10."""
    grade: Grade = "trim"
    """Grade. Left out: trim (finish grade)."""


class Blocking(Block):
    """Blocks between the rafters."""

    eave: Literal["vented", "solid", "none"] = "vented"
    """Over the plate, a block in each bay. Left out: vented."""
    size: LumberSize | None = None
    """Size. Left out: vented, the deepest that leaves an inch of air over it; solid, the next deeper one, ripped."""


class RoofSheathing(Block):
    """Sheathing of the roof."""

    field: SheetName
    """Sheet, such as cdx-5/8."""
    exposed: SheetName | None = None
    """Sheet wherever the underside shows (eaves and rakes), such as sanded-5/8. Left out: the same."""

    @property
    def exposed_product(self) -> str:
        """Sheet wherever the underside shows."""
        return self.exposed or self.field


class Roof(Block):
    """The roof of a building."""

    shape: Literal["gable", "shed", "hip", "gambrel", "edges"]
    """Shape of the roof: gable, shed, hip (a slope on every side), gambrel (two slopes a side), or edges (each side's
    part told under `edges`)."""
    gables: Annotated[tuple[SideName, SideName] | None, Gables] = None
    """For a gable or gambrel roof: the two sides that have gables, opposite each other; the ridge runs between them."""
    low: SideName | None = None
    """For a shed roof: the side that the slope starts on; the wall opposite is built up to meet it."""
    edges: Annotated[Mapping[SideName, SideRole], *FrozenMapping] = Field(default={}, validate_default=True)
    """For shape edges: what each side does: eave (a slope starts on it), gable, or abutment (a standing wall that the
    roof runs up to, with a ledger; no wall is framed there). Sides left out are eaves."""
    clips: Annotated[Mapping[SideName, Clip], *FrozenMapping] = Field(default={}, validate_default=True)
    """Gables whose peak is clipped by a short hip slope, for shape gable or edges. Left out: none."""
    gablets: Annotated[Mapping[SideName, Gablet], *FrozenMapping] = Field(default={}, validate_default=True)
    """Ends over whose hip slope a small gable stands (a gable on a hip), for shape hip or edges. Left out: none."""
    pitch: PitchField
    """Rise in 12 of run, such as 8/12; of a gambrel roof, that of the lower slopes."""
    upper: Upper | None = None
    """For a gambrel roof: its upper slopes."""
    pitches: Annotated[Mapping[SideName, PitchField], *FrozenMapping] = Field(default={}, validate_default=True)
    """Pitch of single sides, where it is another than the roof's."""
    keep: Literal["plate_line", "eave_line"] = "plate_line"
    """Where pitches differ: plate_line keeps the walls' heights and shortens the overhang of steeper slopes; eave_line
    keeps the overhang and builds their walls higher. Left out: plate_line."""
    rafters: Rafters
    """Common rafters."""
    overhang: Overhangs = Overhangs()
    """How far the roof stands out. Left out: nowhere."""
    tail: Tail = Tail()
    """Tails of the rafters. Left out: the rafter's full depth, cut plumb."""
    ridge: Ridge | None = None
    """The ridge. A shed roof has none."""
    ledger: Sloped | None = None
    """Ledger on an abutment. Left out: of the rafters' size."""
    hips: Sloped | None = None
    """Hip rafters. Left out: of the rafters' size."""
    valleys: Valleys | None = None
    """Valleys between wings. Left out: valley rafters of the rafters' size."""
    outlookers: Outlookers | None = None
    """Outlookers. Left out: none."""
    barge: Trim | None = None
    """Barge rafters. Left out: none."""
    ties: RafterTies | None = None
    """Rafter ties of a gable roof. Left out: none."""
    collar: CollarTies | None = None
    """Collar ties of a gable roof. Left out: none."""
    ceiling: CeilingJoists | None = None
    """Ceiling joists of a gable roof. Left out: none."""
    purlins: Purlins | None = None
    """Purlins with struts under the rafters of a gable roof. Left out: none."""
    blocking: Blocking = Blocking()
    """Blocks between the rafters. Left out: vented blocks over the plate."""
    fascia: Trim | None = None
    """Fascia along the eaves. Left out: none."""
    soffit: Soffit = Soffit()
    """Underside of the eaves. Left out: open."""
    sheathing: RoofSheathing
    """Sheathing."""
    skylights: Annotated[tuple[Skylight, ...], Openings] = ()
    """Openings in the slopes: skylights and chimneys. Left out: none."""
    dormers: Annotated[tuple[Dormer, ...], Dormers] = ()
    """Dormers on the slopes, laid over them. Left out: none."""
    porches: Annotated[tuple[Porch, ...], Porches] = ()
    """Porch roofs at the walls, on beams and posts. Left out: none."""

    @model_validator(mode="after")
    def _shape_told(self) -> Self:
        if self.shape in GABLED and self.gables is None:
            raise missing("gables", "gables, the two sides that have one")
        if self.shape == "gambrel" and self.upper is None:
            raise missing("upper", "upper, the slopes above the break")
        if self.shape != "gambrel" and self.upper is not None:
            raise refusal("upper for a gambrel roof only")
        if self.shape not in GABLED and self.gables is not None:
            raise refusal(
                "gables for a gable or gambrel roof only; for other shapes say `shape: edges` and a role for each side"
            )
        if self.shape not in ("hip", "edges") and self.gablets:
            raise refusal("gablets for a roof with hips only: shape hip or edges")
        if self.shape not in ("gable", "edges") and self.clips:
            raise refusal("clips for a roof with gables only: shape gable or edges")
        if self.shape != "edges" and self.edges:
            raise refusal("edges for `shape: edges` only")
        if self.shape == "shed" and self.low is None:
            raise missing("low", "low, the side that the slope starts on")
        if self.shape != "shed" and self.low is not None:
            raise refusal("low for a shed roof only")
        if self.shape in (*GABLED, "hip") and self.ridge is None:
            raise missing("ridge", "ridge, its kind and size")
        if self.shape == "shed" and self.ridge is not None:
            raise refusal("no ridge: a shed roof has none")
        return self

    def is_gable(self, side: str) -> bool:
        """Whether no slope starts on a side: a gable, or any but the low side of a shed roof."""
        if self.shape == "shed":
            return side != self.low
        return side in (self.gables or ()) or self.edges.get(side) in ("gable", "abutment")

    def is_abutment(self, side: str) -> bool:
        """Whether the roof runs up to a standing wall on a side."""
        return self.edges.get(side) == "abutment"

    def pitch_of(self, side: str) -> Pitch | None:
        """Pitch of the slope that starts on a side; None where the side is a gable."""
        return None if self.is_gable(side) else self.pitches.get(side, self.pitch)

    @property
    def underside_shows(self) -> bool:
        """Whether the underside of all its sheathing shows, as over a porch without a ceiling."""
        return False

    @property
    def over_beam(self) -> bool:
        """Whether the rafters run over the ridge beam."""
        return self.ridge is not None and self.ridge.support == "over"

    @property
    def ridge_vent(self) -> float:
        """How far the rafters stand proud of the ridge [in]; 0 where there is none."""
        return self.ridge.vent if self.ridge else 0.0

    @property
    def high_overhang(self) -> float:
        """Overhang over the high wall of a shed roof [in]."""
        return self.overhang.eave if self.overhang.high is None else self.overhang.high

    @property
    def ledger_size(self) -> str:
        """Size of the ledger on an abutment."""
        return self.ledger.size if self.ledger else self.rafters.size

    @property
    def hip_size(self) -> str:
        """Size of hip rafters."""
        return self.hips.size if self.hips else self.rafters.size

    @property
    def valley_size(self) -> str:
        """Size of valley rafters."""
        return (self.valleys and self.valleys.size) or self.rafters.size

    @property
    def overlaid(self) -> Valleys | None:
        """How wings are laid over the main roof; None where valley rafters carry them."""
        return self.valleys if self.valleys and self.valleys.method == "overlaid" else None
