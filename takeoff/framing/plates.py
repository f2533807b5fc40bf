"""Plates of a wall: bottom plate cut out at doors, top plate, and cap plate lapping the corners."""

from __future__ import annotations

from collections.abc import Iterable

from takeoff.catalog.rules import rule
from takeoff.framing.rake_plates import rake_plates
from takeoff.framing.splices import spliced
from takeoff.framing.wall import PlateEnd, Wall
from takeoff.model.member import Member

Run = tuple[float, float]


def plates(wall: Wall, stud_centres: Iterable[float], longest: float) -> tuple[Member, ...]:
    """All plates of a wall. Joints fall on studs; those of the cap plate keep their distance from the top plate's."""
    centres = tuple(stud_centres)
    sill = wall.details.sill_grade or wall.plates_grade
    members = [
        _plate(wall, "bottom-plate", run, 0.0, wall.ends, sill)
        for part in _without(_whole(wall.ends), (o.u for o in wall.openings if o.door))
        for run in spliced(part, longest, centres)
    ]
    if not wall.platform or wall.top:
        return (*members, *rake_plates(wall, centres, longest))
    offset = rule("plate.joint-offset").value
    gaps = tuple(tee.u for tee in wall.tees if tee.laps)
    lapped = tuple(u for gap in gaps for u in gap)
    top = spliced(_whole(wall.ends), longest, centres, away_from=lapped, offset=offset)
    joints = tuple(run[1] for run in top[:-1])
    cap = (
        run
        for part in _without(_whole(wall.cap_ends), gaps)
        for run in spliced(part, longest, centres, away_from=joints, offset=offset)
    )
    members += [_plate(wall, "top-plate", run, wall.height - 2 * wall.plate, wall.ends) for run in top]
    members += [_plate(wall, "cap-plate", run, wall.height - wall.plate, wall.cap_ends) for run in cap]
    return tuple(members)


def clip_plates(wall: Wall, stud_centres: Iterable[float], longest: float) -> tuple[Member, ...]:
    """The two plates of a gable wall's level top under a clip, their joints apart."""
    level = wall.level_top
    if level is None:
        return ()
    lower = spliced(level.u, longest, tuple(stud_centres))
    joints, offset = tuple(run[1] for run in lower[:-1]), rule("plate.joint-offset").value
    upper = spliced(level.u, longest, tuple(stud_centres), away_from=joints, offset=offset)
    return tuple(
        wall.bench.flat_along_u("clip-plate", wall.studs, wall.plates_grade, u=run, v=v)
        for runs, v in ((lower, level.bottom), (upper, level.bottom + wall.plate))
        for run in runs
    )


def _whole(ends: tuple[PlateEnd, PlateEnd]) -> Run:
    """From long point to long point."""
    return min(ends[0]), max(ends[1])


def _without(run: Run, gaps: Iterable[Run]) -> tuple[Run, ...]:
    """A run without its doors, or without the places where other plates lap over."""
    runs: list[Run] = []
    start = run[0]
    for gap in sorted(gaps):
        runs.append((start, gap[0]))
        start = gap[1]
    return (*runs, (start, run[1]))


def _plate(
    wall: Wall, role: str, run: Run, v: float, ends: tuple[PlateEnd, PlateEnd], grade: str | None = None
) -> Member:
    """A plate; its end is cut to the wall it meets where it is the first or the last of its run."""
    start, end = _whole(ends)
    left = ends[0] if run[0] == start else (run[0], run[0])
    right = ends[1] if run[1] == end else (run[1], run[1])
    return wall.bench.flat_along_u(
        role,
        wall.studs,
        grade or wall.plates_grade,
        u=(left[0], right[0]),
        v=v,
        slants=(left[1] - left[0], right[1] - right[0]),
    )
