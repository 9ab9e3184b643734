"""The delta at night: sky, town, water, fog, and a jetty to stand on."""

from __future__ import annotations

import itertools

import ink
import numpy as np
from backdrop import HIGH, WIDE
from figure import Figure
from render import linear, noise
from scipy import ndimage


def delta(horizon: int = 520, *, seed: int = 4) -> np.ndarray:
    """Sky, far town with lit windows, and water, in linear light."""
    y, _ = np.mgrid[0:HIGH, 0:WIDE]
    up = np.clip((horizon - y) / horizon, 0, 1)[..., None]
    sky = linear("5f7580") * (1 - up) ** 2.2 + linear("141d33") * (1 - (1 - up) ** 2.2)
    sky = sky * (1 + 0.06 * noise((HIGH, WIDE), 60, seed)[..., None])
    _moon(sky, 1270, 170)
    table = sky.copy()
    _town(table, horizon, seed)
    depth = np.clip((y - horizon) / (HIGH - horizon), 0, 1)[..., None]
    water = linear("4c6470") * (1 - depth) ** 1.6 + linear("0d1524") * (1 - (1 - depth) ** 1.6)
    mirrored = table[horizon - 1 :: -1][: HIGH - horizon]
    mirrored = np.pad(mirrored, ((0, HIGH - horizon - mirrored.shape[0]), (0, 0), (0, 0)), mode="edge")
    mirrored = ndimage.gaussian_filter(mirrored, (26, 5, 0))
    below = table[horizon:]
    below[:] = 0.55 * water[horizon:] + 0.5 * mirrored * (1 - 0.5 * depth[horizon:])
    ripples = ndimage.gaussian_filter(np.random.default_rng(seed).standard_normal((HIGH, WIDE)), (1.4, 26))
    ripples /= ripples.std()
    below *= 1 + 0.16 * ripples[horizon:, :, None] * (0.3 + depth[horizon:])
    return table


def _moon(sky: np.ndarray, x: int, y: int) -> None:
    rows, columns = np.mgrid[0:HIGH, 0:WIDE]
    far = np.hypot(columns - x, rows - y)
    sky += ((1 / (1 + np.exp((far - 46) / 2.2))) * 0.75 + 0.16 * np.exp(-far / 130))[..., None] * linear(
        "dfe6e4"
    )


def _town(table: np.ndarray, horizon: int, seed: int) -> None:
    """Roofs and chimneys along the far bank, out of focus, with a window lit here and there."""
    dice = np.random.default_rng(seed)
    shapes, windows, x = [], [], -30.0
    while x < WIDE + 40:
        broad, tall = dice.uniform(50, 120), dice.uniform(34, 92)
        top = horizon - tall
        roof = top - dice.uniform(18, 52)
        shapes.append(
            np.array(
                [
                    (x, horizon + 4),
                    (x, top),
                    (x + broad / 2, roof),
                    (x + broad, top),
                    (x + broad, horizon + 4),
                ]
            )
        )
        if dice.random() < 0.5:
            c = x + broad * 0.7
            shapes.append(np.array([(c, top), (c, roof - 8), (c + 11, roof - 8), (c + 11, top)]))
        if dice.random() < 0.62:
            windows.append((x + broad * dice.uniform(0.25, 0.7), top + tall * dice.uniform(0.2, 0.55)))
        x += broad * dice.uniform(0.72, 1.25)
    town = ndimage.gaussian_filter(ink.mask(shapes, (0, 0, WIDE, HIGH), 1).astype(float), 3.2)[..., None]
    table[:] = table * (1 - town) + linear("26333f") * town
    panes = [np.array([(x, y), (x + 9, y), (x + 9, y + 12), (x, y + 12)]) for x, y in windows]
    lit = ink.mask(panes, (0, 0, WIDE, HIGH), 1).astype(float)
    table += (ndimage.gaussian_filter(lit, 3.0) * 0.9 + ndimage.gaussian_filter(lit, 14) * 1.6)[
        ..., None
    ] * linear("ffb24d")


def fog(
    table: np.ndarray, at: int, deep: float, thick: float, *, seed: int = 12, tint: str = "93a6ad"
) -> None:
    """A bank of fog lying along a height, torn into streaks."""
    y, _ = np.mgrid[0:HIGH, 0:WIDE]
    streaks = ndimage.gaussian_filter(np.random.default_rng(seed).standard_normal((HIGH, WIDE)), (22, 150))
    streaks = 0.62 + 0.42 * streaks / streaks.std()
    bank = np.clip(np.exp(-(((y - at) / deep) ** 2)) * streaks * thick, 0, 0.92)[..., None]
    table[:] = table * (1 - bank) + linear(tint) * bank


def jetty() -> Figure:
    """A jetty across the whole picture, its boards running away from the viewer."""
    figure = Figure("jetty", WIDE, 420, "Jetty", "Boards on posts")
    piece = figure.piece
    for x in (60, 1490):
        piece(
            "post",
            f"{x},30! {x + 44},26! {x + 48},200! {x - 4},200!",
            fold=(f"={x + 26},26 {x + 48},26 {x + 48},200 {x + 24},200",),
            line=(f"{x + 14},40 {x + 12},120 @3",),
            rim=3,
            shade=0,
            swell=16,
        )
        piece("rope", ink.tube(f"{x - 6},84,9 {x + 22},92,9 {x + 52},84,9"), rim=1, shade=1, swell=4)
        piece("rope", ink.tube(f"{x - 6},98,9 {x + 22},106,9 {x + 52},98,9"), rim=1, shade=1, swell=4)
    back, front, middle = 110, 280, WIDE / 2
    edges = np.linspace(-420, WIDE + 420, 25)
    for number, (a, b) in enumerate(itertools.pairwise(edges)):
        far = [middle + (v - middle) * 0.80 for v in (a, b)]
        grain = tuple(
            f"{a + (b - a) * s:.0f},{front - 12} {far[0] + (far[1] - far[0]) * s:.0f},{back + 14} @2.4"
            for s in (0.3, 0.62)
        )
        worn = (
            (f"{a + (b - a) * 0.2:.0f},{front - 20} {far[0] + (far[1] - far[0]) * 0.25:.0f},{back + 60} @6",)
            if number % 3
            else ()
        )
        piece(
            "planks" if number % 4 else "planks worn",
            f"{far[0] + 1:.1f},{back}! {far[1] - 1:.1f},{back}! {b - 1:.1f},{front}! {a + 1:.1f},{front}!",
            line=grain,
            light=worn,
            rim=2,
            shade=2,
            swell=5,
        )
    for a, b in itertools.pairwise(edges):
        piece(
            "ends",
            f"{a + 1:.1f},{front}! {b - 1:.1f},{front}! {b - 1:.1f},{front + 18}! {a + 1:.1f},{front + 18}!",
            rim=2,
            shade=3,
            swell=4,
        )
    piece(
        "beam",
        f"-6,{front + 18}! {WIDE + 6},{front + 18}! {WIDE + 6},{front + 56}! -6,{front + 56}!",
        fold=(f"=-6,{front + 40} {WIDE + 6},{front + 40} {WIDE + 6},{front + 58} -6,{front + 58}",),
        rim=3,
        shade=0,
        swell=12,
    )
    for x in (210, 640, 1070, 1470):
        piece(
            "post",
            f"{x},{front + 30}! {x + 52},{front + 30}! {x + 54},430! {x - 2},430!",
            fold=(f"={x + 30},{front + 30} {x + 54},{front + 30} {x + 56},430 {x + 28},430",),
            rim=3,
            shade=0,
            swell=18,
        )
    return figure
