"""How cells look: one table of styles for the whole workbook, black on white, made to be printed."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.workbook import Workbook

Properties = Mapping[str, object]

CREATED = datetime(2000, 1, 1, tzinfo=UTC)
"""Stands in a file as its date, whenever it was made: the same take-off gives the same bytes."""

FONT: Properties = {"font_name": "Arial", "font_size": 10}


class Style(enum.StrEnum):
    """What a cell is; its look follows."""

    TITLE = "title"
    LOUD = "loud"
    PLAIN = "plain"
    LONG = "plain, on several lines"
    LOUD_LONG = "loud, on several lines"
    HEAD = "heading of words"
    HEAD_NUMBER = "heading of numbers"
    BAND = "band"
    TEXT = "text"
    WRAP = "long text"
    COUNT = "count"
    SHARE = "share"
    TENTHS = "number in tenths"
    WEIGHT = "weight"
    AREA = "area"
    MONEY = "money"
    SUM_TEXT = "words of a sum"
    SUM_TENTHS = "sum in tenths"
    SUM_WEIGHT = "sum of weights"
    SUM_MONEY = "sum of money"
    INPUT_SHARE = "share to fill in"
    INPUT_MONEY = "money to fill in"
    INPUT_TEXT = "words to fill in"
    BOX = "box to tick"


# Nothing is shown for zero: what isn't sold by the board foot, or has no known weight.
# The space of a bracket after each number keeps it off the line of the next cell.
_COUNT = "#,##0_)"
_TENTHS = "#,##0.0_);-#,##0.0_);"
_WEIGHT = "#,##0_);-#,##0_);"
_AREA = "#,##0.0_)"
_MONEY = "#,##0.00_)"
_SHARE = "0.0%_)"

_HEAD: Properties = {"bold": True, "bottom": 2, "top": 1, "text_wrap": True, "valign": "bottom"}
_BODY: Properties = {"bottom": 1, "bottom_color": "#B4B4B4", "valign": "top"}
_WORDS: Properties = {**_BODY, "align": "left", "indent": 1}  # so that words don't touch the number before them
_NUMBER: Properties = {**_BODY, "align": "right"}
_SUM: Properties = {"bold": True, "top": 1, "bottom": 1, "valign": "top"}
# Cells to fill in stay open where a sheet is protected.
_INPUT: Properties = {"border": 1, "bg_color": "#FFF6CC", "align": "right", "valign": "top", "locked": False}

_LOOKS: Mapping[Style, Properties] = {
    Style.TITLE: {"bold": True, "font_size": 14},
    Style.LOUD: {"bold": True},
    Style.PLAIN: {},
    Style.LONG: {"text_wrap": True, "valign": "top", "align": "left"},
    Style.LOUD_LONG: {"text_wrap": True, "valign": "top", "align": "left", "bold": True},
    Style.HEAD: {**_HEAD, "align": "left", "indent": 1},
    Style.HEAD_NUMBER: {**_HEAD, "align": "right"},
    Style.BAND: {"bold": True, "bg_color": "#E4E4E4", "top": 1},
    Style.TEXT: _WORDS,
    Style.WRAP: {**_WORDS, "text_wrap": True},
    Style.COUNT: {**_NUMBER, "num_format": _COUNT},
    Style.SHARE: {**_NUMBER, "num_format": _SHARE},
    Style.TENTHS: {**_NUMBER, "num_format": _TENTHS},
    Style.WEIGHT: {**_NUMBER, "num_format": _WEIGHT},
    Style.AREA: {**_NUMBER, "num_format": _AREA},
    Style.MONEY: {**_NUMBER, "num_format": _MONEY},
    Style.SUM_TEXT: {**_SUM, "align": "left", "indent": 1},
    Style.SUM_TENTHS: {**_SUM, "align": "right", "num_format": _TENTHS},
    Style.SUM_WEIGHT: {**_SUM, "align": "right", "num_format": _WEIGHT},
    Style.SUM_MONEY: {**_SUM, "align": "right", "num_format": _MONEY},
    Style.INPUT_SHARE: {**_INPUT, "num_format": _SHARE},
    Style.INPUT_MONEY: {**_INPUT, "num_format": _MONEY},
    Style.INPUT_TEXT: {**_INPUT, "align": "left"},
    Style.BOX: {"border": 1},
}


def formats(workbook: Workbook) -> Mapping[Style, Format]:
    """Every style as a format of this workbook, added in a fixed order."""
    return {style: workbook.add_format({**FONT, **_LOOKS[style]}) for style in Style}
