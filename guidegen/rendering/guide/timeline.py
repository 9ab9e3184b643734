"""A guide's timeline: one column down the page, drawn row by row beside the steps.

Only painting is to scale, in pixels for each minute. A wait is a gap of fixed height before the painting of its step,
however long it is and wherever in the step somebody has to wait. Between steps, while the reader reads, no time passes
and the lines just run on. `templates/scripts/guide.js` draws the same rows for another number of figures; a test
compares the two.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from guidegen.base.units import MINUTE
from guidegen.computing.guide.batch import Bar

# Pixels: the ribbon of paint, then lanes in which drying fades; the shortest block; gaps between coats and steps.
RIBBON, LANE, LANE_GAP, LANES = 14, 4, 3, 3
WIDTH = RIBBON + LANES * (LANE + LANE_GAP)
LEAST = 8
BREATH, PAUSE, ENDING = 12, 30, 40

# Pixels a minute: no more than this, nor more than brings all steps or the longest one to these heights.
LARGEST_SCALE, ALL_STEPS, LONGEST_STEP = 4.0, 1800.0, 360.0

# How strong the tail of what was just painted is.
FRESH = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineRow:
    """A drawing `height` pixels tall of a stretch of time, and what runs on beside the words below it."""

    height: int
    drawing: Markup
    run: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A gap before a step: how long, ms, and for which step's paint to dry."""

    length: int
    dries: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineStep:
    """A step on the clock, ms: its wait before (None if there is none), what runs on until it begins, its own row."""

    n: int
    start: int
    end: int
    dry: int
    wait: Wait | None
    pause: TimelineRow | None
    before: Markup
    row: TimelineRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """The whole column. `after` is what runs on below a step, by its number: a stop stands there."""

    steps: Mapping[int, TimelineStep]
    after: Mapping[int, Markup]
    ending: TimelineRow


@dataclass(frozen=True, slots=True)
class _Tail:
    start: int
    end: int
    lane: int
    colour: str | None


@dataclass(frozen=True, slots=True)
class _Zone:
    """A stretch of time drawn `height` pixels tall; `painted` is None for a wait."""

    start: int
    end: int
    height: int
    painted: tuple[str | None, ...] | None


def draw_timeline(bars: Sequence[Bar], colours: Mapping[int, Sequence[str | None]]) -> Timeline:
    """Draw the passes of a batch. `colours` are those on the brush for each step; None where a step lays no colour."""
    scale = _scale(bars)
    tails = _tails(bars, colours)
    steps: dict[int, TimelineStep] = {}
    after: dict[int, Markup] = {}
    for n, group in groupby(bars, key=lambda bar: bar.n):
        coats = list(group)
        first, last = coats[0], coats[-1]
        zones: list[_Zone] = []
        for bar in coats:
            begun = bar.start + bar.waited
            if bar.waited and bar is not first:
                zones.append(_Zone(bar.start, begun, BREATH, None))
            height = max(LEAST, int(bar.hands_on / MINUTE * scale + 0.5))
            zones.append(_Zone(begun, bar.end, height, tuple(colours.get(n, ()))))
        wait = Wait(length=first.waited, dries=_dries(bars, first)) if first.waited else None
        begun = first.start + first.waited
        pause = [_Zone(first.start, begun, PAUSE, None)]
        steps[n] = TimelineStep(
            n=n,
            start=begun,
            end=last.end,
            dry=max(bar.dry_until for bar in coats),
            wait=wait,
            pause=_row(f"p{n}", pause, tails) if wait else None,
            before=_run(begun, tails),
            row=_row(f"s{n}", zones, tails),
        )
        after[n] = _run(last.end, tails)
    end = bars[-1].end if bars else 0
    dry = max((bar.dry_until for bar in bars), default=0)
    ending = _row("e", [_Zone(end, dry, ENDING, None)] if dry > end else [], tails)
    return Timeline(steps=steps, after=after, ending=ending)


def _scale(bars: Sequence[Bar]) -> float:
    by_step: dict[int, int] = {}
    for bar in bars:
        by_step[bar.n] = by_step.get(bar.n, 0) + bar.hands_on
    if not any(by_step.values()):
        return LARGEST_SCALE
    return min(
        LARGEST_SCALE,
        ALL_STEPS * MINUTE / sum(by_step.values()),
        LONGEST_STEP * MINUTE / max(by_step.values()),
    )


def _tails(bars: Sequence[Bar], colours: Mapping[int, Sequence[str | None]]) -> tuple[_Tail, ...]:
    """What dries after each pass, in the first free lane; where none is free the words alone tell it."""
    free = [0] * LANES
    tails = []
    for bar in bars:
        if bar.dry_until <= bar.end:
            continue
        lane = next((at for at, until in enumerate(free) if until <= bar.end), None)
        if lane is not None:
            free[lane] = bar.dry_until
            tails.append(_Tail(bar.end, bar.dry_until, lane, next(iter(colours.get(bar.n, ())), None)))
    return tuple(tails)


def _dries(bars: Sequence[Bar], waiting: Bar) -> int:
    """The last step before a wait that is still drying when the longest piece of it begins: there always is one."""
    wet = [bar.n for bar in bars if bar.end <= waiting.start and bar.dry_until > waiting.longest_at]
    return wet[-1]


def _row(name: str, zones: Sequence[_Zone], tails: Sequence[_Tail]) -> TimelineRow:
    top = 0
    parts: list[str] = []
    for at, zone in enumerate(zones):
        parts.append(_painted(zone, top))
        parts.extend(_fading(f"{name}-{at}", zone, top, tails))
        top += zone.height
    box = f'width="{WIDTH}" height="{top}" viewBox="0 0 {WIDTH} {top}"'
    drawing = Markup(f'<svg class="wet" {box}>{"".join(parts)}</svg>') if zones else Markup()  # noqa: S704
    return TimelineRow(height=top, drawing=drawing, run=_run(zones[-1].end, tails) if zones else Markup())


def _painted(zone: _Zone, top: int) -> str:
    if zone.painted is None:
        return f'<path class="gap" d="M{RIBBON // 2} {top}v{zone.height}"/>'
    colours = zone.painted or (None,)
    parts = []
    for at, colour in enumerate(colours):
        left, right = RIBBON * at // len(colours), RIBBON * (at + 1) // len(colours)
        fill = f' fill="{colour}"' if colour else ' class="bare"'
        parts.append(f'<path{fill} d="M{left} {top}h{right - left}v{zone.height}h-{right - left}z"/>')
    rim = f'<path class="rim" d="M.5 {top + 0.5}h{RIBBON - 1}v{zone.height - 1}h-{RIBBON - 1}z"/>'
    return "".join(parts) + rim


def _fading(name: str, zone: _Zone, top: int, tails: Sequence[_Tail]) -> list[str]:
    parts = []
    length = zone.end - zone.start
    for tail in tails:
        if tail.end <= zone.start or tail.start >= zone.end:
            continue
        a, b = (_tenth(top + (at - zone.start) * zone.height / length) for at in (tail.start, tail.end))
        y, end = max(a, top), min(b, top + zone.height)
        ident = f"{name}-{tail.lane}-{tail.start}"
        tone = f' stop-color="{tail.colour}"' if tail.colour else ""
        parts.append(
            f'<linearGradient id="{ident}" gradientUnits="userSpaceOnUse" x2="0" y1="{a:g}" y2="{b:g}">'
            f'<stop{tone}/><stop class="gone" offset="1"{tone}/></linearGradient>'
            f'<path fill="url(#{ident})" d="M{_left(tail)} {y:g}h{LANE}v{_tenth(end - y):g}h-{LANE}z"/>'
        )
    return parts


def _run(at: int, tails: Sequence[_Tail]) -> Markup:
    """What stands still while the reader reads: the line itself, and each tail as faint as it is by then."""
    parts = [f'<path class="line" vector-effect="non-scaling-stroke" d="M{RIBBON // 2} 0v1"/>']
    for tail in tails:
        if tail.start <= at < tail.end:
            strength = int(FRESH * 100 * (tail.end - at) / (tail.end - tail.start) + 0.5) / 100
            fill = f'fill="{tail.colour}"' if tail.colour else 'class="bare"'
            parts.append(f'<path {fill} fill-opacity="{strength:g}" d="M{_left(tail)} 0h{LANE}v1h-{LANE}z"/>')
    return Markup(  # noqa: S704
        f'<svg class="run" viewBox="0 0 {WIDTH} 1" preserveAspectRatio="none">{"".join(parts)}</svg>'
    )


def _tenth(value: float) -> float:
    return math.floor(value * 10 + 0.5) / 10


def _left(tail: _Tail) -> int:
    return RIBBON + LANE_GAP + tail.lane * (LANE + LANE_GAP)
