"""Counts of sticks on centre, against rules and worked examples of manuals.

Sources: rows of ``data/counts_on_centre.csv``; Estimating in Building Construction, example 13-15, p. 160 (read);
NAVEDTRA 14044 Builder 3&2 vol. 2, ch. 2, end framing, fig. 2-29 (read); the rule length / spacing + 1 is common
practice, and so is three times the length of the walls for their plates (no source).
"""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import pytest
from rafter_measure import gable_stud_tops, section, south, steps_of
from shop import built, gable, with_role

from takeoff.measure import parse_length
from takeoff.plan.schema import Building

COUNTS = list(csv.DictReader((Path(__file__).parent / "data" / "counts_on_centre.csv").read_text().splitlines()))
BOARD = {"kind": "board", "size": "2x12"}


def hut(length: str, *, spacing: float, pitch: str = "8/12", span: str = "20'") -> Building:
    return gable(
        length=length,
        span=span,
        walls={"spacing": spacing},
        roof={"pitch": pitch, "rafters": {"size": "2x8", "spacing": spacing}, "ridge": BOARD},
    )


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: row["example"])
def test_rafters_a_side_are_the_spaces_and_one(row):
    """Spaces up to whole: whatever stands on centre from end to end, the rule is the same."""
    framed = built(hut(row["length"], spacing=float(row["spacing_in"])))
    rafters = with_role(framed.members, "common-rafter", "end-rafter")
    assert [sum(m.face == f"{side} slope" for m in rafters) for side in ("south", "north")] == [int(row["count"])] * 2


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: row["example"])
def test_rafters_stand_the_spacing_apart_and_flush_with_the_ends(row):
    length, spacing = parse_length(row["length"]), float(row["spacing_in"])
    framed = built(hut(row["length"], spacing=spacing))
    found = (*south(framed, "common-rafter"), *south(framed, "end-rafter"))
    centres = sorted(m.placement.origin[0] for m in found)
    assert (centres[0], centres[-1]) == pytest.approx((0.75, length - 0.75), abs=1e-6)
    inner = centres[1:-1]
    assert inner[0] == pytest.approx(spacing, abs=1e-6)
    assert [b - a for a, b in pairwise(inner)] == pytest.approx([spacing] * (len(inner) - 1), abs=1e-6)
    assert 0 < length - inner[-1] <= spacing + 1e-6  # the last bay may be short


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: row["example"])
def test_studs_of_a_wall_are_the_spaces_and_one_and_backing_at_both_corners(row):
    """Pocketbook: 46 for 60 ft, and two more at each return; the second of those is the end stud of the wall there."""
    framed = built(hut(row["length"], spacing=float(row["spacing_in"])))
    on_layout = [m for m in with_role(framed.members, "stud") if m.face == "south"]
    backing = [m for m in with_role(framed.members, "corner-stud") if m.face == "south"]
    assert (len(on_layout), len(backing)) == (int(row["count"]), 2)


def test_a_gable_of_24_ft_has_19_studs_on_centre_two_of_which_have_no_height():
    """Example 13-15, 24 x 0.75 is 18 spaces, 19 studs, 2 ft high on the average: a rise of 4 ft in 12, 4 in 12.

    The first and the last stand where the rake meets the plate, and nothing is left of them to cut.
    """
    framed = built(hut("8'", spacing=16, pitch="4/12", span="24'"))
    for face in ("east", "west"):
        tops = gable_stud_tops(framed, face)
        assert [y for y, _ in tops] == pytest.approx([16 * k for k in range(1, 18)], abs=1e-6)
    rafter = section(framed)
    measuring_line = [rafter.top_at(16 * min(k, 18 - k))[1] - rafter.top_at(0.0)[1] for k in range(19)]
    assert sum(measuring_line) / 18 == pytest.approx(24, abs=1e-6)  # the average over 18 spaces


@pytest.mark.parametrize(
    ("spacing", "step_in"),
    [
        pytest.param(24, 12.0, id="24 in"),  # NAVEDTRA 14044: 2 ft x 6 in a foot
        pytest.param(16, 8.0, id="16 in"),  # the same rule; derived
    ],
)
def test_a_taller_gable_stud_is_the_same_stud_one_difference_longer(spacing, step_in):
    framed = built(hut("8'", spacing=spacing, pitch="6/12", span="24'"))
    west = [(m.placement.origin[1], m.length_in) for m in with_role(framed.members, "gable-stud") if m.face == "west"]
    steps = steps_of(sorted(west), spacing, peak=144.0)
    assert steps == pytest.approx([step_in] * (144 // spacing - 2), abs=1e-6)


def test_plates_are_three_times_the_walls_but_the_corners_which_only_one_of_two_walls_fills():
    """24 x 40 ft: 3 x 128 ft is 384 ft by the rule; each of three layers has four corners of 5-1/2 in to save."""
    framed = built(hut("40'", spacing=16, span="24'"))
    total = sum(m.length_in for m in with_role(framed.members, "bottom-plate", "top-plate", "cap-plate"))
    assert total + 3 * 4 * 5.5 == pytest.approx(384 * 12, abs=1e-6)
