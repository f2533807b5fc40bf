"""The command that prints how well the sheets of plans are laid and cut."""

from __future__ import annotations

import platform
import time
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import version
from math import ceil
from pathlib import Path

import click

from takeoff.catalog.price_reader import builtin_prices
from takeoff.catalog.prices import PriceList
from takeoff.cutting.bound import area_bound
from takeoff.cutting.lay_ups import building_lay_ups
from takeoff.cutting.offers import sheet_offers_for
from takeoff.cutting.panel_pieces import panel_pieces_of
from takeoff.cutting.sheets import SheetProblem, cut_sheets
from takeoff.findings import Place
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.model.marks import mark_buildings
from takeoff.plan.read import read_plan
from takeoff.sheathing.sheathe import sheathe

_FOLDER = click.Path(path_type=Path, exists=True, file_okay=False)
_HEADER = (
    "| plan | faces | sheets | area of all | over % | area by grade | over % "
    "| bound, however cut | over | plain lay-up | a sheet a piece | cost $ | bound $ | CPU s |"
)
_RULE = "| --- | --- |" + " ---: |" * 12


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    sheets: int
    bought: float
    """The sheets' area, in sheets of 4 by 8 feet: walls take longer ones."""
    pieces: int
    area: float
    """In sheets of 4 by 8 feet."""
    cost: float
    bound: float
    by_grade: int
    """How few the area of each product is, rounded up product by product: none is bought in parts."""
    fewest: int
    """How few sheets the same pieces take however they are cut, by dual feasible functions, product by product."""


@click.command()
@click.argument("plans", type=_FOLDER, default=Path("sample_plans"))
def main(plans: Path) -> None:
    """Print, for each building of the PLANS, its roof and its walls: sheets, bounds and seconds of one core.

    The area is that of all panels together, whatever their grade, in sheets of 4 by 8 feet, rounded up, and
    beside it how much more is bought;
    by grade it is rounded up for each product alone, in sheets of its largest size. The bound is of the pieces as laid.
    """
    click.echo(f"Python {platform.python_version()}, highspy {version('highspy')}, one thread\n\n{_HEADER}\n{_RULE}")
    for path in sorted(plans.glob("*.yaml")):
        for line in _lines(path):
            click.echo(line)


def _lines(path: Path) -> Iterator[str]:
    written, _ = read_plan(path)
    prices = builtin_prices()
    for plan in written.plan.buildings:
        framed, _ = frame(plan, lambda at: Place(path=at))
        start = time.process_time()
        laid = building_lay_ups(framed, prices, written.plan.settings.kerf)
        seconds = time.process_time() - start
        for kind, words in (("slope", "roof"), ("wall", "walls")):
            kept = {face.name for face in framed.faces if face.kind == kind}
            ours = _cut(sheathe(framed, laid.lay_ups), kept, prices)
            plain = _cut(sheathe(framed), kept, prices)
            least = ceil(ours.area - 1e-9)
            cells = (
                f"{path.stem}, {plan.name}",
                words,
                ours.sheets,
                least,
                _over(ours.bought, least),
                ours.by_grade,
                _over(ours.sheets, ours.by_grade),
                ours.fewest,
                ours.sheets - ours.fewest,
                plain.sheets,
                ours.pieces,
                f"{ours.cost:.2f}",
                f"{ours.bound:.2f}",
                f"{seconds:.2f}",
            )
            yield f"| {' | '.join(str(cell) for cell in cells)} |"


def _over(sheets: float, least: int) -> str:
    return f"{100 * (sheets - least) / least:.1f}" if least else ""


def _cut(building: FramedBuilding, kept: set[str], prices: PriceList) -> _Cut:
    (marked,) = mark_buildings([building])
    pieces = tuple(
        piece
        for piece in panel_pieces_of([marked])
        if any(panel.mark == piece.mark and panel.face in kept for panel in marked.panels)
    )
    cutting = cut_sheets(SheetProblem(pieces=pieces, offers=sheet_offers_for(pieces, prices), kerf_in=0.125))
    return _Cut(
        sheets=len(cutting.sheets),
        bought=sum(sheet.length_in * sheet.width_in for sheet in cutting.sheets) / (48 * 96),
        pieces=sum(piece.qty for piece in pieces),
        area=sum(piece.area_sqin * piece.qty for piece in pieces) / (48 * 96),
        cost=sum(proof.cost_usd or 0.0 for proof in cutting.proofs),
        bound=sum(proof.bound_usd or 0.0 for proof in cutting.proofs),
        by_grade=sum(
            area_bound(SheetProblem(pieces=alone, offers=sheet_offers_for(alone, prices), kerf_in=0.125))
            for product in sorted({piece.product for piece in pieces})
            for alone in [tuple(piece for piece in pieces if piece.product == product)]
        ),
        fewest=sum(proof.sheet_bound for proof in cutting.proofs),
    )


if __name__ == "__main__":
    main()
