"""The label of a part of a building: its name, then what the drawing says of it: ``bath studs 2x4 spacing 16"``."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from takeoff.plan.tree import Scalar

Path = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelWords:
    """Words that a label may hold beside a name."""

    keys: Mapping[str, Path]
    """Words that a value follows, and the plan's key, or path of keys, that it goes to."""
    flags: tuple[str, ...] = ()
    """Words that stand alone and say yes to the plan's key of that name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLabel:
    """What a label says. The plan's own schema reads the values, as it reads what is written in the plan."""

    name: str
    """Empty where the label has none."""
    values: tuple[tuple[Path, Scalar], ...] = ()


PARTITION = LabelWords(
    keys={"studs": ("studs",), "spacing": ("spacing",), "grade": ("grade",), "height": ("height",)}, flags=("bearing",)
)
LOFT = LabelWords(keys={"height": ("height",), "joists": ("joists", "size"), "spacing": ("joists", "spacing")})
SLOPE = LabelWords(keys={"eave": ("eave",), "pitch": ("pitch",), "plate": ("plate",)})
GIRDER = LabelWords(
    keys={"size": ("size",), "grade": ("grade",), "joists": ("joists",), "posts": ("post",), "post": ("post",)}
)
FLOOR = LabelWords(keys={"joists": ("joists", "size"), "spacing": ("joists", "spacing")})


def read_part_label(text: str, words: LabelWords) -> PartLabel:
    """Take a label apart at the words known; what stands before the first is the name."""
    known = "|".join((*words.keys, *words.flags))
    parts = re.split(rf"\b({known})\b\s*[:=]?", text[:200], flags=re.IGNORECASE)
    values: list[tuple[Path, Scalar]] = []
    for word, value in zip(parts[1::2], parts[2::2], strict=True):
        key = word.lower()
        if key in words.flags:
            values.append(((key,), True))
        else:
            values.append((words.keys[key], value.strip(" ,;")))
    return PartLabel(name=" ".join(parts[0].strip(" ,;:").split()), values=tuple(values))
