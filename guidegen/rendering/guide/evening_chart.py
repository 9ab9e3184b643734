"""The evening at a glance: what is painted along a line of time, and below it each area while it dries.

The drawing is as wide as the page leaves it room, so all that lies along the line is in percent of its length and all that
lies across in pixels. `templates/scripts/guide.js` draws the same for another number of figures; a test compares the two.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from markupsafe import Markup

from guidegen.base.units import MINUTE
from guidegen.computing.guide.batch import Bar, Pass
from guidegen.words.language import Language

# Pixels: the row of what is painted, an area's row and its bar, and the hours below.
PAINTED, ROW, BAR, HOURS = 18, 8, 5, 22
# Minutes between two marks of the clock: the least that leaves no more than MOST_MARKS.
BETWEEN = (15, 30, 60, 120, 240, 480, 720, 1440)
MOST_MARKS = 8


def draw_evening(
    passes: Sequence[Pass],
    bars: Sequence[Bar],
    colours: Mapping[int, Sequence[str | None]],
    areas: int,
    language: Language,
) -> Markup:
    """The passes of a batch until the last stroke, empty where nothing takes time; `colours` by step number.

    What dries longer than that runs out of the drawing.
    """
    end = bars[-1].end if bars else 0
    if not end:
        return Markup()
    height = PAINTED + ROW * areas + HOURS
    parts = [f'<line class="mark" x1="0" x2="100%" y1="{PAINTED}" y2="{PAINTED}"/>']
    for at in marks(end):
        x = percent(at, end)
        parts.append(f'<line class="mark" x1="{x}" x2="{x}" y1="0" y2="{height - HOURS}"/>')
        parts.append(f'<text x="{x}" y="{height - 5}">{language.clock(at)}</text>')
    for one, bar in zip(passes, bars, strict=True):
        begun = bar.start + bar.waited
        those = colours.get(bar.n, ())
        colour = those[0] if those else None
        parts.append(_bar(begun, bar.end, end, 0, PAINTED - 4, colour, "painted"))
        for area in one.areas if one.holds_area else range(areas):
            if bar.dry_until > bar.end:
                top = PAINTED + 2 + ROW * area
                parts.append(_bar(bar.end, min(bar.dry_until, end), end, top, BAR, colour, "drying"))
    label = language.t("evening.what")
    return Markup(
        '<svg class="evening" width="100%" height="{height}" role="img" aria-label="{label}">{inner}</svg>'
    ).format(
        height=height,
        label=label,
        inner=Markup("".join(parts)),  # noqa: S704 - made of numbers, colours and clock times of ours
    )


def marks(end: int) -> tuple[int, ...]:
    """The times marked along the line, ms, the beginning among them; what would stick out at its end is not."""
    step = next((one for one in BETWEEN if end / (one * MINUTE) < MOST_MARKS), 0) * MINUTE
    step = step or math.ceil(end / MOST_MARKS / (1440 * MINUTE)) * 1440 * MINUTE
    return tuple(at for at in range(0, end, step) if at <= end * 0.85)


def percent(at: int, end: int) -> str:
    """Where a time lies along the line, in hundredths of a percent as browsers round them."""
    return f"{math.floor(at * 10000 / end + 0.5) / 100:g}%"


def _bar(start: int, stop: int, end: int, top: int, height: int, colour: str | None, name: str) -> str:
    if stop <= start:
        return ""
    kind = name if colour else f"{name} bare"
    return (
        f'<rect class="{kind}" fill="{colour or "none"}" x="{percent(start, end)}" y="{top}" '
        f'width="{percent(stop - start, end)}" height="{height}"/>'
    )
