"""The matrices for colour vision that lacks a cone, against colour-science's."""

from __future__ import annotations

import numpy as np
import pytest

from guidegen.computing.colour.vision import MATRICES

NAMES = {"protan": "Protanomaly", "deutan": "Deuteranomaly", "tritan": "Tritanomaly"}


@pytest.mark.parametrize("kind", MATRICES)
def test_they_are_those_of_colour_science(kind: str, quiet_colour_science: object) -> None:
    """Its table is that of Machado, Oliveira and Fernandes, to six decimals."""
    from colour.blindness import CVD_MATRICES_MACHADO2010

    theirs = CVD_MATRICES_MACHADO2010[NAMES[kind]][1.0]
    assert np.abs(np.array(MATRICES[kind]) - theirs).max() < 1e-9


@pytest.mark.parametrize("kind", MATRICES)
def test_a_grey_stays_that_grey(kind: str) -> None:
    greys = np.linspace(0.0, 1.0, 11)[:, None].repeat(3, axis=1)
    assert np.abs(greys @ np.array(MATRICES[kind]).T - greys).max() < 1e-5
