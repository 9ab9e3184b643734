"""Settings for every test: hypothesis draws the same examples on each run, and no clock decides."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("guidegen", deadline=None, derandomize=True)
settings.load_profile("guidegen")
