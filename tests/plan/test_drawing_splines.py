"""Splines of a drawing are followed within the tolerance stated, and what can't be followed is told."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from pathlib import Path

import pytest
from drawing_shop import SETTINGS, drawing, line, outline_of, pairs, read, rules
from ezdxf.math import BSpline, Vec2

from takeoff.plan.drawing_in.splines import spline_points
from takeoff.plan.drawing_in.tags import Record

SIDES = line((0, 0), (360, 0)) + line((0, 240), (0, 0)) + line((360, 240), (0, 240))
CURVED = SETTINGS.replace("shape: gable\n      gables: [east, west]\n", "shape: edges\n").replace(
    "outline: {units: in}", "outline: {units: in, curve: 3}"
)
CONTROLS = [(360, 0), (440, 0), (440, 240), (360, 240)]
KNOTS = [0, 0, 0, 0, 1, 1, 1, 1]


def spline(controls: list[tuple[float, float]], knots: list[float], *more: object, code: int = 10) -> str:
    points = [value for x, y in controls for value in (code, x, code + 10, y)]
    turned = [value for knot in knots for value in (40, knot)]
    return pairs(0, "SPLINE", 5, "5B", 8, "WALLS", 71, 3, *turned, *more, *points)


def record(controls: list[tuple[float, float]], knots: list[float], weights: list[float]) -> Record:
    points = [tag for x, y in controls for tag in ((10, float(x)), (20, float(y)))]
    return Record("SPLINE", ((71, 3.0), *((40, k) for k in knots), *((41, w) for w in weights), *points))


def test_a_wall_drawn_as_a_spline_is_straight_pieces_on_it_and_is_told(tmp_path: Path) -> None:
    written = drawing(SIDES + spline(CONTROLS, KNOTS))
    bay = [(x, y) for x, y in outline_of(tmp_path, written, CURVED) if x > 360.01]
    # A cubic with both middle points 80 out reaches 3/4 of 80 out at its middle.
    assert max(x for x, _ in bay) == pytest.approx(420, abs=3)
    assert len(bay) >= 3
    [finding] = [each for each in read(tmp_path, written, CURVED)[1] if each.rule == "drawing.flattened"]
    assert finding.place.path == "layer WALLS, handle 5B"
    assert 'within 3" of it' in finding.message


@pytest.mark.parametrize("weights", [[], [1, 3, 0.5, 2, 1, 1]], ids=["plain", "weighed"])
def test_the_pieces_stand_off_the_curve_no_further_than_stated(weights: list[float]) -> None:
    """The curve by ezdxf's own evaluation, at 2000 places."""
    controls = [(0.0, 0.0), (40.0, 90.0), (120.0, -60.0), (200.0, 80.0), (210.0, 0.0), (300.0, 40.0)]
    knots = [0.0, 0.0, 0.0, 0.0, 1.0, 3.0, 4.0, 4.0, 4.0, 4.0]
    points = [Vec2(p) for p in spline_points(record(controls, knots, weights), 0.25)]
    curve = BSpline(controls, order=4, knots=knots, weights=weights or None)
    on = [Vec2(p) for p in curve.points([4 * k / 2000 for k in range(2001)])]
    pieces = list(pairwise(points))
    assert max(min(off(p, a, b) for a, b in pieces) for p in on[::20]) <= 0.25
    assert max(min(p.distance(q) for q in on) for p in points) <= 0.25


def off(p: Vec2, a: Vec2, b: Vec2) -> float:
    share = min(max((p - a).dot(b - a) / (b - a).dot(b - a), 0), 1)
    return hypot(*(p - a - (b - a) * share))


def test_a_spline_that_runs_round_without_ends_closes() -> None:
    """Knots a step apart and the first three points again at the end: as closed splines are written."""
    corners = [(0.0, 0.0), (360.0, 0.0), (360.0, 240.0), (0.0, 240.0)]
    points = spline_points(record([*corners, *corners[:3]], [float(k) for k in range(11)], []), 1.0)
    assert points[0] == pytest.approx(points[-1])
    # One sixth of the corners before and after, four sixths of its own: 60 in along x, 40 along y.
    assert points[0] == pytest.approx((300, 40))


def test_a_spline_by_the_points_it_goes_through_goes_through_them(tmp_path: Path) -> None:
    through = [(360.0, 0.0), (420.0, 120.0), (360.0, 240.0)]
    points = outline_of(tmp_path, drawing(SIDES + spline(through, [], code=11)), CURVED)
    assert max(x for x, _ in points) == pytest.approx(420, abs=0.1)


@pytest.mark.parametrize(
    "bad",
    [
        spline(CONTROLS, KNOTS[:-1]),
        spline(CONTROLS, KNOTS[::-1]),
        spline(CONTROLS[:2], KNOTS),
        spline(CONTROLS, KNOTS, 41, 1, 41, 0, 41, 1, 41, 1),
        spline([], []),
        pairs(0, "SPLINE", 8, "WALLS", 71, 99, 10, 1),
    ],
    ids=["knots lacking", "knots falling", "points lacking", "weight of nothing", "nothing", "half a point"],
)
def test_a_spline_that_cannot_be_followed_is_refused(tmp_path: Path, bad: str) -> None:
    assert rules(read(tmp_path, drawing(SIDES + bad), CURVED)[1]) == ["drawing.syntax"]
