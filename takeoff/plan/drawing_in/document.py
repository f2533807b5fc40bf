"""A drawing opened: its header, and those entities and blocks that wanted layers have a part in."""

from __future__ import annotations

import codecs
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from takeoff.plan.drawing_in.ascii_tags import AsciiSource
from takeoff.plan.drawing_in.binary_tags import BinarySource, is_binary
from takeoff.plan.drawing_in.tags import Chunk, Record, Source, TagError
from takeoff.plan.drawing_in.trace import Trace, refused

MAX_BYTES = 256_000_000
"""Largest drawing taken."""

MAX_KEPT = 100_000
"""Most entities on wanted layers, or inserts that lead to them, before blocks are put in place."""

_UTF8_SINCE = "AC1021"
_HEADS = (
    (b"%PDF", "a PDF"),
    (b"PK\x03\x04", "a zip archive"),
    (b"\x1f\x8b", "a packed file (gzip)"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (codecs.BOM_UTF16_LE, "text in UTF-16"),
    (codecs.BOM_UTF16_BE, "text in UTF-16"),
)
"""How files begin that are taken for drawings, and what they are."""
_MOST_NAMED, _LOOKED_AT = 12, 20_000
_FOLLOWERS = ("VERTEX", "ATTRIB", "SEQEND")
_NO_ENTITIES = ("SECTION", "BLOCK", "ENDBLK", "TABLE", "LAYER", "VPORT", *_FOLLOWERS)


@dataclass(frozen=True, slots=True)
class Block:
    """A block: what is in it, not yet read."""

    head: Chunk
    inside: tuple[Chunk, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """What a drawing has on the wanted layers."""

    file: str
    source: Source
    units: int
    """Value of $INSUNITS; 0 where it has none."""
    entities: tuple[Record, ...]
    blocks: dict[str, Block]
    """By name in capitals."""
    leading: frozenset[str]
    """Blocks with something of a wanted layer in them, or in blocks that they hold."""

    def inside(self, block: Block) -> tuple[Record, ...]:
        """What is in a block, read."""
        return tuple(_read(self.source, self.file, each, i) for i, each in enumerate(block.inside, 1))

    def layers(self) -> tuple[str, ...]:
        """Layers that something is drawn on, those with most on them first; of a large drawing those near its begin."""
        found: Counter[str] = Counter()
        for chunk in islice(self.source.chunks(), _LOOKED_AT):
            if chunk.kind in _NO_ENTITIES:
                continue
            try:
                found.update({str(value).strip() for code, value in self.source.tags(chunk) if code == 8})
            except TagError:
                continue  # what can't be read is told where it matters
        return tuple(name for name, _ in found.most_common(_MOST_NAMED))

    def head(self, block: Block) -> Record:
        """The block's own record: base point and kind."""
        return _read(self.source, self.file, block.head, 0)


def open_drawing(path: Path, layers: frozenset[str]) -> Document:
    """Open a drawing.

    Args:
        path: of the file.
        layers: names of the wanted layers.

    Raises:
        PlanError: it can't be opened, or isn't DXF.
    """
    where = Trace(path.name)
    try:
        with path.open("rb") as file:
            content = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise refused(where, "unreadable", f"can't be read: {error.strerror or error}") from error
    if len(content) > MAX_BYTES:
        raise refused(where, "too-large", f"found over {MAX_BYTES // 1_000_000} MB, expected the plan of a house")
    source: Source = BinarySource(content) if is_binary(content) else AsciiSource(content)
    try:
        return _Scan(where, source, layers).document(content)
    except TagError as error:
        raise refused(where, "syntax", str(error)) from error


class _Scan:
    """One pass over a file, section by section."""

    def __init__(self, where: Trace, source: Source, layers: frozenset[str]) -> None:
        self.where = where
        self.source = source
        self.layers = layers
        self.section = ""
        self.units = 0
        self.ended = False
        self.blocks: dict[str, Block] = {}
        self.leading: frozenset[str] = frozenset()
        self.entities: list[Record] = []

    def document(self, content: bytes) -> Document:
        self._walk()
        if not self.section:
            raise refused(self.where, "not-dxf", _something_else(content))
        if not self.ended:
            raise refused(
                self.where, "truncated", "found no end of the file (EOF), expected one; is it a part of a drawing?"
            )
        return Document(
            file=self.where.file,
            source=self.source,
            units=self.units,
            entities=tuple(self.entities),
            blocks=self.blocks,
            leading=self.leading,
        )

    def _walk(self) -> None:
        """Sort the chunks of each section: blocks are gathered, entities kept where they are wanted."""
        chunks = self.source.chunks()
        for chunk in chunks:
            if chunk.kind == "EOF":
                self.ended = True
                return
            if chunk.kind != "SECTION":
                continue
            record = self._read(chunk)
            self.section = record.text(2).strip().upper()
            if self.section == "HEADER":
                self._header(record)
            elif self.section == "BLOCKS":
                self._blocks(chunks)
            elif self.section == "ENTITIES":
                self._entities(chunks)

    def _header(self, record: Record) -> None:
        values = {
            str(name).strip(): str(value)
            for (code, name), (_, value) in zip(record.tags, record.tags[1:], strict=False)
            if code == 9
        }
        version, page = values.get("$ACADVER", "").strip(), values.get("$DWGCODEPAGE", "").strip()
        if version < _UTF8_SINCE and version:
            self.source.encoding = _encoding(page)
        units = values.get("$INSUNITS", "0").strip()
        self.units = int(units) if re.fullmatch(r"[0-9]{1,3}", units) else 0

    def _blocks(self, chunks: Iterator[Chunk]) -> None:
        head: Chunk | None = None
        inside: list[Chunk] = []
        for chunk in chunks:
            if chunk.kind == "ENDSEC":
                break
            if chunk.kind == "BLOCK":
                head, inside = chunk, []
            elif chunk.kind == "ENDBLK" and head is not None:
                self.blocks[self._read(head).text(2).strip().upper()] = Block(head, tuple(inside))
                head = None
            else:
                inside.append(chunk)
        self.leading = self._leading()

    def _leading(self) -> frozenset[str]:
        """Blocks that lead to a wanted layer, from the innermost out."""
        wanted = self.source.names(self.layers)
        holders: dict[str, set[str]] = {}
        leading: set[str] = set()
        for name, block in self.blocks.items():
            if any(self.source.holds(wanted, chunk) for chunk in block.inside):
                leading.add(name)
            for chunk in block.inside:
                if chunk.kind == "INSERT":
                    for held in self.source.block_names(chunk):
                        holders.setdefault(held.strip().upper(), set()).add(name)
        waiting = sorted(leading)
        while waiting:
            new = holders.get(waiting.pop(), set()) - leading
            leading |= new
            waiting += sorted(new)
        return frozenset(leading)

    def _entities(self, chunks: Iterator[Chunk]) -> None:
        wanted = self.source.names(self.layers)
        holds, names, leading = self.source.holds, self.source.block_names, self.leading
        following = False
        for count, chunk in enumerate(chunks, 1):
            kind = chunk.kind
            if kind == "ENDSEC":
                return
            if kind in _FOLLOWERS:
                keep = following or holds(wanted, chunk)
            else:
                keep = holds(wanted, chunk) or (
                    kind == "INSERT" and any(name.strip().upper() in leading for name in names(chunk))
                )
                following = keep and kind in ("POLYLINE", "INSERT")
            if keep:
                self.entities.append(_read(self.source, self.where.file, chunk, count))
                if len(self.entities) > MAX_KEPT:
                    raise refused(self.where, "too-large", f"found over {MAX_KEPT:,} entities on layers of the plan")

    def _read(self, chunk: Chunk) -> Record:
        return _read(self.source, self.where.file, chunk, 0)


def _read(source: Source, file: str, chunk: Chunk, number: int) -> Record:
    try:
        return Record(chunk.kind.upper(), tuple(source.tags(chunk)), number)
    except TagError as error:
        raise refused(Trace(file, handle=f"entity {number}" if number else ""), "syntax", str(error)) from error


def _encoding(page: str) -> str:
    """The encoding of a code page such as ANSI_1252; western where it isn't known."""
    figures = re.search(r"[0-9]{3,5}$", page)
    try:
        return codecs.lookup(f"cp{figures[0]}" if figures else "cp1252").name
    except LookupError:
        return "cp1252"


def _something_else(content: bytes) -> str:
    if re.match(rb"AC1[0-9]{3}", content):
        return "found a DWG file, expected DXF; save the drawing as DXF"
    what = next((what for head, what in _HEADS if content.startswith(head)), None)
    if what:
        return f"found {what}, expected DXF; save the drawing as DXF"
    if b"\x00" in content[:4096]:
        return "found bytes that are no drawing, expected DXF"
    return "found text that is no drawing, expected DXF (its first lines are 0 and SECTION)"
