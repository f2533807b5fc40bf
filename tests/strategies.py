"""Plans that nobody thought of: hypothesis strategies for gabled buildings, with a pool of nasty ones.

``any_plans`` gives what a builder writes, as plain dicts; ``buildings`` the same once read, less those that the plan's
own rules refuse. A law of all buildings is asked ``for_any_building``.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin
from typing import Any

from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.plan.schema import Building
from takeoff.plan.verify import building_flaws

Written = dict[str, Any]

RANDOM_BUILDINGS = 6
STUD_IN = 1.5
SIDES = ("south", "east", "north", "west")
DRESSED_IN = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}
"""Depths of what the strategies write [in]; dressed sizes of PS 20, from memory."""

sixteenths = st.integers(0, 15).map(lambda n: n / 16)
spacings = st.sampled_from([12.0, 16.0, 19.2, 24.0])
overhangs = st.sampled_from([0.0, 3.0, 12.0, 16.0, 24.0]) | st.integers(0, 24 * 16).map(lambda n: n / 16)
seats = st.sampled_from([{}, {}, {}, {"seat": 1.5}, {"seat": 2.5}, {"seat": 3.5}])
pitches = st.integers(2, 18).map(lambda rise: f"{rise}/12") | st.sampled_from(["2.5/12", "33.7deg", "45deg"])


def lengths(least_ft: int, most_ft: int) -> st.SearchStrategy[float]:
    """Lengths as a builder has them [in]: mostly whole feet, some to the sixteenth, some on or beside a layout line."""
    feet = st.integers(least_ft, most_ft).map(lambda n: n * 12.0)
    odd = st.tuples(st.integers(least_ft * 12, most_ft * 12 - 1), sixteenths).map(sum)
    beside = st.tuples(
        st.integers(-(-least_ft * 12 // 16) + 1, most_ft * 12 // 16 - 1),
        st.sampled_from([-1.5, -0.75, -1 / 16, 1 / 16, 0.75, 1.5, 3.0]),
    ).map(lambda n: n[0] * 16 + n[1])
    return feet | odd | beside


@st.composite
def outlines(draw: st.DrawFn, length: float, span: float) -> Written:
    """A rectangle with its ridge along ``length``: anywhere, turned by any angle, written either way round."""
    angle = radians(draw(st.sampled_from([0.0, 0.0, 90.0, 180.0, 45.0]) | st.floats(0.0, 360.0)))
    x0, y0 = draw(st.sampled_from([(0.0, 0.0), (-130.0, 77.25), (1000.0, -2000.0)]))
    square = [(0.0, 0.0), (length, 0.0), (length, span), (0.0, span)]
    points = [[x0 + x * cos(angle) - y * sin(angle), y0 + x * sin(angle) + y * cos(angle)] for x, y in square]
    names = list(SIDES)
    if draw(st.booleans()):
        points, names = [points[0], *points[:0:-1]], names[::-1]
    first = draw(st.integers(0, 3))
    return {"outline": points[first:] + points[:first], "sides": names[first:] + names[:first]}


@st.composite
def openings(draw: st.DrawFn, side: str, length: float) -> list[Written]:
    """Up to three openings of one side, from left to right, with room for their studs and the corners'."""
    placed: list[Written] = []
    at = 5.5 + STUD_IN  # the deepest neighbour and its end stud
    for _ in range(draw(st.integers(0, 3))):
        kind = draw(st.sampled_from(["window", "window", "door", "cased"]))
        width = draw(st.sampled_from([24.0, 30.0, 36.0, 72.0]))
        jacks = draw(st.sampled_from([None, 1, 2]))
        framing = (1 + (jacks or 1)) * STUD_IN
        left = at + framing + draw(st.sampled_from([0.0, 0.5, 11.25, 30.0]))
        rough = width + {"window": 0.5, "door": 2.0, "cased": 0.0}[kind]
        if left + rough + framing + 5.5 + STUD_IN > length:
            break
        height = draw(st.sampled_from([12.0, 48.0])) if kind == "window" else 80.0
        written = {"side": side, "left": left, "size": {"width": width, "height": height}, "kind": kind}
        placed.append({**written, **({"jacks": jacks} if jacks else {})})
        at = left + rough + framing
    return placed


@st.composite
def walls(draw: st.DrawFn, length: float, span: float) -> Written:
    """Walls of 2x4 or 2x6, platform or balloon in the gables, with openings that fit."""
    written: Written = {
        "height": draw(st.sampled_from([97.125, 97.125, 109.125, 105.0625])),
        "studs": draw(st.sampled_from(["2x4", "2x6"])),
        "spacing": draw(spacings),
        "sheathing": {"product": draw(st.sampled_from(["osb-7/16", "cdx-1/2"]))},
        "openings": [o for side, run in zip(SIDES, (length, span) * 2, strict=True) for o in draw(openings(side, run))],
    }
    own = {
        side: {
            "frame": draw(st.sampled_from(["platform", "balloon"])),
            **draw(st.sampled_from([{}, {}, {"studs": "2x4"}, {"studs": "2x6", "spacing": 12.0}])),
        }
        for side in ("east", "west")
    }
    return {**written, "by_side": own}


@st.composite
def roofs(draw: st.DrawFn) -> Written:
    """A roof over ``gables`` east and west, on a beam or a board."""
    size = draw(st.sampled_from(sorted(DRESSED_IN, key=DRESSED_IN.__getitem__)[1:]))
    shallower = [s for s in DRESSED_IN if DRESSED_IN[s] <= DRESSED_IN[size]]
    eave, rake = draw(overhangs), draw(overhangs)
    beam = st.sampled_from(
        [
            {"size": "5-1/2x14", "material": "glulam"},
            {"size": "3-1/2x11-7/8", "material": "lvl"},
            {"size": "6x12"},
            {"size": "4x10"},
        ]
    ).map(lambda ridge: {"kind": "beam", **ridge})
    board = st.sampled_from(["1x8", "2x8", "2x10", "2x12"]).map(lambda ridge: {"kind": "board", "size": ridge})
    ridge = {**draw(beam | board), "vent": draw(st.sampled_from([0.0, 0.0, 1.0, 2.0]))}
    written: Written = {
        "shape": "gable",
        "gables": draw(st.sampled_from([["east", "west"], ["west", "east"]])),
        "pitch": draw(pitches),
        "rafters": {"size": size, "spacing": draw(spacings), **draw(seats)},
        "overhang": {"eave": eave, "rake": rake},
        "ridge": ridge,
        "blocking": {"eave": draw(st.sampled_from(["vented", "solid", "none"]))},
        "sheathing": {"field": "cdx-5/8", **draw(st.sampled_from([{}, {"exposed": "sanded-5/8"}]))},
    }
    if eave and draw(st.booleans()):
        written["tail"] = {"size": draw(st.sampled_from(shallower))}
    if draw(st.booleans()):
        written["fascia"] = {"size": draw(st.sampled_from(["2x6", "2x8", "1x8"]))}
    if rake >= STUD_IN and draw(st.booleans()):
        written["barge"] = {"size": draw(st.sampled_from(["2x6", "2x8", "2x10"]))}
        if draw(st.booleans()):
            written["outlookers"] = {"size": draw(st.sampled_from(["2x4", "2x6"])), "spacing": draw(spacings) * 2}
    return written


@st.composite
def any_plans(draw: st.DrawFn) -> Written:
    """One building, 8' to 60' long and 8' to 32' wide."""
    length, span = draw(lengths(8, 60)), draw(lengths(8, 32))
    return {
        "name": "hut",
        **draw(outlines(length, span)),
        "walls": draw(walls(length, span)),
        "roof": draw(roofs()),
    }


def nasty(length: float, span: float, roof: Written, walls: Written | None = None) -> Written:
    """A rectangle with its ridge along ``length``, the roof and the walls of a plan taken over by these keys."""
    return {
        "name": "hut",
        "outline": [[0.0, 0.0], [length, 0.0], [length, span], [0.0, span]],
        "sides": list(SIDES),
        "walls": {"studs": "2x6", "sheathing": {"product": "osb-7/16"}, **(walls or {})},
        "roof": {
            "shape": "gable",
            "gables": ["east", "west"],
            "pitch": "8/12",
            "rafters": {"size": "2x10"},
            "ridge": {"kind": "beam", "size": "5-1/2x14", "material": "glulam"},
            "sheathing": {"field": "cdx-5/8", "exposed": "sanded-5/8"},
            **roof,
        },
    }


BALLOON: Written = {"by_side": {"east": {"frame": "balloon"}, "west": {"frame": "balloon"}}}
TRIMMED: Written = {
    "overhang": {"eave": 16.0, "rake": 12.0},
    "barge": {"size": "2x10"},
    "outlookers": {},
    "fascia": {"size": "2x6"},
}

NASTY: tuple[Written, ...] = (
    # the narrowest and the shortest that are accepted
    nasty(48.0, 48.0, {"rafters": {"size": "2x6"}, "ridge": {"kind": "board", "size": "2x8"}}),
    nasty(12.0 * 4, 12.0 * 32, TRIMMED),
    # a common rafter just beside an end rafter, or just in its way
    nasty(16.0 * 20 + 1.5, 240.0, TRIMMED),
    nasty(16.0 * 20 + 2.25, 240.0, TRIMMED),
    nasty(16.0 * 20, 240.0, TRIMMED, BALLOON),
    # gable walls thinner, and thicker, than the eave walls
    nasty(240.0, 240.0, {"rafters": {"size": "2x12"}}, {"by_side": {"east": {"studs": "2x4"}}}),
    nasty(240.0, 192.0, TRIMMED, {"studs": "2x4", "by_side": {"west": {"studs": "2x6", "frame": "balloon"}}}),
    # a bay at one end only as wide as a stick is thick
    nasty(16.0 * 20 + 3.75, 240.0, TRIMMED, BALLOON),
    # the steepest and the flattest
    nasty(240.0, 120.0, {**TRIMMED, "pitch": "24/12"}, BALLOON),
    nasty(240.0, 384.0, {**TRIMMED, "pitch": "1/12"}, BALLOON),
    # a ridge board deeper than the rafters' plumb cut, over studs that reach to the rake
    nasty(240.0, 240.0, {"rafters": {"size": "2x6"}, "ridge": {"kind": "board", "size": "2x12"}}, BALLOON),
    nasty(240.0, 240.0, {"rafters": {"size": "2x6"}, "ridge": {"kind": "board", "size": "2x12"}, "pitch": "3/12"}),
    # the same over a stud in the middle of the gable
    nasty(240.0, 288.0, {"rafters": {"size": "2x6"}, "ridge": {"kind": "board", "size": "2x12"}}),
    # a beam whose underside is lower than the plates of the gable walls
    nasty(240.0, 96.0, {"rafters": {"size": "2x6"}, "pitch": "2/12"}),
    # an outlooker right over the eave blocks
    nasty(240.0, 240.0, {**TRIMMED, "overhang": {"eave": 3.0, "rake": 12.0}, "blocking": {"eave": "solid"}}),
    # longer than any board: plates, ridge board and fascia are joined
    nasty(720.0, 240.0, {**TRIMMED, "ridge": {"kind": "board", "size": "2x12"}}),
    nasty(720.0, 240.0, {**TRIMMED, "rafters": {"size": "2x10", "spacing": 19.2}}, {"spacing": 24.0}),
    # a tail of the least depth, and one that is cut level for the fascia
    nasty(240.0, 240.0, {**TRIMMED, "tail": {"size": "2x4"}, "rafters": {"size": "2x12"}}),
    # a tall wall's gable under a flat roof: the rake is hardly above the plate
    nasty(240.0, 288.0, {"pitch": "2/12", "rafters": {"size": "2x12"}}, {**BALLOON, "height": 144.0}),
    # openings shoulder to shoulder, in the middle of a gable under the ridge
    nasty(
        240.0,
        240.0,
        TRIMMED,
        {
            **BALLOON,
            "openings": [
                {"side": "east", "center": 120.0, "size": 3068, "kind": "door"},
                {"side": "west", "center": 100.0, "size": 3030},
                {"side": "west", "left": 100.0 + 18.25 + 6.0, "size": 2020},
                {"side": "south", "left": 10.0, "size": 3068, "kind": "door"},
                {"side": "south", "left": 10.0 + 38.0 + 6.0, "size": 6068, "kind": "door"},
            ],
        },
    ),
)


def accepted(building: Building) -> bool:
    """Whether the building is refused neither by the plan's own rules nor, in words, by the framing."""
    if any(flaw.severity is Severity.ERROR for flaw in building_flaws(building)):
        return False
    try:
        frame(building, lambda path: Place(path=path))
    except PlanError:
        return False
    return True


@st.composite
def buildings(draw: st.DrawFn) -> Building:
    """A building as read, which the plan's own rules accept."""
    building = Building.model_validate(draw(any_plans()))
    assume(accepted(building))
    return building


NASTY_BUILDINGS: tuple[Building, ...] = tuple(filter(accepted, (Building.model_validate(plan) for plan in NASTY)))


def for_any_building(law: Callable[[Building], None]) -> Callable[[], None]:
    """Asks a law of every nasty building, and of some that nobody thought of."""
    asked: Callable[[], None] = settings(max_examples=RANDOM_BUILDINGS)(given(building=buildings())(law))
    for nasty in reversed(NASTY_BUILDINGS):
        asked = example(building=nasty)(asked)
    return asked
