"""Parts that several figures share."""

from __future__ import annotations

import ink
from figure import Figure


def disc(
    figure: Figure, x: float, y: float, across: float, down: float, thick: float, *, boards: bool = False
) -> None:
    """A round base seen a little from above, its side first and its top over it, boarded or plain."""
    side = " ".join(
        [f"{x - across},{y}!", f"{x - across},{y + thick}"]
        + [
            f"{x + i * across:.0f},{y + thick + down * (1 - i * i) ** 0.5:.0f}"
            for i in (-0.9, -0.6, 0, 0.6, 0.9)
        ]
        + [f"{x + across},{y + thick}", f"{x + across},{y}!"]
    )
    figure.piece("base", side, rim=0, shade=0, fold=f"={side}", swell=5)
    lines = ()
    if boards:
        lean = (-0.7, -0.36, 0.0, 0.36, 0.7)
        lines = tuple(
            f"{x + i * across:.0f},{y - down * (1 - i * i) ** 0.5 + 2:.0f} "
            f"{x + i * across * 1.06:.0f},{y + down * (1 - i * i * 1.1) ** 0.5 - 1:.0f} @2.6"
            for i in lean
        )
    light = f"{x - across + 8},{y - 4} {x - 0.6 * across},{y - 0.7 * down} {x},{y - down + 4} @5"
    figure.piece("base", ink.oval(x, y, across, down), rim=0, shade=0, light=(light,), line=lines, swell=5)
