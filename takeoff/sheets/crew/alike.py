"""Equal boards or sheets gathered, and their numbers written short."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import TypeVar

T = TypeVar("T")

_NUMBERED = re.compile(r"(.*?)(\d+)")


def alike(things: Iterable[T], key: Callable[[T], Hashable]) -> tuple[tuple[T, ...], ...]:
    """Groups of things with one key, in the order in which each group's first comes."""
    groups: dict[Hashable, list[T]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return tuple(tuple(group) for group in groups.values())


def short_ids(ids: Sequence[str]) -> str:
    """``2A1, 2A4 to 2A9``: neighbours that count on by one are drawn together."""
    runs: list[tuple[str, str]] = []
    for one in ids:
        if runs and _follows(runs[-1][1], one):
            runs[-1] = (runs[-1][0], one)
        else:
            runs.append((one, one))
    return ", ".join(first if first == last else f"{first} to {last}" for first, last in runs)


def by_number(ids: Iterable[str]) -> list[str]:
    """Ids in the order of their letters, then of their numbers."""
    return sorted(ids, key=_numbered)


def _numbered(one: str) -> tuple[str, int]:
    found = _NUMBERED.fullmatch(one)
    return (found[1], int(found[2])) if found else (one, 0)


def _follows(before: str, after: str) -> bool:
    a, b = _NUMBERED.fullmatch(before), _NUMBERED.fullmatch(after)
    return a is not None and b is not None and a[1] == b[1] and int(b[2]) == int(a[2]) + 1
