"""The whole take-off as one document: every table, under one schema version."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import PurePath

from takeoff.model.comparison import Nesting
from takeoff.model.takeoff import Takeoff
from takeoff.sheets.tables import TABLES

DOCUMENT = "takeoff.json"
SCHEMA_VERSION = 1
"""Goes up when a name in the document changes its meaning or goes; not when one is added."""


def takeoff_json(takeoff: Takeoff) -> bytes:
    """The document: job, settings, what is known of the cutting, then each table as a list of objects.

    Objects have the columns of the table's CSV file as names, numbers rounded alike. One row stands on one line,
    so that two runs can be compared line by line. Of the plan only the file's name is given, not where it lay.
    """
    head = [f"{json.dumps(name)}: {_text(value)}" for name, value in _head(takeoff).items()]
    tables = []
    for table in TABLES:
        rows = ",\n  ".join(_text(row) for row in table.objects(takeoff))
        tables.append(f"{json.dumps(table.name)}: [\n  {rows}\n ]" if rows else f"{json.dumps(table.name)}: []")
    return ("{\n " + ",\n ".join(head + tables) + "\n}\n").encode()


def is_document(text: bytes) -> bool:
    """Whether the bytes of a file are such a document, of any version."""
    try:
        found = json.loads(text)
    except ValueError:
        return False
    return isinstance(found, dict) and {"schema_version", "job", "settings"} <= found.keys()


def _head(takeoff: Takeoff) -> Mapping[str, object]:
    settings, lumber = takeoff.settings, takeoff.lumber
    return {
        "schema_version": SCHEMA_VERSION,
        "job": takeoff.job,
        "plan_file": PurePath(takeoff.plan_file).name,
        "settings": {
            "denominator": settings.denominator,
            "kerf_in": settings.kerf_in,
            "species": settings.species,
            "placeholder_prices": settings.placeholder_prices,
        },
        "buildings": [
            {"name": each.name, "count": each.count, "vent_area_sqin": round(each.vent_area_sqin, 3)}
            for each in takeoff.buildings
        ],
        "cutting_proof": {
            "cost": round(lumber.cost_usd, 2),
            "bound": round(lumber.bound_usd, 2),
            "stopped_by": str(lumber.stopped_by),
            "sheet_bound": takeoff.sheets.area_bound,
        },
        "buying_compared": [
            {
                "max_lengths": buying.max_lengths,
                "cost": round(buying.cost_usd, 2),
                "bound": round(buying.bound_usd, 2),
                "boards": buying.boards,
                "kinds": buying.lengths,
                "chosen": buying.chosen,
            }
            for buying in takeoff.comparison.buyings
        ],
        "nesting": _nesting(takeoff.comparison.nesting),
    }


def _nesting(nesting: Nesting | None) -> Mapping[str, object] | None:
    if nesting is None:
        return None
    return {
        "shared_cuts": nesting.shared_cuts,
        "overlap_in": round(nesting.overlap_in, 4),
        "cost_apart": round(nesting.apart_usd, 2),
        "saving": round(nesting.saving_usd, 2),
    }


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
