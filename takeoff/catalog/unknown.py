"""The error for a name the catalog doesn't hold.

Who reads a plan turns it into a finding: ``str(error)`` is the message, ``error.nearest`` what to offer.

    UnknownItem (ValueError)   no such item; offers the nearest names that are known
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable


class UnknownItem(ValueError):  # noqa: N818  (named for what it says, as the plan's findings quote it)
    """A name that isn't in the catalog.

    Args:
        what: the kind of thing asked for, such as ``profile``.
        name: the name as it was written.
        known: names to offer the nearest of.
        mend: what to write instead, where more can be said than "did you mean".
    """

    def __init__(self, what: str, name: str, known: Iterable[str], mend: str = "") -> None:
        self.what = what
        self.name = name
        self.known = tuple(known)
        self.mend = mend
        super().__init__(what, name, self.known, mend)

    @property
    def nearest(self) -> tuple[str, ...]:
        """Up to three known names like the one written, nearest first."""
        # Worked out when asked for: a price list tries many names that are no profile, and asks nothing of them.
        return tuple(difflib.get_close_matches(self.name.strip().lower(), sorted(self.known), n=3, cutoff=0.5))

    def __str__(self) -> str:
        parts = [f"no {self.what} {self.name!r} is known"]
        if self.mend:
            parts.append(self.mend)
        elif self.nearest:
            parts.append(f"did you mean {' or '.join(repr(near) for near in self.nearest)}?")
        return "; ".join(parts)
