"""Pitch of a roof: rise in 12 of run, as written and as angles."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from takeoff.measure.words import DASHES, SLASHES, MeasureError, Reader, refuse_long, shown

_LIKE_PITCH = "8/12 or 33.7deg"
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_DEGREES = re.compile(r"(?:[°º]|deg(?:ree)?s?\.?)\s*$", re.IGNORECASE)
_RUN = re.compile(
    rf"(?:(?P<slash>[{SLASHES}])|:|[{DASHES}]?\s*in\s*[{DASHES}]?)\s*(?P<run>[0-9]+(?:\.[0-9]+)?)\s*$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Pitch:
    """Slope of a roof, as its rise in 12 of level run, exact as written."""

    rise: float
    """Inches up in 12 inches level, above zero."""

    def __post_init__(self) -> None:
        if not (self.rise > 0 and self.deg < 90):
            raise ValueError(f"a pitch is above level and below plumb, not {self.rise} in 12")

    @property
    def slope(self) -> float:
        """Rise over run, the tangent of the pitch [-]."""
        return self.rise / 12

    @property
    def deg(self) -> float:
        """Angle above level, also the plumb cut from square [deg]."""
        return math.degrees(math.atan(self.slope))

    @property
    def seat_deg(self) -> float:
        """The seat (level) cut from square: the complement of the plumb cut [deg]."""
        return 90 - self.deg

    def __str__(self) -> str:
        """``8/12``, ``4.5/12``: to four decimals, so that sixteenths of rise stand in full."""
        return f"{self.rise:.4f}".rstrip("0").rstrip(".") + "/12"


def parse_pitch(text: str | int | float) -> Pitch:
    """Read a pitch: ``8/12``, ``8:12``, ``8 in 12``, ``6 1/2 /12``, ``10/24`` (scaled to 5/12), ``33.7deg``.

    A number alone is refused (inches or degrees?), and so is a fraction such as ``1/4``: the trade also writes
    rise over the whole span, and a quarter pitch of that kind is 6/12, not 3/12. ``1:4`` and ``1 in 4`` are clear.

    Raises:
        MeasureError: not a pitch, one that can be read two ways, or one not above level and below plumb.
    """
    written = shown(text)
    refuse_long(written, _LIKE_PITCH)
    sign = _DEGREES.search(written)
    rise = _rise_of_degrees(written, sign.start()) if sign else _rise_of_ratio(written)
    try:
        return Pitch(rise)
    except ValueError:
        raise MeasureError(f"a pitch is above level and below plumb; write {_LIKE_PITCH}", written) from None


def _rise_of_degrees(text: str, end: int) -> float:
    """Rise in 12 [in] of an angle above level, which stands before ``end``."""
    angle = Reader(text, _LIKE_PITCH, end=end).number_alone()
    # Past plumb the tangent comes round again; infinity is what `Pitch` refuses.
    return 12 * math.tan(math.radians(angle)) if angle < 90 else math.inf


def _rise_of_ratio(text: str) -> float:
    """Rise in 12 [in] of a rise over a run."""
    ratio = _RUN.search(text)
    if ratio is None:
        bare = text.strip()
        like = f"{bare}/12 or {bare}deg" if _NUMBER.fullmatch(bare) else _LIKE_PITCH
        raise MeasureError(f"no run and no degrees; write {like}", text, len(text.rstrip()))
    run = float(ratio["run"])
    if run == 0 or (ratio["slash"] and run < 12):
        fault = "a rise over 12 is wanted (is this over the run, or over the span?)" if run else "a run of nothing"
        raise MeasureError(f"{fault}; write {_LIKE_PITCH}", text, ratio.start("run"))
    return Reader(text, _LIKE_PITCH, end=ratio.start()).number_alone() * 12 / run
