"""How much room lettering takes, before anything is drawn.

Advance widths are those of the crew sheets' face, read from its metrics; another face is near enough to these that
texts set clear of each other stay so.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin

from takeoff.sheets.drawing import MM_PER_IN, Point, Text

CAPITAL_SHARE = 0.698
"""Height of a capital as a share of the font size (the face's own metrics)."""

DROP_SHARE = 0.3
"""How far descenders reach under the line, as a share of a capital's height."""

_FIRST = 32
_HUNDREDTHS = (
    23,
    28,
    41,
    71,
    59,
    92,
    69,
    24,
    33,
    33,
    45,
    60,
    27,
    39,
    27,
    38,
    60,
    60,
    60,
    60,
    60,
    60,
    60,
    60,
    60,
    60,
    29,
    29,
    60,
    60,
    60,
    47,
    89,
    64,
    65,
    62,
    67,
    58,
    55,
    69,
    70,
    40,
    51,
    63,
    50,
    81,
    70,
    70,
    60,
    70,
    64,
    58,
    57,
    67,
    60,
    89,
    61,
    59,
    58,
    31,
    38,
    31,
    60,
    56,
    60,
    53,
    58,
    50,
    58,
    54,
    32,
    52,
    56,
    25,
    25,
    52,
    27,
    87,
    56,
    56,
    58,
    58,
    36,
    48,
    35,
    56,
    49,
    76,
    50,
    49,
    46,
    34,
    31,
    34,
    60,
)
"""Advance widths of the printable ASCII characters, from the space on [hundredths of the font size]."""

_BOLD_SHARE = 1.08
_OTHER = 60  # degree sign, dash and the like: as wide as a figure


def font_size_mm(height_mm: float) -> float:
    """Font size of lettering whose capitals are ``height_mm`` high [mm]."""
    return height_mm / CAPITAL_SHARE


def width_mm(words: str, height_mm: float, *, bold: bool = False) -> float:
    """Width of a line of lettering on paper [mm]."""
    return _hundredths(words) / 100 * font_size_mm(height_mm) * (_BOLD_SHARE if bold else 1.0)


@lru_cache(maxsize=4096)
def _hundredths(words: str) -> int:
    """Width of a line of lettering [hundredths of the font size]; drawings try the same words at many places."""
    return sum(
        _HUNDREDTHS[ord(char) - _FIRST] if 0 <= ord(char) - _FIRST < len(_HUNDREDTHS) else _OTHER for char in words
    )


def text_box(text: Text, one_to: float) -> tuple[Point, Point, Point, Point]:
    """Corners of the box that a text fills, in the axes of its view [in]."""
    wide, high = width_mm(text.words, text.height_mm, bold=text.bold), text.height_mm
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[text.anchor]
    low = {"base": 0.0, "middle": -high / 2, "top": -high}[text.level]
    k = one_to / MM_PER_IN
    c, s = cos(radians(text.turned_deg)), sin(radians(text.turned_deg))
    x, y = text.at
    # Along and across the lettering, each turned into the view's axes: this is asked for at very many places.
    ax, ay, bx, by = left * c * k, left * s * k, (left + wide) * c * k, (left + wide) * s * k
    low, high = low - DROP_SHARE * high, low + high
    ux, uy, vx, vy = -low * s * k, low * c * k, -high * s * k, high * c * k
    return (
        (x + ax + ux, y + ay + uy),
        (x + bx + ux, y + by + uy),
        (x + bx + vx, y + by + vy),
        (x + ax + vx, y + ay + vy),
    )
