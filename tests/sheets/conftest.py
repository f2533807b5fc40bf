"""A small take-off made by hand, so that the files are tested without the engine that comes before them."""

from __future__ import annotations

from pathlib import Path

import pytest
from shapely import box
from shop import CABIN

from takeoff.catalog.profiles import profile
from takeoff.catalog.roles import role
from takeoff.findings import Finding, Severity
from takeoff.geometry.placement import Placement
from takeoff.geometry.rafter import RafterGeometry
from takeoff.model.building import FramedBuilding
from takeoff.model.layout import LayoutLine, LayoutMark
from takeoff.model.member import Member
from takeoff.model.order import OrderLine
from takeoff.model.panel import Panel
from takeoff.model.stock import Board, Cut, LumberCutting, Piece, Sheet, SheetCutting, SheetPiece, Stop
from takeoff.model.takeoff import Settings, Takeoff
from takeoff.pipeline import take_off

COPIES = 2
COMMON = RafterGeometry(slope=8 / 12, depth=9.25, run=120, overhang=16, ridge_half=2.75, seat=4.125, tail_depth=5.5)
BARGE = RafterGeometry(slope=8 / 12, depth=9.25, run=120, overhang=16, stand=COMMON.height_above_plate)
LEVEL = Placement((0.0, 0.0, 97.125), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def _stick(name: str, size: str, grade: str, mark: str, length: float, face: str) -> Member:
    sold = profile(size)
    side = box(0, 0, length, sold.depth_in)
    return Member(
        building="cabin",
        face=face,
        role=role(name),
        profile=sold,
        grade=grade,
        side=side,
        placement=LEVEL,
        mark=mark,
    )


def _rafter(name: str, grade: str, mark: str, geometry: RafterGeometry) -> Member:
    return Member(
        building="cabin",
        face="roof south",
        role=role(name),
        profile=profile("2x10"),
        grade=grade,
        side=geometry.side(),
        placement=LEVEL,
        rafter=geometry,
        mark=mark,
    )


def _panel(mark: str, zone: str, product: str, u: float, v: float, width: float, height: float) -> Panel:
    return Panel(
        building="cabin",
        face="roof south",
        product=product,
        zone="exposed" if zone == "exposed" else "field",
        polygon=box(u, v, u + width, v + height),
        strength_axis="u",
        mark=mark,
    )


def _building() -> FramedBuilding:
    return FramedBuilding(
        name="cabin",
        count=COPIES,
        members=(
            _stick("stud", "2x6", "stud", "S1", 92.625, "wall south"),
            _stick("stud", "2x6", "stud", "S1", 92.625, "wall south"),
            _stick("ridge-beam", "5-1/2x14", "glulam", "RB1", 360.0, "roof"),
            _rafter("common-rafter", "no2", "R1", COMMON),
            _rafter("common-rafter", "no2", "R1", COMMON),
            _rafter("barge", "trim", "BG1", BARGE),
        ),
        lines=(
            LayoutLine(
                name="wall south, plates",
                start="west end",
                length_in=360.0,
                marks=(LayoutMark(0.75, "X", "stud"), LayoutMark(15.25 + 1 / 3, "=", "eave block")),
            ),
        ),
        panels=(
            _panel("X1", "exposed", "sanded-5/8", 0, 0, 48, 24),
            _panel("X1", "exposed", "sanded-5/8", 48, 0, 48, 24),
            _panel("F1", "field", "cdx-5/8", 0, 24, 96, 48),
        ),
    )


def _piece(member: Member, qty: int) -> Piece:
    (left, right) = member.cuts
    return Piece(
        building=member.building,
        load=member.role.load,
        mark=member.mark,
        role=member.role.name,
        profile=member.profile.name,
        grade=member.grade,
        face=member.face,
        qty=qty,
        length_in=member.length_in,
        miters_deg=(left.miter_deg, right.miter_deg),
        bevels_deg=(left.bevel_deg, right.bevel_deg),
    )


def _boards(stock_id: str, piece: Piece, stock: float, *, special: bool = False) -> list[Board]:
    return [
        Board(
            stock_id=f"{stock_id}{number}",
            load=piece.load,
            profile=piece.profile,
            grade=piece.grade,
            stock_length_in=stock,
            cuts=(Cut(mark=piece.mark, length_in=piece.length_in),),
            kerf_in=0.125,
            special=special,
        )
        for number in range(1, piece.qty + 1)
    ]


def _sheets() -> SheetCutting:
    def sheet(sheet_id: str, product: str, pieces: tuple[SheetPiece, ...]) -> Sheet:
        return Sheet(sheet_id=sheet_id, load=3, product=product, length_in=96, width_in=48, pieces=pieces)

    def piece(mark: str, x: float, y: float, length: float, width: float) -> SheetPiece:
        return SheetPiece(building="cabin", mark=mark, x_in=x, y_in=y, length_in=length, width_in=width)

    whole = (piece("F1", 0, 0, 96, 48),)
    strips = tuple(piece("X1", x, y, 48, 24) for y in (0, 24) for x in (0, 48))
    return SheetCutting(
        sheets=(
            sheet("3A1", "cdx-5/8", whole),
            sheet("3A2", "cdx-5/8", whole),
            sheet("3B1", "sanded-5/8", strips),
        ),
        area_bound=3,
    )


def _line(
    load: int,
    category: str,
    item: str,
    sold: tuple[str, str],
    *,
    net: int,
    pct: float = 0.0,
    order: int,
    price: float | None = None,
    feet: float = 0.0,
    pounds: float,
    special: bool = False,
) -> OrderLine:
    """A line; feet, pounds and price are of one."""
    return OrderLine(
        load=load,
        category=category,
        item=item,
        profile=sold[0],
        grade=sold[1],
        stock_length_in=None if category == "hardware" else 96.0,
        qty_net=net,
        waste_pct=pct,
        qty_order=order,
        unit="each",
        board_feet=feet * order,
        weight_lb=pounds * order,
        unit_price=price,
        special=special,
    )


def _order() -> tuple[OrderLine, ...]:
    stud, stick = "2x6 stud, 7'-8 5/8\"", "2x10 no2, 14'-0\""
    no2, feet = ("2x10", "no2"), 2 * 10 / 12 * 14
    return (
        # 100 and 10 % are 110.00000000000001 in floats: the line that shows whether rounding up is done with care.
        _line(1, "studs", stud, ("2x6", "stud"), net=100, pct=10, order=110, price=5.15, feet=7.71875, pounds=14.2),
        _line(1, "headers", stick, no2, net=1, pct=3, order=2, price=27.49, feet=feet, pounds=39.6),
        _line(2, "rafters", stick, no2, net=4, pct=3, order=5, price=27.49, feet=feet, pounds=39.6),
        # One category with two allowances: what is cut to order has none.
        _line(2, "rafters", "lvl 1-3/4x14, 18'-0\"", ("1-3/4x14", "lvl"), net=2, order=2, price=210.6, pounds=122.5),
        _line(2, "beams", "glulam 5-1/2x14, 40'-0\"", ("5-1/2x14", "glulam"), net=2, order=2, pounds=732, special=True),
        _line(2, "hardware", "rafter tie", ("rafter-tie", ""), net=4, order=4, price=0.67, pounds=0.2),
        _line(3, "sheathing", "cdx-5/8 sheet", ("cdx-5/8", ""), net=2, pct=5, order=3, price=41.35, pounds=60.8),
    )


@pytest.fixture
def hand_takeoff() -> Takeoff:
    """A cabin, built twice: two studs, a beam, two rafters, a barge and three panels."""
    building = _building()
    first: dict[str, Member] = {}
    for member in building.members:
        first.setdefault(member.mark, member)
    counted = {mark: sum(member.mark == mark for member in building.members) * COPIES for mark in first}
    pieces = {mark: _piece(member, counted[mark]) for mark, member in first.items()}
    boards = (
        *_boards("1A", pieces["S1"], 92.625),
        *_boards("2A", pieces["RB1"], 480.0, special=True),
        *_boards("2B", pieces["R1"], 168.0),
        *_boards("2C", pieces["BG1"], 192.0),
    )
    return Takeoff(
        job="Curlew & Plover",
        plan_file="/somewhere/else/curlew.yaml",
        settings=Settings(denominator=16, kerf_in=0.125, species="spf", placeholder_prices=True),
        buildings=(building,),
        pieces=tuple(pieces.values()),
        lumber=LumberCutting(boards=boards, cost_usd=1234.5, bound_usd=1200.25, stopped_by=Stop.FITTED),
        sheets=_sheets(),
        order=_order(),
        findings=(
            Finding(
                rule="notch.end-depth",
                severity=Severity.WARNING,
                message="the seat notches 2.29 in deep",
                building="cabin",
                section="R802.7.1",
                where="common rafter R1",
                found='2.29"',
                limit='2.31"',
            ),
        ),
    )


HIP = """
job: Hip test
buildings:
  - name: shelter
    outline: [[0, 0], [24', 0], [24', 16'], [0, 16']]
    walls: {studs: 2x6}
    roof:
      shape: hip
      pitch: 6/12
      rafters: {size: 2x8}
      overhang: {eave: 16"}
      ridge: {kind: board, size: 2x10}
      hips: {size: 2x10}
      sheathing: {field: cdx-5/8}
"""

ELL = """
job: Ell test
buildings:
  - name: ell
    outline: [[0, 0], [30', 0], [30', 16'], [14', 16'], [14', 32'], [0, 32']]
    sides: [south, east, inner north, inner east, north, west]
    walls: {studs: 2x6}
    roof:
      shape: hip
      pitch: 8/12
      rafters: {size: 2x8}
      overhang: {eave: 12", rake: 0"}
      ridge: {kind: board, size: 2x10}
      hips: {size: 2x10}
      valleys: {size: 2x10}
      fascia: {size: 2x6}
      sheathing: {field: cdx-5/8}
"""


def _planned(folder: Path, text: str) -> Takeoff:
    plan = folder / "plan.yaml"
    plan.write_text(text)
    return take_off(plan)


@pytest.fixture(scope="session")
def hip_takeoff(tmp_path_factory: pytest.TempPathFactory) -> Takeoff:
    """A hip roof of one pitch, 6/12, over 24 by 16 feet, its jacks 16 inches apart."""
    return _planned(tmp_path_factory.mktemp("hip"), HIP)


@pytest.fixture(scope="session")
def ell_takeoff(tmp_path_factory: pytest.TempPathFactory) -> Takeoff:
    """An L of two hip roofs, one a little narrower: a valley, jacks of all kinds, two ridges."""
    return _planned(tmp_path_factory.mktemp("ell"), ELL)


@pytest.fixture(scope="session")
def cabin_takeoff() -> Takeoff:
    """The sample cabin: a gable roof with exposed eaves and rakes, balloon gables, openings in one wall."""
    return take_off(CABIN)
