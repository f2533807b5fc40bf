"""Every file of a job, as bytes, from its take-off alone."""

from __future__ import annotations

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.drawing_files import drawing_files
from takeoff.sheets.write import WRITERS


def files_of(takeoff: Takeoff) -> dict[str, bytes]:
    """Bytes by file name, relative to the job's folder."""
    return {**{name: writer(takeoff) for name, writer in WRITERS.items()}, **drawing_files(takeoff)}
