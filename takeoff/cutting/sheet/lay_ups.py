"""How the faces of a building are laid, chosen together with the cutting of what that takes.

Every face has a few divisions into courses, every course a few ways to run its sheets. One programme chooses among all
of them and cuts the pieces at once: a lay-up is a column that needs pieces, a sheet is a column that makes them. The
lay-ups themselves are found as the sheets are, by what the pieces are worth: the cheapest way through the courses.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.block import blocks_of
from takeoff.cutting.sheet.candidates import Candidate, Items, candidates
from takeoff.cutting.sheet.columns import SCALE, Columns, Job, generated
from takeoff.cutting.sheet.master import Choice
from takeoff.cutting.sheet.pack import Packed, packed, useful
from takeoff.cutting.sheet.pricing import Pattern, Stock, Strip
from takeoff.cutting.sheet.rows import whole
from takeoff.cutting.sheet.stocks import Sale
from takeoff.model.face import Face
from takeoff.sheathing.cells import Cell
from takeoff.sheathing.ways import Laid, cheapest

FAULT_CENTS = 10_000_000
"""What it costs where joints of neighbouring courses are in line: it is done only where there is no other way."""

MOST_CHOICES = 24
"""Lay-ups of a face that the integer programme may choose among."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A face laid in one of its divisions, in the ways that suit the chosen sheets best."""

    face: Face
    candidate: Candidate
    laid: Laid

    @property
    def cells(self) -> tuple[Cell, ...]:
        """All its cells, band by band."""
        bands = zip(self.candidate.divided.bands, self.laid.ways, strict=True)
        return tuple(cell for band, way in bands for cell in band[way].cells)

    @property
    def needs(self) -> Counter[int]:
        """The pieces it takes."""
        return _needs(self.candidate, self.laid)


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """Faces that share products, all they may be laid with, and the sheets on sale."""

    faces: tuple[Face, ...]
    found: tuple[tuple[Candidate, ...], ...]
    stocks: tuple[Stock, ...]
    items: int
    copies: int

    def packed(self, options: Sequence[Option]) -> Packed:
        """The sheets for given lay-ups of all faces."""
        wanted = self._wanted(options)
        return packed(Job(stocks=self.stocks, wanted=wanted, most=wanted))

    def _wanted(self, options: Sequence[Option]) -> tuple[int, ...]:
        counts = sum((option.needs for option in options), Counter[int]())
        return tuple(self.copies * counts[item] for item in range(self.items))


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A lay-up for every face, and the best one of every other division at the same worths of pieces."""

    options: tuple[Option, ...]
    others: tuple[tuple[Option, ...], ...]
    """For each face, for each of its candidates."""
    cost: int
    bound: int
    """Cents that no lay-up of these divisions costs less than."""


def search_of(faces: Sequence[Face], sales: Mapping[str, Sale], copies: int) -> Search:
    """Set up the search.

    Args:
        faces: covered.
        sales: what is on sale of every product of theirs.
        copies: how many of the building are built.
    """
    items = Items()
    rates = {name: sale.rate for name, sale in sales.items()}
    found = tuple(candidates(face, items, rates) for face in faces)
    products = sorted({product for product, _ in items.numbers})
    stocks = tuple(_stock(sales[product], items, product) for product in products)
    return Search(faces=tuple(faces), found=found, stocks=stocks, items=len(items.numbers), copies=copies)


def _stock(sale: Sale, items: Items, product: str) -> Stock:
    numbers = [number for (name, _), number in items.numbers.items() if name == product]
    shapes = [shape for (name, shape) in items.numbers if name == product]
    return Stock(blocks=blocks_of(shapes, sale.excess, sale.longest, numbers=numbers), sources=sale.sources)


def chosen(search: Search) -> Chosen:
    """The cheapest lay-ups found."""
    job = Job(stocks=search.stocks, wanted=(0,) * search.items, most=_most(search), faces=len(search.faces))

    met: dict[Choice, Option] = {}

    def choose(worths: Sequence[int]) -> Sequence[tuple[Choice, int]]:
        found = [(_choice(k, option, worths, search.copies), option) for k, option in _options(search, worths)]
        for (choice, _), option in found:
            met.setdefault(choice, option)
        return [priced for priced, _ in found]

    start = tuple(_single_patterns(search.stocks))
    columns = generated(job, start, choose)
    others = _by_face(search, columns.worths)
    plain = tuple(options[0] for options in others)
    best_of_each = tuple(min(options, key=lambda o: _value(o, columns.worths)) for options in others)
    tried = [(option_set, search.packed(option_set)) for option_set in (best_of_each, plain)]
    integer = _integer(search, job, columns, met)
    if integer:
        tried.append((integer, search.packed(integer)))
    options, cut = min(tried, key=lambda one: (_faults(one[0]), one[1].cost))
    return Chosen(options=options, others=others, cost=cut.cost, bound=min(columns.bound, cut.cost))


def _integer(search: Search, job: Job, columns: Columns, met: Mapping[Choice, Option]) -> tuple[Option, ...] | None:
    """Lay-ups by the integer programme over the choices that the linear one came near to taking."""
    by_face: list[list[tuple[float, int, Choice]]] = [[] for _ in search.faces]
    for order, choice in enumerate(columns.choices):
        worth = sum(n * columns.worths[item] for item, n in choice.needs) / SCALE
        by_face[choice.face].append((choice.cost + worth - columns.faces[choice.face], order, choice))
    near = [choice for found in by_face for _, _, choice in sorted(found)[:MOST_CHOICES]]
    items = {item for choice in near for item, _ in choice.needs}
    strips = [
        strip
        for strip in useful(job, columns, ())
        if all(item in items for n, _ in strip.content for item in job.stocks[strip.stock].blocks[n].content)
    ]
    answer = whole(job, strips, near)
    if answer is None:
        return None
    return tuple(met[choice] for choice in sorted(answer.choices, key=lambda c: c.face))


def _faults(options: Sequence[Option]) -> int:
    return sum(option.laid.faults for option in options)


def _most(search: Search) -> tuple[int, ...]:
    """How many of each item are of use: what all faces need if each is laid so that it needs the most."""
    total = Counter[int]()
    for found in search.found:
        of_face = Counter[int]()
        for candidate in found:
            of_candidate = Counter[int]()
            for band in candidate.needs:
                of_band = Counter[int]()
                for needs in band:
                    of_band |= Counter(dict(needs))
                of_candidate += of_band
            of_face |= of_candidate
        total += of_face
    return tuple(search.copies * total[item] for item in range(search.items))


def _options(search: Search, worths: Sequence[int]) -> Iterator[tuple[int, Option]]:
    """For each face, each candidate laid as is cheapest at some worths [cents / SCALE]."""
    for k, (face, found) in enumerate(zip(search.faces, search.found, strict=True)):
        for candidate in found:
            costs = [
                [search.copies * sum(n * worths[item] for item, n in needs) for needs in band]
                for band in candidate.needs
            ]
            yield (
                k,
                Option(face=face, candidate=candidate, laid=cheapest(candidate.divided, costs, FAULT_CENTS * SCALE)),
            )


def _by_face(search: Search, worths: Sequence[int]) -> tuple[tuple[Option, ...], ...]:
    found: list[list[Option]] = [[] for _ in search.faces]
    for k, option in _options(search, worths):
        found[k].append(option)
    return tuple(tuple(options) for options in found)


def _choice(k: int, option: Option, worths: Sequence[int], copies: int) -> tuple[Choice, int]:
    needs = tuple(sorted((item, copies * n) for item, n in option.needs.items()))
    return Choice(k, needs, FAULT_CENTS * option.laid.faults), sum(n * worths[item] for item, n in needs)


def _value(option: Option, worths: Sequence[int]) -> tuple[int, int]:
    return option.laid.faults, sum(n * worths[item] for item, n in option.needs.items())


def _needs(candidate: Candidate, laid: Laid) -> Counter[int]:
    total = Counter[int]()
    for band, way in zip(candidate.needs, laid.ways, strict=True):
        total.update(dict(band[way]))
    return total


def _single_patterns(stocks: Sequence[Stock]) -> Iterator[Pattern]:
    """For each piece alone the cheapest sheet that holds it, filled with it."""
    for t, stock in enumerate(stocks):
        for number, block in enumerate(stock.blocks):
            if len(block.parts) > 1:
                continue
            holding = [
                (source.cost, k)
                for k, source in enumerate(stock.sources)
                if source.length >= block.length and source.width >= block.height
            ]
            _, k = min(holding)
            count = stock.sources[k].length // block.length
            strip = Strip(t, block.height, count * block.length, ((number, count),))
            yield Pattern(t, k, (strip,) * (stock.sources[k].width // block.height))
