"""The table that figures are photographed on: paper and slate sweeps, shadows, glows, and the last touches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from figure import Figure
from render import Coat, Light, encoded, linear, noise, solid
from scipy import ndimage

WIDE, HIGH = 1600, 1067
EXPOSURE = 1.22


@dataclass(frozen=True, kw_only=True)
class Standing:
    """A figure on the table: `x` and `foot` in pixels are where its base's lowest middle stands, `tall` its height."""

    figure: Figure
    coats: Mapping[str, Coat]
    x: float
    foot: float
    tall: float
    blur: float = 0.0
    light: Light | None = None
    flip: bool = False
    shadow: float = 1.0
    seed: int = 1


def sweep(
    back: str,
    floor: str,
    *,
    wide: int = WIDE,
    high: int = HIGH,
    horizon: float = 0.52,
    pool: tuple[float, float] = (0.42, 0.55),
) -> np.ndarray:
    """A seamless sheet from wall to floor in linear light, brighter around a pool of light."""
    y, x = np.mgrid[0:high, 0:wide]
    y, x = y / high, x / wide
    blend = (1 / (1 + np.exp(-(y - horizon) * 14)))[..., None]
    sheet = linear(back) * (1 - blend) + linear(floor) * blend
    far = ((x - pool[0]) * 1.25) ** 2 + ((y - pool[1]) * 1.05) ** 2
    sheet = sheet * (0.42 + 0.85 * np.exp(-far * 2.6))[..., None]
    return sheet * (
        1 + 0.012 * noise((high, wide), 3, 5)[..., None] + 0.03 * noise((high, wide), 90, 6)[..., None]
    )


def stand(table: np.ndarray, standing: Standing) -> None:
    """Put a figure on the table, its shadow first."""
    scale = standing.tall / standing.figure.height
    over = 2 if standing.blur < 4 else 1
    light = standing.light or Light()
    shape = solid(standing.figure, standing.coats, light, scale * over, seed=standing.seed)
    if over == 2:
        shape = shape[: shape.shape[0] // 2 * 2, : shape.shape[1] // 2 * 2]
        shape = (shape[0::2, 0::2] + shape[1::2, 0::2] + shape[0::2, 1::2] + shape[1::2, 1::2]) / 4
    if standing.flip:
        shape = shape[:, ::-1]
    pad = int(standing.blur * 4) + 2
    shape = np.pad(shape, ((pad, pad), (pad, pad), (0, 0)))
    if standing.blur:
        shape = ndimage.gaussian_filter(shape, (standing.blur, standing.blur, 0))
    top, left = round(standing.foot - shape.shape[0] + pad), round(standing.x - shape.shape[1] / 2)
    if standing.shadow:
        _cast(table, shape[..., 3], top, left, standing)
    paste(table, shape, top, left)


def paste(table: np.ndarray, shape: np.ndarray, top: int, left: int) -> None:
    """Lay premultiplied RGBA over the table; what hangs over its edge is cut."""
    height, width = table.shape[:2]
    y0, x0, y1, x1 = (
        max(top, 0),
        max(left, 0),
        min(top + shape.shape[0], height),
        min(left + shape.shape[1], width),
    )
    if y0 >= y1 or x0 >= x1:
        return
    part = shape[y0 - top : y1 - top, x0 - left : x1 - left]
    table[y0:y1, x0:x1] = table[y0:y1, x0:x1] * (1 - part[..., 3:]) + part[..., :3]


def _cast(table: np.ndarray, alpha: np.ndarray, top: int, left: int, standing: Standing) -> None:
    """The long shadow to the right of a figure, and the close one under its base."""
    height, width = table.shape[:2]
    rows, columns = alpha.shape
    shadow = np.zeros((height, width))
    flat = ndimage.zoom(alpha, (0.30, 1.0), order=1)
    foot = top + rows - int(0.055 * standing.tall) - int(standing.blur * 4)
    for row in range(flat.shape[0]):
        y = foot - (flat.shape[0] - 1 - row)
        x = left + int((flat.shape[0] - 1 - row) * 1.15)
        if 0 <= y < height:
            x0, x1 = max(x, 0), min(x + columns, width)
            if x0 < x1:
                shadow[y, x0:x1] = np.maximum(shadow[y, x0:x1], flat[row, x0 - x : x1 - x])
    soft = 5 + standing.tall * 0.012 + standing.blur
    shadow = ndimage.gaussian_filter(shadow, (soft * 0.7, soft)) * 0.55
    y, x = np.mgrid[0:height, 0:width]
    across = standing.tall / standing.figure.height * standing.figure.width * 0.40
    round_it = ((x - standing.x - across * 0.06) / across) ** 2 + (
        (y - foot + 0.02 * standing.tall) / (across * 0.22)
    ) ** 2
    close = np.exp(-(round_it**1.5) * 0.55) * 0.62
    table *= (1 - np.clip(shadow + close, 0, 0.86) * standing.shadow)[..., None]


def glow(
    table: np.ndarray, x: float, y: float, reach: float, *, tint: str = "ffb347", strength: float = 1.0
) -> None:
    """Light that hangs in the air around a lamp."""
    rows, columns = np.mgrid[0 : table.shape[0], 0 : table.shape[1]]
    far = np.hypot(columns - x, rows - y) / reach
    halo = 0.55 * np.exp(-((far * 3.2) ** 2)) + 0.18 * np.exp(-far * 3.4)
    table += strength * halo[..., None] * linear(tint)


def develop(table: np.ndarray, *, seed: int = 9, grain: float = 0.006, vignette: float = 0.28) -> np.ndarray:
    """The finished picture as bytes: a soft shoulder in the lights, dark corners and a little grain."""
    height, width = table.shape[:2]
    y, x = np.mgrid[0:height, 0:width]
    far = ((x / width - 0.5) ** 2 + (y / height - 0.5) ** 2) * 2
    light = table * EXPOSURE * (1 - vignette * far[..., None] ** 1.2)
    light = np.where(light > 0.7, 0.7 + 0.3 * np.tanh((light - 0.7) / 0.3), light)
    codes = encoded(light)
    codes = codes + 0.045 * (codes - 0.5) * (1 - np.abs(2 * codes - 1))
    codes = codes + grain * noise((height, width), 0.7, seed)[..., None]
    return (np.clip(codes, 0, 1) * 255 + 0.5).astype(np.uint8)
