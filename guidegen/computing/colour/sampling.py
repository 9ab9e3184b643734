"""A paint's colour out of a photo: the mean of a disc in linear light, balanced by a white card."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.spaces import (
    TO_LINEAR,
    TO_XYZ,
    Floats,
    adaptation,
    decoded,
    hex_of_linear,
    lab_of_linear,
)

# A card with more than this share of its pixels at the top of the scale was brighter than the photo can tell.
_CLIPPED_SHARE = 0.01
_TOP_LEVEL = 254

# A card this dark (linear light, about level 89 of 255) leaves too few levels for the paint. Both limits: from memory.
_DARKEST_CARD = 0.1

Pixels = NDArray[np.uint8]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """The colour `#rrggbb`, its CIELAB D65, and how many pixels it is the mean of. `clipped`: sRGB cannot show it."""

    colour: str
    lab: tuple[float, float, float]
    pixels: int
    clipped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """Why there is no colour to be had, and what to do."""

    message: str
    help: str


def sample(picture: Pixels, at: Point, radius: float, white: Point | None = None) -> Sample | Refusal:
    """The colour at a point of an upright sRGB picture, shape (height, width, 3), x to the right and y down in pixels.

    `white` is a point on a white card in the same light: Bradford's adaptation then takes the card to the white of
    sRGB, so both the tint of the light and its brightness are taken out, and the paint is seen beside the card.
    """
    spot = _disc(picture, at, radius)
    if spot is None:
        return _outside(picture, at, "The point")
    light = decoded(spot / 255.0).mean(axis=0)
    if white is not None:
        card = _disc(picture, white, radius)
        if card is None:
            return _outside(picture, white, "The white card")
        if (card.max(axis=1) >= _TOP_LEVEL).mean() > _CLIPPED_SHARE:
            return Refusal(
                message="The white card is burnt out in this photo, so its colour cannot be told.",
                help="Take the photo again with less light or a shorter exposure, or choose a spot on the card in half shade.",
            )
        card_xyz = TO_XYZ @ decoded(card / 255.0).mean(axis=0)
        if card_xyz[1] < _DARKEST_CARD:
            return Refusal(
                message="The white card is too dark in this photo to balance by.",
                help="Take the photo again in more light, or check that --white points at the card.",
            )
        light = TO_LINEAR @ adaptation(card_xyz) @ TO_XYZ @ light
    return _sampled(light, len(spot))


def _sampled(light: Floats, pixels: int) -> Sample:
    colour, clipped = hex_of_linear(light)
    lightness, a, b = lab_of_linear(np.clip(light, 0.0, 1.0)).tolist()
    return Sample(colour=colour, lab=(lightness, a, b), pixels=pixels, clipped=clipped)


def _disc(picture: Pixels, centre: Point, radius: float) -> Pixels | None:
    """The pixels, shape (n, 3), within `radius` of a point; None if that is outside. The nearest is always among them."""
    height, width = picture.shape[:2]
    x, y = centre
    if not (0 <= x <= width - 1 and 0 <= y <= height - 1):
        return None
    left, right = max(0, int(x - radius)), min(width, int(x + radius) + 2)
    top, bottom = max(0, int(y - radius)), min(height, int(y + radius) + 2)
    across = np.arange(left, right) - x
    down = np.arange(top, bottom) - y
    away = down[:, None] ** 2 + across[None, :] ** 2
    return picture[top:bottom, left:right][away <= max(radius**2, float(away.min()))]


def _outside(picture: Pixels, point: Point, what: str) -> Refusal:
    height, width = picture.shape[:2]
    return Refusal(
        message=f"{what} at {point[0]:g},{point[1]:g} lies outside the picture, which is {width} × {height} pixels.",
        help=f"Give x from 0 to {width - 1} and y from 0 to {height - 1}, counted from the top left corner of the upright photo.",
    )
