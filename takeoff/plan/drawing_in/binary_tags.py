"""DXF as bytes: each code followed by a value whose form the code decides."""

from __future__ import annotations

import re
import struct
from collections.abc import Iterable, Iterator

from takeoff.plan.drawing_in.tags import Chunk, Tag, TagError

_MARK = b" Binary DXF\r\n\x1a\x00"
_MARK_AT, _BODY = 7, 22

_TEXT, _BYTES = "s", "b"
_FORMS = (
    (0, 9, _TEXT),
    (10, 59, "<d"),
    (60, 79, "<h"),
    (90, 99, "<i"),
    (100, 109, _TEXT),
    (110, 149, "<d"),
    (160, 169, "<q"),
    (170, 179, "<h"),
    (210, 239, "<d"),
    (270, 289, "<h"),
    (290, 299, "<b"),
    (300, 309, _TEXT),
    (310, 319, _BYTES),
    (320, 369, _TEXT),
    (370, 389, "<h"),
    (390, 399, _TEXT),
    (400, 409, "<h"),
    (410, 419, _TEXT),
    (420, 429, "<i"),
    (430, 439, _TEXT),
    (440, 459, "<i"),
    (460, 469, "<d"),
    (470, 489, _TEXT),
    (999, 1003, _TEXT),
    (1004, 1004, _BYTES),
    (1005, 1009, _TEXT),
    (1010, 1059, "<d"),
    (1060, 1070, "<h"),
    (1071, 1071, "<i"),
)
"""Form of the value by ranges of codes, as the format's reference lists them."""

FORM = {code: form for first, last, form in _FORMS for code in range(first, last + 1)}
_SIZE = {form: struct.calcsize(form) for _, _, form in _FORMS if form not in (_TEXT, _BYTES)}


def is_binary(content: bytes) -> bool:
    """Whether a file begins as binary DXF does."""
    return content[_MARK_AT:_BODY] == _MARK


class BinarySource:
    """The entities of a binary DXF file. Before release 13 codes took one byte, since then two."""

    def __init__(self, content: bytes, encoding: str = "utf-8") -> None:
        self._content = content
        self._wide = content[_BODY + 1 : _BODY + 2] == b"\x00"
        self.encoding = encoding

    def chunks(self) -> Iterator[Chunk]:
        """Where each entity lies, in the order of the file.

        Raises:
            TagError: a code that no file has, or a value cut off.
        """
        kind, start = "", _BODY
        for at, code, low, high in self._values(_BODY, len(self._content)):
            if code == 0:
                if kind:
                    yield Chunk(kind, start, at)
                kind, start = self._content[low:high].decode("ascii", "replace"), at
        if kind:
            yield Chunk(kind, start, len(self._content))

    def names(self, names: Iterable[str]) -> re.Pattern[bytes]:
        """A pattern for a value that is one of these names."""
        words = b"|".join(re.escape(name.encode(self.encoding, "replace")) for name in sorted(names))
        return re.compile(rb"[\x00\x08](?:" + words + rb")\x00", re.IGNORECASE)

    def holds(self, pattern: re.Pattern[bytes], chunk: Chunk) -> bool:
        """Whether a pattern of `names` is in an entity."""
        return pattern.search(self._content, chunk.start, chunk.end) is not None

    def block_names(self, chunk: Chunk) -> list[str]:
        """What may be the name of the block that an insert puts there."""
        return [str(value) for code, value in self.tags(chunk) if code == 2]

    def tags(self, chunk: Chunk) -> list[Tag]:
        """The pairs of an entity, in order."""
        tags: list[Tag] = []
        for _, code, low, high in self._values(chunk.start, chunk.end):
            form = FORM[code]
            if form == _TEXT:
                tags.append((code, self._content[low:high].decode(self.encoding, "replace")))
            elif form != _BYTES:
                tags.append((code, struct.unpack_from(form, self._content, low)[0]))
        return tags

    def _values(self, at: int, end: int) -> Iterator[tuple[int, int, int, int]]:
        """Where each pair begins, its code, where its value begins and ends."""
        content, wide = self._content, self._wide
        while at < end:
            if wide:
                code, low = content[at] | (content[at + 1] << 8 if at + 1 < end else 0), at + 2
            elif content[at] == 255:
                code, low = int.from_bytes(content[at + 1 : at + 3], "little"), at + 3
            else:
                code, low = content[at], at + 1
            form = FORM.get(code)
            if form is None:
                raise TagError(f"found code {code} at byte {at}, which no drawing has")
            if form == _TEXT:
                high = content.find(b"\x00", low, end)
                after = high + 1
            elif form == _BYTES:
                high = after = low + 1 + (content[low] if low < end else end)
            else:
                high = after = low + _SIZE[form]
            if high < 0 or high > end:
                raise TagError(f"found the file cut off in a value at byte {low}")
            yield at, code, low, high
            at = after
