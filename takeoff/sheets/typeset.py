"""Sets a template with its data and pictures as PDF; all in memory, the same in gives the same bytes out."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import typst


class TemplateError(RuntimeError):
    """The template didn't set as it should: a fault of this program, not of the plan."""


def set_pdf(template: str, files: Mapping[str, bytes]) -> bytes:
    """A template of this room with the files it reads, as PDF.

    Raises:
        TemplateError: the template met something it can't set as it should.
    """
    import typst

    main = resources.files("takeoff.sheets").joinpath(template).read_bytes()
    with tempfile.TemporaryDirectory() as empty:  # a file the template misses must not be found on the disk
        compiler = typst.Compiler(font_paths=_fonts(), root=empty)
        pdf, warnings = compiler.compile_with_warnings(
            input={"main.typ": main, **files},  # type: ignore[type-var]  # the stubs know no files in memory
            format="pdf",
            timestamp=0,
            pdf_tags=False,
        )
    if warnings:
        raise TemplateError("; ".join(str(warning) for warning in warnings))
    if not isinstance(pdf, bytes):
        raise TemplateError("more than one file")
    return pdf


@cache
def _fonts() -> typst.Fonts:
    import fontpkg_ibm_plex_sans as face
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(face.ROOT / "files")])
