"""The words and marks of a written length, and the reader that makes one number of them."""

from __future__ import annotations

import enum
import re
import unicodedata
from dataclasses import dataclass

MAX_LENGTH_IN = 120_000.0
"""Longest length taken [in]: 10,000 feet. Anything longer is a slip of the pen."""

MAX_TEXT = 40
"""Longest text looked at [characters]."""

LIKE_LENGTH = """12'-6 1/2", 5-1/2" or 16\""""
DASHES = "-‐‑‒–—−"
SLASHES = "/⁄∕"

_MM_PER_IN = 25.4
_MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
_FOOT_MARKS = "'’‘′ʹʼ´＇"
_INCH_MARKS = '"”“″ʺ＂'
_FRACTION_SIGNS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"


class MeasureError(ValueError):
    """Text that is not one clear length, pitch or opening size.

    Its message is one line that stands by itself (``fault``: what is wrong; how to write it), then the text with a
    caret under the character at index ``at``.
    """

    def __init__(self, fault: str, text: str, at: int = 0) -> None:
        super().__init__(fault, text, at)  # all three, so that it can be copied and pickled
        self.fault = fault
        self.text = text
        self.at = min(at, MAX_TEXT)

    def __str__(self) -> str:
        # What takes no column, or more than one, is shown as a dot: the caret must stand under the fault.
        columns = (c if c.isprintable() and not unicodedata.combining(c) else "·" for c in self.text[:MAX_TEXT])
        more = "…" if len(self.text) > MAX_TEXT else ""
        return f"{self.fault}\n    {''.join(columns)}{more}\n    {' ' * self.at}^"


def shown(value: object) -> str:
    """A value as it stood in the plan, short enough for a message."""
    if isinstance(value, int) and abs(value) >= 10**MAX_TEXT:
        return "a very long number"  # past some thousands of figures str() itself fails
    return str(value) if isinstance(value, str | int | float) else type(value).__name__


def refuse_long(text: str, like: str) -> None:
    """Raise `MeasureError` for text longer than anything that is a measure; ``like`` is how to write it."""
    if len(text) > MAX_TEXT:
        raise MeasureError(f"more than {MAX_TEXT} characters; write {like}", text, MAX_TEXT)


class _Kind(enum.Enum):
    """What one word or mark of a length is."""

    NUMBER = "number"
    FRACTION = "fraction"
    DASH = "dash"
    FOOT = "foot"
    INCH = "inch"
    METRIC = "metric"
    OTHER = "other"
    END = "end"


@dataclass(frozen=True, slots=True)
class _Token:
    kind: _Kind
    text: str
    start: int
    end: int


_LEXEME = re.compile(
    rf"(?P<fraction>[0-9]+\s*[{SLASHES}]\s*[0-9]+|[{_FRACTION_SIGNS}])"
    r"|(?P<number>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
    rf"|[{_FOOT_MARKS}]{{2}}|[A-Za-z]+\.?|\S"
)
_SPELLINGS: dict[str, _Kind] = {
    **dict.fromkeys((*_FOOT_MARKS, "ft", "foot", "feet"), _Kind.FOOT),
    **dict.fromkeys((*_INCH_MARKS, "in", "inch", "inches"), _Kind.INCH),
    **dict.fromkeys((a + b for a in _FOOT_MARKS for b in _FOOT_MARKS), _Kind.INCH),
    **dict.fromkeys(DASHES, _Kind.DASH),
    **dict.fromkeys(_MM_PER_UNIT, _Kind.METRIC),
}
_TAPE_PARTS = (2, 3, 4, 6, 8, 10, 12, 16, 32, 64)
"""What an inch or a foot is divided into, on a tape, an engineer's scale or a steel square."""

_STRAY = {
    ",": "a comma, where a decimal point is wanted",
    "/": "a fraction is one whole number over another",
}


def _tokens(text: str, start: int, end: int) -> tuple[_Token, ...]:
    found = []
    for match in _LEXEME.finditer(text, start, end):
        kind = _Kind(match.lastgroup) if match.lastgroup else _SPELLINGS.get(_bare(match[0]), _Kind.OTHER)
        found.append(_Token(kind, match[0], match.start(), match.end()))
    return (*found, _Token(_Kind.END, "", end, end))


def _bare(word: str) -> str:
    """``Ft.`` as ``ft``."""
    return word.lower().rstrip(".")


@dataclass(frozen=True, slots=True)
class _Quantity:
    """A number as written; ``whole`` where it has neither decimals nor a fraction."""

    value: float
    whole: bool


class Reader:
    """Reads the words of one length from left to right; every fault knows where it stands.

        length   = [dash] (quantity metric | quantity foot [[dash] quantity [inch]] | quantity [inch])
        quantity = number | fraction | number [dash] fraction

    ``like`` is how to write what is read, for messages. ``start`` and ``end`` bound the part of the text that is read.
    """

    def __init__(self, text: str, like: str, *, start: int = 0, end: int | None = None) -> None:
        refuse_long(text, like)
        self._text = text
        self._like = like
        self._tokens = _tokens(text, start, len(text) if end is None else end)
        self._next = 0

    def length(self) -> float:
        """The whole text as a length [in]."""
        start = self._here.start
        sign = -1.0 if self._take(_Kind.DASH) else 1.0
        inches = self._magnitude()
        self._finish()
        if inches > MAX_LENGTH_IN:
            raise self._fault("more than 10,000 feet", start)
        return sign * inches + 0.0  # no minus zero

    def number_alone(self) -> float:
        """The whole text as a number without sign or unit."""
        quantity = self._quantity()
        self._finish()
        return quantity.value

    def _magnitude(self) -> float:
        first = self._quantity()
        if unit := self._take(_Kind.METRIC):
            return first.value * _MM_PER_UNIT[_bare(unit.text)] / _MM_PER_IN
        if self._take(_Kind.FOOT):
            return self._feet_and_inches(first)
        self._refuse_second_number(first)
        if self._take(_Kind.INCH) and self._here.kind is _Kind.NUMBER:
            raise self._fault("feet come first, then inches", self._here.start)
        return first.value

    def _feet_and_inches(self, feet: _Quantity) -> float:
        if self._take(_Kind.DASH) is None and self._here.kind not in (_Kind.NUMBER, _Kind.FRACTION):
            return feet.value * 12
        start = self._here.start
        inches = self._quantity()
        total = feet.value * 12 + inches.value
        if self._here.kind is _Kind.FOOT:
            raise self._fault("feet twice", self._here.start, _feet_text(total))
        self._take(_Kind.INCH)
        self._finish()  # first of all, so that 12'-30mm is told of its unit, not of its 30
        if not feet.whole:
            raise self._fault("inches after feet that have a fraction", start, _feet_text(total))
        if inches.value >= 12:
            raise self._fault("12 inches or more after the feet", start, _feet_text(total))
        return total

    def _refuse_second_number(self, first: _Quantity) -> None:
        if self._take(_Kind.DASH) is None and self._here.kind is not _Kind.NUMBER:
            return
        start = self._here.start
        second = self._quantity()
        clear = first.whole and second.value < 12
        mend = f"{_feet_text(first.value * 12 + second.value)} if feet and inches are meant" if clear else ""
        raise self._fault("two numbers and no foot mark between them", start, mend)

    def _quantity(self) -> _Quantity:
        number = self._take(_Kind.NUMBER)
        fraction = self._take(_Kind.FRACTION) if number is None else self._fraction_after(number)
        part = self._fraction_value(fraction) if fraction else 0.0
        if number is None:
            if fraction is None:
                raise self._fault("a number is wanted here", self._here.start)
            return _Quantity(part, whole=False)
        whole = "." not in number.text
        if fraction and not whole:
            raise self._fault("a decimal and a fraction", fraction.start)
        return _Quantity(float(number.text) + part, whole=whole and fraction is None)

    def _fraction_after(self, number: _Token) -> _Token | None:
        dash = self._here
        if dash.kind is _Kind.DASH and self._tokens[self._next + 1].kind is _Kind.FRACTION:
            if not number.end == dash.start < dash.end == self._tokens[self._next + 1].start:
                raise self._fault("a dash with space beside it reads as a minus", dash.start, '5-1/2" or 5 1/2"')
            self._next += 1
        return self._take(_Kind.FRACTION)

    def _fraction_value(self, fraction: _Token) -> float:
        if fraction.text in _FRACTION_SIGNS:
            return unicodedata.numeric(fraction.text)
        top, bottom = (int(part) for part in re.split(f"[{SLASHES}]", fraction.text))
        if bottom == 0:
            raise self._fault("a fraction over zero", fraction.start)
        if top >= bottom:
            raise self._fault("a fraction of one or more", fraction.start, 'the whole number first, as 5 1/2"')
        if bottom not in _TAPE_PARTS:
            raise self._fault(f"no tape has {bottom} parts", fraction.start, 'halves to sixty-fourths, as 5 1/8"')
        return top / bottom

    @property
    def _here(self) -> _Token:
        return self._tokens[self._next]

    def _take(self, kind: _Kind) -> _Token | None:
        token = self._here
        if token.kind is not kind:
            return None
        self._next += 1
        return token

    def _finish(self) -> None:
        if self._here.kind is not _Kind.END:
            raise self._fault(_STRAY.get(self._here.text, "this does not belong here"), self._here.start)

    def _fault(self, what: str, at: int, mend: str = "") -> MeasureError:
        return MeasureError(f"{what}; write {mend or self._like}", self._text, at)


def _feet_text(inches: float) -> str:
    """The way to write a length that was written wrongly; not rounded, or it would be another length."""
    feet, rest = divmod(inches, 12)
    whole, part = divmod(rest, 1)
    top, bottom = part.as_integer_ratio()
    if not top:
        return f"{feet:.0f}'-{whole:.0f}\""
    return f"{feet:.0f}'-{whole:.0f} {top}/{bottom}\"" if bottom <= 64 else f"{feet:.0f}'-{rest:.10g}\""
