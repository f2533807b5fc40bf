"""The command that measures the cutter."""

from __future__ import annotations

from random import Random

import pytest
from click.testing import CliRunner

from takeoff.cutting.bench import __main__ as bench
from takeoff.cutting.bench.instances import bins, from_file, large_job, triplets, uniform
from takeoff.cutting.bench.measure import measured, measured_case
from takeoff.cutting.bench.textbook import textbook_cost
from takeoff.cutting.exact.start import first_plans


def test_cases_are_made_as_their_definitions_say():
    three = triplets(60, Random(1)).instance
    assert sum(item.width * item.qty for item in three.items) == 20 * 1000
    assert sum(uniform(250, Random(1)).instance.demand) == 250
    assert all(20 <= item.width <= 100 for item in uniform(250, Random(1)).instance.items)
    job = large_job(Random(1)).instance
    assert (len(job.items), sum(job.demand)) == (500, 20_000)


def test_the_same_seed_makes_the_same_case():
    assert large_job(Random(1)) == large_job(Random(1))


def test_a_benchmark_file_is_read_and_one_that_lacks_sizes_refused(tmp_path):
    path = tmp_path / "u3_00.txt"
    path.write_text("10\n3\n2\n7\n5\n3\n", encoding="ascii")
    case = from_file(path)
    assert (case.least, case.instance) == (2, bins(10, [(7, 1), (5, 1), (3, 1)]))
    path.write_text("10\n4\n2\n7\n5\n3\n", encoding="ascii")
    with pytest.raises(ValueError, match="3 sizes, not the 4"):
        from_file(path)


def test_the_textbook_programme_finds_the_least_cost_of_a_small_case():
    instance = bins(100, [(48, 1), (42, 2), (36, 3), (30, 2), (27, 1), (24, 1), (19, 1)])
    fit = max(first_plans(instance), key=lambda plan: plan.cost(instance))
    assert textbook_cost(instance, fit, 10.0) == 4


def test_a_case_is_measured_in_every_way_and_printed_in_a_row(monkeypatch):
    case = triplets(30, Random(3))
    row = measured_case(case, 0.5)
    assert (row.cost, row.bound, row.least, row.gap_pct) == (10, 10, 10, 0.0)
    assert row.fit >= row.textbook >= row.cost
    assert measured("twice", [case.instance] * 2, None, 0.0).cost == 20
    monkeypatch.setattr(bench, "cases", lambda folder: iter([case]))
    printed = CliRunner().invoke(bench.main, ["--textbook", "0"])
    assert printed.exit_code == 0
    assert "| triplets, 30 | 30 |" in printed.output
