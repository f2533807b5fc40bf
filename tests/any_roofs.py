"""Roofs that nobody thought of: hipped, gabled, winged and of unequal pitch, and a few that somebody did.

``FAMILIES`` gives buildings of one kind each; ``CASES`` are small ones by name. A law of any roof is asked
``for_every_roof``, which names the families and cases that don't meet it yet, and why.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import cos, dist, radians, sin
from typing import Any

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st
from shop import roofed
from strategies import DRESSED_IN, accepted, lengths, overhangs, spacings

from takeoff.plan.schema import Building

Written = dict[str, Any]
Point = tuple[float, float]

RANDOM_ROOFS = 5
BARGE_IN = 1.5
GLULAM = {"kind": "beam", "size": "5-1/2x14", "material": "glulam"}

roof_pitches = st.integers(2, 16).map(lambda rise: f"{rise}/12")


def rectangle(length: float, width: float) -> list[Point]:
    """From the south-west corner."""
    return [(0, 0), (length, 0), (length, width), (0, width)]


def ell(length: float, width: float, wing: float, out: float) -> list[Point]:
    """A wing at the east end of the north side."""
    return [
        (0, 0),
        (length, 0),
        (length, width + out),
        (length - wing, width + out),
        (length - wing, width),
        (0, width),
    ]


def tee(length: float, width: float, wing: float, out: float, at: float) -> list[Point]:
    """A wing on the north side, ``at`` from its west end."""
    return [
        (0, 0),
        (length, 0),
        (length, width),
        (at + wing, width),
        (at + wing, width + out),
        (at, width + out),
        (at, width),
        (0, width),
    ]


def horseshoe(length: float, width: float, wings: Point, outs: Point) -> list[Point]:
    """A wing at each end of the north side, west first."""
    (west, east), (far, farther) = wings, outs
    return [
        (0, 0),
        (length, 0),
        (length, width + farther),
        (length - east, width + farther),
        (length - east, width),
        (west, width),
        (west, width + far),
        (0, width + far),
    ]


def zed(length: float, width: float, step: float, out: float) -> list[Point]:
    """Two rectangles that stand side by side, one ``out`` further north."""
    return [
        (0, 0),
        (step, 0),
        (step, out),
        (length, out),
        (length, width + out),
        (length - step / 2, width + out),
        (length - step / 2, width),
        (0, width),
    ]


@st.composite
def wings(draw: st.DrawFn) -> list[Point]:
    """Square-cornered outlines with inner corners, counter-clockwise from the south-west corner."""
    length, width = draw(lengths(10, 40)), draw(lengths(8, 28))
    wing, out = draw(lengths(6, 16)), draw(lengths(4, 20))
    shape = draw(st.sampled_from(["ell", "tee", "horseshoe", "zed"]))
    if shape == "ell":
        assume(wing + 24 <= length)
        return ell(length, width, wing, out)
    if shape == "tee":
        at = draw(st.sampled_from([24.0, 48.0, 96.0]) | lengths(2, 12))
        assume(at + wing + 24 <= length)
        return tee(length, width, wing, out, at)
    if shape == "horseshoe":
        other, farther = draw(st.sampled_from([wing]) | lengths(6, 14)), draw(st.sampled_from([out]) | lengths(4, 14))
        assume(wing + other + 36 <= length)
        return horseshoe(length, width, (wing, other), (out, farther))
    assume(out + 48 <= width and length >= 144)
    return zed(length, width, length / 2, out)


rectangles = st.builds(rectangle, lengths(10, 40), lengths(8, 28))


def turned(points: list[Point], degrees: float) -> list[list[float]]:
    """The outline turned about its first corner."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return [[c * x - s * y, s * x + c * y] for x, y in points]


def gabled(points: list[Point]) -> list[int]:
    """Sides that can have a gable: between two outer corners, and no wider than the sides round them are long."""
    found = []
    for k in range(len(points)):
        before, a, b, after = (points[(k + j) % len(points)] for j in (-1, 0, 1, 2))
        outer = left_turn(before, a, b) and left_turn(a, b, after)
        if outer and dist(a, b) <= min(dist(before, a), dist(b, after)):
            found.append(k)
    return found


def left_turn(a: Point, b: Point, c: Point) -> bool:
    """Whether the outline has an outer corner at ``b``."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0


@st.composite
def one_pitch(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """All eaves, or some gables between eaves."""
    picked: list[int] = []
    for k in draw(st.permutations(gabled(ground))):
        if draw(st.booleans()) and not {(k - 1) % len(names), (k + 1) % len(names)} & set(picked):
            picked.append(k)
    pitch = draw(roof_pitches)
    return {"shape": "edges", "pitch": pitch, "edges": {names[k]: "gable" for k in sorted(picked)}}


@st.composite
def unequal_pitches(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """Hips all round, up to three sides with a pitch of their own."""
    own = draw(st.sets(st.sampled_from(names), min_size=1, max_size=3))
    return {
        "shape": "hip",
        "pitch": draw(roof_pitches),
        "pitches": {name: draw(roof_pitches) for name in names if name in own},
    }


Sides = Callable[[list[Point], list[str]], st.SearchStrategy[Written]]


@st.composite
def sticks(draw: st.DrawFn) -> Written:
    """Sizes and trim of a roof."""
    sizes = sorted(DRESSED_IN, key=DRESSED_IN.__getitem__)
    size = draw(st.sampled_from(sizes[1:]))
    deeper = [s for s in sizes if DRESSED_IN[s] >= DRESSED_IN[size]]
    eave, rake = draw(overhangs), draw(overhangs)
    beam = {"kind": "beam", **draw(st.sampled_from([{"size": "5-1/2x14", "material": "glulam"}, {"size": "4x10"}]))}
    board = {"kind": "board", "size": draw(st.sampled_from(["2x8", "2x10", "2x12"]))}
    written: Written = {
        "rafters": {"size": size, "spacing": draw(spacings)},
        "overhang": {"eave": eave, "rake": rake},
        "ridge": {**draw(st.sampled_from([board, beam])), "vent": draw(st.sampled_from([0.0, 0.0, 1.0]))},
        "blocking": {"eave": draw(st.sampled_from(["vented", "solid", "none"]))},
        "sheathing": {"field": "cdx-5/8", **draw(st.sampled_from([{}, {"exposed": "sanded-5/8"}]))},
    }
    for folds in ("hips", "valleys"):
        if draw(st.booleans()):
            written[folds] = {"size": draw(st.sampled_from(deeper))}
    if eave and draw(st.booleans()):
        written["tail"] = {
            "size": draw(st.sampled_from([s for s in ("2x4", "2x6") if DRESSED_IN[s] <= DRESSED_IN[size]]))
        }
    if draw(st.booleans()):
        written["fascia"] = {"size": draw(st.sampled_from(["2x6", "2x8", "1x8"]))}
    if rake >= BARGE_IN and draw(st.booleans()):
        written["barge"] = {"size": draw(st.sampled_from(["2x6", "2x8"]))}
        if draw(st.booleans()):
            written["outlookers"] = {"size": "2x4", "spacing": draw(spacings) * 2}
    return written


@st.composite
def roof_plans(draw: st.DrawFn, grounds: st.SearchStrategy[list[Point]], sides: Sides) -> Written:
    """One building over any of these outlines."""
    ground = draw(grounds)
    names = [f"side {k + 1}" for k in range(len(ground))]
    told = draw(sides(ground, names))
    roof = {**draw(sticks()), **told}
    walls: Written = {
        "height": draw(st.sampled_from([97.125, 109.125])),
        "studs": draw(st.sampled_from(["2x4", "2x6"])),
        "sheathing": {"product": "osb-7/16"},
    }
    gables = sorted(roof.get("edges", {}))
    if gables and draw(st.booleans()):
        walls["by_side"] = {draw(st.sampled_from(gables)): {"frame": "balloon"}}
    angle = draw(st.sampled_from([0.0, 0.0, 0.0, 90.0, 30.0]))
    return {"name": "hut", "outline": turned(ground, angle), "sides": names, "walls": walls, "roof": roof}


@st.composite
def buildings_of(draw: st.DrawFn, plans: st.SearchStrategy[Written]) -> Building:
    """As read, less those that are refused in words."""
    building = Building.model_validate(draw(plans))
    assume(accepted(building))
    return building


WRITTEN: Mapping[str, st.SearchStrategy[Written]] = {
    "hips over rectangles": roof_plans(rectangles, one_pitch),
    "roofs with wings": roof_plans(wings(), one_pitch),
    "pitches unequal": roof_plans(rectangles, unequal_pitches),
}
"""Plans of each family, as a builder writes them; some are refused."""

FAMILIES: Mapping[str, st.SearchStrategy[Building]] = {name: buildings_of(plans) for name, plans in WRITTEN.items()}

CASES: Mapping[str, Building] = {
    "hip": roofed(rectangle(288, 200), overhang={"eave": 16}, fascia={"size": "2x6"}),
    "hip without an overhang": roofed(rectangle(288, 200)),
    "pyramid": roofed(rectangle(240, 240)),
    "pyramid of odd size": roofed(rectangle(240, 239.9375), overhang={"eave": 12}, ridge=GLULAM),
    "gable on hip": roofed(
        rectangle(288, 200),
        shape="edges",
        edges={"side 2": "gable"},
        overhang={"eave": 16, "rake": 12},
        barge={"size": "2x6"},
        outlookers={},
        fascia={"size": "2x6"},
    ),
    "gable of two pitches": roofed(
        rectangle(288, 200),
        walls={"by_side": {"side 4": {"frame": "balloon"}}},
        shape="edges",
        edges={"side 2": "gable", "side 4": "gable"},
        pitches={"side 1": "4/12"},
        overhang={"eave": 16},
    ),
    "hip of two pitches": roofed(rectangle(288, 200), pitch="4/12", pitches={"side 2": "8/12"}, overhang={"eave": 16}),
    "hip on thin ridge boards": roofed(
        rectangle(120, 96),
        pitch="2/12",
        shape="edges",
        edges={"side 4": "gable"},
        rafters={"size": "2x6", "spacing": 12},
        ridge={"kind": "board", "size": "1x8"},
    ),
    "steep hip on a short seat": roofed(
        rectangle(191.25, 168),
        pitch="14/12",
        rafters={"size": "2x12", "seat": 1.5},
        hips={"size": "2x14"},
        overhang={"eave": 3},
    ),
    "hip of two pitches, its hips off the corners": roofed(
        rectangle(288, 200), pitch="5/12", pitches={"side 2": "2/12", "side 3": "2/12"}, overhang={"eave": 16}
    ),
    "ell": roofed(ell(360, 240, 168, 160), overhang={"eave": 16}, fascia={"size": "2x6"}),
    "ell without an overhang": roofed(ell(360, 240, 168, 160)),
    "ell of gables on beams": roofed(
        ell(360, 240, 168, 160),
        walls={"by_side": {"side 3": {"frame": "balloon"}}},
        shape="edges",
        edges={"side 3": "gable", "side 6": "gable"},
        overhang={"eave": 16},
        ridge=GLULAM,
    ),
    "ell with a jack on a node": roofed(ell(264, 96, 72, 48), pitch="4/12", rafters={"size": "2x6", "spacing": 12}),
    "tee": roofed(tee(480, 240, 160, 120, 64), overhang={"eave": 16}, fascia={"size": "2x6"}),
    "zed": roofed(zed(480, 216, 240, 64), pitch="6/12", rafters={"size": "2x8", "spacing": 24}, overhang={"eave": 15}),
}


Law = Callable[[Building], None]


def for_every_roof(unmet: Mapping[str, str] | None = None) -> Callable[[Law], Callable[..., None]]:
    """Asks a law of every case, and of some roofs of every family.

    Args:
        unmet: cases and families that don't meet it yet, each with the reason. A case must fail, until the frame is
            mended; of a family some roofs may hold.
    """
    reasons = unmet or {}
    known = {*FAMILIES, *CASES}
    assert set(reasons) <= known, f"no such roofs: {sorted(set(reasons) - known)}"

    def asked(law: Law) -> Callable[..., None]:
        @pytest.mark.parametrize("roof", [_marked(name, reasons.get(name)) for name in (*CASES, *FAMILIES)])
        def test(roof: str) -> None:
            if roof in CASES:
                law(CASES[roof])
            else:
                settings(max_examples=RANDOM_ROOFS, phases=_phases(roof in reasons))(given(FAMILIES[roof])(law))()

        test.__doc__ = law.__doc__
        return test

    return asked


def _phases(unmet: bool) -> list[Phase]:
    """What fails on purpose isn't made small."""
    return [Phase.explicit, Phase.generate] if unmet else list(Phase)


def _marked(name: str, reason: str | None) -> Any:
    marks = [pytest.mark.xfail(strict=name in CASES, reason=reason)] if reason else []
    return pytest.param(name, marks=marks, id=name)
