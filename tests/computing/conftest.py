"""Fixtures for the tests of what is computed."""

from __future__ import annotations

import warnings

import pytest


@pytest.fixture
def quiet_colour_science() -> object:
    """colour-science warns on import about plotting and the like that it can do without."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour

    return colour
