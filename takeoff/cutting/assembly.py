"""From filled sticks to boards: marks, ids, order, cost and bound, the same for every lumber cutter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from takeoff.cutting.bound import material_bound
from takeoff.cutting.groups import Group, Stick
from takeoff.cutting.ids import stock_ids
from takeoff.model.stock import Board, Cut, LumberCutting, Stop


@dataclass(frozen=True, slots=True)
class Filled:
    """A stick with the widths cut from it, widest first."""

    stick: Stick
    widths: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """What a cutter found for a group; its specials not among it. ``finished``: it wasn't told to stop early."""

    group: Group
    sticks: tuple[Filled, ...]
    finished: bool


def assembled(fillings: Sequence[Filling], kerf_in: float) -> LumberCutting:
    """The boards of all groups, with ids, and what is known of their cost.

    Boards stand by load, profile, grade, stock length and pattern, longest first piece first. Sticks without a known
    price aren't in the cost, and least cost is never said to be proven while there are any.
    """
    boards = [board for filling in fillings for board in _boards(filling, kerf_in)]
    ids = stock_ids((board.load, board.profile, board.grade) for board in boards)
    cost = sum(_known_cost(filling) for filling in fillings)
    bound = sum(material_bound(filling.group) for filling in fillings)
    return LumberCutting(
        boards=tuple(replace(board, stock_id=stock_id) for board, stock_id in zip(boards, ids, strict=True)),
        cost_usd=cost / 100,
        bound_usd=bound / 100,
        stopped_by=_stop(fillings, proven=cost == bound),
    )


def _stop(fillings: Sequence[Filling], *, proven: bool) -> Stop:
    if proven and all(filling.group.priced for filling in fillings):
        return Stop.PROVEN
    return Stop.FITTED if all(filling.finished for filling in fillings) else Stop.OUT_OF_TIME


def _known_cost(filling: Filling) -> int:
    on_sale = sum(filled.stick.cost for filled in filling.sticks if filled.stick.known)
    return on_sale + sum(demand.qty * stick.cost for demand, stick in filling.group.specials)


def _boards(filling: Filling, kerf_in: float) -> Iterable[Board]:
    """Boards of a group, their marks dealt out in order, so that equal boards stay as equal as they can."""
    group = filling.group
    queues = {width: _pieces_of_width(group, width) for width in {demand.width for demand in group.demands}}
    in_order = sorted(filling.sticks, key=lambda filled: (filled.stick.length_in, tuple(-w for w in filled.widths)))
    for filled in in_order:
        yield _board(group, filled.stick, tuple(next(queues[width]) for width in filled.widths), kerf_in)
    for demand, stick in sorted(group.specials, key=lambda special: special[1].length_in):
        for _ in range(demand.qty):
            yield _board(group, stick, (Cut(mark=demand.mark, length_in=demand.length_in),), kerf_in)


def _pieces_of_width(group: Group, width: int) -> Iterator[Cut]:
    for demand in group.demands:
        if demand.width == width:
            for _ in range(demand.qty):
                yield Cut(mark=demand.mark, length_in=demand.length_in)


def _board(group: Group, stick: Stick, cuts: tuple[Cut, ...], kerf_in: float) -> Board:
    return Board(
        stock_id="",
        load=group.load,
        profile=group.profile,
        grade=group.grade,
        stock_length_in=stick.length_in,
        cuts=cuts,
        kerf_in=kerf_in,
        special=stick.special,
    )
