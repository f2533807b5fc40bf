"""What must be said on the sheets, whatever the building: limits of these figures, and safety."""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "Sizes, spans and connections found here are screening values: the local code, the engineer of record "
    "and the maker's tables govern.",
    "Structural ridge beams, tall walls and hangers need a licensed design.",
    "Check the first pair of rafters on the building before cutting the rest.",
    "Falls, lifting and saw safety: the site's own rules apply.",
)

DRAWING_CAUTION = (
    "Screening values: the local code and the engineer of record govern. Check on the building before cutting."
)

PLACEHOLDER_MONEY = "Placeholder money, not a quotation: the prices are made up until a price list is given."
