"""The crew's book, as the plan writes it."""

from __future__ import annotations

from typing import Annotated, Literal

from takeoff.plan.block import Block
from takeoff.plan.fields import BookPages, CompanyName, Revision

BookPage = Literal["walls", "roof", "layout", "boards", "sheathing", "findings"]

ALL_PAGES: tuple[BookPage, ...] = ("walls", "roof", "layout", "boards", "sheathing", "findings")


class Book(Block):
    """The crew's book."""

    company: CompanyName | None = None
    """Name of the builder, on every page. Left out: none."""
    revision: Revision | None = None
    """What this issue of the book is called, on every page, such as A or 2. Left out: none."""
    paper: Literal["letter", "tabloid", "a4"] = "letter"
    """Paper it is set for; on tabloid the words are larger. Left out: letter."""
    pages: Annotated[tuple[BookPage, ...], BookPages] = ALL_PAGES
    """Which pages it has besides the first with its cautions: walls, roof, layout, boards, sheathing, findings. Left
    out: all."""
