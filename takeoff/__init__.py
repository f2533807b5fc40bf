"""Framing and sheathing take-off for small dwellings, from bare floor to dried-in shell."""
