r"""Blocks: what stands in a row of a sheet, one piece or slanted ones that share their saw cuts.

 ____________________
|      /     /      |     Three pieces, two cuts: a block of the least length that holds them.
|_____/_____/_______|
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement, groupby
from math import ceil, hypot

from takeoff.cutting.sheet.shape import Pose, Shape, poses

WORTH_STEPS = 8
"""Slanted cuts that save less than half an inch aren't worth their trouble. No source."""

LONGEST_CHAIN = 4
"""Pieces slanted at both ends stand in a row up to so many."""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a block."""

    item: int
    pose: Pose
    at: int
    """Where what it spans begins, from the start of the block."""


@dataclass(frozen=True, slots=True)
class Block:
    """Pieces side by side, as long and as high as what they span (and what the kerf takes beyond the gap)."""

    length: int
    height: int
    parts: tuple[Part, ...]

    @property
    def content(self) -> dict[int, int]:
        """How many of each item."""
        return dict(Counter(part.item for part in self.parts))


@dataclass(frozen=True, slots=True)
class _End:
    """A slanted end of an item in a pose: x at the lower and the upper edge."""

    item: int
    pose: Pose
    low: int
    high: int

    @property
    def lean(self) -> int:
        return self.high - self.low


def blocks_of(
    shapes: Sequence[Shape], excess: int, longest: int, *, numbers: Sequence[int] | None = None
) -> tuple[Block, ...]:
    """Every block of some shapes, lowest first, then shortest.

    Args:
        shapes: the items.
        excess: what a kerf takes beyond the gap between sheets [steps].
        longest: a block of several pieces is no longer [steps].
        numbers: of the items, if they aren't counted from 0.
    """
    found = [
        Block(shape.length + excess, shape.width + excess, (Part(k, (1, 1), 0),)) for k, shape in enumerate(shapes)
    ]
    slanted = [k for k, shape in enumerate(shapes) if shape.corners]
    slanted.sort(key=lambda k: shapes[k].width)
    for _, group in groupby(slanted, key=lambda k: shapes[k].width):
        found += [block for block in _nested(shapes, tuple(group), excess) if block.length <= longest]
    found.sort(key=lambda block: (block.height, block.length, [part.item for part in block.parts]))
    return tuple(found) if numbers is None else tuple(_renumbered(block, numbers) for block in found)


def _renumbered(block: Block, numbers: Sequence[int]) -> Block:
    parts = tuple(Part(numbers[part.item], part.pose, part.at) for part in block.parts)
    return Block(block.length, block.height, parts)


def _nested(shapes: Sequence[Shape], alike: tuple[int, ...], excess: int) -> Iterator[Block]:
    """Pairs of shapes of one width, and chains of one that is slanted at both ends."""
    rights = {k: tuple(_ends(shapes[k], k, right=True)) for k in alike}
    lefts = {k: tuple(_ends(shapes[k], k, right=False)) for k in alike}
    for a, b in combinations_with_replacement(alike, 2):
        pairs = [pair for i, j in {(a, b), (b, a)} for pair in _pairs(shapes, rights[i], lefts[j], excess)]
        if pairs:
            length, parts = min(pairs)
            yield Block(length + excess, shapes[a].width + excess, tuple(Part(*part) for part in parts))
    for k in alike:
        yield from _chains(shapes, k, excess)


def _ends(shape: Shape, item: int, *, right: bool) -> Iterator[_End]:
    for pose in poses(shape.flips):
        side = shape.side(pose, right=right)
        if side is not None and abs(side[1] - side[0]) >= WORTH_STEPS:
            yield _End(item, pose, *side)


_Placed = tuple[int, tuple[tuple[int, Pose, int], ...]]


def _apart(lean: int, excess: int, one: Shape, other: Shape) -> int:
    """What a slanted cut takes along the row: what the kerf needs beyond the gap, and what rounding moved its edges."""
    return ceil(excess * hypot(1.0, lean / one.width)) + ceil((one.off + other.off) / 2)


def _pairs(shapes: Sequence[Shape], rights: Sequence[_End], lefts: Sequence[_End], excess: int) -> Iterator[_Placed]:
    for right in rights:
        for left in lefts:
            if right.lean * left.lean > 0:
                at = max(0, right.low - left.low, right.high - left.high)
                lean = max(abs(left.lean), abs(right.lean))
                at += _apart(lean, excess, shapes[left.item], shapes[right.item])
                length = max(at + shapes[left.item].length, shapes[right.item].length)
                if length <= shapes[left.item].length + shapes[right.item].length - WORTH_STEPS:
                    yield length, ((right.item, right.pose, 0), (left.item, left.pose, at))


def _chains(shapes: Sequence[Shape], item: int, excess: int) -> Iterator[Block]:
    """Three and four of one shape, every other one turned, where both its ends are slanted."""
    shape = shapes[item]
    best: dict[int, tuple[int, tuple[Part, ...]]] = {}
    for first in poses(shape.flips):
        for second in poses(shape.flips):
            parts = [Part(item, first, 0)]
            while len(parts) < LONGEST_CHAIN:
                pose = second if len(parts) % 2 else first
                a, b = shape.side(parts[-1].pose, right=True), shape.side(pose, right=False)
                if a is None or b is None or (a[1] - a[0]) * (b[1] - b[0]) <= 0:
                    break
                apart = _apart(max(abs(a[1] - a[0]), abs(b[1] - b[0])), excess, shape, shape)
                parts.append(Part(item, pose, parts[-1].at + max(0, a[0] - b[0], a[1] - b[1]) + apart))
                length = parts[-1].at + shape.length
                if len(parts) > 2 and (len(parts) not in best or length < best[len(parts)][0]):
                    best[len(parts)] = (length, tuple(parts))
    for _, (length, parts_of) in sorted(best.items()):
        yield Block(length + excess, shape.width + excess, parts_of)
