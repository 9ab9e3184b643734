"""The lightness ladder of an area: what was laid on it, each at its L*, from black on the left to white on the right."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from guidegen.computing.guide.contrast import Rung

# The drawing's own units: L* along, and a row high enough for a dot and its rim.
WIDTH = 100
HEIGHT = 10
DOT = 3


def ladder(rungs: Sequence[Rung], label: str) -> Markup:
    """A small picture with a dot a rung, `label` read out for it; empty where fewer than two colours are known."""
    if len(rungs) < 2:
        return Markup()
    edge = DOT + 0.5
    places = [edge + rung.lightness * (WIDTH - 2 * edge) / 100 for rung in rungs]
    line = f'<path d="M0 {HEIGHT / 2:g}H{WIDTH}"/>'
    dots = "".join(
        f'<circle cx="{place:.1f}" cy="{HEIGHT / 2:g}" r="{DOT}" fill="{rung.colour}"/>'
        for place, rung in zip(places, rungs, strict=True)
    )
    return Markup(
        '<svg class="ladder" viewBox="0 0 {width} {height}" role="img" aria-label="{label}">{inner}</svg>'
    ).format(
        width=WIDTH,
        height=HEIGHT,
        label=label,
        inner=Markup(line + dots),  # noqa: S704 - made of numbers and colours of ours
    )


def in_words(rungs: Sequence[Rung]) -> str:
    """The steps of lightness as numbers: `26, 45, 60`."""
    return ", ".join(f"{rung.lightness:.0f}" for rung in rungs)
