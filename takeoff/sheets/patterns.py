"""``patterns.pdf``: the full-size patterns of all rafters, on letter paper."""

from __future__ import annotations

import json

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.crew.rafter_sheet import rafter_marks
from takeoff.sheets.pattern_tiles import pattern_tiles
from takeoff.sheets.svg import svg
from takeoff.sheets.typeset import set_pdf

TEMPLATE = "patterns.typ"


def patterns_pdf(takeoff: Takeoff) -> bytes | None:
    """Mark by mark in the order of the book; None for a job without rafters."""
    denominator = takeoff.settings.denominator
    tiles = [tile for m in rafter_marks(takeoff) for tile in pattern_tiles(m.member, denominator=denominator)]
    if not tiles:
        return None
    pictures = {f"{tile.name}.svg": svg(tile) for tile in tiles}
    data = json.dumps({"title": f"{takeoff.job}: full-size patterns", "files": list(pictures)}, ensure_ascii=False)
    return set_pdf(TEMPLATE, {"data.json": data.encode(), **pictures})
