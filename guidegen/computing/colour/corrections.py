"""What a mixture became, measured, corrects what is predicted of the same pots in other parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from guidegen.computing.colour.spaces import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """Pots by full name with their shares, which sum to 1, and how far off in CIELAB (3,) the prediction was."""

    shares: Mapping[str, float]
    offset: Floats


def spread(shares: Floats) -> Floats:
    """1 − Σp² of shares (..., n) that sum to 1: nought for one pot alone, the more the more evenly they are mixed."""
    much: Floats = 1.0 - (shares**2).sum(axis=-1)
    return much


def corrected(lab: Floats, spreads: Floats, one: Correction) -> Floats:
    """Predictions (n, 3) in CIELAB of the correction's pots in other parts, whose `spreads` are (n,).

    A pot by itself needs no correction, so the offset is scaled by how evenly the parts are mixed beside those
    measured, and never grows. The scaling is common practice, no source.
    """
    measured = float(spread(np.array(list(one.shares.values()))))
    if measured <= 0.0:
        return lab
    moved: Floats = lab + np.minimum(1.0, spreads / measured)[:, None] * one.offset
    return moved
