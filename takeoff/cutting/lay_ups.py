"""The lay-ups of a building's faces that cost least, and what the others would cost."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

from takeoff.catalog.prices import PriceList
from takeoff.cutting.grade_ways import GradeWay, grade_ways
from takeoff.cutting.offers import sheet_offers
from takeoff.cutting.opening_ways import opening_ways
from takeoff.cutting.sheet.descent import Descent
from takeoff.cutting.sheet.lay_ups import chosen
from takeoff.cutting.sheet.space import LayUps, Space, space_of
from takeoff.cutting.sheet.stocks import sales_of
from takeoff.measure import format_inches
from takeoff.model.building import FramedBuilding
from takeoff.model.courses import Course
from takeoff.model.face import Face
from takeoff.model.stock import LayUpKind, LayUpTried
from takeoff.sheathing.sheathe import LayUp


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildingLayUps:
    """How the faces of a building are laid."""

    lay_ups: Mapping[str, LayUp]
    """By face."""
    edges: Mapping[str, tuple[float, ...]]
    """By slope: v of the level joints between its courses [in]."""
    tried: tuple[LayUpTried, ...]


def building_lay_ups(building: FramedBuilding, prices: PriceList, kerf_in: float) -> BuildingLayUps:
    """The cheapest lay-ups found for all covered faces of a building.

    Args:
        building: framed; its members don't matter.
        prices: of sheets; where one isn't known the area stands for it.
        kerf_in: what the saw takes [in].
    """
    lay_ups: dict[str, LayUp] = {}
    edges: dict[str, tuple[float, ...]] = {}
    tried: list[LayUpTried] = []
    for faces in _together(building.faces):
        offers = sheet_offers(_products(faces), prices)
        sales = sales_of(_products(faces), offers, kerf_in)
        space = space_of(faces, sales, building.count)
        best = chosen(space)
        for option in best.options:
            face = space.faces[option.face]
            lay_ups[face.name] = space.cells(option)
            if face.kind == "slope":
                edges[face.name] = tuple(course.v[0] for course in space.candidate(option).courses[1:])
        priced = all(offer.price_usd is not None for offer in offers)
        tried += _tried(building.name, space, best.options, best.others, priced=priced)
        others = chain(grade_ways(space, sales), opening_ways(space, sales))
        tried += (_grade_row(building.name, way, priced=priced) for way in others)
    return BuildingLayUps(lay_ups=lay_ups, edges=edges, tried=tuple(tried))


def _products(faces: Sequence[Face]) -> set[str]:
    return {name for face in faces if face.cover for name in (face.cover.field, face.cover.exposed)}


def _together(faces: Sequence[Face]) -> Iterator[tuple[Face, ...]]:
    """Covered faces in groups that have no product in common."""
    groups: list[tuple[set[str], list[Face]]] = []
    for face in faces:
        if face.cover is None:
            continue
        names = {face.cover.field, face.cover.exposed}
        joined = [group for group in groups if group[0] & names]
        groups = [group for group in groups if not group[0] & names]
        groups.append(
            (names.union(*(group[0] for group in joined)), [*(f for group in joined for f in group[1]), face])
        )
    yield from (tuple(found) for _, found in groups)


def _tried(
    building: str, space: Space, taken: LayUps, others: Sequence[LayUps], *, priced: bool
) -> Iterator[LayUpTried]:
    """What was reckoned through: each set of courses of slopes alike, the other faces laid as they are."""
    descent = Descent(space)
    yield _row(building, "all", "as laid", space, descent, taken, priced=priced, kind=LayUpKind.AS_LAID)
    told = set[tuple[int, ...]]()
    for k, of_face in enumerate(others):
        alike = _alike(space, k)
        if alike[0] != k or len(of_face) < 2:
            continue
        for number, option in enumerate(of_face):
            options = tuple(
                others[face][number] if face in alike and number < len(others[face]) else one
                for face, one in enumerate(taken)
            )
            key = (k, number)
            if key in told or all(o.candidate == t.candidate for o, t in zip(options, taken, strict=True)):
                continue
            told.add(key)
            names = ", ".join(space.faces[face].name for face in alike)
            words = course_words(space.candidate(option).courses)
            yield _row(building, names, words, space, descent, options, priced=priced, kind=LayUpKind.COURSES)


def _alike(space: Space, k: int) -> tuple[int, ...]:
    """Faces whose divisions are those of one."""
    sets = [candidate.courses for candidate in space.found[k]]
    return tuple(n for n, found in enumerate(space.found) if [candidate.courses for candidate in found] == sets)


def _row(
    building: str,
    faces: str,
    words: str,
    space: Space,
    descent: Descent,
    options: LayUps,
    *,
    priced: bool,
    kind: LayUpKind,
) -> LayUpTried:
    if kind is LayUpKind.AS_LAID:
        words = _courses_words(space, options) or words
    cost, sheets = descent.fitted(options)
    return LayUpTried(
        building=building,
        faces=faces if kind is not LayUpKind.AS_LAID else ", ".join(face.name for face in space.faces),
        words=words,
        sheets=sheets,
        cost_usd=cost / 100 if priced else None,
        kind=kind,
    )


def _grade_row(building: str, way: GradeWay, *, priced: bool) -> LayUpTried:
    words = _courses_words(way.space, way.options)
    names = ", ".join(way.faces)
    told = f"{way.kind}: {words}" if words else str(way.kind)
    return _row(building, names, told, way.space, Descent(way.space), way.options, priced=priced, kind=way.kind)


def _courses_words(space: Space, options: LayUps) -> str:
    """Of all slopes; those laid alike are told once."""
    courses = {space.candidate(option).courses for option in options} - {()}
    # Sorted by all that a set of courses is: of two that begin alike the order would be another on every run.
    in_order = sorted(courses, key=lambda one: [(course.v, course.zone) for course in one])
    return "; ".join(course_words(one) for one in in_order)


def course_words(courses: Sequence[Course]) -> str:
    """``exposed 24", then 48", 48", 41 15/16"``."""
    parts = [
        ("exposed " if course.zone == "exposed" else "") + format_inches(course.v[1] - course.v[0])
        for course in courses
    ]
    return ", ".join(parts)
