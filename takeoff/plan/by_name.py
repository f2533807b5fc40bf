"""A mapping nobody can change: what a plan says by name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

_T = TypeVar("_T")


class ByName(Mapping[str, _T]):
    """Values by name, in the order written; equal and hashed by what is in it."""

    __slots__ = ("_pairs",)

    def __init__(self, values: Mapping[str, _T]) -> None:
        self._pairs = tuple(values.items())

    def __getitem__(self, name: str) -> _T:
        for known, value in self._pairs:
            if known == name:
                return value
        raise KeyError(name)

    def __iter__(self) -> Iterator[str]:
        return (name for name, _ in self._pairs)

    def __len__(self) -> int:
        return len(self._pairs)

    def __hash__(self) -> int:
        return hash(frozenset(self._pairs))

    def __repr__(self) -> str:
        return f"ByName({dict(self._pairs)!r})"
