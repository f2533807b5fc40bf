from __future__ import annotations

from takeoff.cutting.ids import stock_ids
from takeoff.cutting.natural import natural_key


def test_names_with_numbers_stand_as_a_builder_puts_them():
    assert sorted(["R10", "2x10", "R2", "5-1/2x14", "2x4"], key=natural_key) == ["2x4", "2x10", "5-1/2x14", "R2", "R10"]


def test_an_id_is_delivery_bunch_and_number():
    bunches = [(1, "2x4", "stud"), (1, "2x4", "stud"), (1, "2x6", "stud"), (2, "2x10", "no2")]
    assert list(stock_ids(bunches)) == ["1A1", "1A2", "1B1", "2A1"]


def test_no_id_reads_as_a_number_however_many_bunches_there_are():
    ids = list(stock_ids((1, str(bunch), "") for bunch in range(60)))
    assert len(set(ids)) == 60
    assert ids[23] == "1AA1"
    assert not any(set("EIO") & set(stock_id) for stock_id in ids)
