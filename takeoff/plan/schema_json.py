"""The plan's keys as a JSON Schema, with which an editor completes and checks a plan as it is written."""

from __future__ import annotations

import json

from takeoff.plan.schema import Plan


def schema_json() -> str:
    """The JSON Schema of a plan as text, the same on every run."""
    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema", **Plan.model_json_schema(mode="validation")}
    return json.dumps(schema, indent=2, ensure_ascii=False, sort_keys=True) + "\n"
