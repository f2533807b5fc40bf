"""Plates of a wall: bottom plate cut out at doors, top plate, and cap plate lapping the corners."""

from __future__ import annotations

from collections.abc import Iterable

from takeoff.catalog.rules import rule
from takeoff.framing.splices import spliced
from takeoff.framing.wall import Wall
from takeoff.model.member import Member

Run = tuple[float, float]


def plates(wall: Wall, stud_centres: Iterable[float], longest: float) -> tuple[Member, ...]:
    """All plates of a wall. Joints fall on studs; those of the cap plate keep their distance from the top plate's."""
    centres = tuple(stud_centres)
    bottom = (run for part in _bottom_runs(wall) for run in spliced(part, longest, centres))
    members = [_plate(wall, "bottom-plate", run, 0.0) for run in bottom]
    if wall.platform:
        top = spliced(wall.extent, longest, centres)
        joints = tuple(run[1] for run in top[:-1])
        offset = rule("plate.joint-offset").value
        cap = spliced(wall.cap_extent, longest, centres, away_from=joints, offset=offset)
        members += [_plate(wall, "top-plate", run, wall.height - 2 * wall.plate) for run in top]
        members += [_plate(wall, "cap-plate", run, wall.height - wall.plate) for run in cap]
    return tuple(members)


def _bottom_runs(wall: Wall) -> tuple[Run, ...]:
    """The wall's extent without its doors."""
    runs: list[Run] = []
    start = wall.extent[0]
    for door in sorted((o for o in wall.openings if o.door), key=lambda o: o.u):
        runs.append((start, door.u[0]))
        start = door.u[1]
    return (*runs, (start, wall.extent[1]))


def _plate(wall: Wall, role: str, run: Run, v: float) -> Member:
    return wall.bench.flat_along_u(role, wall.studs, wall.plates_grade, u=run, v=v)
