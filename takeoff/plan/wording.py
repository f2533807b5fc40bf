"""Words that all complaints about a plan share: how a value is shown, and which known name is nearest."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

_LONGEST_SHOWN = 40


def nearest(name: str, known: Iterable[str]) -> str:
    """The known name most like ``name``; empty where none is much like it."""
    by_lower = {other.lower(): other for other in sorted(known)}
    close = difflib.get_close_matches(name.lower(), list(by_lower), n=1, cutoff=0.6)
    return by_lower[close[0]] if close else ""


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """``; did you mean 'pitch'?``, or nothing."""
    near = nearest(name, known)
    return f"; did you mean {near!r}?" if near else ""


def shown(value: object) -> str:
    """A value as it stands in the plan, short enough for a line."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a block of keys"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    text = repr(value)
    return text if len(text) <= _LONGEST_SHOWN else text[:_LONGEST_SHOWN] + "…'"
