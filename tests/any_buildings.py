"""Whole buildings that nobody thought of, the same on every run: openings, partitions, floors, lofts, porches.

``building_number(k)`` is the k-th of an endless row. Each is written as a builder writes a plan; openings, partitions,
lofts, porches and skylights that the plan's rules or the framing refuse in words are left out of it, as he would do.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import cos, dist, radians, sin
from random import Random
from typing import Any

from any_roofs import ell, gabled, rectangle, tee, zed

from takeoff.findings import Place, PlanError, Severity
from takeoff.framing.frame import frame
from takeoff.model.building import FramedBuilding
from takeoff.plan.flaws import path_text
from takeoff.plan.schema import Building
from takeoff.plan.settled import settled
from takeoff.plan.verify import building_flaws

Written = dict[str, Any]
Point = tuple[float, float]

ROUNDS = 6
"""How often what is refused is left out of a building, before another one is drawn in its place."""

LISTS = (
    ("walls", "openings"),
    ("walls", "partitions"),
    ("roof", "porches"),
    ("roof", "skylights"),
    ("floors", "lofts"),
)
"""Lists of what may be left out of a building."""

SIDES = ["south", "east", "north", "west"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One building of the row."""

    building: Building
    framed: FramedBuilding
    kept: int
    """Of what may be left out of it, so many stayed."""
    refused: tuple[str, ...]
    """What was refused on the way, in words."""


def building_number(k: int) -> Drawn:
    """The k-th building, framed."""
    chance = Random(f"building {k}")
    refused: list[str] = []
    while True:
        plan = _written(chance)
        for _ in range(ROUNDS):
            building = settled(Building.model_validate(plan), 30.0)
            faults = _faults(building)
            if isinstance(faults, FramedBuilding):
                kept = sum(len(plan.get(room, {}).get(key, ())) for room, key in LISTS)
                return Drawn(building=building, framed=faults, kept=kept, refused=tuple(refused))
            refused += [message for _, message in faults]
            if not _left_out(plan, [path for path, _ in faults]):
                break


def _faults(building: Building) -> FramedBuilding | list[tuple[str, str]]:
    """The building framed; or where it is refused, and in which words."""
    flaws = [flaw for flaw in building_flaws(building) if flaw.severity is Severity.ERROR]
    if flaws:
        return [(path_text(flaw.loc), flaw.message) for flaw in flaws]
    try:
        return frame(building, lambda path: Place(path=path))[0]
    except PlanError as error:
        return [(finding.place.path, finding.message) for finding in error.findings]


def _left_out(plan: Written, paths: list[str]) -> bool:
    """Take out of a plan what stands at these paths; False where one of them is of nothing that may be left out."""
    gone: set[tuple[str, str, int]] = set()
    for path in paths:
        side = re.match(r"walls\.(by_side|pony)\.([^.]+)", path)
        if side and plan["walls"].get(side[1], {}).get(side[2], {}).pop("top" if side[1] == "by_side" else "bottom", 0):
            plan["walls"]["pony"] = {}
            continue
        found = re.match(r"(\w+)\.(\w+)\[(\d+)\]", path)
        if found is None or (found[1], found[2]) not in LISTS:
            return False
        gone.add((found[1], found[2], int(found[3])))
    for room, key, index in sorted(gone, reverse=True):
        del plan[room][key][index]
    return True


def _written(chance: Random) -> Written:
    """A building as a builder writes it."""
    points, sides, roof = _shape(chance)
    angle = radians(chance.choice([0, 0, 0, 0, 90, 30]))
    at = chance.choice([(0.0, 0.0), (-130.0, 77.25)])

    def placed(point: Point) -> Point:
        x, y = point
        return at[0] + x * cos(angle) - y * sin(angle), at[1] + x * sin(angle) + y * cos(angle)

    plan: Written = {
        "name": "hut",
        "outline": [placed(point) for point in points],
        "sides": sides,
        "walls": _walls(chance, points, sides, roof),
        "roof": roof,
    }
    if chance.random() < 0.3:
        roof["porches"] = [_porch(chance, points, sides)]
    if chance.random() < 0.15:
        low = chance.randrange(24, max(25, int(points[1][0]) - 48))
        roof["skylights"] = [{"side": sides[0], "left": low, "up": 30, "width": 22.5, "height": 38}]
    plan["walls"]["partitions"] = _partitions(chance, points, plan["walls"])
    if chance.random() < 0.5:
        plan["floors"] = _floors(chance, points, sides, plan["walls"])
    for partition in plan["walls"]["partitions"]:
        partition["from"], partition["to"] = placed(partition["from"]), placed(partition["to"])
    for girder in plan.get("floors", {}).get("main", {}).get("girders", ()):
        girder["from"], girder["to"] = placed(girder["from"]), placed(girder["to"])
    return plan


def _inches(chance: Random, low_ft: int, high_ft: int) -> float:
    """Mostly whole feet, now and then any sixteenth."""
    feet = chance.randint(low_ft, high_ft) * 12.0
    return feet + (chance.randrange(12 * 16) / 16 if chance.random() < 0.3 else 0.0)


def _shape(chance: Random) -> tuple[list[Point], list[str], Written]:
    """An outline, the names of its sides, and a roof over it."""
    length, span = _inches(chance, 12, 36), _inches(chance, 9, 24)
    roof = _sticks(chance)
    kind = chance.choice(["gable", "gable", "gable", "shed", "hip", "gambrel", "pitches", "wings", "wings"])
    if kind == "wings":
        wing, out = _inches(chance, 7, 12), _inches(chance, 5, 12)
        shapes = [ell(length + 60, span, wing, out), tee(length + 96, span, wing, out, 60.0)]
        if out + 48 <= span:
            shapes.append(zed(length + 96, span, (length + 96) / 2, out))
        points = chance.choice(shapes)
        names = [f"side {k + 1}" for k in range(len(points))]
        ends = [k for k in gabled(points) if chance.random() < 0.5]
        apart = [k for n, k in enumerate(ends) if n == 0 or (k - ends[n - 1] > 1 and (k + 1) % len(names) != ends[0])]
        roof |= {"shape": "edges", "edges": {names[k]: "gable" for k in apart}, "ridge": _board(chance)}
        return points, names, roof
    points = rectangle(length, span)
    if kind == "hip":
        roof |= {"shape": "hip", "ridge": _board(chance)}
    elif kind == "shed":
        roof |= {"shape": "shed", "low": chance.choice(["south", "north"]), "pitch": chance.choice(["2/12", "4/12"])}
    else:
        roof |= {"shape": "gable", "gables": ["east", "west"], "ridge": chance.choice([_board, _beam])(chance)}
    if kind == "gambrel":
        upper = {"pitch": "6/12", "run": round(span / 5), "purlin": {"size": "3-1/2x9-1/2", "material": "lvl"}}
        roof |= {"shape": "gambrel", "pitch": "18/12", "upper": upper, "ridge": _beam(chance)}
    if kind == "pitches":
        roof["pitches"] = {"south": chance.choice(["4/12", "5/12", "14/12"])}
    return points, list(SIDES), roof


def _board(chance: Random) -> Written:
    return {"kind": "board", "size": chance.choice(["2x10", "2x12"])}


def _beam(chance: Random) -> Written:
    return {
        "kind": "beam",
        **chance.choice([{"size": "5-1/2x14", "material": "glulam"}, {"size": "3-1/2x11-7/8", "material": "lvl"}]),
    }


def _sticks(chance: Random) -> Written:
    """Sizes and trim of a roof."""
    roof: Written = {
        "pitch": chance.choice(["4/12", "6/12", "8/12", "8/12", "10/12", "12/12"]),
        "rafters": {"size": chance.choice(["2x8", "2x10"]), "spacing": chance.choice([16, 16, 24])},
        "overhang": {"eave": chance.choice([0, 8, 12, 16]), "rake": chance.choice([0, 8, 12])},
        "sheathing": {"field": "cdx-5/8"},
        "blocking": {"eave": chance.choice(["vented", "solid", "none"])},
    }
    if chance.random() < 0.5:
        roof["fascia"] = {"size": "2x6"}
    if roof["overhang"]["rake"] and chance.random() < 0.7:
        roof["barge"] = {"size": "2x8"}
        roof |= {"outlookers": {"size": "2x4"}} if chance.random() < 0.7 else {}
    return roof


def _porch(chance: Random, points: list[Point], sides: list[str]) -> Written:
    """A porch at one of the sides, under a shed or a gable."""
    side = chance.randrange(len(sides))
    room = dist(points[side], points[(side + 1) % len(points)])
    porch: Written = {
        "side": sides[side],
        "center": room / 2,
        "width": max(48, min(round(room * chance.choice([0.5, 0.8])), 192)),
        "depth": chance.choice([48, 72]),
        "rafters": {"size": "2x6"},
        "overhang": {"eave": 8, "rake": 8},
        "beam": {"size": "3-2x8"},
        "posts": {"size": "6x6"},
    }
    if chance.random() < 0.6:
        return {**porch, "shape": "shed", "pitch": "3/12", "roof_height": chance.choice([92, 98, 100])}
    ridge = {"kind": "board", "size": "2x8"}
    return {**porch, "shape": "gable", "pitch": "6/12", "beam_height": chance.choice([84, 90]), "ridge": ridge}


def _walls(chance: Random, points: list[Point], sides: list[str], roof: Written) -> Written:
    """Outside walls with their openings; gables of either frame, now and then a side of other studs."""
    own: dict[str, Written] = {}
    gables = roof.get("gables") or sorted(roof.get("edges", {})) or []
    for side in gables:
        own[side] = {"frame": chance.choice(["platform", "balloon"])}
        if own[side]["frame"] == "balloon" and chance.random() < 0.3:
            own[side]["rake_plates"] = True
        if own[side]["frame"] == "platform" and chance.random() < 0.3:
            own[side]["top"] = _top(chance, dist(*_ends(points, sides.index(side))), 97.125)
    if chance.random() < 0.2:
        side = chance.choice(sides)
        own[side] = {**own.get(side, {}), "studs": chance.choice(["2x4", "2x6"]), "spacing": chance.choice([12, 24])}
    walls: Written = {
        "height": chance.choice([97.125, 97.125, 109.125]),
        "studs": chance.choice(["2x4", "2x6", "2x6"]),
        "spacing": chance.choice([16, 16, 24]),
        "corner_posts": chance.choice(["two-stud", "three-stud", "four-stud"]),
        "tees": chance.choice(["channel", "blocks"]),
        "header_at": chance.choice(["head", "head", "plates"]),
        "by_side": own,
    }
    if chance.random() < 0.3:
        walls["sill"] = "treated"
    runs = zip(sides, points, [*points[1:], points[0]], strict=True)
    walls["openings"] = [o for side, a, b in runs for o in _openings(chance, dist(a, b), {"side": side})]
    return walls


def _ends(points: list[Point], k: int) -> tuple[Point, Point]:
    return points[k], points[(k + 1) % len(points)]


def _top(chance: Random, length: float, plate: float) -> list[Point]:
    """Plates of a gable wall: stepped up in its middle, a half wall, or raked to the middle."""
    low, high = length / 3, 2 * length / 3
    raised = plate + chance.choice([6, 12, 16])
    return chance.choice(
        [
            [(0, plate), (low, plate), (low, raised), (high, raised), (high, plate), (length, plate)],
            [(0, 48), (low, 48), (low, 84), (length, 84)],
            [(0, plate - 2), (length / 2, raised), (length, plate - 2)],
        ]
    )


def _openings(chance: Random, length: float, where: Written) -> list[Written]:
    """Up to three openings of a run, anywhere along it."""
    found: list[Written] = []
    for _ in range(chance.choice([0, 1, 1, 2, 3])):
        kind = chance.choice(["window", "window", "window", "door", "sliding", "cased"])
        width = chance.choice([24, 30, 36, 48, 72] if kind != "door" else [30, 32, 36])
        height = chance.choice([12, 24, 36, 48]) if kind == "window" else chance.choice([78, 80])
        opening: Written = {**where, "kind": kind, "size": {"width": width, "height": height}}
        opening["center"] = chance.randrange(int(length) * 4 + 4) / 4
        if kind == "window" and chance.random() < 0.3:
            opening["head"] = chance.choice([60, 72, 84, 110, 130])
        if chance.random() < 0.2:
            opening["jacks"] = chance.choice([1, 2, 3])
        if chance.random() < 0.2:
            opening["header"] = chance.choice(["1-2x8", "2-2x6", "2-2x8"])
        found.append(opening)
    return found


def _partitions(chance: Random, points: list[Point], walls: Written) -> list[Written]:
    """Partitions of the main part of an outline: one along it, others across, now and then askew, raked or free."""
    (length, _), (_, width) = points[1], next(p for p in points[2:] if p[1] > 0)
    found: list[Written] = []
    middle = round(width * chance.choice([0.4, 0.5, 0.6]))
    if chance.random() < 0.4:
        found.append({"name": "spine", "from": (0, middle), "to": (length, middle), "bearing": chance.random() < 0.5})
    for name in ("bath", "store", "hall")[: chance.choice([0, 1, 2, 3])]:
        x = chance.randrange(24, max(25, int(length) - 24))
        ends = chance.choice([(0, width), (0, middle), (middle, width), (0, middle - 30), (30, width - 40)])
        askew = chance.choice([0, 0, 0, 0, 0, 40])
        found.append({"name": name, "from": (x, ends[0]), "to": (min(x + askew, length - 30), ends[1])})
    for partition in found:
        run = dist(partition["from"], partition["to"])
        partition["studs"] = chance.choice(["2x4", "2x4", "2x6"])
        if chance.random() < 0.2:
            partition["height"] = chance.choice([42, 84])
        elif chance.random() < 0.2:
            low, high = chance.choice([(60, 84), (84, 60)])
            bend = chance.choice([run / 2, run / 3])
            partition["top"] = chance.choice(
                [
                    [(0, low), (run, high)],
                    [(0, low), (bend, low), (bend, high), (run, high)],
                    [(0, 84), (bend, 84), (run, 50)],
                ]
            )
        if chance.random() < 0.5:
            partition["openings"] = _openings(chance, run, {})[:2]
    return found


def _floors(chance: Random, points: list[Point], sides: list[str], walls: Written) -> Written:
    """A platform with a girder where it is wide, and a loft along one side."""
    (length, _), (_, width) = points[1], next(p for p in points[2:] if p[1] > 0)
    floors: Written = {}
    if chance.random() < 0.8:
        floors["main"] = {"joists": {"size": chance.choice(["2x10", "2x12", "i-joist-11-7/8"])}}
        if len(points) == 4 and width > 144:
            line = {"from": (0, width / 2), "to": (length, width / 2), "size": "3-2x10"}
            if length < width:
                line = {"from": (length / 2, 0), "to": (length / 2, width), "size": "3-2x10"}
            floors["main"]["girders"] = [{**line, "posts": [length / 2], "joists": chance.choice(["over", "hang"])}]
            floors["main"]["splice"] = chance.choice(["butt", "lap"])
            floors["main"]["footing"] = -48
        if chance.random() < 0.3:
            k = chance.randrange(len(sides))
            along = dist(*_ends(points, k))
            bottom = [(0, -36), (along / 2, -36), (along / 2, -60), (along, -60)]
            walls["pony"] = {sides[k]: {"bottom": bottom}}
        floors["main"]["blocking"] = {"under_partitions": chance.choice(["doubled", "blocks"])}
    if len(points) == 4 and chance.random() < 0.5:
        loft: Written = {"side": chance.choice(sides), "depth": chance.choice([72, 96]), "height": 84}
        loft |= {"joists": {"size": "2x8"}, "beam": {"size": "3-1/2x11-7/8", "grade": "lvl"}}
        floors["lofts"] = [{**loft, "walls": chance.choice(["hang", "bear"])}]
    return floors
