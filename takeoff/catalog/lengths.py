"""Stock lengths: what lengths a profile and grade are on sale in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.profiles import Profile
from takeoff.catalog.table import Row, read_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """A run of lengths on sale, and what it is for. An empty tuple means any."""

    kinds: tuple[str, ...]
    grades: tuple[str, ...]
    profiles: tuple[str, ...]
    least_width_in: float
    """Nominal width [in] from which on the series is sold."""
    lengths_in: tuple[float, ...]

    def covers(self, profile: Profile, grade: str) -> bool:
        """Whether that profile and grade are sold in these lengths."""
        wide_enough = profile.nominal is None or profile.nominal[1] >= self.least_width_in
        named = (not self.kinds or profile.kind in self.kinds) and (not self.profiles or profile.name in self.profiles)
        return named and wide_enough and (not self.grades or grade in self.grades)


@cache
def stock_lengths(profile: Profile, grade: str) -> tuple[float, ...]:
    """Lengths on sale [in], shortest first; none where that grade isn't made in that kind of profile.

    Precut studs are among those of stud grade. Engineered wood is cut to order in whole feet.
    """
    lengths = {length for series in _series() if series.covers(profile, grade) for length in series.lengths_in}
    return tuple(sorted(lengths))


@cache
def _series() -> tuple[Series, ...]:
    return tuple(_from_row(row) for row in read_table("stock_lengths"))


def _from_row(row: Row) -> Series:
    return Series(
        kinds=row.names("kinds"),
        grades=row.names("grades"),
        profiles=row.names("profiles"),
        least_width_in=row.number("least_nominal_width_in"),
        lengths_in=_run(row.inches("first_in"), row.inches("last_in"), row.inches("step_in")),
    )


def _run(first_in: float, last_in: float, step_in: float) -> tuple[float, ...]:
    """First to last in equal steps, both included."""
    count = round((last_in - first_in) / step_in)
    return tuple(first_in + step_in * index for index in range(count + 1))
