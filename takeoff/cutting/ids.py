"""Ids of sticks and sheets, short enough for a crayon: ``2B14`` is the 14th stick of bunch B of delivery 2.

A digit stands first, so that no id can be taken for a mark. The letters leave out I and O, which look like figures,
and E, with which a spreadsheet would read ``2E14`` as a number.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

_LETTERS = "ABCDFGHJKLMNPQRSTUVWXYZ"


def stock_ids(bunches: Iterable[tuple[int, str, str]]) -> Iterator[str]:
    """An id for each stick or sheet, in order.

    Args:
        bunches: for each, its load and what it is (profile and grade, or product and face); equal ones stand together.
    """
    letter_of: dict[tuple[int, str, str], str] = {}
    used: dict[tuple[int, str, str], int] = {}
    for bunch in bunches:
        if bunch not in letter_of:
            letter_of[bunch] = _letters(sum(load == bunch[0] for load, _, _ in letter_of))
        used[bunch] = used.get(bunch, 0) + 1
        yield f"{bunch[0]}{letter_of[bunch]}{used[bunch]}"


def _letters(index: int) -> str:
    """A to Z, then AA, AB and so on."""
    more, last = divmod(index, len(_LETTERS))
    return (_letters(more - 1) if more else "") + _LETTERS[last]
