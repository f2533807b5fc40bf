"""What is written on a piece of sheet: its mark over its size, as large as it has room for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from takeoff.sheets.drawing import MM_PER_IN, Point, Text
from takeoff.sheets.lettering import text_box, width_mm

if TYPE_CHECKING:
    from shapely import Polygon

_GAP_MM = 1.1  # from one line of lettering to the next
_BETWEEN_MM = 1.6  # from a mark to the size after it

Lines = tuple[tuple[str, float], ...]
"""Words, each with the height of its letters [mm]."""
Place = Callable[[Lines, Point, float, float], tuple[Text, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLetters:
    """Heights that the words of a piece may have."""

    marks_mm: tuple[float, ...]
    """Of the mark, the best first [mm]."""
    sizes_mm: tuple[float, ...]
    """Of the size under each of them [mm]."""
    clear_mm: float
    """Between words and the edge of the piece [mm]."""


def piece_words(
    piece: Polygon, mark: str, sides: tuple[str, str], letters: PieceLetters, one_to: float
) -> tuple[Text, ...]:
    """The mark over the size, level or turned, on one line or two; the mark alone where there is no more room.

    Nothing where there is none at all.

    Args:
        piece: its outline, in the axes of the view [in].
        mark: of the piece.
        sides: its size in words, along and across.
        letters: that may be used.
        one_to: scale of the view.
    """
    clear = piece.buffer(-letters.clear_mm * one_to / MM_PER_IN, join_style="mitre")
    if clear.is_empty:
        clear = piece
    spots = _spots(piece)
    for place, lines in _ways(mark, sides, letters):
        tries = [place(lines, spot, turned, one_to) for turned in (0.0, 90.0) for spot in spots]
        for texts in tries:
            if _inside(texts, clear, one_to):
                return texts
    # Of a narrow piece the mark alone, close to its edges; of one narrower still nothing.
    small = ((mark, letters.sizes_mm[-1]),)
    tries = [_block(small, spot, turned, one_to) for turned in (0.0, 90.0) for spot in spots]
    return next((texts for texts in tries if _inside(texts, piece, one_to)), ())


def _ways(mark: str, sides: tuple[str, str], letters: PieceLetters) -> Iterator[tuple[Place, Lines]]:
    """Lines of lettering with their heights, the best way first."""
    heights = tuple(zip(letters.marks_mm, letters.sizes_mm, strict=True))
    for high, small in heights:
        yield _block, ((mark, high), (f"{sides[0]} × {sides[1]}", small))
    for high, small in heights:
        yield _row, ((mark, high), (f"{sides[0]} × {sides[1]}", small))
    for high, small in heights:
        yield _block, ((mark, high), (sides[0], small), (f"× {sides[1]}", small))
    for high in letters.marks_mm:
        yield _block, ((mark, high),)


def _row(lines: Lines, spot: Point, turned: float, one_to: float) -> tuple[Text, ...]:
    """The mark and after it the size, on one line, their middle on a spot."""
    k = one_to / MM_PER_IN
    (mark, high), (size, small) = lines
    before, after = width_mm(mark, high, bold=True), width_mm(size, small)
    offs = (-(after + _BETWEEN_MM) / 2, (before + _BETWEEN_MM) / 2)
    spots = [(spot[0], spot[1] + off * k) if turned else (spot[0] + off * k, spot[1]) for off in offs]
    return (_text(mark, spots[0], high, turned, bold=True), _text(size, spots[1], small, turned, bold=False))


def _block(lines: Lines, spot: Point, turned: float, one_to: float) -> tuple[Text, ...]:
    """Lines under each other, their middle on a spot; the first, the mark, bold."""
    k = one_to / MM_PER_IN
    high = sum(height for _, height in lines) + _GAP_MM * (len(lines) - 1)
    texts, top = [], high / 2
    for number, (words, height) in enumerate(lines):
        off = (top - height / 2) * k
        at = (spot[0] - off, spot[1]) if turned else (spot[0], spot[1] + off)
        texts.append(_text(words, at, height, turned, bold=number == 0))
        top -= height + _GAP_MM
    return tuple(texts)


def _text(words: str, at: Point, height_mm: float, turned: float, *, bold: bool) -> Text:
    return Text(at=at, words=words, height_mm=height_mm, anchor="middle", level="middle", turned_deg=turned, bold=bold)


def _inside(texts: Sequence[Text], clear: Polygon, one_to: float) -> bool:
    from shapely import Polygon

    return all(clear.contains(Polygon(text_box(text, one_to))) for text in texts)


def _spots(polygon: Polygon) -> tuple[Point, ...]:
    """The middle of a rectangle; else that of the largest circle that goes into the piece, then of all of it."""
    from shapely import maximum_inscribed_circle

    middle = (float(polygon.centroid.x), float(polygon.centroid.y))
    if polygon.envelope.area - polygon.area < 1.0:
        return (middle,)
    x, y = maximum_inscribed_circle(polygon, tolerance=0.5).coords[0]
    return ((float(x), float(y)), middle) if polygon.contains(polygon.centroid) else ((float(x), float(y)),)
