"""Values of a drawing as nodes of a plan's tree: each stands in the drawing, where it was read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from takeoff.plan.drawing_in.trace import Trace
from takeoff.plan.tree import Entry, Keys, Listing, Node, Scalar, Word

DIGITS = 6
"""Figures kept behind the point [in]: far under a sixteenth, far above what far-off coordinates lose."""


def word(trace: Trace, value: Scalar) -> Word:
    """One value."""
    return Word(trace.spot, round(value, DIGITS) + 0.0 if isinstance(value, float) else value)


def keys(trace: Trace, values: Mapping[str, Scalar]) -> Keys:
    """A block; keys without a value are left out."""
    return Keys(
        trace.spot,
        tuple(Entry(trace.spot, key, word(trace, value)) for key, value in values.items() if value is not None),
    )


def listing(trace: Trace, items: Iterable[Node]) -> Listing:
    """A list."""
    return Listing(trace.spot, tuple(items))


def with_entry(block: Keys, path: tuple[str, ...], trace: Trace, node: Node) -> Keys:
    """A block with a node at a path of keys, in place of what is there; blocks on the way are made."""
    key, rest = path[0], path[1:]
    entry = block.entry(key)
    if rest:
        inner = entry.node if entry and isinstance(entry.node, Keys) else Keys(trace.spot, ())
        node = with_entry(inner, rest, trace, node)
    if entry is None:
        return replace(block, entries=(*block.entries, Entry(trace.spot, key, node)))
    spot = entry.spot if rest else trace.spot
    entries = (Entry(spot, key, node) if each is entry else each for each in block.entries)
    return replace(block, entries=tuple(entries))


def without(block: Keys, names: tuple[str, ...]) -> Keys:
    """A block without some of its keys."""
    return replace(block, entries=tuple(entry for entry in block.entries if entry.key not in names))


def point(trace: Trace, spot: tuple[float, float]) -> Listing:
    """A point [x, y]."""
    return listing(trace, (word(trace, spot[0]), word(trace, spot[1])))


def node_at(block: Node | None, *path: str) -> Node | None:
    """The node at a path of keys; None where there is none."""
    for key in path:
        entry = block.entry(key) if isinstance(block, Keys) else None
        block = entry.node if entry else None
    return block


def put(block: Node, steps: tuple[str | int, ...], trace: Trace, node: Node) -> Node:
    """A node with another at the end of a way through keys and places in lists, in place of what is there.

    Raises:
        ValueError: the way leads through what is neither.
    """
    if not steps:
        return node
    step, rest = steps[0], steps[1:]
    if isinstance(step, str) and isinstance(block, Keys):
        inner = node_at(block, step)
        return with_entry(block, (step,), trace, put(inner or Keys(trace.spot, ()), rest, trace, node))
    if isinstance(step, int) and isinstance(block, Listing):
        items = list(block.items)
        items[step] = put(items[step], rest, trace, node)
        return replace(block, items=tuple(items))
    raise ValueError(f"no way to {step!r}")


def step_to(node: Node | None, way: tuple[str | int, ...]) -> Node | None:
    """The node at the end of a way through keys and places in lists; None where there is none."""
    for step in way:
        if isinstance(step, str):
            node = node_at(node, step)
        else:
            node = node.items[step] if isinstance(node, Listing) and step < len(node.items) else None
    return node
