"""DXF as text: pairs of lines, a code and a value. Where each entity lies is found without reading the pairs."""

from __future__ import annotations

import codecs
import re
from collections.abc import Iterable, Iterator

from takeoff.plan.drawing_in.tags import Chunk, Tag, TagError

# A code line is a number, so a line "0" that is a value is never followed by a line with a letter in it.
_START = re.compile(rb"(?:^|(?<=\n))[ \t]*0+[ \t]*\r?\n[ \t]*([0-9]{0,2}[A-Za-z_][A-Za-z0-9_ ]*?)[ \t]*(?:\r?\n|\Z)")
_BLOCK_NAME = re.compile(rb"\n[ \t]*2[ \t]*\r?\n[ \t]*([^\r\n]*)")


class AsciiSource:
    """The entities of a DXF text file."""

    def __init__(self, content: bytes, encoding: str = "utf-8") -> None:
        content = content.removeprefix(codecs.BOM_UTF8)
        if b"\n" not in content:
            content = content.replace(b"\r", b"\n")
        self._content = content
        self.encoding = encoding

    def chunks(self) -> Iterator[Chunk]:
        """Where each entity lies, in the order of the file."""
        kind, start = b"", 0
        for found in _START.finditer(self._content):
            if kind:
                yield Chunk(kind.decode("ascii"), start, found.start())
            kind, start = found[1], found.start()
        if kind:
            yield Chunk(kind.decode("ascii"), start, len(self._content))

    def names(self, names: Iterable[str]) -> re.Pattern[bytes]:
        """A pattern for a line that is one of these names."""
        words = b"|".join(re.escape(name.encode(self.encoding, "replace")) for name in sorted(names))
        return re.compile(rb"\n[ \t]*(?:" + words + rb")[ \t]*\r?\n", re.IGNORECASE)

    def holds(self, pattern: re.Pattern[bytes], chunk: Chunk) -> bool:
        """Whether a pattern of `names` is in an entity."""
        return pattern.search(self._content, chunk.start, chunk.end) is not None

    def block_names(self, chunk: Chunk) -> list[str]:
        """What may be the name of the block that an insert puts there."""
        return [self._text(name) for name in _BLOCK_NAME.findall(self._content, chunk.start, chunk.end)]

    def tags(self, chunk: Chunk) -> list[Tag]:
        """The pairs of an entity, in order.

        Raises:
            TagError: a line that should be a code isn't.
        """
        lines = self._content[chunk.start : chunk.end].split(b"\n")
        tags: list[Tag] = []
        for code, value in zip(lines[::2], lines[1::2], strict=False):
            try:
                tags.append((int(code), self._text(value).strip("\r")))
            except ValueError:
                line = self._content.count(b"\n", 0, chunk.start) + 2 * len(tags) + 1
                raise TagError(
                    f"found {self._text(code).strip()[:20]!r} in line {line}, expected a group code"
                ) from None
        return tags

    def _text(self, value: bytes) -> str:
        return value.decode(self.encoding, "replace")
