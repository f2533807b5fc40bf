"""From filled sticks to boards: marks, ids, order, cost and bound, the same for every lumber cutter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from takeoff.cutting.bound import material_bound
from takeoff.cutting.groups import Group, Part, Stick
from takeoff.cutting.ids import stock_ids
from takeoff.cutting.nests import Nest, nest_order
from takeoff.cutting.steps import inches
from takeoff.model.stock import Board, CostProof, Cut, LumberCutting, Stop


@dataclass(frozen=True, slots=True)
class Filled:
    """A stick with what is cut from it, in any order."""

    stick: Stick
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """What a cutter found for a group; its specials not among it. ``finished``: it wasn't told to stop early."""

    group: Group
    sticks: tuple[Filled, ...]
    finished: bool
    bound: int | None = None
    """Cents that no cutting of the group costs less than, specials not among them; None: the bound of the material."""


def assembled(fillings: Sequence[Filling], kerf_in: float) -> LumberCutting:
    """The boards of all groups, with ids, and what is known of their cost.

    Boards stand by load, profile and grade, the longest first, then by pattern, longest first piece first. Sticks
    without a known price aren't in the cost, and least cost is never said to be proven while there are any.
    """
    boards = [board for filling in fillings for board in _boards(filling, kerf_in)]
    ids = stock_ids((board.load, board.profile, board.grade) for board in boards)
    proofs = tuple(_proof(filling) for filling in fillings)
    cost = sum(_known_cost(filling) for filling in fillings)
    bound = sum(_bound(filling) for filling in fillings)
    return LumberCutting(
        boards=tuple(replace(board, stock_id=stock_id) for board, stock_id in zip(boards, ids, strict=True)),
        cost_usd=cost / 100,
        bound_usd=bound / 100,
        stopped_by=_stop(fillings, proven=cost == bound),
        proofs=proofs,
    )


def _proof(filling: Filling) -> CostProof:
    group, cost, bound = filling.group, _known_cost(filling), _bound(filling)
    return CostProof(
        load=group.load,
        profile=group.profile,
        grade=group.grade,
        cost_usd=cost / 100,
        bound_usd=bound / 100,
        proven=group.priced and cost == bound,
    )


def _bound(filling: Filling) -> int:
    group = filling.group
    if filling.bound is None or not group.priced:
        return material_bound(group)
    return filling.bound + sum(demand.qty * stick.cost for demand, stick in group.specials)


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
    for demand, stick in sorted(group.specials, key=lambda special: -special[1].length_in):
        for _ in range(demand.qty):
            yield _board(group, stick, (Cut(mark=demand.mark, length_in=demand.length_in),), kerf_in)
    queues = {part: _pieces_alike(group, part) for part in dict.fromkeys(group.parts)}
    in_order = sorted(((filled.stick, _in_order(filled.parts)) for filled in filling.sticks), key=_by_pattern)
    for stick, parts in in_order:
        yield _board(group, stick, _lapped(parts, tuple(next(queues[part]) for part in parts)), kerf_in)


def _by_pattern(board: tuple[Stick, tuple[Part, ...]]) -> tuple[object, ...]:
    """The longest comes first, of equals what is on hand; boards of a pattern stand together."""
    stick, parts = board
    pattern = tuple((-width, nest_order(nest)) for width, nest in parts)
    return (-stick.length_in, not stick.on_hand, stick.special, stick.cost, stick.trim_in, pattern)


def _in_order(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Longest first, those that nest with each other together: a bad end shows while the stick can still be turned."""
    lead: dict[Nest, int] = {}
    for width, nest in parts:
        if nest is not None:
            lead[nest] = max(width, lead.get(nest, 0))

    def place(part: Part) -> tuple[object, ...]:
        width, nest = part
        return (-(width if nest is None else lead[nest]), nest_order(nest), -width)

    return tuple(sorted(parts, key=place))


def _lapped(parts: tuple[Part, ...], cuts: tuple[Cut, ...]) -> tuple[Cut, ...]:
    nests = [nest for _, nest in parts]
    return tuple(
        replace(cut, lap_in=inches(nest.saving)) if nest is not None and nest == before else cut
        for cut, nest, before in zip(cuts, nests, [None, *nests], strict=False)
    )


def _pieces_alike(group: Group, part: Part) -> Iterator[Cut]:
    for demand in group.demands:
        if (demand.width, demand.nest) == part:
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
        on_hand=stick.on_hand,
        trim_in=stick.trim_in,
    )
