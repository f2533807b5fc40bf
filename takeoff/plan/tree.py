"""YAML text as a tree whose every value and key knows its line and column.

Built from the parser's events, in one pass: so repeated keys are all found, and what a plan has no use for (anchors,
aliases, tags) is refused before it can grow. Plain words are read by YAML 1.2's rules, less what would surprise a
builder: ``on`` and ``2020-01-01`` are text, and so are ``0640`` and ``1e3``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from takeoff.findings import Place

if TYPE_CHECKING:
    from ruamel.yaml.error import MarkedYAMLError, StreamMark
    from ruamel.yaml.events import Event, ScalarEvent

MAX_DEPTH = 20
"""Deepest nesting taken; a plan needs six."""

Step = str | int
Loc = tuple[Step, ...]
Scalar = str | int | float | bool | None

_INT = re.compile(r"[-+]?(0|[1-9][0-9]{0,30})")
_FLOAT = re.compile(r"[-+]?(\.[0-9]{1,30}|[0-9]{1,30}\.[0-9]{0,30})")
_WORDS: dict[str, Scalar] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}


@dataclass(frozen=True, slots=True)
class Spot:
    """Line and column, from 1; of a value that comes from a drawing the drawing's file, and what it is there."""

    line: int
    column: int
    file: str = ""
    drawn: str = ""

    def place(self, file: str, path: str) -> Place:
        """The same for a finding about a plan's file and a path in it."""
        return Place(self.file or file, self.line, self.column, self.drawn or path)


@dataclass(frozen=True, slots=True)
class Word:
    """A single value."""

    spot: Spot
    value: Scalar


@dataclass(frozen=True, slots=True)
class Listing:
    """A list of values."""

    spot: Spot
    items: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A key with its value; ``spot`` is the key's."""

    spot: Spot
    key: str
    node: Node


@dataclass(frozen=True, slots=True)
class Keys:
    """A block of keys. Of a key that stands twice the first is kept."""

    spot: Spot
    entries: tuple[Entry, ...]

    def entry(self, key: str) -> Entry | None:
        """The entry of a key; None where there is none."""
        return next((entry for entry in self.entries if entry.key == key), None)


Node = Word | Listing | Keys


@dataclass(frozen=True, slots=True)
class TreeFault:
    """What is wrong with a tree: a rule, its place and the words for it."""

    rule: str
    spot: Spot
    loc: Loc
    message: str


class TreeError(ValueError):
    """A file that gives no tree: nothing more can be said about it than ``fault``."""

    def __init__(self, fault: TreeFault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def read_tree(text: str) -> tuple[Node, tuple[TreeFault, ...]]:
    """Read YAML.

    Args:
        text: of the file, of bounded length.

    Returns:
        The tree, and the faults that left it standing (keys that stand twice).

    Raises:
        TreeError: not YAML, an empty file, or one with what a plan has no use for.
    """
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    builder = _Builder(_events(text))
    try:
        return builder.document(), tuple(builder.faults)
    except MarkedYAMLError as error:
        raise TreeError(_syntax_fault(text, error)) from error
    except YAMLError as error:
        raise TreeError(TreeFault("plan.syntax", Spot(1, 1), (), f"not YAML: {_first_line(error)}")) from error


def plain(node: Node) -> Any:
    """The tree as plain dicts, lists and values."""
    if isinstance(node, Keys):
        return {entry.key: plain(entry.node) for entry in node.entries}
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return node.value


def spot_of(root: Node, loc: Loc, *, at_key: bool = False) -> Spot:
    """Where the value at ``loc`` stands, or else its nearest parent.

    A block or a list stands where its key does, and so does a value left empty; any value does if ``at_key``.
    """
    node, spot = root, root.spot
    for number, step in enumerate(loc):
        entry: Entry | Node | None = None
        if isinstance(node, Keys) and isinstance(step, str):
            entry = node.entry(step)
        elif isinstance(node, Listing) and isinstance(step, int) and 0 <= step < len(node.items):
            entry = node.items[step]
        if entry is None:
            return spot
        node = entry.node if isinstance(entry, Entry) else entry
        wants_key = not isinstance(node, Word) or node.value is None or (at_key and number == len(loc) - 1)
        spot = entry.spot if wants_key else node.spot
    return spot


def _events(text: str) -> Iterator[Event]:
    from ruamel.yaml import YAML

    try:
        yield from YAML(typ="safe", pure=True).parse(text)
    except (OverflowError, ValueError) as error:  # the parser doesn't look whether an escape is a character
        raise TreeError(TreeFault("plan.syntax", Spot(1, 1), (), 'found "\\U..." that is no character')) from error


class _Builder:
    """Makes the tree of a run of events, and collects faults on the way."""

    def __init__(self, events: Iterator[Event]) -> None:
        self._events = events
        self.faults: list[TreeFault] = []

    def document(self) -> Node:
        from ruamel.yaml.events import DocumentStartEvent, StreamEndEvent

        next(self._events)  # start of the stream
        if isinstance(next(self._events), StreamEndEvent):
            raise TreeError(TreeFault("plan.empty", Spot(1, 1), (), _EMPTY))
        root = self._node(next(self._events), ())
        if isinstance(root, Word) and root.value is None:
            raise TreeError(TreeFault("plan.empty", Spot(1, 1), (), _EMPTY))
        for event in self._events:
            if isinstance(event, DocumentStartEvent):
                message = "found a second document (---), expected one"
                raise TreeError(TreeFault("plan.syntax", _spot(event), (), message))
        return root

    def _node(self, event: Event, loc: Loc) -> Node:
        from ruamel.yaml.events import MappingStartEvent, ScalarEvent, SequenceStartEvent

        self._refuse_references(event, loc)
        if len(loc) > MAX_DEPTH:
            raise TreeError(TreeFault("plan.too-large", _spot(event), loc, f"nested deeper than {MAX_DEPTH} levels"))
        if isinstance(event, MappingStartEvent):
            return self._keys(event, loc)
        if isinstance(event, SequenceStartEvent):
            return self._listing(event, loc)
        assert isinstance(event, ScalarEvent)  # the only kind that is left
        return Word(_spot(event), _value(_text(event, loc), plain=event.implicit[0]))

    def _keys(self, start: Event, loc: Loc) -> Keys:
        from ruamel.yaml.events import MappingEndEvent, ScalarEvent

        entries: dict[str, Entry] = {}
        while not isinstance(event := next(self._events), MappingEndEvent):
            self._refuse_references(event, loc)
            if not isinstance(event, ScalarEvent):
                raise TreeError(TreeFault("plan.syntax", _spot(event), loc, "found a list or a block, expected a key"))
            key, spot = _text(event, loc), _spot(event)
            if key == "<<":
                raise TreeError(_reference_fault("a merge key (<<)", spot, loc))
            node = self._node(next(self._events), (*loc, key))
            if first := entries.get(key):
                message = f"found {key!r} again, expected each key once; it stands in line {first.spot.line} too"
                self.faults.append(TreeFault("plan.duplicate-key", spot, loc, message))
            else:
                entries[key] = Entry(spot, key, node)
        return Keys(_spot(start), tuple(entries.values()))

    def _listing(self, start: Event, loc: Loc) -> Listing:
        from ruamel.yaml.events import SequenceEndEvent

        items: list[Node] = []
        while not isinstance(event := next(self._events), SequenceEndEvent):
            items.append(self._node(event, (*loc, len(items))))
        return Listing(_spot(start), tuple(items))

    def _refuse_references(self, event: Event, loc: Loc) -> None:
        from ruamel.yaml.events import AliasEvent, NodeEvent

        if isinstance(event, NodeEvent) and event.anchor:
            kind = "an alias (*" if isinstance(event, AliasEvent) else "an anchor (&"
            raise TreeError(_reference_fault(f"{kind}{event.anchor})", _spot(event), loc))
        if getattr(event, "ctag", None):  # on all events that begin a value
            raise TreeError(_reference_fault("a tag (!)", _spot(event), loc))


_EMPTY = "found nothing, expected a plan; `takeoff start` writes one to begin with"


def _text(event: ScalarEvent, loc: Loc) -> str:
    """The text of a key or a value."""
    text = str(event.value)
    if any("\ud800" <= char <= "\udfff" for char in text):  # only an escape gives one; no file could hold it
        raise TreeError(TreeFault("plan.syntax", _spot(event), loc, 'found "\\u..." that is half a character'))
    return text


def _value(text: str, *, plain: bool) -> Scalar:
    """A quoted word is text; a plain one may be a number, yes or no, or nothing."""
    if not plain:
        return text
    if text in _WORDS:
        return _WORDS[text]
    if _INT.fullmatch(text):
        return int(text)
    return float(text) if _FLOAT.fullmatch(text) else text


def _spot(event: Event) -> Spot:
    return Spot(event.start_mark.line + 1, event.start_mark.column + 1)


def _reference_fault(what: str, spot: Spot, loc: Loc) -> TreeFault:
    message = f"found {what}, expected the values themselves; text that begins with such a sign goes in quotes"
    return TreeFault("plan.reference", spot, loc, message)


def _syntax_fault(text: str, error: MarkedYAMLError) -> TreeFault:
    """The parser's complaint, in a builder's words where they are known."""
    problem = str(error.problem or error.context or "")
    spot = _marked(error.problem_mark or error.context_mark)
    lines = text.splitlines()
    for number in (spot.line, spot.line - 1):  # the parser may notice a tab only on the next line
        line = lines[number - 1] if 1 <= number <= len(lines) else ""
        indent = line[: len(line) - len(line.lstrip())]
        if "\t" in indent:
            spot = Spot(number, indent.index("\t") + 1)
            return TreeFault("plan.syntax", spot, (), "found a tab before the text, expected spaces")
    for sign, words in _PROBLEMS:
        if sign in problem:
            return TreeFault("plan.syntax", spot, (), words)
    for sign, words in _PROBLEMS_EARLIER:
        if sign in problem:
            return TreeFault("plan.syntax", _marked(error.context_mark), (), words)
    return TreeFault("plan.syntax", spot, (), f"not YAML: {problem}")


_PROBLEMS = (
    ("mapping values are not allowed", "found a ':' too many, expected one 'key: value' a line; is it indented right?"),
    ("expected <block end>", "found a line that doesn't fit in here, expected it indented like its neighbours"),
)
"""What the parser says, and what it mostly means in a plan."""

_PROBLEMS_EARLIER = (
    ("could not find expected ':'", "found a word alone, expected 'key: value'; is a ':' missing?"),
    ("expected ',' or", "found a [ or { without end, expected commas within it and the bracket that closes it"),
)
"""The same, where the parser notices only further down: meant is the place where what it was reading began."""


def _marked(mark: StreamMark | None) -> Spot:
    return Spot(mark.line + 1, mark.column + 1) if mark else Spot(1, 1)


def _first_line(error: Exception) -> str:
    return (str(error).splitlines() or ["it can't be read"])[0]
