"""Entities of a DXF file: where they lie, and their pairs of code and value."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, Protocol

Tag = tuple[int, str | float]

FARTHEST = 1e12
"""Largest number taken; a coordinate beyond it has lost its sixteenths."""


class TagError(ValueError):
    """A pair that can't be read."""


class Chunk(NamedTuple):
    """One entity: its kind, and where it lies in the file."""

    kind: str
    start: int
    end: int


class Source(Protocol):
    """A file that gives its entities, read only when asked for."""

    encoding: str

    def chunks(self) -> Iterator[Chunk]:
        """Where each entity lies, in the order of the file."""

    def names(self, names: Iterable[str]) -> re.Pattern[bytes]:
        """A pattern for a value that is one of these names."""

    def holds(self, pattern: re.Pattern[bytes], chunk: Chunk) -> bool:
        """Whether a pattern of `names` is in an entity."""

    def block_names(self, chunk: Chunk) -> list[str]:
        """What may be the name of the block that an insert puts there."""

    def tags(self, chunk: Chunk) -> list[Tag]:
        """The pairs of an entity, in order."""


@dataclass(frozen=True, slots=True)
class Record:
    """One entity, read. ``number``: which one of its section it is, from 1."""

    kind: str
    tags: tuple[Tag, ...]
    number: int = 0

    def text(self, code: int, default: str = "") -> str:
        """The first value of a code."""
        return next((str(value) for known, value in self.tags if known == code), default)

    def real(self, code: int, default: float = 0.0) -> float:
        """The first value of a code as a number.

        Raises:
            TagError: it isn't one, or one too large.
        """
        return next((number(code, value) for known, value in self.tags if known == code), default)

    def whole(self, code: int, default: int = 0) -> int:
        """The first value of a code as a whole number, as `real`."""
        return int(self.real(code, default))

    @property
    def layer(self) -> str:
        """Its layer, as written."""
        return self.text(8, "0").strip()

    @property
    def handle(self) -> str:
        """What it is called in messages: its handle, or its number where the file has none."""
        written = self.text(5).strip()
        return f"handle {written}" if written else f"entity {self.number}"


def number(code: int, value: str | float) -> float:
    """The value of a code as a number.

    Raises:
        TagError: it isn't one, or one too large.
    """
    try:
        read = float(value)
    except ValueError:
        read = math.nan
    if not abs(read) <= FARTHEST:
        raise TagError(f"found {str(value).strip()[:20]!r} for code {code}, expected a number")
    return read
