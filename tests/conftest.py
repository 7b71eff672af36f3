"""What holds for all tests."""

from __future__ import annotations

from hypothesis import settings

# How long one example takes says more of what else the computer does than of the code; speed is measured
# as ratios under `benchmarks`. The examples are the same in every run, so that a run can be repeated.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
