"""The command that prints the table."""

from __future__ import annotations

import platform
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

import click

from takeoff.cutting.bench.instances import cases
from takeoff.cutting.bench.measure import Measured, measured, measured_case
from takeoff.cutting.bench.plans import instances_of

_FOLDER = click.Path(path_type=Path, exists=True, file_okay=False)
_HEADER = (
    "| case | pieces | lengths | boards | patterns | cost | bound | gap % | known least | best fit | textbook | s |"
)
_RULE = "| --- |" + " ---: |" * 11


@click.command()
@click.option("--plans", type=_FOLDER, default=None, help="Folder of plans to measure, such as sample_plans.")
@click.option("--files", type=_FOLDER, default=None, help="Folder of benchmark files, u120_00.txt and the like.")
@click.option(
    "--textbook",
    type=click.FloatRange(min=0.0),
    default=2.0,
    show_default=True,
    help="Seconds of the general solver for each group, if that is more than ours took; 0 leaves it out.",
)
def main(plans: Path | None, files: Path | None, textbook: float) -> None:
    """Print how well and how fast lengths are cut. Costs of plans are in cents, of the others in bins."""
    click.echo(f"Python {platform.python_version()}, highspy {version('highspy')}, one thread\n\n{_HEADER}\n{_RULE}")
    for row in _rows(plans, files, textbook):
        click.echo(_line(row))
    click.echo(f"\nMemory at most {_memory_mb()} MB.")


def _rows(plans: Path | None, files: Path | None, textbook: float) -> Iterator[Measured]:
    for path in sorted(plans.glob("*.yaml")) if plans else ():
        yield measured(path.stem, instances_of(path), None, textbook)
    for case in cases(files):
        yield measured_case(case, textbook)


def _line(row: Measured) -> str:
    cells = (
        row.name,
        row.pieces,
        row.lengths,
        row.boards,
        row.patterns,
        row.cost,
        row.bound,
        f"{row.gap_pct:.4f}",
        "" if row.least is None else row.least,
        row.fit,
        "" if row.textbook is None else row.textbook,
        f"{row.seconds:.2f}",
    )
    return f"| {' | '.join(str(cell) for cell in cells)} |"


def _memory_mb() -> str:
    try:
        import resource
    except ImportError:  # not on every system
        return "?"
    return str(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)


if __name__ == "__main__":
    main()
