"""Lengths: read into inches, rounded, and written in feet and inches."""

from __future__ import annotations

import math
import re

from takeoff.measure.words import LIKE_LENGTH, MAX_LENGTH_IN, SLASHES, MeasureError, Reader, shown

ROUNDING_SLACK_IN = 1e-7
"""A length this little short of a half step [in] still rounds up: it is a half, less the noise of float arithmetic."""

_PITCH_ALONE = re.compile(rf"\s*[0-9]{{1,9}}\s*[{SLASHES}]\s*12\s*")


def parse_length(text: str | int | float) -> float:
    """Read a length.

    Feet are marked ``'`` or ``ft``, inches ``"``, ``''`` or ``in``, or nothing; typographic marks and fractions are
    read too. ``3.2m``, ``30cm`` and ``305mm`` are converted. A leading minus takes the whole length negative.

    Args:
        text: what was written; a number is inches.

    Returns:
        Length [in], not rounded.

    Raises:
        MeasureError: not a length, one that can be read two ways, or one of more than 10,000 feet.
    """
    if isinstance(text, str):
        if _PITCH_ALONE.fullmatch(text):  # no tape has twelfths: 8/12 here stands in the wrong line of the plan
            raise MeasureError(f"a pitch, where a length is wanted; write {LIKE_LENGTH}", text)
        return Reader(text, LIKE_LENGTH).length()
    if isinstance(text, bool) or not isinstance(text, int | float):
        raise MeasureError(f"not a length; write {LIKE_LENGTH}", shown(text))
    if not abs(text) <= MAX_LENGTH_IN:  # put this way round it refuses nan too
        raise MeasureError(f"not a length of up to 10,000 feet; write {LIKE_LENGTH}", shown(text))
    return float(text) + 0.0  # no minus zero


def round_to(inches: float, *, denominator: int = 16) -> float:
    """Round to the nearest 1/``denominator`` inch, a half away from zero (-x rounds to what x does, negated).

    A length short of a half step by no more than `ROUNDING_SLACK_IN` counts as the half.

    Args:
        inches: length [in].
        denominator: 1, 2, 4, 8, 16, 32 or 64.

    Returns:
        Length [in].

    Raises:
        ValueError: another denominator, or a length that is not finite.
    """
    return math.copysign(_steps(inches, denominator) / denominator, inches) + 0.0


def format_length(inches: float, *, denominator: int = 16) -> str:
    """Write feet and inches, rounded as `round_to` does: ``12'-6 1/2"``, ``8'-0"``; under a foot inches alone.

    Args:
        inches: length [in].
        denominator: as of `round_to`.

    Raises:
        ValueError: as `round_to`.
    """
    steps = _steps(inches, denominator)
    feet, rest = divmod(steps, 12 * denominator)
    if not feet:
        return _sign(inches, steps) + _inches_text(rest, denominator)
    lead = "0 " if 0 < rest < denominator else ""  # 12'-0 1/2": no crew reads 12'-1/2" right every time
    return f"{_sign(inches, steps)}{feet}'-{lead}{_inches_text(rest, denominator)}"


def format_inches(inches: float, *, denominator: int = 16) -> str:
    """Write inches alone, rounded as `round_to` does: ``150 1/2"``.

    Args:
        inches: length [in].
        denominator: as of `round_to`.

    Raises:
        ValueError: as `round_to`.
    """
    steps = _steps(inches, denominator)
    return _sign(inches, steps) + _inches_text(steps, denominator)


def _steps(inches: float, denominator: int) -> int:
    """Whole steps of 1/denominator inch in a length without its sign, half up."""
    if denominator not in (1, 2, 4, 8, 16, 32, 64):
        raise ValueError(f"an inch is divided into 1, 2, 4, 8, 16, 32 or 64 parts, not {denominator}")
    if not math.isfinite(inches):
        raise ValueError(f"not a length: {inches}")
    return math.floor((abs(inches) + ROUNDING_SLACK_IN) * denominator + 0.5)


def _sign(inches: float, steps: int) -> str:
    return "-" if inches < 0 and steps else ""


def _inches_text(steps: int, denominator: int) -> str:
    whole, part = divmod(steps, denominator)
    if not part:
        return f'{whole}"'
    shared = math.gcd(part, denominator)
    fraction = f"{part // shared}/{denominator // shared}"
    return f'{whole} {fraction}"' if whole else f'{fraction}"'
