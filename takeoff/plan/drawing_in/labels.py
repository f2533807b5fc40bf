"""The label of an opening: ``3040``, ``3068 door``, ``3'-0" x 4'-0" window head 6'-10 1/2" header 2-2x8 jacks 2``.

Its size is the unit's; ``allowance 1/2" x 1"`` says what the rough opening has more in width and height.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from takeoff.measure import MeasureError, parse_call, parse_length

LIKE_LABEL = "a size, then door, window or cased, and head with its height, such as: 3068 door, or 3040 head 6'-8\""

_KINDS = {"window": "window", "door": "door", "cased": "cased", "opening": "cased"} | {
    "sliding": "sliding",
    "garage": "garage",
}
_WORDS = re.compile(r"\b(window|(?:sliding|garage)(?: door)?|door|cased opening|cased|opening)\b", re.IGNORECASE)
_KEYS = re.compile(r"\b(head|header|jacks|allowance)\b\s*(?:at\b|[:=])?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningLabel:
    """What a label says. ``size`` is width and height of the unit [in]."""

    size: tuple[float, float]
    kind: str = "window"
    head: float | None = None
    header: str | None = None
    jacks: int | None = None
    allowance: tuple[float, float] | None = None
    """What the rough opening has more in width and height [in]."""


def read_label(words: str) -> OpeningLabel:
    """Read the label of an opening.

    Raises:
        ValueError: it can't be read; the message completes "expected ...".
    """
    parts = _KEYS.split(words[:200])
    values = {key.lower(): value.strip(" ,;") for key, value in zip(parts[1::2], parts[2::2], strict=True)}
    if len(values) != len(parts) // 2:
        raise ValueError(f"each word once; {LIKE_LABEL}")
    kinds: set[str] = set()

    def without_kind(text: str) -> str:
        kinds.update(_KINDS[found.split()[0].lower()] for found in _WORDS.findall(text))
        return _WORDS.sub(" ", text).strip(" ,;")

    size = without_kind(parts[0])
    values = {key: without_kind(value) for key, value in values.items()}
    if len(kinds) > 1:
        raise ValueError(f"one kind of opening; {LIKE_LABEL}")
    try:
        return OpeningLabel(
            size=parse_call(size),
            kind=kinds.pop() if kinds else "window",
            head=parse_length(values["head"]) if "head" in values else None,
            header=values.get("header"),
            jacks=int(values["jacks"]) if "jacks" in values else None,
            allowance=_allowance(values["allowance"]) if "allowance" in values else None,
        )
    except MeasureError as error:
        raise ValueError(f"{LIKE_LABEL} ({_amiss(error)})") from None
    except ValueError:
        raise ValueError(f"a number of jacks; {LIKE_LABEL}") from None


def _allowance(text: str) -> tuple[float, float]:
    """Width and height, or one length for both."""
    sizes = re.split(r"\s+x\s+", text, flags=re.IGNORECASE)
    return (parse_length(sizes[0]), parse_length(sizes[-1]))


def _amiss(error: MeasureError) -> str:
    """What is wrong, less how a plan writes it: a label is written otherwise."""
    return error.fault.split(";")[0]
