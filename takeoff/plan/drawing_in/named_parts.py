"""Parts that a plan and a drawing both list: told apart by name, each filled by the one with what the other leaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from takeoff.findings import Finding, Severity
from takeoff.plan.drawing_in.nodes import listing, node_at, with_entry, without, word
from takeoff.plan.drawing_in.trace import Trace, told
from takeoff.plan.tree import Keys, Listing, Node, plain


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPart:
    """A part that a drawing shows."""

    name: str
    trace: Trace
    values: tuple[tuple[tuple[str, ...], Node], ...]
    """What is drawn, by its path of keys in the part's block of the plan."""
    instead_of: tuple[str, ...] = ()
    """Keys of the plan that say the same otherwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """Where a plan lists parts of a kind."""

    what: str
    """One of them, in words."""
    path: tuple[str, ...]
    names: tuple[str, ...]
    """What those that are written there are called."""
    alone: str = ""
    """What a part has to be told in the plan, where a drawing can't make one by itself; else empty."""
    named: bool = True
    """Whether the name is a key of the plan."""


def written_parts(block: Keys, path: tuple[str, ...]) -> tuple[Keys, ...]:
    """The parts that a plan lists at a path; those only that are blocks of keys."""
    node = node_at(block, *path)
    return tuple(item for item in node.items if isinstance(item, Keys)) if isinstance(node, Listing) else ()


def word_at(block: Keys, key: str) -> str:
    """A word of a part; empty where there is none."""
    node = node_at(block, key)
    return "" if node is None else str(plain(node))


def with_parts(
    block: Keys, listed: Listed, parts: Sequence[DrawnPart], *, drawing_first: bool
) -> tuple[Keys, tuple[Finding, ...]]:
    """A building's block with what is drawn put into the parts of the same name, and parts of new names added.

    Args:
        block: of the building.
        listed: where such parts are listed.
        parts: as drawn.
        drawing_first: what is drawn goes before what is written; and what is not drawn is not there.
    """
    if not parts:
        return block, ()
    written, findings = list(written_parts(block, listed.path)), []
    names = [name.casefold() for name in listed.names]
    shown: set[int] = set()
    for part in parts:
        key = part.name.casefold()
        index = names.index(key) if key in names else len(written)
        if index < len(written) and index not in shown:  # a second one of the name is added, and refused by the rules
            shown.add(index)
            written[index] = _filled(written[index], part, drawing_first=drawing_first)
        elif listed.alone:
            message = f"found {listed.what} {part.name!r}, expected it in the plan under that name too, {listed.alone}"
            findings.append(told(part.trace, "not-used", Severity.WARNING, message))
        else:
            shown.add(len(written))
            written.append(_filled(_named(part, listed), part, drawing_first=True))
    for index, name in enumerate(listed.names):
        if index not in shown and drawing_first:
            message = f"found {listed.what} {name!r} in the plan and not in the drawing, left out"
            findings.append(told(Trace(parts[0].trace.file), "left-out", Severity.WARNING, message))
    kept = [item for index, item in enumerate(written) if index in shown or not drawing_first]
    if not kept:
        return block, tuple(findings)
    trace = parts[0].trace
    return with_entry(block, listed.path, trace, listing(trace, kept)), tuple(findings)


def _named(part: DrawnPart, listed: Listed) -> Keys:
    empty = Keys(part.trace.spot, ())
    return with_entry(empty, ("name",), part.trace, word(part.trace, part.name)) if listed.named else empty


def _filled(block: Keys, part: DrawnPart, *, drawing_first: bool) -> Keys:
    if drawing_first:
        block = without(block, part.instead_of)
    elif any(node_at(block, key) is not None for key in part.instead_of):
        return block
    for path, node in part.values:
        if drawing_first or node_at(block, *path) is None:
            block = with_entry(block, path, part.trace, node)
    return block
