"""One sheet of the workbook while it is written: rows from the top, then widths and print set-up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import TYPE_CHECKING

from takeoff.sheets.workbook.styles import Style

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.workbook import Workbook

_LETTER = 1
"""Number of the US letter paper size."""
_NARROWEST, _WIDEST = 5, 60
_PADDING = 2.5
_LETTERS_PER_DIGIT = 1.1
"""Columns are as wide as so many digits; of letters more find room."""
_LINE_PT = 13.0
"""Height of a line of text [pt]."""


_LONG = {Style.PLAIN: Style.LONG, Style.LOUD: Style.LOUD_LONG}
"""How a line looks that goes on to further lines."""


@dataclass(frozen=True, slots=True)
class Heading:
    """Head of a column, which gets at least and at most so many characters wide; its style wraps longer text."""

    words: str
    is_number: bool = False
    least: int = _NARROWEST
    most: int = _WIDEST


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell. With a ``formula``, ``value`` is what it gives, for readers that don't calculate."""

    value: str | float
    style: Style
    formula: str = ""


BLANK = Cell("", Style.TEXT)


class Page:
    """A sheet being written, row after row. Rows are numbered as the reader sees them, from 1."""

    def __init__(self, workbook: Workbook, looks: Mapping[Style, Format], name: str, job: str) -> None:
        self.name = name
        self._workbook = workbook
        self._sheet = workbook.add_worksheet(name)
        self._looks = looks
        self._row = 0
        self._widths: dict[int, int] = {}
        self._most: dict[int, int] = {}
        self._wrapped: list[tuple[int, int, str]] = []
        self._lines: list[tuple[int, str, Style]] = []
        self._print_setup(job)
        self.line(f"{job}: {name[0].lower()}{name[1:]}", Style.TITLE)

    @property
    def next_row(self) -> int:
        """Number of the row that is written next."""
        return self._row + 1

    def line(self, text: str, style: Style = Style.PLAIN) -> None:
        """One text that runs over the columns to its right, and on to further lines where they end."""
        self._text(0, text, style)
        self._lines.append((self._row, text, style))
        self._row += 1

    def gap(self) -> None:
        """An empty row."""
        self._row += 1

    def headings(self, headings: Sequence[Heading], *, held: bool = False) -> None:
        """A row of column heads; ``held`` ones stay in sight and are printed on every page."""
        for column, heading in enumerate(headings):
            self._text(column, heading.words, Style.HEAD_NUMBER if heading.is_number else Style.HEAD)
            self._most[column] = max(heading.most, self._most.get(column, 0))
            # A head of several words may be wrapped between them.
            self._widen(column, max(len(word) for word in heading.words.split(" ")) + 1)
            self._widen(column, heading.least)
            self._wrapped.append((self._row, column, heading.words))
        if held:
            self._sheet.repeat_rows(self._row)
            self._sheet.freeze_panes(self._row + 1, 0)
        self._row += 1

    def add(self, cells: Sequence[Cell]) -> int:
        """A row of cells.

        Returns:
            Its number.
        """
        for column, cell in enumerate(cells):
            self._put(column, cell)
            self._widen(column, _shown_length(cell))
            if cell.style is Style.WRAP:
                self._wrapped.append((self._row, column, str(cell.value)))
        self._row += 1
        return self._row

    def band(self, text: str, columns: int) -> None:
        """A row that starts a group, shaded over so many columns."""
        for column in range(columns):
            self._text(column, text if column == 0 else "", Style.BAND)
        self._row += 1

    def name_range(self, name: str, column: str, rows: range) -> None:
        """Give a part of a column a name that formulas on every sheet can use."""
        self._workbook.define_name(name, f"='{self.name}'!${column}${rows.start}:${column}${rows.stop - 1}")

    def filter(self, rows: range, columns: int) -> None:
        """Let the rows under the head that stands right above them be filtered."""
        self._sheet.autofilter(rows.start - 2, 0, rows.stop - 2, columns - 1)

    def only_numbers(self, column: str, rows: range, *, most: float | None, hint: str) -> None:
        """Let nothing but numbers from zero up be typed into a part of a column."""
        allowed: dict[str, object] = (
            {"criteria": ">=", "value": 0} if most is None else {"criteria": "between", "minimum": 0, "maximum": most}
        )
        self._sheet.data_validation(
            f"{column}{rows.start}:{column}{rows.stop - 1}",
            {"validate": "decimal", **allowed, "error_title": "Not a number here", "error_message": hint},
        )

    def protect(self) -> None:
        """Let only the cells to fill in be changed, and columns be widened."""
        self._sheet.protect("", {"format_columns": True, "format_rows": True})

    def finish(self) -> None:
        """Set the columns as wide as their text, and the rows as high as what is wrapped in them."""
        widths = {column: min(width, self._most.get(column, _WIDEST)) for column, width in sorted(self._widths.items())}
        for column, width in widths.items():
            self._sheet.set_column(column, column, width + _PADDING)
        lines: dict[int, int] = {}
        for row, column, text in self._wrapped:
            lines[row] = max(lines.get(row, 1), len(wrap(text, widths[column] + 1)))
        lines |= self._merged(widths)
        # Not every spreadsheet program fits rows by itself.
        for row, number in lines.items():
            self._sheet.set_row(row, number * _LINE_PT + 2)
        if widths:
            self._sheet.print_area(0, 0, max(0, self._row - 1), max(widths))

    def _merged(self, widths: Mapping[int, int]) -> Mapping[int, int]:
        """Lay texts that are longer than the page is wide over all columns; gives how many lines each takes, by row."""
        wide = int(sum(width + _PADDING for width in widths.values()) * _LETTERS_PER_DIGIT)
        found: dict[int, int] = {}
        for row, text, style in self._lines:
            if style in _LONG and len(text) > wide and len(widths) > 1:
                self._sheet.merge_range(row, 0, row, max(widths), text, self._looks[_LONG[style]])
                found[row] = len(wrap(text, wide))
        return found

    def _put(self, column: int, cell: Cell) -> None:
        if cell.formula:
            self._sheet.write_formula(self._row, column, cell.formula, self._looks[cell.style], cell.value)
        elif isinstance(cell.value, str):
            self._text(column, cell.value, cell.style)
        else:
            self._sheet.write_number(self._row, column, cell.value, self._looks[cell.style])

    def _text(self, column: int, text: str, style: Style) -> None:
        if text:
            self._sheet.write_string(self._row, column, text, self._looks[style])
        else:
            self._sheet.write_blank(self._row, column, None, self._looks[style])

    def _widen(self, column: int, characters: int) -> None:
        self._widths[column] = max(characters, self._widths.get(column, 0))

    def _print_setup(self, job: str) -> None:
        sheet = self._sheet
        sheet.set_landscape()
        sheet.set_paper(_LETTER)
        sheet.set_margins(left=0.5, right=0.5, top=0.75, bottom=0.75)
        sheet.fit_to_pages(1, 0)
        sheet.hide_gridlines(2)
        # An ampersand in a header starts a code; two are one. The whole may be 255 characters long.
        sheet.set_header(f"&L&B{job[:100].replace('&', '&&')}&R{self.name}")
        sheet.set_footer("&RPage &P of &N")


def _shown_length(cell: Cell) -> int:
    if isinstance(cell.value, str):
        return len(cell.value)
    return len(f"{cell.value:,.0f}" if cell.style in (Style.COUNT, Style.WEIGHT) else f"{cell.value:,.2f}")
