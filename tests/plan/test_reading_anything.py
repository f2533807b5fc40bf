"""Whatever stands in the file, it is read or refused: no other error, and in bounded time."""

from __future__ import annotations

import contextlib
import copy
import json
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from takeoff.findings import PlanError
from takeoff.plan.read import read_plan
from takeoff.plan.tree import plain, read_tree

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "curlew-cabin.yaml"
DATA = plain(read_tree(SAMPLE.read_text(encoding="utf-8"))[0])
YAML_MARKS = st.text(alphabet=list("ab:- \n\t[]{},&*!|>%@`'\"#?0.~\\x\u2028\ufeff"), max_size=60)
ODD = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=12), st.lists(st.integers(), max_size=3),
    st.dictionaries(st.text(max_size=5), st.integers(), max_size=2),
    st.sampled_from(["0'", "-1\"", "1'", "200'", "2x4", "1x2", "3x10", "5-1/2x14", "24/12", "1/12", "east", "lvl"]),
)  # fmt: skip
ONE_FOLDER = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def read_or_refuse(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    with contextlib.suppress(PlanError):
        read_plan(path)


def spots(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(spot for step, part in steps for spot in spots(part, (*path, step)))]


@ONE_FOLDER
@given(content=st.binary(max_size=80))
def test_any_bytes_are_read_or_refused(tmp_path: Path, content: bytes) -> None:
    read_or_refuse(tmp_path / "plan.yaml", content)


@ONE_FOLDER
@given(text=YAML_MARKS)
def test_any_heap_of_marks_is_read_or_refused(tmp_path: Path, text: str) -> None:
    read_or_refuse(tmp_path / "plan.yaml", text.encode())


@ONE_FOLDER
@given(spot=st.sampled_from(spots(DATA)[1:]), odd=ODD)
def test_a_plan_odd_in_one_spot_is_read_or_refused(tmp_path: Path, spot: tuple[str | int, ...], odd: Any) -> None:
    data = copy.deepcopy(DATA)
    part: Any = data
    for step in spot[:-1]:
        part = part[step]
    part[spot[-1]] = odd
    read_or_refuse(tmp_path / "plan.yaml", json.dumps(data).encode())


@pytest.mark.parametrize(
    "text",
    [
        "[" * 500_000,
        "{a: " * 200_000,
        "- " * 400_000,
        "&a [" * 200_000,
        "a: " + "9" * 900_000,
        "'" * 900_001,
        "%YAML 9.9\n---\na: 1\n",
        "%TAG ! tag:x,2000:\n---\na: !b 1\n",
        'a: "\\U99999999"\n',
        'a: "\\ud800"\n',
        "a: 1\x00\n",
    ],
    ids=lambda text: text[:6],
)
def test_a_hostile_file_is_refused_quickly(tmp_path: Path, text: str) -> None:
    start = time.perf_counter()
    (tmp_path / "plan.yaml").write_text(text)
    with pytest.raises(PlanError):
        read_plan(tmp_path / "plan.yaml")
    assert time.perf_counter() - start < 5
