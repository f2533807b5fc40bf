"""Words and dimensions put where they run over nothing else, and kept clear of from then on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeVar

from takeoff.sheets.drawing import Item
from takeoff.sheets.extent import lines_of, texts_of
from takeoff.sheets.free_space import FreeSpace
from takeoff.sheets.lettering import text_box

T = TypeVar("T", bound=Item)


def stand(space: FreeSpace, items: Iterable[Item], one_to: float) -> None:
    """Keep what comes later off the lettering and the lines of these."""
    kept = tuple(items)
    for text in texts_of(kept, one_to):
        if text.words:
            space.take(text_box(text, one_to))
    for line in lines_of(kept, one_to):
        if line[0] != line[1]:
            space.draw(line)


def first_free(space: FreeSpace, tries: Sequence[T], one_to: float) -> T:
    """The first whose lettering runs over nothing and whose lines run over no lettering; else the last. It stands."""
    found = free_one(space, tries, one_to)
    if found is None:
        found = tries[-1]
        stand(space, (found,), one_to)
    return found


def free_one(space: FreeSpace, tries: Iterable[T], one_to: float) -> T | None:
    """As `first_free`; None where none is free."""
    found = next((one for one in tries if _is_free(space, one, one_to)), None)
    if found is not None:
        stand(space, (found,), one_to)
    return found


def _is_free(space: FreeSpace, item: Item, one_to: float) -> bool:
    boxes = (text_box(text, one_to) for text in texts_of((item,), one_to) if text.words)
    return all(space.is_free(box) for box in boxes) and not any(
        space.is_lettered(line) for line in lines_of((item,), one_to)
    )
