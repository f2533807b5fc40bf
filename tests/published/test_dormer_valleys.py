"""Valleys of gable dormers against the manuals' valley and jack constants: a dormer's valley is any valley.

Sources (read): NAVEDTRA 14044 Builder 3&2 vol. 2, ch. 2 (valley rafter, fig. 2-41: 19.21 in a foot of run at 9 in 12;
jack rafters, common difference 19.23 in at 8 in 12 and 16 in on centre); a cyclopedia of construction, vol. 3 (common
difference at 6 in 12 and 16 in on centre: 1'-6", to the half inch). The constants hold for equal pitches: main roof and
dormer are given the one that a source has.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from shop import built, gable, with_role

from takeoff.model.building import FramedBuilding
from takeoff.sheets.stick_end import top_lengths

OUT_IN = 6.0
HALF_IN = 48.0


def dormered(pitch: str) -> FramedBuilding:
    """A wide house with a gable dormer of its own pitch, its rafters 16 in on centre."""
    dormer = {
        "side": "south",
        "shape": "gable",
        "center": "15'",
        "width": 2 * HALF_IN,
        "front": "2'",
        "height": "3'",
        "overhang": {"eave": OUT_IN},
        "rafters": {"size": "2x6", "spacing": 16},
    }
    roof = {"pitch": pitch, "rafters": {"size": "2x8"}, "ridge": {"kind": "board", "size": "2x10"}}
    return built(gable(span="40'", walls={"studs": "2x4"}, roof={**roof, "dormers": [dormer]}))


@pytest.mark.parametrize(
    ("pitch", "printed_in", "within_in"),
    [("8/12", 19.23, 0.005), ("6/12", 18.0, 0.25)],  # half a unit of the last figure printed
    ids=["NAVEDTRA, 8 in 12", "cyclopedia, 6 in 12"],
)
def test_valley_jacks_of_a_dormer_differ_by_the_printed_constant(
    pitch: str, printed_in: float, within_in: float
) -> None:
    jacks = with_role(dormered(pitch).members, "valley-jack")
    lengths = sorted({round(top_lengths(jack).centre_line, 6) for jack in jacks})
    assert len(lengths) > 2
    for short, long in pairwise(lengths):
        assert long - short == pytest.approx(printed_in, abs=within_in)


def test_a_dormers_valley_is_as_long_as_the_printed_constant_says() -> None:
    """19.21 in for each foot of the run from its tail cuts to its peak, along the outer edge of the valley plate."""
    plates = with_role(dormered("9/12").members, "valley-plate")
    assert len(plates) == 2
    for plate in plates:
        corners = list(plate.side.exterior.coords)
        outer = max(abs(b[0] - a[0]) for a, b in pairwise(corners) if abs(b[1] - a[1]) < 1e-6 and a[1] < 1e-6)
        run_ft = (HALF_IN + OUT_IN) / 12
        assert outer == pytest.approx(19.21 * run_ft, abs=0.005 * run_ft)
