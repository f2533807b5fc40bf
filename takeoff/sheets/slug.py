"""Names of buildings made fit for names of files."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable


def slugs(names: Iterable[str]) -> dict[str, str]:
    """For each name letters, digits and hyphens alone; names that come to the same are numbered."""
    found: dict[str, str] = {}
    for name in names:
        plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
        base = re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "building"
        slug, number = base, 2
        while slug in found.values():
            slug, number = f"{base}-{number}", number + 1
        found.setdefault(name, slug)
    return found
