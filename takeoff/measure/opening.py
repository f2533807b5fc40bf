"""Sizes of openings: the trade's four-figure call, and width by height."""

from __future__ import annotations

import re

from takeoff.measure.words import MeasureError, Reader, refuse_long, shown

_LIKE_SIZE = """3040 (3'-0" wide, 4'-0" high) or {width: 2'-10", height: 6'-8"}"""
_CALL = re.compile(r"\s*([0-9])([0-9])([0-9])([0-9])\s*")


def parse_call(text: str | int) -> tuple[float, float]:
    """Read the size of an opening: the trade's four-figure call, or width x height.

    ``3040`` is 3'-0" wide and 4'-0" high: feet, inches, feet, inches, one figure each. Calls of five and six figures
    (10 or 11 inches, 10 feet and over) can be split in more than one way, so such sizes are written out.

    Returns:
        Width and height [in].

    Raises:
        MeasureError: neither of the two, or a size of nothing.
    """
    if isinstance(text, bool) or not isinstance(text, str | int):
        raise MeasureError(f"not the size of an opening; write {_LIKE_SIZE}", shown(text))
    written = shown(text)
    refuse_long(written, _LIKE_SIZE)
    width, height = _call_figures(written) or _width_by_height(written)
    if not (width > 0 and height > 0):
        raise MeasureError(f"an opening has a width and a height above zero; write {_LIKE_SIZE}", written)
    return width, height


def _call_figures(text: str) -> tuple[float, float] | None:
    """Width and height of a four-figure call [in]; none where the text is not four figures."""
    figures = _CALL.fullmatch(text)
    if figures is None:
        return None
    wide_ft, wide_in, high_ft, high_in = (int(figure) for figure in figures.groups())
    return 12.0 * wide_ft + wide_in, 12.0 * high_ft + high_in


def _width_by_height(text: str) -> tuple[float, float]:
    """Width and height [in] of two lengths with an x between them."""
    crosses = [index for index, char in enumerate(text) if char in "xX×"]
    if len(crosses) != 1:
        at = crosses[1] if crosses else 0
        raise MeasureError(f"neither a call of four figures nor width x height; write {_LIKE_SIZE}", text, at)
    cross = crosses[0]
    return Reader(text, _LIKE_SIZE, end=cross).length(), Reader(text, _LIKE_SIZE, start=cross + 1).length()
