"""Profiles: the cross sections lumber is sold in, by nominal name or by stated actual size."""

from __future__ import annotations

import enum
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from takeoff.catalog.table import Row, read_table
from takeoff.catalog.unknown import UnknownItem
from takeoff.measure import MeasureError, parse_length

_STATED = re.compile(r"(?P<thickness>[^x]{1,12})x(?P<depth>[^x]{1,12})")
_NUMBER = re.compile(r"\d+(-\d+/\d+|\.\d+)?|\d+/\d+", re.ASCII)
_STEP_IN = 1 / 32  # stated sizes are whole thirty-seconds, so that a size has one name only
_LEAST_IN, _LARGEST_IN = 0.5, 48.0
_NEAR_IN = 2.0
_MEND = "an actual size is written with its fraction, such as 5-1/2x14"


class Kind(enum.StrEnum):
    """What sort of stick a profile is."""

    BOARD = "board"
    DIMENSION = "dimension"
    TIMBER = "timber"
    ENGINEERED = "engineered"
    PREFAB = "prefab"


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """A cross section as sold.

    Boards and dimension lumber have the dry dressed size; timbers (5 in and thicker, nominal) the green dressed size,
    since they are sold green. Engineered wood has the size it is called by, and so have prefabricated joists (I-joists,
    open-web joists), whose outline is all that is drawn of them.
    """

    name: str
    kind: Kind
    thickness_in: float
    depth_in: float
    nominal: tuple[float, float] | None = None
    """Nominal thickness and width [in]; None for engineered wood, which has none."""

    @property
    def board_feet_per_ft(self) -> float:
        """Board feet in a foot of length; 0 for engineered wood, which isn't sold by the board foot.

        Source:
            PS 20: nominal thickness x nominal width [in] x length [ft] / 12.
        """
        return self.nominal[0] * self.nominal[1] / 12 if self.nominal else 0.0

    @property
    def area_in2(self) -> float:
        """Area of the cross section [in2]."""
        return self.thickness_in * self.depth_in


@cache
def profiles() -> tuple[Profile, ...]:
    """All tabulated profiles, in the order of the table."""
    return tuple(_from_row(row) for row in read_table("lumber_sizes"))


def profile(name: str) -> Profile:
    """The profile a builder means by ``name``.

    Args:
        name: a nominal size (``2x10``, ``5/4x6``), or an actual size with a fraction in it (``5-1/2x14``), which is
            engineered wood. ``2 X 10``, ``2×10`` and ``2"x10"`` are the same as ``2x10``.

    Raises:
        UnknownItem: neither; or the sizes stand the wrong way round.
    """
    written = _plain(name)
    tabulated = _by_name().get(written)
    return tabulated if tabulated else _stated(name, written)


@cache
def _by_name() -> dict[str, Profile]:
    return {known.name: known for known in profiles()}


def _from_row(row: Row) -> Profile:
    kind = Kind(row.text("kind"))
    sawn = kind not in (Kind.ENGINEERED, Kind.PREFAB)
    return Profile(
        name=row.text("name"),
        kind=kind,
        thickness_in=row.inches("thickness_in"),
        depth_in=row.inches("depth_in"),
        nominal=(row.number("nominal_thickness_in"), row.number("nominal_width_in")) if sawn else None,
    )


@lru_cache(maxsize=1024)
def _plain(name: str) -> str:
    """Lower case, an ``x`` between, no inch marks, a hyphen before a fraction, fraction signs spelled out."""
    text = re.sub("[¼½¾⅛⅜⅝⅞]", lambda sign: " " + unicodedata.normalize("NFKC", sign[0]), name.lower())
    text = re.sub(r"[\"″”]", "", text.replace("⁄", "/").replace("×", "x")).strip()
    text = re.sub(r"\s*x\s*", "x", text)
    return re.sub(r"\s*[-–\s]\s*", "-", text)


def _stated(name: str, written: str) -> Profile:
    """Engineered wood, by its actual size."""
    match = _STATED.fullmatch(written)
    if match is None:
        raise _unknown(name)
    thickness_text, depth_text = match["thickness"], match["depth"]
    turned = f"{depth_text}x{thickness_text}"
    if turned in _by_name():
        raise _unknown(name, f"write {turned}, thickness first")
    if thickness_text.isdecimal() and depth_text.isdecimal():
        near = _near(float(thickness_text), float(depth_text))
        raise UnknownItem("profile", name, near) if near else _unknown(name, _MEND)
    thickness_in, depth_in = _size(name, thickness_text), _size(name, depth_text)
    if thickness_in > depth_in:
        raise _unknown(name, f"write {turned}, thickness first")
    return Profile(
        name=f"{_size_text(thickness_in)}x{_size_text(depth_in)}",
        kind=Kind.ENGINEERED,
        thickness_in=thickness_in,
        depth_in=depth_in,
    )


def _near(thickness_in: float, width_in: float) -> tuple[str, ...]:
    """Profiles of the same nominal thickness, and of about that width."""
    return tuple(
        known.name
        for known in profiles()
        if known.nominal and known.nominal[0] == thickness_in and abs(known.nominal[1] - width_in) <= _NEAR_IN
    )


def _size(name: str, text: str) -> float:
    if not _NUMBER.fullmatch(text):
        raise _unknown(name, _MEND)
    try:
        size_in = parse_length(text)
    except MeasureError as error:
        raise _unknown(name, _MEND) from error
    if not _LEAST_IN <= size_in <= _LARGEST_IN:
        raise _unknown(name, f"sizes run from {_size_text(_LEAST_IN)} to {_size_text(_LARGEST_IN)} inches")
    if not (size_in / _STEP_IN).is_integer():
        raise _unknown(name, f"{text} isn't a whole number of thirty-seconds; {_MEND}")
    return size_in


def _size_text(size_in: float) -> str:
    """``5-1/2``, the way a size stands in a name; exact, as sizes are whole thirty-seconds."""
    whole, rest = divmod(size_in, 1)
    if not rest:
        return f"{whole:.0f}"
    numerator, denominator = rest.as_integer_ratio()
    return f"{whole:.0f}-{numerator}/{denominator}" if whole else f"{numerator}/{denominator}"


def _unknown(name: str, mend: str = "") -> UnknownItem:
    return UnknownItem("profile", name, _by_name(), mend=mend)
