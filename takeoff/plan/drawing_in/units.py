"""Units of a drawing: what $INSUNITS says, in inches."""

from __future__ import annotations

from typing import Literal

UnitName = Literal["in", "ft", "yd", "mm", "cm", "dm", "m"]

INCHES: dict[UnitName, float] = {
    "in": 1.0,
    "ft": 12.0,
    "yd": 36.0,
    "mm": 1 / 25.4,
    "cm": 1 / 2.54,
    "dm": 10 / 2.54,
    "m": 100 / 2.54,
}
"""Inches in the units that a plan may state; an inch is 25.4 mm by definition."""

_METRE = INCHES["m"]
_SURVEY_FOOT = _METRE * 1200 / 3937  # by definition

BY_CODE: dict[int, float] = {
    1: 1.0,
    2: 12.0,
    3: 63360.0,
    4: INCHES["mm"],
    5: INCHES["cm"],
    6: _METRE,
    7: _METRE * 1e3,
    8: 1e-6,
    9: 1e-3,
    10: 36.0,
    11: _METRE * 1e-10,
    12: _METRE * 1e-9,
    13: _METRE * 1e-6,
    14: _METRE * 0.1,
    15: _METRE * 10,
    16: _METRE * 100,
    17: _METRE * 1e9,
    18: _METRE * 149_597_870_700.0,
    19: _METRE * 9_460_730_472_580_800.0,
    20: _METRE * 3.085677581491367e16,
    21: _SURVEY_FOOT,
    22: _SURVEY_FOOT / 12,
    23: _SURVEY_FOOT * 3,
    24: _SURVEY_FOOT * 5280,
}
"""Inches in one unit, by the value of $INSUNITS; 0 is no unit."""
