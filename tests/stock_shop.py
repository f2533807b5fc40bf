"""Pieces, panels and buildings made by hand, for the tests of cutting and order."""

from __future__ import annotations

from shapely import Polygon, box

from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.cutting.problem import Offer
from takeoff.cutting.sheet_problem import PanelPiece, SheetOffer
from takeoff.geometry.placement import Placement
from takeoff.model.building import FramedBuilding
from takeoff.model.joint import Joint
from takeoff.model.member import SQUARE_ENDS, EndCut, Member
from takeoff.model.panel import Panel
from takeoff.model.stock import Piece

LEVEL = Placement((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def a_piece(
    mark: str,
    length_in: float,
    qty: int = 1,
    *,
    building: str = "hut",
    load: int = 1,
    role: str = "stud",
    profile: str = "2x4",
    grade: str = "stud",
) -> Piece:
    return Piece(
        building=building,
        load=load,
        mark=mark,
        role=role,
        profile=profile,
        grade=grade,
        face="south wall",
        qty=qty,
        length_in=length_in,
        miters_deg=(0.0, 0.0),
        bevels_deg=(0.0, 0.0),
    )


def by_the_foot(
    *lengths_ft: float, profile: str = "2x4", grade: str = "stud", usd_a_foot: float = 1.0
) -> tuple[Offer, ...]:
    """Sticks whose price goes with their length."""
    return tuple(
        Offer(profile=profile, grade=grade, length_in=12 * length, price_usd=usd_a_foot * length)
        for length in lengths_ft
    )


def a_panel_piece(
    mark: str, length_in: float, width_in: float, qty: int = 1, *, building: str = "hut", product: str = "osb-7/16"
) -> PanelPiece:
    return PanelPiece(
        building=building,
        mark=mark,
        product=product,
        qty=qty,
        length_in=length_in,
        width_in=width_in,
        area_sqin=length_in * width_in,
    )


def sheets_on_sale(*sizes: tuple[float, float | None], product: str = "osb-7/16") -> tuple[SheetOffer, ...]:
    """Four-foot sheets by length [in] and price."""
    return tuple(
        SheetOffer(product=product, length_in=length_in, width_in=48.0, gap_in=0.125, price_usd=price_usd)
        for length_in, price_usd in sizes
    )


def a_member(
    mark: str,
    length_in: float,
    *,
    building: str = "hut",
    face: str = "south wall",
    role_name: str = "stud",
    profile_name: str = "2x4",
    grade: str = "stud",
    cuts: tuple[EndCut, EndCut] = SQUARE_ENDS,
    side: Polygon | None = None,
) -> Member:
    stick = profile(profile_name)
    return Member(
        building=building,
        face=face,
        role=role(role_name),
        profile=stick,
        grade=grade,
        side=side or box(0.0, 0.0, length_in, stick.depth_in),
        placement=LEVEL,
        cuts=cuts,
        mark=mark,
    )


def a_panel(mark: str, u_in: float, v_in: float, *, product: str = "osb-7/16", axis: str = "u") -> Panel:
    return Panel(
        building="hut",
        face="south wall",
        product=product,
        zone="field",
        polygon=box(0.0, 0.0, u_in, v_in),
        strength_axis="u" if axis == "u" else "v",
        mark=mark,
    )


def a_building(
    *members: Member,
    name: str = "hut",
    count: int = 1,
    panels: tuple[Panel, ...] = (),
    joints: tuple[Joint, ...] = (),
) -> FramedBuilding:
    return FramedBuilding(name=name, count=count, members=members, panels=panels, joints=joints)
