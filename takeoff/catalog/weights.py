"""Weights: densities by species and material, and what a foot of a profile weighs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.grades import grade as known_grade
from takeoff.catalog.profiles import Kind, Profile
from takeoff.catalog.table import Row, read_table
from takeoff.catalog.unknown import UnknownItem

_IN2_PER_FT2 = 144
_WATER_LB_FT3 = 62.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """What a cubic foot of a species or material weighs as delivered."""

    name: str
    words: str
    lb_ft3: float


def wood_density(specific_gravity: float, moisture_pct: float) -> float:
    """Density of solid wood [lb/ft3].

    Args:
        specific_gravity: G, on oven-dry weight and volume [-].
        moisture_pct: MC, moisture content [%].

    Source:
        NDS Supplement, section 3.1.3: 62.4 (G / (1 + G 0.009 MC)) (1 + MC / 100).
    """
    G, MC = specific_gravity, moisture_pct  # noqa: N806  (the book's symbols)
    return _WATER_LB_FT3 * (G / (1 + G * 0.009 * MC)) * (1 + MC / 100)


@cache
def densities() -> tuple[Density, ...]:
    """All species and materials, in the order of the table."""
    return tuple(_from_row(row) for row in read_table("densities"))


def density(name: str) -> float:
    """Density [lb/ft3] of a species (``spf``, ``dfl``, ``hf``, ``sp``, ``wc``) or material (``lvl``, ``treated``).

    Raises:
        UnknownItem: it isn't in the table.
    """
    written = name.strip().lower()
    for known in densities():
        if known.name == written:
            return known.lb_ft3
    raise UnknownItem("species or material", name, (known.name for known in densities()))


def weight_per_ft(profile: Profile, grade: str, species: str = "spf") -> float:
    """Weight of a foot of length [lb/ft].

    Args:
        profile: the cross section.
        grade: its grade or material. Engineered and treated wood have a density of their own; other grades have that
            of the species.
        species: species group of sawn lumber.

    Raises:
        UnknownItem: the grade or the species isn't known.
    """
    material = known_grade(grade).name
    own_density = profile.kind in (Kind.ENGINEERED, Kind.PREFAB) or material == "treated"
    return profile.area_in2 / _IN2_PER_FT2 * density(material if own_density else species)


def _from_row(row: Row) -> Density:
    """Density stated in the table, or else computed from the specific gravity."""
    stated = bool(row.optional("density_lb_ft3"))
    return Density(
        name=row.text("name"),
        words=row.text("words"),
        lb_ft3=row.number("density_lb_ft3")
        if stated
        else wood_density(row.number("specific_gravity"), row.number("moisture_pct")),
    )
