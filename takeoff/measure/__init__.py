"""Lengths, pitches and opening sizes as a carpenter writes them, to numbers and back.

A length is read into inches and kept in full precision; it is rounded once, where it is written out.
Text that could mean two things is never guessed at: the error shows where, and how to write it.

To take one more spelling of a mark or unit, add it to the table of spellings in `words`; one more form of a length,
to the grammar of `words.Reader`.

    MeasureError (ValueError)   not one clear length, pitch or opening size
"""

from __future__ import annotations

from takeoff.measure.length import format_inches, format_length, parse_length, round_to
from takeoff.measure.opening import parse_call
from takeoff.measure.pitch import Pitch, parse_pitch
from takeoff.measure.words import MAX_LENGTH_IN, MeasureError

__all__ = [
    "MAX_LENGTH_IN",
    "MeasureError",
    "Pitch",
    "format_inches",
    "format_length",
    "parse_call",
    "parse_length",
    "parse_pitch",
    "round_to",
]
