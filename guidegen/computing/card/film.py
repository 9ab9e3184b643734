"""A film's own colour and strength, solved together from one coat and from three over the same paper.

Kubelka's layer (Journal of the Optical Society of America 38 (1948) 448) has four unknowns here, the colour that hides
and the strength, and six measured values. Over one ground a strong pale film and a weak dark one look much alike, so a
second thickness is what tells them apart; where it does not, there is no answer.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from guidegen.computing.colour.kubelka_munk import absorption_ratio, layer_reflectance, lifted, unlifted
from guidegen.computing.colour.layers import FLAT_THICKNESS
from guidegen.computing.colour.reflectance import linear_of_curves, smoothest_curves
from guidegen.computing.colour.spaces import (
    Floats,
    decoded,
    delta_e_2000,
    encoded,
    hex_of_linear,
    lab_of_linear,
)
from guidegen.model.card import FILM_COATS

# Where the search begins, and between what it stays: weaker is water, stronger hides.
_STARTS, _WEAKEST, _STRONGEST = (0.7, 3.0, 12.0, 40.0), 0.05, 100.0
_ROUNDS = 30

# From memory, in CIEDE2000: how well both boxes must come out, and how far coats must be from paper and from each other.
_FITS, _SEEN = 2.0, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """What was solved: the colour that hides, `#rrggbb`, the strength, and how far off the worse box is in CIEDE2000."""

    colour: str
    strength: float
    off: float


def solve_film(paper: Floats, one: Floats, three: Floats) -> Film | str:
    """The film whose coats look so over paper, all linear sRGB (3,); else why there is no answer."""
    seen = np.clip(np.stack([one, three]), 1e-4, 1.0 - 1e-4)
    ground = np.clip(paper, 1e-4, 1.0 - 1e-4)
    labs = lab_of_linear(np.stack([ground, *seen]))
    if float(delta_e_2000(labs[0], labs[1])) < _SEEN:
        return "one coat cannot be told from the paper"
    if float(delta_e_2000(labs[1], labs[2])) < _SEEN:
        return "three coats look like one, so it hides and has no strength to be told"
    curve = smoothest_curves(ground)[0]
    found = [_searched(curve, seen, strength) for strength in _STARTS]
    numbers = min(found, key=lambda each: each[1])[0]
    layers = _layers(curve, numbers[None])[0]
    off = float(delta_e_2000(lab_of_linear(np.clip(layers, 0, 1)), labs[1:]).max())
    strength = float(np.exp(numbers[3]))
    if off > _FITS or not _WEAKEST * 1.05 < strength < _STRONGEST * 0.95:
        return "no one film looks so in one coat and in three"
    colour = hex_of_linear(decoded(np.clip(numbers[:3], 0.0, 1.0)))[0]
    return Film(colour=colour, strength=float(f"{strength:.2g}"), off=off)


def _layers(curve: Floats, numbers: Floats) -> Floats:
    """What films (n, 4), encoded colour and logarithm of strength, look like in one and three coats: linear (n, 2, 3)."""
    films = smoothest_curves(decoded(np.clip(numbers[:, :3], 0.0, 1.0)))
    ratio = absorption_ratio(lifted(films))
    coats = FLAT_THICKNESS * np.exp(numbers[:, 3:])
    layers = [layer_reflectance(ratio, lifted(curve), coats * count) for count in FILM_COATS]
    return linear_of_curves(unlifted(np.stack(layers, axis=1)))


def _searched(curve: Floats, seen: Floats, strength: float) -> tuple[Floats, float]:
    """Levenberg's damped least squares from a first strength: the numbers (4,), and the sum of squares they leave.

    Levenberg, "A method for the solution of certain non-linear problems in least squares", Quarterly of Applied
    Mathematics 2 (1944) 164.
    """
    wanted = lab_of_linear(seen)
    darker = seen[1] * np.minimum(1.0, seen[1] / np.maximum(seen[0], 1e-4))
    at = np.append(encoded(np.clip(darker, 0.0, 1.0)), np.log(strength))
    damping, step = 1.0, np.array([1e-3, 1e-3, 1e-3, 1e-2])
    low, high = np.array([0, 0, 0, np.log(_WEAKEST)]), np.array([1, 1, 1, np.log(_STRONGEST)])
    residual = (lab_of_linear(_layers(curve, at[None])[0]) - wanted).ravel()
    for _ in range(_ROUNDS):
        tried = at + np.diag(np.where(at + step > high, -step, step))
        moved = (lab_of_linear(_layers(curve, tried)) - wanted).reshape(4, -1)
        slopes = ((moved - residual) / np.diag(tried - at)[:, None]).T
        normal = slopes.T @ slopes
        move = np.linalg.solve(normal + damping * np.diag(np.diag(normal) + 1e-9), -slopes.T @ residual)
        next_at = np.clip(at + move, low, high)
        left = (lab_of_linear(_layers(curve, next_at[None])[0]) - wanted).ravel()
        if left @ left < residual @ residual:
            at, residual, damping = next_at, left, max(damping / 4.0, 1e-6)
            if np.abs(move).max() < 1e-5:
                break
        else:
            damping *= 6.0
            if damping > 1e8:
                break
    return at, float(residual @ residual)
