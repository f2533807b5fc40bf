"""Lengths and points that a plan not yet read writes in its blocks."""

from __future__ import annotations

from typing import Any

from takeoff.measure import MeasureError, parse_length
from takeoff.plan.drawing_in.nodes import node_at
from takeoff.plan.drawing_in.trace import Point
from takeoff.plan.tree import Keys, Node, plain


def spot_at(block: Keys, key: str) -> Point | None:
    """A point [x, y] that a block writes at a key; None where it is none."""
    return spot_of(node_at(block, key))


def spot_of(node: Node | None) -> Point | None:
    """A point [x, y] that a node is; None where it is none."""
    value: Any = _plain(node)
    if not isinstance(value, list) or len(value) != 2:
        return None
    x, y = (_inches(each) for each in value)
    return None if x is None or y is None else (x, y)


def inches_at(block: Keys, key: str) -> float | None:
    """A length that a block writes at a key [in]; None where it is none."""
    return _inches(_plain(node_at(block, key)))


def _plain(node: Node | None) -> Any:
    return None if node is None else plain(node)


def _inches(value: Any) -> float | None:
    try:
        return parse_length(value)
    except MeasureError:
        return None
