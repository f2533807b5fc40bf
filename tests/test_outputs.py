"""The committed results of the sample plan are what a fresh run gives, byte for byte."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from shop import CABIN, ROOT

COMMITTED = ROOT / "outputs" / "curlew-cabin"


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Results of a run in a process of its own, with another hash seed than this one's."""
    folder = tmp_path_factory.mktemp("fresh") / "curlew-cabin"
    command = [sys.executable, "-m", "takeoff", "run", str(CABIN), "--into", str(folder)]
    subprocess.run(command, check=True, capture_output=True, env={**os.environ, "PYTHONHASHSEED": "7"})
    return folder


def names(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_the_same_files_are_there(fresh: Path) -> None:
    assert names(fresh) == names(COMMITTED)


@pytest.mark.parametrize("name", names(COMMITTED))
def test_every_file_has_the_same_bytes(fresh: Path, name: str) -> None:
    assert (fresh / name).read_bytes() == (COMMITTED / name).read_bytes()
