"""The command line: words in, values to the pipeline, words out. Nothing is computed here.

Heavy libraries are imported inside the commands that need them, so that help and small answers come at once.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import click

from takeoff.findings import Finding, PlanError
from takeoff.measure import MeasureError, Pitch, format_length, parse_length, parse_pitch

LEAST_RUN_IN = 24.0
"""A shorter run is a length in feet whose foot mark was left out [in]."""

DONE, PLAN_WRONG = 0, 1
"""Exit statuses; click gives 2 for wrong use of the command."""


class Measure(click.ParamType[Any]):
    """A value a carpenter writes, read by one of the parsers of `takeoff.measure`."""

    def __init__(self, name: str, parse: Callable[[str], Any]) -> None:
        self.name = name
        self._parse = parse

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The value, or click's error with what is wrong and how to write it."""
        if not isinstance(value, str):
            return value
        try:
            return self._parse(value)
        except MeasureError as error:
            self.fail(str(error), param, ctx)


LENGTH = Measure("length", parse_length)
PITCH = Measure("pitch", parse_pitch)
PLAN = click.Path(path_type=Path)
SETTINGS = click.option(
    "--settings", type=PLAN, help="PLAN is a drawing (DXF): it gives the geometry, this plan everything else."
)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="takeoff")
def main() -> None:
    """Framing and sheathing take-off: from a one-page plan to the order, the cut list and the rafter cut sheet.

    Begin with `takeoff start > hut.yaml`, change it to your building, then `takeoff run hut.yaml`.
    """


@main.command()
@click.argument("plan", type=PLAN)
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    help="Folder for the results.  [default: outputs/<job>]",
)
@click.option("--notes", is_flag=True, help="Print notes as well as warnings.")
@SETTINGS
def run(plan: Path, into: Path | None, notes: bool, settings: Path | None) -> None:
    """Take off PLAN and write the order, cut sheets and tables."""
    from takeoff.pipeline import take_off, write_takeoff
    from takeoff.sheets.summary import job_folder, summary

    _drawing_with_settings(plan, settings)
    with _told():
        takeoff = take_off(plan, settings)
        folder = into or Path("outputs") / job_folder(takeoff.job)
        files = write_takeoff(takeoff, folder)
    _print_findings(takeoff.findings, notes=notes)
    click.echo(summary(takeoff, folder, files), nl=False)


@main.command()
@click.argument("plan", type=PLAN)
@click.option("--notes/--no-notes", default=True, help="Print notes as well as warnings.  [default: notes]")
@click.option("--audit", is_flag=True, help="Build every stick as a solid: none in another, rafters end on wood.")
@SETTINGS
def check(plan: Path, notes: bool, audit: bool, settings: Path | None) -> None:
    """Read and screen PLAN; write nothing."""
    from takeoff.pipeline import audited, take_off
    from takeoff.sheets.summary import verdict

    _drawing_with_settings(plan, settings)
    with _told():
        takeoff = take_off(plan, settings)
    _print_findings(takeoff.findings, notes=notes)
    if audit:
        _print_findings(audited(takeoff), notes=True)
    click.echo(verdict(takeoff))


@main.command("quote-request")
@click.argument("plan", type=PLAN)
@click.option(
    "--into", type=click.Path(path_type=Path, dir_okay=False), help="File.  [default: outputs/<job>-price-request.xlsx]"
)
@SETTINGS
def quote_request(plan: Path, into: Path | None, settings: Path | None) -> None:
    """Write a workbook that asks yards for the prices of PLAN's order."""
    from takeoff.pipeline import price_request, take_off
    from takeoff.sheets.summary import job_folder
    from takeoff.sheets.write import write_file

    _drawing_with_settings(plan, settings)
    with _told():
        takeoff = take_off(plan, settings)
        file = into or Path("outputs") / f"{job_folder(takeoff.job)}-price-request.xlsx"
        write_file(price_request(takeoff), file)
    beside = f" --settings {settings}" if settings else ""
    click.echo(f"{file}: send a copy to each yard, then `takeoff quotes {plan} ANSWER...{beside}`")


@main.command()
@click.argument("plan", type=PLAN)
@click.argument("answers", type=PLAN, nargs=-1, required=True)
@click.option("--into", type=click.Path(path_type=Path, dir_okay=False), help="Also write the comparison, as CSV.")
@SETTINGS
def quotes(plan: Path, answers: tuple[Path, ...], into: Path | None, settings: Path | None) -> None:
    """Compare the ANSWERS that yards sent back to the price request for PLAN."""
    from takeoff.order.quotes.compare import MOST_YARDS
    from takeoff.pipeline import compared_quotes, take_off
    from takeoff.sheets.quote_text import quote_csv, quote_text
    from takeoff.sheets.write import write_file

    if len(answers) > MOST_YARDS:
        raise click.UsageError(f"{len(answers)} answers; at most {MOST_YARDS} are compared at once")
    _drawing_with_settings(plan, settings)
    with _told():
        takeoff = take_off(plan, settings)
        compared, doubts = compared_quotes(takeoff, answers)
        if into:
            write_file(quote_csv(compared), into)
    _print_findings(doubts, notes=True)
    click.echo(quote_text(takeoff.job, compared), nl=False)


@main.command()
@click.option("--dxf", is_flag=True, help="Print a drawing (DXF) to begin with instead: layers, an example, notes.")
def start(dxf: bool) -> None:
    """Print a commented plan to begin with."""
    from takeoff.plan.start import starter_text

    if not dxf:
        click.echo(starter_text(), nl=False)
        return
    from takeoff.pipeline import starter_drawing

    click.echo(starter_drawing(), nl=False)


@main.command()
@click.argument("plan", type=PLAN)
@click.option("-o", "--into", type=click.Path(path_type=Path, dir_okay=False), required=True, help="File to write.")
def outline(plan: Path, into: Path) -> None:
    """Write the geometry of PLAN as a drawing (DXF) that `run --settings` reads."""
    from takeoff.pipeline import house_drawing
    from takeoff.sheets.write import write_file

    with _told():
        write_file(house_drawing(plan), into)
    click.echo(f"{into}: change it, then `takeoff run {into} --settings {plan}`")


@main.command()
def schema() -> None:
    """Print the JSON Schema of plans, for an editor that completes and checks them."""
    from takeoff.plan.schema_json import schema_json

    click.echo(schema_json(), nl=False)


@main.command()
@click.argument("pitch", type=PITCH)
@click.option("--run", "run_in", type=LENGTH, required=True, help="Level, outside of wall framing to centre of ridge.")
@click.option("--size", default="2x10", show_default=True, help="Size of the rafter.")
@click.option("--overhang", type=LENGTH, default="0", help="Level, outside of wall framing to the tail's plumb cut.")
@click.option("--ridge", type=LENGTH, default='1-1/2"', show_default=True, help="Thickness of the ridge; 0 for none.")
@click.option("--plate", type=LENGTH, default='5-1/2"', show_default=True, help="Width of the plate.")
@click.option("--seat", type=LENGTH, help="Level seat of the bird's mouth.  [default: by rule]")
@click.option("--tail", help="Size the tail is ripped to, such as 2x6.  [default: the rafter's own]")
def rafter(
    pitch: Pitch,
    run_in: float,
    size: str,
    overhang: float,
    ridge: float,
    plate: float,
    seat: float | None,
    tail: str | None,
) -> None:
    """Answer for one common rafter at the saw: `takeoff rafter 8/12 --run 10'`."""
    from takeoff.framing.one_rafter import one_rafter
    from takeoff.sheets.rafter_text import rafter_text

    if run_in < LEAST_RUN_IN:
        raise click.UsageError(f"a run of {format_length(run_in)} is no rafter's; for feet write --run \"8'\"")
    try:
        geometry, why = one_rafter(
            pitch=pitch, run=run_in, size=size, overhang=overhang, ridge=ridge, plate=plate, seat=seat, tail=tail
        )
    except ValueError as error:
        raise click.UsageError(str(error)) from error
    click.echo(rafter_text(geometry, size, why), nl=False)


def _drawing_with_settings(plan: Path, settings: Path | None) -> None:
    """A drawing alone says nothing of sizes and pitch."""
    if settings is None and plan.suffix.lower() == ".dxf":
        raise click.UsageError(f"{plan} is a drawing; give the plan with sizes and pitch too: --settings framing.yaml")


class _told:  # noqa: N801 - read as a word in `with _told():`
    """Turns what can go wrong with a plan or a disk into words and an exit status, without a traceback."""

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: object) -> None:
        if isinstance(error, PlanError):
            _print_findings(error.findings, notes=False)
            wrong = sum(finding.severity == "error" for finding in error.findings)
            click.echo(f"{wrong} error{'s' if wrong > 1 else ''}; nothing was written.", err=True)
            sys.exit(PLAN_WRONG)
        if isinstance(error, OSError):
            click.echo(f"error: {error}; nothing was written.", err=True)
            sys.exit(PLAN_WRONG)


def _print_findings(findings: Iterable[Finding], *, notes: bool) -> None:
    for finding in findings:
        if notes or finding.severity != "note":
            click.echo(str(finding), err=True)
