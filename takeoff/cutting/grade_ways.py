"""What the exposed grade would cost if it were laid more simply: everywhere, or as whole sheets along the eaves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from takeoff.catalog.sheets import sheet_product
from takeoff.cutting.sheet.candidates import Candidate
from takeoff.cutting.sheet.lay_ups import chosen
from takeoff.cutting.sheet.space import LayUps, Space, space_of
from takeoff.cutting.sheet.stocks import Sale
from takeoff.geometry.tolerance import TOLERANCE
from takeoff.model.courses import smallest_sheet
from takeoff.model.face import Cover, Face
from takeoff.model.stock import LayUpKind

TOLD_SETS, TOLD_STARTS = 8, 1
"""What is only told is searched in less breadth than what is laid."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeWay:
    """A simpler way with the grades, laid as cheaply as it can be found."""

    kind: LayUpKind
    faces: tuple[str, ...]
    """That are laid otherwise."""
    space: Space
    options: LayUps


def grade_ways(space: Space, sales: Mapping[str, Sale]) -> Iterator[GradeWay]:
    """The simpler ways that a building's faces leave, each laid as cheaply as a shorter search finds.

    Args:
        space: the faces and what they may be laid with.
        sales: what is on sale of every product of theirs.
    """
    split = tuple(face.name for face in space.faces if _is_split(face))
    if not split:
        return
    whole = tuple(
        _whole(face, found) if face.name in split else found
        for face, found in zip(space.faces, space.found, strict=True)
    )
    if all(whole) and whole != space.found:
        narrowed = replace(space, found=whole, together=())
        yield GradeWay(
            kind=LayUpKind.WHOLE_COURSE, faces=split, space=narrowed, options=chosen(narrowed, TOLD_STARTS).options
        )
    alone = space_of(
        tuple(_all_exposed(face) if face.name in split else face for face in space.faces),
        sales,
        space.copies,
        TOLD_SETS,
    )
    yield GradeWay(kind=LayUpKind.ALL_EXPOSED, faces=split, space=alone, options=chosen(alone, TOLD_STARTS).options)


def _is_split(face: Face) -> bool:
    shows = face.shown is not None or bool(face.open_below)
    return face.cover is not None and face.cover.field != face.cover.exposed and shows


def _all_exposed(face: Face) -> Face:
    assert face.cover is not None  # only split faces come here
    return replace(face, cover=Cover(field=face.cover.exposed, exposed=face.cover.exposed))


def _whole(face: Face, found: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """The divisions whose exposed courses are whole sheets."""
    assert face.cover is not None  # only split faces come here
    width = smallest_sheet(sheet_product(face.cover.exposed))[0] - TOLERANCE.length
    return tuple(
        candidate
        for candidate in found
        if all(course.v[1] - course.v[0] >= width for course in candidate.courses if course.zone == "exposed")
    )
