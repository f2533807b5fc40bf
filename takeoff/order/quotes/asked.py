"""What prices are asked for: each item once, whichever loads it rides on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256

from takeoff.model.order import OrderLine

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""Those that can't be taken for one another on a fax."""

_CODE_LENGTH = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedItem:
    """One thing to be priced."""

    code: str
    """Made from its description, so that it stays when others come and go."""
    text: str
    """What a yard calls it."""
    unit: str
    by_load: tuple[tuple[int, int], ...]
    """Numbers of the loads it rides on, with how many on each."""
    special: bool

    @property
    def quantity(self) -> int:
        """On all loads."""
        return sum(number for _, number in self.by_load)


def asked_items(lines: Iterable[OrderLine]) -> tuple[AskedItem, ...]:
    """The items of an order in its order, quantities with their allowances."""
    lines = tuple(lines)
    codes: dict[str, str] = {}
    for text in dict.fromkeys(line.item for line in lines):
        codes[text] = _code(text, set(codes.values()))
    return tuple(_item(text, code, [line for line in lines if line.item == text]) for text, code in codes.items())


def _item(text: str, code: str, lines: list[OrderLine]) -> AskedItem:
    by_load: dict[int, int] = {}
    for line in lines:
        by_load[line.load] = by_load.get(line.load, 0) + line.qty_order
    return AskedItem(
        code=code, text=text, unit=lines[0].unit, by_load=tuple(sorted(by_load.items())), special=lines[0].special
    )


def _code(text: str, taken: set[str]) -> str:
    """Four letters and figures; the first of a series that no other item has."""
    digest = int.from_bytes(sha256(text.encode()).digest(), "big")
    while True:
        digest, code = _drawn(digest)
        if code not in taken:
            return code


def _drawn(digest: int) -> tuple[int, str]:
    letters = []
    for _ in range(_CODE_LENGTH):
        digest, index = divmod(digest, len(_LETTERS))
        letters.append(_LETTERS[index])
    return digest, "".join(letters)
