"""Help and small answers come at once: the command line pulls in no heavy library before a command needs it."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from shop import ROOT

HEAVY = {
    "ezdxf", "highspy", "numpy", "openpyxl", "pandas", "pydantic", "ruamel", "shapely", "typst", "xlsxwriter",
}  # fmt: skip


def packages_after(statement: str) -> set[str]:
    """Top-level packages that a fresh interpreter has once it has run a statement."""
    script = (
        f"{statement}\nimport json, sys\nprint(json.dumps(sorted({{name.partition('.')[0] for name in sys.modules}})))"
    )
    ran = subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True, cwd=ROOT)
    return set(json.loads(ran.stdout.splitlines()[-1]))


@pytest.mark.parametrize("module", ["takeoff.cli", "takeoff.measure", "takeoff.findings"])
def test_importing_the_command_line_brings_no_heavy_library_along(module: str) -> None:
    loaded = packages_after(f"import {module}")
    assert "takeoff" in loaded
    assert loaded & HEAVY == set()


def test_framing_and_cutting_bring_no_writer_of_files_along() -> None:
    loaded = packages_after("import takeoff.framing.frame, takeoff.sheathing.sheathe, takeoff.cutting.lumber")
    assert loaded & {"ezdxf", "openpyxl", "pandas", "typst", "xlsxwriter"} == set()


def test_the_answer_for_one_rafter_reads_no_plan() -> None:
    loaded = packages_after(
        "from click.testing import CliRunner\nfrom takeoff.cli import main\n"
        "assert CliRunner().invoke(main, ['rafter', '8/12', '--run', '120']).exit_code == 0"
    )
    assert loaded & {"ezdxf", "openpyxl", "pandas", "pydantic", "ruamel", "typst", "xlsxwriter"} == set()
