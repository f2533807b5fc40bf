"""Every file of a job, as bytes, from its take-off alone."""

from __future__ import annotations

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew_book import crew_book_pdf
from takeoff.sheets.drawing_files import drawing_files
from takeoff.sheets.sheet_drawings import sheet_drawings
from takeoff.sheets.write import BOOK, WRITERS


def files_of(takeoff: Takeoff) -> dict[str, bytes]:
    """Bytes by file name, relative to the job's folder."""
    drawings = sheet_drawings(takeoff)
    return {
        **{name: writer(takeoff) for name, writer in WRITERS.items()},
        BOOK: crew_book_pdf(takeoff, drawings),
        **drawing_files(takeoff, drawings),
    }
