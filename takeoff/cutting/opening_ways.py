"""What the other way to meet openings would cost: sheets that run past them, or are broken at their sides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from takeoff.cutting.grade_ways import GradeWay
from takeoff.cutting.sheet.lay_ups import chosen
from takeoff.cutting.sheet.space import Space, space_of
from takeoff.cutting.sheet.stocks import Sale
from takeoff.model.face import AtOpenings, Face
from takeoff.model.stock import LayUpKind

_KINDS: Mapping[AtOpenings, LayUpKind] = {"run_past": LayUpKind.RUN_PAST, "broken": LayUpKind.BROKEN}
_OTHER: Mapping[AtOpenings, AtOpenings] = {"run_past": "broken", "broken": "run_past"}


def opening_ways(space: Space, sales: Mapping[str, Sale]) -> Iterator[GradeWay]:
    """Each way that walls aren't laid in, though they have openings, searched as thoroughly as what is laid.

    Args:
        space: the faces and what they may be laid with.
        sales: what is on sale of every product of theirs.
    """
    for laid, other in _OTHER.items():
        turned = tuple(face.name for face in space.faces if _is_laid(face, laid))
        if turned:
            faces = tuple(_laid(face, other) if face.name in turned else face for face in space.faces)
            otherwise = space_of(faces, sales, space.copies)
            yield GradeWay(kind=_KINDS[other], faces=turned, space=otherwise, options=chosen(otherwise).options)


def _is_laid(face: Face, way: AtOpenings) -> bool:
    has_openings = face.kind == "wall" and bool(face.outline.holes)
    return has_openings and face.cover is not None and face.cover.at_openings == way


def _laid(face: Face, way: AtOpenings) -> Face:
    assert face.cover is not None  # only covered walls come here
    return replace(face, cover=replace(face.cover, at_openings=way))
