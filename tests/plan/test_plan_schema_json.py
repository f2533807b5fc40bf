from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from takeoff.plan.schema_json import schema_json
from takeoff.plan.start import starter_text
from takeoff.plan.tree import plain, read_tree

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "curlew-cabin.yaml"
SCHEMA: dict[str, Any] = json.loads(schema_json())
TYPES: dict[str, type | tuple[type, ...]] = {
    "object": dict, "array": list, "string": str, "number": (int, float), "integer": int, "null": type(None),
}  # fmt: skip


def accepts(schema: dict[str, Any], value: Any) -> bool:
    """The part of JSON Schema that plans use, as an editor checks it."""
    if "$ref" in schema:
        return accepts(SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]], value)
    if "anyOf" in schema and not any(accepts(part, value) for part in schema["anyOf"]):
        return False
    if "type" in schema and not isinstance(value, TYPES[schema["type"]]):
        return False
    if value not in schema.get("enum", [value]) or value != schema.get("const", value):
        return False
    if isinstance(value, dict):
        return accepts_keys(schema, value)
    if isinstance(value, list):
        parts = schema.get("prefixItems", [schema.get("items", {})] * len(value))
        return len(parts) == len(value) and all(map(accepts, parts, value))
    return True


def accepts_keys(schema: dict[str, Any], value: dict[str, Any]) -> bool:
    known, others = schema.get("properties", {}), schema.get("additionalProperties", True)
    if not set(schema.get("required", ())) <= set(value):
        return False
    other: dict[str, Any] = {True: {}, False: {"enum": []}}[others] if isinstance(others, bool) else others
    return all(accepts(known.get(key, other), part) for key, part in value.items())


@pytest.mark.parametrize("text", [SAMPLE.read_text(encoding="utf-8"), starter_text()], ids=["sample", "starter"])
def test_the_schema_accepts_plans_that_run(text: str) -> None:
    assert accepts(SCHEMA, plain(read_tree(text)[0]))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("pitch: 8/12", "picth: 8/12"),
        ("shape: gable", "shape: dome"),
        ("gables: [east, west]", "gables: [east]"),
        ("job: Curlew Cabin", "job: [Curlew Cabin]"),
        ('      rafters: {size: 2x10, spacing: 16", grade: no2}\n', ""),
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(old: str, new: str) -> None:
    text = SAMPLE.read_text(encoding="utf-8")
    assert old in text
    assert not accepts(SCHEMA, plain(read_tree(text.replace(old, new))[0]))


def test_every_key_is_explained_to_the_editor() -> None:
    for name, block in {"Plan": SCHEMA, **SCHEMA["$defs"]}.items():
        for key, field in block.get("properties", {}).items():
            block_meant = SCHEMA["$defs"].get(field.get("$ref", "").rpartition("/")[2], {})
            assert field.get("description") or block_meant.get("description"), f"{name}.{key}"


def test_the_schema_is_the_same_each_time() -> None:
    assert schema_json() == schema_json()
