"""One hypothesis profile for all tests: the same examples on every run, no clock."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

settings.register_profile(
    "house",
    derandomize=True,
    deadline=None,
    database=None,
    max_examples=40,
    suppress_health_check=[HealthCheck.too_slow],  # a frame takes as long as it takes; the whole suite is timed
)
settings.load_profile("house")
