"""Checks of the roof as a whole: overhangs, outlookers, ridge, air, sheathing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from takeoff.catalog.profiles import profile
from takeoff.catalog.rules import Rule, rule
from takeoff.catalog.sheets import sheet_product
from takeoff.catalog.spans import max_roof_span
from takeoff.checks.rafters import NEAR, alike
from takeoff.checks.ties import tied
from takeoff.checks.verdict import section, verdict
from takeoff.findings import Finding, Severity
from takeoff.measure import Pitch, format_length
from takeoff.model.building import FramedBuilding
from takeoff.plan.footprint import footprint
from takeoff.plan.schema import Building

if TYPE_CHECKING:
    from takeoff.geometry.rafter import RafterGeometry
    from takeoff.model.joint import Joint
    from takeoff.model.member import Member
    from takeoff.plan.roof import Ridge


def eave_overhang(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Level overhang of the rafters against the lesser of the two limits."""
    flat, share = rule("eave.overhang"), rule("eave.overhang-share")
    reaching = [g for g in alike(building) if g.member.role.name not in ("hip", "valley")]
    for group in reaching:
        cut = group.cut
        if not cut.overhang and plan.roof.upper:
            continue  # on a purlin, where there is no eave
        limit, most = _lesser(flat, share, share.value * (cut.run - cut.ridge_half))
        yield verdict(
            limit,
            passed=cut.overhang <= most + NEAR,
            building=building.name,
            where="eaves" if len(reaching) == 1 else f"eaves, {group.where}",
            found=f"an overhang of {format_length(cut.overhang)}",
            limit=format_length(most),
            place=group.member.written,
            advice="have it designed",
        )


def rake_overhang(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Rake overhang and the outlookers that carry it."""
    rake = plan.roof.overhang.rake
    outlookers = {m.mark: m for m in building.members if m.role.name == "outlooker"}
    if not rake:
        return
    if not outlookers and not any(
        m.role.name == "ladder-block" and not m.face.endswith("gablet rake") for m in building.members
    ):
        yield Finding(
            rule="rake.no-outlookers",
            severity=Severity.WARNING,
            message=f"a rake overhang of {format_length(rake)} without outlookers: nothing in this take-off carries it",
            building=building.name,
            where="rakes",
        )
    for member in outlookers.values():
        yield from _outlooker(building, plan, member)


def _outlooker(building: FramedBuilding, plan: Building, member: Member) -> Iterator[Finding]:
    barge = profile(plan.roof.barge.size).thickness_in if plan.roof.barge else 0.0
    outside = _outside(building, member)
    rake = outside + barge
    flat, share, back = rule("rake.overhang"), rule("rake.overhang-share"), rule("outlooker.back-span")
    limit, most = _lesser(flat, share, share.value * member.length_in)
    yield verdict(
        limit,
        passed=rake <= most + NEAR,
        building=building.name,
        where=member.name,
        found=f"a rake overhang of {format_length(rake)}",
        limit=format_length(most),
        place=member.written,
        advice="shorten the rake, or have it designed",
    )
    inside = member.length_in - outside
    yield verdict(
        back,
        passed=inside >= back.value * outside - NEAR,
        building=building.name,
        where=member.name,
        found=f"{format_length(inside)} inside and {format_length(outside)} outside",
        limit=f"{back.value:g} to 1",
        place=member.written,
        advice="shorten the rake, or have it designed: longer outlookers pass a rafter that is cut and headed",
    )


def _outside(building: FramedBuilding, outlooker: Member) -> float:
    """How far an outlooker stands out past the end wall's framing [in]."""
    face = next(face for face in building.faces if face.kind == "slope" and face.name == outlooker.face)
    assert face.shown is not None  # a slope's always is
    ends = [outlooker.placement.to_world((x, 0.0, 0.0)) for x in (0.0, outlooker.length_in)]
    us = [face.placement.from_world(end)[0] for end in ends]
    return max(face.shown.left - min(us), max(us) - face.shown.right)


def _lesser(flat: Rule, share: Rule, share_in: float) -> tuple[Rule, float]:
    return (flat, flat.value) if flat.value <= share_in else (share, share_in)


def ridge(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """A beam wants a design and full contact; a board wants depth, ties and slope enough."""
    below = {building.members[j.upper].mark for j in building.joints if _hangs_on_purlin(building, j)}
    groups = [g for g in alike(building) if g.member.role.name not in ("hip", "valley") and g.member.mark not in below]
    if not groups or plan.roof.ridge is None:
        return
    deepest = max(groups, key=lambda g: g.cut.plumb_depth)
    yield from (_beam if plan.roof.ridge.kind == "beam" else _board)(building, plan.roof.ridge, deepest.cut)


def _hangs_on_purlin(building: FramedBuilding, joint: Joint) -> bool:
    """A lower rafter of a gambrel roof, which doesn't reach the ridge."""
    return joint.kind == "hangs" and building.members[joint.lower].role.name == "purlin-beam"


def _beam(building: FramedBuilding, planned: Ridge, cut: RafterGeometry) -> Iterator[Finding]:
    design = "size and bearing" if planned.support == "over" else "size, bearing and hangers"
    yield Finding(
        rule="ridge.beam-design",
        severity=Severity.WARNING,
        message=f"the structural ridge beam {planned.size} and its posts are taken as written: "
        f"their {design} need a licensed design",
        building=building.name,
        section=section(rule("ridge.structural-slope")),
        where="ridge beam",
    )
    if planned.support == "over":
        return
    hung = [
        j
        for j in building.joints
        if j.kind == "hangs"
        and building.members[j.lower].role.name == "ridge-beam"
        and _whole(building.members[j.upper], cut)
    ]
    contact = min((j.bearing_in for j in hung), default=0.0)
    wanted = cut.plumb_depth - planned.vent
    if contact < wanted - NEAR:
        yield Finding(
            rule="ridge.beam-depth",
            severity=Severity.WARNING,
            message=f"the beam catches {format_length(contact)} of the rafters' {format_length(wanted)} plumb cut; "
            "take a deeper beam, or hangers made for it",
            building=building.name,
            where="ridge beam",
            found=format_length(contact),
            limit=format_length(wanted),
        )


def _whole(rafter: Member, cut: RafterGeometry) -> bool:
    """As deep as the others: a dropped end rafter is caught lower, and is carried by its wall."""
    return rafter.rafter is None or rafter.rafter.depth >= cut.depth


def _board(building: FramedBuilding, planned: Ridge, cut: RafterGeometry) -> Iterator[Finding]:
    deep, steep = rule("ridge.board-depth"), rule("ridge.structural-slope")
    board = profile(planned.size).depth_in
    yield verdict(
        deep,
        passed=board >= deep.value * cut.plumb_depth - NEAR,
        building=building.name,
        where="ridge board",
        found=f"a board {format_length(board)} deep",
        limit=format_length(deep.value * cut.plumb_depth),
        advice="take a deeper board",
    )
    yield verdict(
        steep,
        passed=cut.slope * 12 >= steep.value - NEAR,
        building=building.name,
        where="ridge board",
        found=f"a slope of {Pitch(cut.slope * 12)}",
        limit=f"{steep.value:g}/12",
        advice="carry the rafters on a ridge beam",
    )
    ties = tied(building)
    yield Finding(
        rule="ridge.board-ties",
        severity=Severity.NOTE if ties else Severity.WARNING,
        message=f"a ridge board carries nothing: the {ties} hold the rafters together"
        if ties
        else "a ridge board carries nothing: the rafters need ceiling joists or ties, which are not in this take-off",
        building=building.name,
        section=section(steep),
        where="ridge board",
    )


def vent_area(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Net free area over vented blocks against the floor area, the ridge being vented as well."""
    if plan.roof.blocking.eave != "vented":
        return
    high = plan.roof.ridge_vent > 0
    limit = rule("vent.area-reduced" if high else "vent.area")
    # Half of the reduced area must be low; without a high vent the eaves have to give it all.
    wanted = limit.value * footprint(plan).area_sqin * (0.5 if high else 1.0)
    yield verdict(
        limit,
        passed=building.vent_area_sqin >= wanted - NEAR,
        building=building.name,
        where="eaves",
        found=f"{building.vent_area_sqin:.0f} sq in of air over the eave blocks, screens not taken off",
        limit=f"{wanted:.0f} sq in at the eaves",
        advice="take shallower blocks, or bored ones",
    )


def sheathing_span(building: FramedBuilding, plan: Building) -> Iterator[Finding]:
    """Span rating of the roof's sheets against the rafters' spacing: with their edges free, or held by clips."""
    spacing = plan.roof.rafters.spacing
    for name in sorted({plan.roof.sheathing.field, plan.roof.sheathing.exposed_product}):
        rating = sheet_product(name).span_rating
        free, held = (max_roof_span(rating, edge_support=support) for support in (False, True))
        most = free if spacing <= free + NEAR else held
        passed = spacing <= most + NEAR
        clips = "on the clips that are in the order" if passed else "even on clips"
        edges = "without edge support" if most == free else clips
        faces = ", ".join(_laid_with(building, name)) or "the roof"
        advice = "" if passed else f"; on {faces} set the rafters nearer, or lay a thicker sheet"
        yield Finding(
            rule="sheathing.span",
            severity=Severity.NOTE if passed else Severity.WARNING,
            message=f"{name} (span rating {rating}) on supports {format_length(spacing)} apart, "
            f"at most {format_length(most)} {edges}{advice}",
            building=building.name,
            section="span-rating table (recalled, to be looked up)",
            where="roof sheathing",
            found=format_length(spacing),
            limit=format_length(most),
        )


def _laid_with(building: FramedBuilding, product: str) -> Iterator[str]:
    """Names of the slopes that have pieces of a sheet."""
    for face in building.faces:
        if face.kind == "slope" and any(p.face == face.name and p.product == product for p in building.panels):
            yield face.name
