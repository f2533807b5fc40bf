"""Openings in walls: rough-opening allowances by kind, and headers by width where the plan doesn't state them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.profiles import Profile, profile
from takeoff.catalog.table import read_table
from takeoff.catalog.unknown import UnknownItem


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningKind:
    """A kind of opening and its usual framing."""

    name: str
    words: str
    add_width_in: float
    """Added to the call size for the rough opening [in]."""
    add_height_in: float
    head_in: float
    """Usual height of the rough opening's head above the floor deck [in]."""
    jacks: int
    """Jack studs at each side."""
    sill: bool
    """Whether it has a sill, the bottom plate running through under it; otherwise the plate is cut out."""

    def rough_size(self, width_in: float, height_in: float) -> tuple[float, float]:
        """Rough width and height [in] of an opening called by its width and height [in]."""
        return width_in + self.add_width_in, height_in + self.add_height_in


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualHeader:
    """A header of common practice up to a clear width: a starting point, not a design."""

    up_to_in: float
    plies: int
    profile: Profile


@cache
def opening_kinds() -> tuple[OpeningKind, ...]:
    """All kinds of opening, in the order of the table."""
    return tuple(
        OpeningKind(
            name=row.text("kind"),
            words=row.text("words"),
            add_width_in=row.inches("add_width_in"),
            add_height_in=row.inches("add_height_in"),
            head_in=row.inches("head_in"),
            jacks=row.whole("jacks"),
            sill=row.flag("sill"),
        )
        for row in read_table("openings")
    )


def opening_kind(name: str) -> OpeningKind:
    """The kind of opening of that name, such as ``window``.

    Raises:
        UnknownItem: there is none.
    """
    written = name.strip().lower()
    for known in opening_kinds():
        if known.name == written:
            return known
    raise UnknownItem("kind of opening", name, (known.name for known in opening_kinds()))


@cache
def usual_headers() -> tuple[UsualHeader, ...]:
    """Headers of common practice, narrowest first."""
    headers = (
        UsualHeader(up_to_in=row.inches("up_to_in"), plies=row.whole("plies"), profile=profile(row.text("profile")))
        for row in read_table("headers")
    )
    return tuple(sorted(headers, key=lambda header: header.up_to_in))


def usual_header(clear_width_in: float) -> UsualHeader | None:
    """The header usual over a rough opening of that clear width [in]; None where it is wider than the table goes."""
    return next((header for header in usual_headers() if clear_width_in <= header.up_to_in), None)
