"""More kinds of random roofs, as a builder writes them: sheds, gambrels, clips, dormers, porches; some are refused."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

from any_roofs import WRITTEN, Point, Written, gabled, rectangle, roof_pitches, roof_plans, wings
from hypothesis import assume
from hypothesis import strategies as st
from strategies import lengths

small = st.builds(rectangle, lengths(12, 30), lengths(10, 24))


def feet(least: int, most: int) -> st.SearchStrategy[float]:
    """A length in inches: whole feet, or any sixteenth."""
    return st.integers(least, most).map(lambda n: n * 12.0) | st.integers(least * 192, most * 192).map(lambda n: n / 16)


@st.composite
def splayed(draw: st.DrawFn) -> list[Point]:
    """Octagons, rectangles with a corner cut off, and with a bay of three sides: corners of 45 degrees."""
    shape = draw(st.sampled_from(["octagon", "corner", "bay"]))
    if shape == "octagon":
        cut = draw(feet(3, 9))
        long = draw(st.sampled_from([cut * sqrt(2)]) | feet(4, 14))
        wide = draw(st.sampled_from([long]) | feet(4, 14))
        x, y = long + 2 * cut, wide + 2 * cut
        ring = [(cut, 0.0), (x - cut, 0.0), (x, cut), (x, y - cut), (x - cut, y), (cut, y), (0.0, y - cut), (0.0, cut)]
        return [(float(u), float(v)) for u, v in ring]
    length, width, cut = draw(feet(16, 32)), draw(feet(12, 22)), draw(feet(2, 5))
    if shape == "corner":
        return [(0, 0), (length, 0), (length, width - cut), (length - cut, width), (0, width)]
    front, at = draw(feet(3, 6)), draw(feet(2, 12))
    assume(at + front + 2 * cut + 24 <= length)
    west, east, out = at + cut, at + cut + front, width + cut
    return [
        (0, 0),
        (length, 0),
        (length, width),
        (east + cut, width),
        (east, out),
        (west, out),
        (at, width),
        (0, width),
    ]


@st.composite
def hipped(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """Hips all round, deep enough for the flat ones over corners of 45 degrees."""
    pitch = draw(st.integers(3, 12).map(lambda rise: f"{rise}/12"))
    return {"shape": "hip", "pitch": pitch, "hips": {"size": "2x14"}}


@st.composite
def gables_of(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """Gables at two ends, the slopes of one pitch or two, the eaves kept or the walls."""
    written: Written = {
        "shape": "gable",
        "gables": draw(st.sampled_from([[names[1], names[3]], [names[0], names[2]]])),
        "pitch": draw(roof_pitches),
    }
    if draw(st.booleans()):
        eave = names[0] if names[1] in written["gables"] else names[1]
        written |= {"pitches": {eave: draw(roof_pitches)}, "keep": draw(st.sampled_from(["plate_line", "eave_line"]))}
    return written


@st.composite
def sheds(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """One slope, from any side."""
    pitch = draw(st.integers(2, 6).map(lambda rise: f"{rise}/12"))
    return {"shape": "shed", "low": draw(st.sampled_from(names)), "pitch": pitch, "ridge": None}


@st.composite
def gambrels(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """Two slopes a side, on purlins."""
    upper = {
        "pitch": draw(st.integers(3, 7).map(lambda rise: f"{rise}/12")),
        "run": draw(st.sampled_from([30.0, 36.0, 42.5])),
        "purlin": {"size": "3-1/2x9-1/2", "material": "lvl"},
    }
    pitch = draw(st.integers(14, 22).map(lambda rise: f"{rise}/12"))
    beam = {"kind": "beam", "size": "3-1/2x11-7/8", "material": "lvl"}
    return {"shape": "gambrel", "gables": [names[1], names[3]], "pitch": pitch, "upper": upper, "ridge": beam}


@st.composite
def clips(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """Gables and hips, some of both cut short: by a clip, by a small gable."""
    ends = [names[k] for k in gabled(ground)]
    picked = draw(st.lists(st.sampled_from(ends), min_size=1, max_size=2, unique=True)) if ends else []
    if len(picked) == 2 and abs(names.index(picked[0]) - names.index(picked[1])) in (1, len(names) - 1):
        picked = picked[:1]
    clipped = {name: {"run": draw(st.sampled_from([24.0, 30.0, 36.0]))} for name in picked if draw(st.booleans())}
    hipped = [name for name in ends if name not in picked]
    small: Written = {name: {"run": draw(st.sampled_from([24.0, 36.0]))} for name in hipped[:1] if draw(st.booleans())}
    out: Written = {}
    if small and draw(st.booleans()):
        small[hipped[0]]["overhang"] = 10.0
        out = {"barge": {"size": "2x6"}, "overhang": {"eave": 12.0, "rake": 10.0}}
    return {
        **out,
        "shape": "edges",
        "pitch": draw(st.integers(6, 14).map(lambda rise: f"{rise}/12")),
        "edges": dict.fromkeys(picked, "gable"),
        "clips": clipped,
        "gablets": small,
    }


@st.composite
def dormers(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """A gable roof with a dormer on its south slope."""
    shape = draw(st.sampled_from(["gable", "shed"]))
    dormer: Written = {
        "side": names[0],
        "shape": shape,
        "center": ground[1][0] / 2,
        "width": draw(st.sampled_from([42.0, 48.0, 60.0])),
        "front": draw(st.sampled_from([8.0, 16.0])),
        "height": draw(st.sampled_from([24.0, 30.0, 36.0])),
        "pitch": "3/12" if shape == "shed" else draw(st.sampled_from(["6/12", "8/12"])),
        "rafters": {"size": "2x6"},
        "overhang": {"eave": 6.0},
    }
    pitch = draw(st.integers(8, 12).map(lambda rise: f"{rise}/12"))
    return {"shape": "gable", "gables": [names[1], names[3]], "pitch": pitch, "dormers": [dormer]}


@st.composite
def porches(draw: st.DrawFn, ground: list[Point], names: list[str]) -> Written:
    """A gable roof with a porch at a gable wall."""
    shape = draw(st.sampled_from(["shed", "gable"]))
    porch: Written = {
        "side": names[1],
        "shape": shape,
        "center": ground[2][1] / 2,
        "width": draw(st.sampled_from([72.0, 84.0, 96.0])),
        "depth": draw(st.sampled_from([48.0, 60.0, 72.0])),
        "pitch": "3/12" if shape == "shed" else "6/12",
        "beam": {"size": "2-2x8"},
        "beam_height": draw(st.sampled_from([80.0, 84.0])),
        "posts": {"size": "4x4"},
        "rafters": {"size": "2x6"},
        "overhang": {"eave": 8.0, "rake": 0.0},
    }
    if shape == "gable":
        porch["ridge"] = {"kind": "board", "size": "2x8"}
    pitch = draw(st.integers(5, 10).map(lambda rise: f"{rise}/12"))
    return {"shape": "gable", "gables": [names[1], names[3]], "pitch": pitch, "porches": [porch]}


MANY: Mapping[str, st.SearchStrategy[Written]] = {
    **WRITTEN,
    "corners of 45 degrees": roof_plans(splayed(), hipped),
    "gables": roof_plans(small, gables_of),
    "sheds": roof_plans(small, sheds),
    "gambrels": roof_plans(st.builds(rectangle, lengths(14, 28), lengths(14, 22)), gambrels),
    "clips and small gables": roof_plans(small | wings(), clips),
    "dormers": roof_plans(st.builds(rectangle, lengths(18, 30), lengths(16, 22)), dormers),
    "porches": roof_plans(small, porches),
}
