"""Sheet products: plywood and strand board for roofs, walls and floors."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeoff.catalog.table import Row, TableError, read_table
from takeoff.catalog.unknown import UnknownItem
from takeoff.measure import parse_length


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetProduct:
    """A sheet as sold. Its strength axis runs along its length."""

    name: str
    words: str
    material: str
    """``osb`` or ``plywood``."""
    face: str
    """``premium`` where one side is sanded and may show, otherwise ``standard``."""
    thickness_in: float
    """Thickness it is called by [in]: its performance category."""
    sizes: tuple[tuple[float, float], ...]
    """Widths and lengths on sale [in], shortest first."""
    span_rating: str
    weight_psf: float
    gap_in: float
    """Space to leave between sheets [in]."""
    note: str

    @property
    def for_floors(self) -> bool:
        """Whether it is stamped for floors alone, with one spacing of joists (``24oc``)."""
        return self.span_rating.endswith("oc")


@cache
def sheet_products() -> tuple[SheetProduct, ...]:
    """All sheet products, in the order of the table."""
    return tuple(_from_row(row) for row in read_table("sheets"))


def sheet_product(name: str) -> SheetProduct:
    """The sheet product of that name, such as ``osb-7/16``; ``OSB 7/16`` is the same.

    Raises:
        UnknownItem: there is none.
    """
    written = "-".join(name.lower().replace('"', "").replace("-", " ").split())
    for known in sheet_products():
        if known.name == written:
            return known
    raise UnknownItem("sheet product", name, (known.name for known in sheet_products()))


def _from_row(row: Row) -> SheetProduct:
    return SheetProduct(
        name=row.text("name"),
        words=row.text("words"),
        material=row.one_of("material", ("osb", "plywood")),
        face=row.one_of("face", ("standard", "premium")),
        thickness_in=row.inches("thickness_in"),
        sizes=tuple(sorted(_size(row, size) for size in row.names("sizes_in"))),
        span_rating=row.text("span_rating"),
        weight_psf=row.number("weight_psf"),
        gap_in=row.inches("gap_in"),
        note=row.optional("note"),
    )


def _size(row: Row, text: str) -> tuple[float, float]:
    width, cross, length = text.partition("x")
    if not cross:
        raise TableError(f"{row.table}.csv:{row.line}: {text!r} isn't a size such as 48x96")
    return parse_length(width), parse_length(length)
