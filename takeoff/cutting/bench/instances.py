"""Instances to measure by: published ones, classes made anew from their published definitions, and a large job.

Sources
    Paper machine: encyclopedia article on the cutting stock problem; 13 widths, stock 5600, 73 rolls.
    Uniform and triplet classes: Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of Heuristics
    2 (1996). Uniform: bins of 150, sizes from 20 to 100. Triplets: bins of 1000, three sizes to a bin without waste,
    so that the least number of bins is a third of the number of sizes, by construction.
    Benchmark files ``u120_00.txt`` and the like: capacity, number of sizes, best known number of bins, then the sizes,
    one a line, as the OR-Library has them. They are read from a folder, where one is given.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

from takeoff.cutting.exact.instance import Instance, Item, Stock

# fmt: off
PAPER = (
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20), (2000, 10), (2050, 12),
    (2100, 14), (2140, 16), (2150, 18), (2200, 20),
)
# fmt: on
PAPER_STOCK, PAPER_LEAST = 5600, 73


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """An instance to measure by."""

    name: str
    instance: Instance
    least: int | None = None
    """The least cost, where it is published or follows from the construction."""


def cases(folder: Path | None) -> Iterator[Case]:
    """All cases; those of a folder of benchmark files last."""
    yield Case(name="paper, 13 widths", instance=bins(PAPER_STOCK, PAPER), least=PAPER_LEAST)
    for pieces in (60, 120, 249, 501):
        yield triplets(pieces, Random(pieces))
    for pieces in (120, 250, 500, 1000):
        yield uniform(pieces, Random(pieces))
    yield large_job(Random(20_000))
    if folder is not None:
        for path in sorted(folder.glob("u*_*.txt")):
            yield from_file(path)


def bins(capacity: int, sizes: Iterable[tuple[int, int]]) -> Instance:
    """Bins of one capacity and cost 1, for sizes and counts."""
    items = tuple(Item(width=size, qty=count) for size, count in sorted(sizes, reverse=True))
    return Instance(items=items, stocks=(Stock(capacity=capacity, cost=1),))


def triplets(pieces: int, random: Random) -> Case:
    """Sizes in threes that fill a bin each."""
    sizes: list[int] = []
    for _ in range(pieces // 3):
        first = random.randint(380, 490)
        second = random.randint(250, (1000 - first) // 2)
        sizes += (first, second, 1000 - first - second)
    return Case(name=f"triplets, {pieces}", instance=bins(1000, Counter(sizes).items()), least=pieces // 3)


def uniform(pieces: int, random: Random) -> Case:
    """Sizes drawn evenly."""
    sizes = Counter(random.randint(20, 100) for _ in range(pieces))
    return Case(name=f"uniform, {pieces}", instance=bins(150, sizes.items()))


def large_job(random: Random) -> Case:
    """20,000 pieces of 500 lengths from 6 in to 12 ft, in sixteenths; sticks of 8 to 24 ft, dearer a foot when long."""
    lengths = sorted(random.sample(range(6 * 16, 144 * 16), 500), reverse=True)
    counts = Counter(random.choices(range(500), k=20_000 - 500))
    kerf = 2
    return Case(
        name="20,000 pieces of 500 lengths",
        instance=Instance(
            items=tuple(Item(width=length + kerf, qty=1 + counts[at]) for at, length in enumerate(lengths)),
            stocks=tuple(
                Stock(capacity=feet * 12 * 16 + kerf, cost=83 * feet + max(0, feet - 14) * 12)
                for feet in range(8, 25, 2)
            ),
        ),
    )


def from_file(path: Path) -> Case:
    """A benchmark file.

    Raises:
        ValueError: it isn't one.
    """
    numbers = [int(word) for word in path.read_text(encoding="ascii").split()]
    capacity, count, best, *sizes = numbers
    if len(sizes) != count:
        raise ValueError(f"{path.name} has {len(sizes)} sizes, not the {count} it says")
    return Case(name=path.stem, instance=bins(capacity, Counter(sizes).items()), least=best)
