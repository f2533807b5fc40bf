"""How the faces of a building are laid, chosen together with the cutting of what that takes.

Every face has a few divisions into courses, every course a few ways to run its sheets. One linear programme chooses
among all of them and cuts the pieces at once: a lay-up is a column that needs pieces, a sheet is a column that makes
them, and lay-ups are found as sheets are, by what pieces are worth: the cheapest way through the courses. Its lay-ups
are the start of a descent over whole ones.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeoff.cutting.sheet.columns import SCALE, Columns, Job, generated
from takeoff.cutting.sheet.descent import Descent, Worth
from takeoff.cutting.sheet.master import Choice
from takeoff.cutting.sheet.pricing import Pattern, Stock, Strip
from takeoff.cutting.sheet.space import LayUps, Option, Space
from takeoff.sheathing.ways import cheapest, plain_ways

FAULT_CENTS = 10_000_000
"""What it costs where joints of neighbouring courses are in line: it is done only where there is no other way."""

MOST_POOL = 6
"""Lay-ups of a face that the linear programme came nearest to taking, and which may be changed for as a whole."""

MOST_ROUNDS = 20
"""Of the linear programme. A count, not seconds."""

MOST_STARTS = 4
"""Lay-ups that are bettered, the best of those that are known."""

MOST_PACKED = 5
"""Of the bettered ones so many are cut by the integer programme."""

MOST_IDLE = 1
"""After so many that the integer programme cuts no better than best fit does it is asked no more."""

MOST_SCORES = 40
"""Lay-ups that are scored in bettering one, for each face. A count, not seconds."""

MOST_IN_ALL = 160
"""And for all faces together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A lay-up for every face."""

    options: LayUps
    others: tuple[LayUps, ...]
    """For each face, each of its divisions in the ways that suit the sheets best."""
    bound: int
    """Cents that no lay-up of these divisions costs less than."""


def chosen(space: Space, starts: int = MOST_STARTS) -> Chosen:
    """The cheapest lay-ups found.

    Args:
        space: what may be laid.
        starts: so many lay-ups are bettered, beside the plain one.
    """
    job = Job(stocks=space.stocks, wanted=(0,) * space.items, most=space.most(), faces=len(space.faces))
    met: dict[Choice, Option] = {}

    def choose(worths: Sequence[int]) -> Sequence[tuple[Choice, int]]:
        priced = []
        for option in _options(space, worths):
            choice, worth = _choice(space, option, worths)
            met.setdefault(choice, option)
            priced.append((choice, worth))
        return priced

    columns = generated(job, tuple(_single_patterns(space.stocks)), choose, rounds=MOST_ROUNDS)
    others = _by_face(space, _options(space, columns.worths))
    near = sorted(columns.choices, key=lambda choice: _value(choice, columns))
    pools = tuple(pool[:MOST_POOL] for pool in _by_face(space, (met[choice] for choice in near)))
    descent = Descent(space)
    best = sorted(dict.fromkeys(_starts(space, pools, others)), key=descent.worth)[:starts]
    scores = min(MOST_SCORES * len(space.faces), MOST_IN_ALL)
    ends = dict.fromkeys(descent.improved(start, scores, pools) for start in (*best, _plain(space)))
    last = sorted(ends)[: min(MOST_PACKED, starts + 1)]
    return Chosen(options=_cheapest(space, last) if starts > 1 else last[0][1], others=others, bound=columns.bound)


def _cheapest(space: Space, ends: Sequence[tuple[Worth, LayUps]]) -> LayUps:
    """The cheapest once cut by the integer programme, which is asked only where it may still find something cheaper."""
    fewest = min(worth.faults for worth, _ in ends)
    best: tuple[int, LayUps] | None = None
    idle = 0
    for worth, options in ends:
        if worth.faults == fewest and idle < MOST_IDLE:
            cost = space.packed(options, best[0] if best else None).cost
            idle += cost >= worth.score.cost
            if best is None or cost < best[0]:
                best = cost, options
    assert best is not None  # there is the plain way at least
    return best[1]


def _plain(space: Space) -> LayUps:
    """Every face laid in the plain way: what is chosen is never dearer."""
    return tuple(Option(k, 0, plain_ways(found[0].divided)) for k, found in enumerate(space.found))


def _value(choice: Choice, columns: Columns) -> tuple[int, int]:
    """What a choice costs at the last worths of pieces, beside what its face costs."""
    worth = sum(n * columns.worths[item] for item, n in choice.needs)
    return choice.face, choice.cost * SCALE + worth


def _starts(space: Space, pools: Sequence[LayUps], others: Sequence[LayUps]) -> Iterator[LayUps]:
    """Lay-ups to start from: divisions that rip well together, the nearest ones of the programme, every one alike."""
    for numbers in space.together:
        yield tuple(of_face[number] for of_face, number in zip(others, numbers, strict=True))
    for turn in range(MOST_POOL):
        yield tuple(pool[turn % len(pool)] for pool in pools)
        yield tuple(pool[turn * k % len(pool)] for k, pool in enumerate(pools))
    for number in range(max(len(of_face) for of_face in others)):
        yield tuple(of_face[min(number, len(of_face) - 1)] for of_face in others)


def _options(space: Space, worths: Sequence[int]) -> Iterator[Option]:
    """For each face, each division laid as is cheapest at some worths [cents / SCALE]."""
    for k, found in enumerate(space.found):
        for c, candidate in enumerate(found):
            costs = [
                [space.copies * sum(n * worths[item] for item, n in needs) for needs in band]
                for band in candidate.needs
            ]
            yield Option(k, c, cheapest(candidate.divided, costs, FAULT_CENTS * SCALE).ways)


def _by_face(space: Space, options: Iterator[Option]) -> tuple[LayUps, ...]:
    found: list[list[Option]] = [[] for _ in space.faces]
    for option in options:
        found[option.face].append(option)
    return tuple(tuple(of_face) for of_face in found)


def _choice(space: Space, option: Option, worths: Sequence[int]) -> tuple[Choice, int]:
    """An option as a column, and what its pieces are worth [cents / SCALE]."""
    needs = tuple(sorted(space.needs(option).items()))
    cost = FAULT_CENTS * space.faults((option,))
    return Choice(option.face, needs, cost), sum(n * worths[item] for item, n in needs)


def _single_patterns(stocks: Sequence[Stock]) -> Iterator[Pattern]:
    """For each piece alone the cheapest sheet of its own product that holds it, filled with it."""
    for t, stock in enumerate(stocks):
        for number, block in enumerate(stock.blocks):
            if len(block.parts) > 1 or block.parts[0].item in stock.guests:
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
