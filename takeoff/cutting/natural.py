"""Order of names with numbers in them, as a builder would put them: ``2x4`` before ``2x10``, ``R2`` before ``R10``."""

from __future__ import annotations

import re

_DIGITS = re.compile(r"(\d+)")


def natural_key(name: str) -> tuple[str | int, ...]:
    """Key to sort by: words and numbers in turn, so that the same places of two keys can always be compared."""
    return tuple(int(part) if index % 2 else part for index, part in enumerate(_DIGITS.split(name)))
