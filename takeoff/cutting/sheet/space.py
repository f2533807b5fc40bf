"""All that the faces of a building may be laid with, and what any choice among it takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.candidates import Candidate, Items, candidates
from takeoff.cutting.sheet.columns import Job
from takeoff.cutting.sheet.course_sets import course_sets
from takeoff.cutting.sheet.pack import Packed, packed
from takeoff.cutting.sheet.pricing import Stock
from takeoff.cutting.sheet.stocks import Sale, stocks_of
from takeoff.cutting.stand_ins import stands_in
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell

ALL_SETS = 40
"""Of the sets of courses of all slopes so many are reckoned through, more or less: the plain and what rips best."""

MOST_SETS = 10
"""Of each slope at most so many."""

LEAST_SETS = 5
"""Of each slope at least so many."""


@dataclass(frozen=True, slots=True, order=True)
class Option:
    """One lay-up of a face: numbers of the face, of its division, and of a way for each band."""

    face: int
    candidate: int
    ways: tuple[int, ...]


LayUps = tuple[Option, ...]
"""A lay-up for every face, in their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """Faces that share products, all they may be laid with, and the sheets on sale."""

    faces: tuple[Face, ...]
    found: tuple[tuple[Candidate, ...], ...]
    """Divisions of each face, the plain one first."""
    together: tuple[tuple[int, ...], ...]
    """Numbers of divisions that rip well together, one for each face; the best first."""
    stocks: tuple[Stock, ...]
    products: tuple[str, ...]
    """Of the stocks."""
    items: int
    copies: int

    def candidate(self, option: Option) -> Candidate:
        """The division of an option."""
        return self.found[option.face][option.candidate]

    def cells(self, option: Option) -> tuple[Cell, ...]:
        """All cells of a lay-up, band by band."""
        bands = zip(self.candidate(option).divided.bands, option.ways, strict=True)
        return tuple(cell for band, way in bands for cell in band[way].cells)

    def needs(self, option: Option) -> Counter[int]:
        """The pieces that a lay-up takes, over all copies."""
        total = Counter[int]()
        for band, way in zip(self.candidate(option).needs, option.ways, strict=True):
            for item, count in band[way]:
                total[item] += self.copies * count
        return total

    def wanted(self, options: Iterable[Option]) -> Counter[int]:
        """The pieces that some lay-ups take together."""
        return sum((self.needs(option) for option in options), Counter[int]())

    def faults(self, options: Iterable[Option]) -> int:
        """How often joints of neighbouring bands are in line."""
        return sum(self.candidate(option).divided.faults(option.ways) for option in options)

    def packed(self, options: Iterable[Option], below: int | None = None) -> Packed:
        """The sheets for some lay-ups; with ``below``, only what costs less [cents] is worth a search."""
        counts = self.wanted(options)
        wanted = tuple(counts[item] for item in range(self.items))
        return packed(Job(stocks=self.stocks, wanted=wanted, most=wanted), below)

    def most(self) -> tuple[int, ...]:
        """How many of each item are of use: what all faces need if each is laid so that it needs the most."""
        total = Counter[int]()
        for found in self.found:
            of_face = Counter[int]()
            for candidate in found:
                of_face |= _most_of(candidate)
            total += of_face
        return tuple(self.copies * total[item] for item in range(self.items))


def _most_of(candidate: Candidate) -> Counter[int]:
    total = Counter[int]()
    for band in candidate.needs:
        of_band = Counter[int]()
        for needs in band:
            of_band |= Counter(dict(needs))
        total += of_band
    return total


def space_of(faces: Sequence[Face], sales: Mapping[str, Sale], copies: int, sets: int = ALL_SETS) -> Space:
    """Set up the search.

    Args:
        faces: covered.
        sales: what is on sale of every product of theirs.
        copies: how many of the building are built.
        sets: of courses of all slopes, more or less.
    """
    items = Items()
    rates = {name: sale.rate for name, sale in sales.items()}
    courses = course_sets(faces, rates, max(LEAST_SETS, min(MOST_SETS, sets // len(faces))))
    found = tuple(candidates(face, items, of_face) for face, of_face in zip(faces, courses.of_faces, strict=True))
    products = tuple(sorted({product for product, _ in items.numbers}))
    return Space(
        faces=tuple(faces),
        found=found,
        together=courses.together,
        stocks=stocks_of(products, sales, items.numbers, guests_on(faces)),
        products=products,
        items=len(items.numbers),
        copies=copies,
    )


def guests_on(faces: Iterable[Face]) -> Mapping[str, set[str]]:
    """For the exposed products of some faces the field products that may be cut from their sheets as well."""
    found: dict[str, set[str]] = {}
    for face in faces:
        if face.cover and stands_in(face.cover):
            found.setdefault(face.cover.exposed, set()).add(face.cover.field)
    return found
