"""A figure as a small painted solid in the light: each piece swells from its outline and is lit, lined and shaded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from figure import Figure, cut
from scipy import ndimage

Colour = np.ndarray

# The key light stands high on the left, a weak cool one low on the right.
KEY = np.array([-0.52, -0.62, 0.59])
FILL = np.array([0.78, 0.18, 0.60])
KEY_TINT = np.array([1.0, 0.95, 0.86])
FILL_TINT = np.array([0.62, 0.74, 0.95])


def linear(text: str) -> Colour:
    """Linear light of a hex colour (IEC 61966-2-1)."""
    code = np.array([int(text.lstrip("#")[i : i + 2], 16) for i in (0, 2, 4)]) / 255
    return np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)


def encoded(light: np.ndarray) -> np.ndarray:
    """SRGB codes from 0 to 1 of linear light."""
    light = np.clip(light, 0, 1)
    return np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)


@dataclass(frozen=True)
class Coat:
    """How an area is painted: flats, and recesses and edges as hex or as a shift of the flats.

    `shine` from 0 (matt) to 1 (gloss), `metal` for metals, `glow` for what gives light.
    """

    flats: str
    low: str | float = 0.0
    high: str | float = 0.0
    shine: float = 0.06
    metal: bool = False
    glow: float = 0.0

    def parts(self) -> tuple[Colour, Colour, Colour]:
        """Linear flats, recesses and edges."""
        flats = linear(self.flats)
        low = linear(self.low) if isinstance(self.low, str) else flats * (1 - self.low)
        high = linear(self.high) if isinstance(self.high, str) else flats + (1 - flats) * self.high
        return flats, low, high


@dataclass(frozen=True)
class Lamp:
    """A small light at a place on the drawing, `near` in units being where it has lost half its strength."""

    x: float
    y: float
    height: float = 26
    strength: float = 1.6
    near: float = 60
    tint: tuple[float, float, float] = (1.0, 0.62, 0.26)


@dataclass
class Light:
    """How a figure stands in the light: shares of key, fill and sky, and lamps of its own."""

    key: float = 1.0
    fill: float = 0.28
    sky: float = 0.30
    sky_tint: tuple[float, float, float] = (0.92, 0.97, 1.0)
    lamps: tuple[Lamp, ...] = field(default_factory=tuple)


def noise(shape: tuple[int, int], grain: float, seed: int) -> np.ndarray:
    """Smooth noise of unit spread with a grain in cells."""
    rough = np.random.default_rng(seed).standard_normal(shape)
    smooth = ndimage.gaussian_filter(rough, grain, mode="wrap")
    return smooth / (smooth.std() + 1e-9)


def solid(
    figure: Figure, coats: Mapping[str, Coat], light: Light, fine: float, *, seed: int = 1
) -> np.ndarray:
    """The figure as premultiplied linear RGBA, `fine` cells to a unit. Areas without a coat are left out."""
    margin = 4
    height, width = round((figure.height + 2 * margin) * fine), round((figure.width + 2 * margin) * fine)
    picture = np.zeros((height, width, 4))
    for number, piece in enumerate(figure.pieces):
        coat = coats.get(f"{piece.area} / {piece.only}") or coats.get(piece.area)
        if coat is None:
            continue
        shape = cut(piece, fine)
        top, left = (shape.window[1] + margin) * fine, (shape.window[0] + margin) * fine
        rows, columns = shape.whole.shape
        y, x = round(top), round(left)
        y0, x0 = max(y, 0), max(x, 0)
        y1, x1 = min(y + rows, height), min(x + columns, width)
        if y0 >= y1 or x0 >= x1:
            continue
        inner = (slice(y0 - y, y1 - y), slice(x0 - x, x1 - x))
        _shadow(picture, shape.whole, y, x, fine)
        alpha = ndimage.gaussian_filter(shape.whole.astype(float), 0.35 * fine)
        alpha = np.clip((alpha - 0.5) * 2.2 + 0.5, 0, 1) * shape.whole
        lit = _lit(shape, piece.swell, coat, light, fine, seed * 101 + number)
        there = picture[y0:y1, x0:x1]
        cover = alpha[inner][..., None]
        there[..., :3] = there[..., :3] * (1 - cover) + lit[inner] * cover
        there[..., 3:] = there[..., 3:] * (1 - cover) + cover
    return picture


def _shadow(picture: np.ndarray, whole: np.ndarray, y: int, x: int, fine: float) -> None:
    """Darken what lies behind a piece: close by, and in the shadow that it throws down to the right."""
    pad = round(16 * fine)
    mask = np.pad(whole.astype(float), pad)
    close = ndimage.gaussian_filter(mask, 1.3 * fine)
    thrown = ndimage.shift(ndimage.gaussian_filter(mask, 3.2 * fine), (5 * fine, 4 * fine), order=1)
    dark = (
        1 - 0.55 * np.clip(close * 1.3, 0, 1) - 0.5 * np.clip(thrown, 0, 1) * (1 - np.clip(close * 1.3, 0, 1))
    )
    height, width = picture.shape[:2]
    y, x = y - pad, x - pad
    y0, x0, y1, x1 = max(y, 0), max(x, 0), min(y + mask.shape[0], height), min(x + mask.shape[1], width)
    picture[y0:y1, x0:x1, :3] *= dark[y0 - y : y1 - y, x0 - x : x1 - x, None]


def _lit(shape, swell: float, coat: Coat, light: Light, fine: float, seed: int) -> np.ndarray:  # type: ignore[no-untyped-def]
    away = ndimage.distance_transform_edt(shape.whole) / fine
    low = ndimage.gaussian_filter(shape.low.astype(float), 1.5 * fine)
    high = ndimage.gaussian_filter(shape.high.astype(float), 1.0 * fine)
    round_off = np.clip(away / swell, 0, 1)
    height = swell * 0.72 * np.sqrt(1 - (1 - round_off) ** 2)
    height = ndimage.gaussian_filter(height, min(1.6, swell / 6) * fine)
    height += 1.9 * high - 2.6 * low
    cloth = noise(shape.whole.shape, 0.7 * fine, seed)
    height += 0.022 * cloth
    slope_y, slope_x = np.gradient(height, 1 / fine)
    normal = np.stack([-slope_x, -slope_y, np.ones_like(height)], axis=-1)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)

    flats, deep, raised = coat.parts()
    mottle = noise(shape.whole.shape, 5 * fine, seed + 1)[..., None]
    a = np.clip(low * 1.25 + 0.10 * mottle[..., 0] * low, 0, 1)[..., None]
    b = np.clip(high * 1.35, 0, 1)[..., None]
    colour = flats * (1 - a) + deep * a
    colour = colour * (1 - b) + raised * b
    colour = colour * (1 + 0.035 * mottle + 0.012 * cloth[..., None])

    def facing(way: np.ndarray) -> np.ndarray:
        return np.clip(normal @ way, 0, None)[..., None]

    sky = (0.62 - 0.38 * normal[..., 1:2]) * np.array(light.sky_tint)
    lining = np.clip(away / 2.4, 0, 1)[..., None] ** 0.7
    hollow = (0.52 + 0.48 * lining) * (1 - 0.30 * a)
    falling = light.key * KEY_TINT * facing(KEY) + light.fill * FILL_TINT * facing(FILL)
    falling = falling + light.sky * sky
    for lamp in light.lamps:
        falling = falling + _lamplight(lamp, shape, normal, fine)
    half = KEY + np.array([0, 0, 1.0])
    half /= np.linalg.norm(half)
    glint = facing(half)
    if coat.metal:
        sheen = 0.35 + 1.5 * np.abs(np.sin(4.2 * normal[..., 1:2] + 1.2 * normal[..., :1] + 0.6)) ** 2
        lit = colour * falling * hollow * sheen + (0.5 + 0.5 * colour) * glint**26 * 1.1 * light.key
    else:
        lit = colour * falling * hollow
        lit = lit + KEY_TINT * light.key * (coat.shine * 0.5 * glint**12 + coat.shine**2 * 2.2 * glint**70)
    lines = ndimage.gaussian_filter(shape.ink.astype(float), 0.32 * fine)[..., None]
    lit = lit * (1 - 0.82 * np.clip(lines * 1.3, 0, 1))
    if coat.glow:
        lit = lit * 0.3 + coat.glow * flats * (0.75 + 0.5 * round_off[..., None]) * (1 - 0.5 * lines)
    return lit


def _lamplight(lamp: Lamp, shape, normal: np.ndarray, fine: float) -> np.ndarray:  # type: ignore[no-untyped-def]
    rows, columns = shape.whole.shape
    y, x = np.mgrid[0:rows, 0:columns] / fine
    way = np.stack(
        [lamp.x - x - shape.window[0], lamp.y - y - shape.window[1], np.full_like(x, lamp.height)], axis=-1
    )
    far = np.linalg.norm(way, axis=-1, keepdims=True)
    turned = np.clip(np.sum(normal * way, axis=-1, keepdims=True) / far, 0, None)
    return lamp.strength * turned / (1 + (far / lamp.near) ** 2) * np.array(lamp.tint)
