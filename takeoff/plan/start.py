"""A plan to begin with."""

from __future__ import annotations

from importlib import resources


def starter_text() -> str:
    """Text of a commented plan that runs as it is."""
    return resources.files("takeoff.plan").joinpath("starter.yaml").read_text(encoding="utf-8")
