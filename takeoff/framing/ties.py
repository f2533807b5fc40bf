"""Ties of a gable roof: rafter ties, collar ties and ceiling joists, lapped beside the rafters they hold together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from takeoff.catalog.lengths import stock_lengths
from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.catalog.rules import rule
from takeoff.findings import Finding, Place, PlanError, Severity
from takeoff.framing.cross_section import CrossSection, CrossStick, cross_section
from takeoff.framing.stick import Bench
from takeoff.framing.tie_spots import chosen, free_spots, row_along
from takeoff.geometry.placement import Placement
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.geometry.vec import UP, dot
from takeoff.measure import format_length
from takeoff.model.member import Member

if TYPE_CHECKING:
    from takeoff.catalog.profiles import Profile
    from takeoff.framing.ridge_posts import InsidePost
    from takeoff.framing.roof_frame import RoofFrame
    from takeoff.plan.schema import Building
    from takeoff.plan.ties import Tie


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Equal ties of one roof."""

    key: str
    """In the plan."""
    role: str
    profile: Profile
    grade: str
    apart: float | None
    low: float
    """Height of their lower edges above the deck [in]."""
    height: float
    """The same above the higher plate."""

    @property
    def high(self) -> float:
        """Height of their upper edges."""
        return self.low + self.profile.depth_in


def tie_members(
    building: Building, frame: RoofFrame, posts: Sequence[InsidePost], written: Callable[[str], Place]
) -> tuple[tuple[Member, ...], tuple[Finding, ...]]:
    """All ties of a gable roof, and what was decided of them.

    Args:
        building: as the plan writes it.
        frame: its roof.
        posts: inside the building, which ties keep clear of.
        written: gives the place in the plan of a path.

    Raises:
        PlanError: ties that have no room where the plan puts them.
    """
    roof = building.roof
    if not (roof.ties or roof.collar or roof.ceiling):
        return (), ()
    section = cross_section(frame)
    along = row_along(building, frame, section, posts)
    rows = _rows(building, section)
    _apart(building, rows, written)
    members: list[Member] = []
    findings: list[Finding] = []
    for row in rows:
        place = written(f"roof.{row.key}")
        made = _stick(building, row, section, place)
        stood = chosen(tuple(free_spots(along, section, row.profile, row.low)), row.apart)
        bench = _bench(building, frame, section, place)
        members += (_member(bench, row, made, at) for at in stood)
        findings.append(_told(building, row, len(stood), place))
    return tuple(members), tuple(findings)


def _rows(building: Building, section: CrossSection) -> tuple[_Row, ...]:
    roof = building.roof
    _, plate = section.plates
    two_thirds = rule("collar.height").value * (section.peak[1] - plate)
    rows = []
    if roof.ceiling:
        rows.append(_row("ceiling", "ceiling-joist", roof.ceiling, plate, 0.0))
    if roof.ties:
        rows.append(_row("ties", "rafter-tie", roof.ties, plate, roof.ties.height))
    if roof.collar:
        height = two_thirds if roof.collar.height is None else roof.collar.height
        rows.append(_row("collar", "collar-tie", roof.collar, plate, height))
    return tuple(rows)


def _row(key: str, name: str, tie: Tie, plate: float, height: float) -> _Row:
    return _Row(
        key=key,
        role=name,
        profile=profile(tie.size),
        grade=tie.grade,
        apart=tie.spacing,
        low=plate + height,
        height=height,
    )


def _apart(building: Building, rows: Sequence[_Row], written: Callable[[str], Place]) -> None:
    """Refuse ties that stand in each other: all are beside the same rafters."""
    for below, above in pairwise(rows):
        if above.low < below.high - TOLERANCE.length and below.low < above.high:
            need = format_length(below.height + below.profile.depth_in)
            message = (
                f"the {_words(above)}s at {format_length(above.height)} over the plates stand in the"
                f" {_words(below)}s, whose tops are {need} over them: put them higher"
            )
            raise _error(building, above, message, written(f"roof.{above.key}"))


def _stick(building: Building, row: _Row, section: CrossSection, place: Place) -> CrossStick:
    """One tie; refused where it runs into the ridge, has no room between the slopes, or is longer than any board."""
    words, height = _words(row), format_length(row.height)
    made = section.stick(row.low, row.profile.depth_in)
    if made is None:
        message = f"{words}s {height} over the plates have no room between the slopes: put them lower"
        raise _error(building, row, message, place)
    if row.high > section.ridge_bottom + TOLERANCE.length:
        most = section.ridge_bottom - section.plates[1] - row.profile.depth_in
        message = (
            f"{words}s {height} over the plates run {format_length(row.high - section.ridge_bottom)} into the ridge:"
            f" put them {format_length(most)} over the plates at most"
        )
        raise _error(building, row, message + _straps(row), place)
    length, lengths = made.reach[1] - made.reach[0], stock_lengths(row.profile, row.grade)
    if lengths and length > lengths[-1] + TOLERANCE.length:
        message = (
            f"a {words} {format_length(length)} long is cut from one {row.profile.name} {row.grade},"
            f" which is made {format_length(lengths[-1])} long at most"
        )
        raise _error(building, row, message, place)
    return made


def _straps(row: _Row) -> str:
    return ", or leave them out and strap the rafters over the ridge" if row.key == "collar" else ""


def _bench(building: Building, frame: RoofFrame, section: CrossSection, place: Place) -> Bench:
    """The roof's section: u across from the outside of the first wall, v up from the deck, then along the ridge."""
    x, y, _ = frame.plan.slopes[0].bench.placement.origin
    placement = Placement((x, y, 0.0), section.across, UP)
    return Bench(building=building.name, face="across the roof", placement=placement, written=place)


def _member(bench: Bench, row: _Row, made: CrossStick, at: float) -> Member:
    from shapely.affinity import translate

    start, here = made.reach[0], bench.placement
    origin = here.to_world((start, row.low, at - dot(here.origin, here.z)))
    return Member(
        building=bench.building,
        face=bench.face,
        role=role(row.role),
        profile=row.profile,
        grade=row.grade,
        side=translate(made.outline, -start, -row.low),
        placement=replace(here, origin=origin),
        cuts=made.cuts,
        written=bench.written,
    )


def _told(building: Building, row: _Row, count: int, place: Place) -> Finding:
    where = f"their lower edges {format_length(row.height)} over the plates" if row.height else "on the plates"
    return Finding(
        rule=f"frame.{row.key}",
        severity=Severity.NOTE if count else Severity.WARNING,
        message=f"{count} {_words(row)}s of {row.profile.name} are lapped beside the rafters, {where}; none beside the"
        " end rafters, which the gable walls hold",
        place=place,
        building=building.name,
        where=f"{_words(row)}s",
    )


def _words(row: _Row) -> str:
    return row.role.replace("-", " ")


def _error(building: Building, row: _Row, message: str, place: Place) -> PlanError:
    finding = Finding(
        rule=f"frame.{row.key}",
        severity=Severity.ERROR,
        message=message,
        place=place,
        building=building.name,
        where=f"{_words(row)}s",
    )
    return PlanError([finding])
