"""The scales of a scale rule: plans and elevations go on the paper at the largest that has room for them."""

from __future__ import annotations

from itertools import count

from takeoff.sheets.drawing import MM_PER_IN

_SMALL_FEET = {24: '1/2"', 32: '3/8"', 48: '1/4"', 64: '3/16"', 96: '1/8"', 128: '3/32"', 192: '1/16"'}


def scale_for(wide_in: float, tall_in: float, width_mm: float, height_mm: float) -> float:
    """The largest scale at which a thing goes into that much paper, as inches of the thing to an inch of paper."""
    for doubled in count():
        for one_to in (24.0 * (1 << doubled), 32.0 * (1 << doubled)):
            if wide_in / one_to * MM_PER_IN <= width_mm and tall_in / one_to * MM_PER_IN <= height_mm:
                return one_to
    raise AssertionError("scales run on without end")


def scale_words(one_to: float) -> str:
    """A scale as the rule has it, such as ``, 1/4" to the foot``; nothing for one that the rule hasn't."""
    feet = _SMALL_FEET.get(round(one_to))
    return f", {feet} to the foot" if feet else ""
