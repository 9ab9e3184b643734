"""What light does in a layer of paint: K/S of a reflectance, reflectance of a K/S, a layer over a ground.

Kubelka and Munk, "Ein Beitrag zur Optik der Farbanstriche", Zeitschrift für technische Physik 12 (1931) 593, and
Kubelka, "New contributions to the optics of intensely light-scattering materials", Journal of the Optical Society of
America 38 (1948) 448. Every array is band by band.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from guidegen.computing.colour.spaces import Floats, as_floats

# A share of the light comes back from the surface and never sees the pigment, so no paint is darker than this. It keeps
# a near-black from swallowing every mix. 0.005 was chosen on the measured oil mixtures of tests/reference.
LIFT = 0.005


def lifted(reflectance: ArrayLike) -> Floats:
    """The reflectance with the surface's own share f = LIFT: R' = f + (1 − f)·R."""
    return LIFT + (1.0 - LIFT) * np.asarray(reflectance, dtype=float)


def unlifted(reflectance: ArrayLike) -> Floats:
    """R = (R' − f)/(1 − f), the inverse of `lifted`."""
    return (as_floats(reflectance) - LIFT) / (1.0 - LIFT)


def absorption_ratio(reflectance: ArrayLike) -> Floats:
    """K/S of a layer thick enough to hide, (1 − R)²/2R; R > 0."""
    r = np.asarray(reflectance, dtype=float)
    return (1.0 - r) ** 2 / (2.0 * r)


def thick_reflectance(ratio: ArrayLike) -> Floats:
    """R∞ of a K/S: 1 + q − √(q² + 2q), written so that a large q keeps its digits."""
    q = as_floats(ratio)
    # In place, since new arrays for every term would take longer than the sums.
    root = q * q
    root += 2.0 * q
    below = 1.0 + q
    below += np.sqrt(root)
    reflectance: Floats = 1.0 / below
    return reflectance


def layer_reflectance(ratio: ArrayLike, ground: ArrayLike, thickness: float | Floats) -> Floats:
    """R of a layer with K/S = `ratio` and S·X = `thickness` over a ground that reflects `ground`.

    Kubelka 1948: with a = 1 + K/S, b = √(a² − 1), t = tanh(b·SX),
    R = [t(1 − a·Rg) + b·Rg]/[t(a − Rg) + b]. Both sides are divided by b, so that a white (b = 0) has its limit.
    """
    q, rg = np.asarray(ratio, dtype=float), np.asarray(ground, dtype=float)
    b = np.sqrt(q * q + 2.0 * q)
    safe = np.where(b > 0.0, b, 1.0)
    t = np.where(b > 0.0, np.tanh(b * thickness) / safe, thickness)
    reflectance: Floats = (t * (1.0 - (1.0 + q) * rg) + rg) / (t * (1.0 + q - rg) + 1.0)
    return reflectance
