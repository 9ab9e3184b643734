"""A card read: its boxes' colours out of one or more photos, corrected by those that the palette is sure of."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from guidegen.computing.card.boxes import CLIPPED, SeenBox
from guidegen.computing.card.camera_fit import TONES, CameraFit, fit_camera
from guidegen.computing.card.film import Film, solve_film
from guidegen.computing.colour.spaces import (
    Floats,
    delta_e_2000,
    hex_of_linear,
    lab_of,
    linear_of,
)
from guidegen.model.card import TINT_WHITE, Box, BoxKind, Card
from guidegen.model.paint import Ambiguous, Mix, Paint, Palette

# A card is corrected by paints whose `colour_from` is one of these.
TRUSTED = frozenset({"maker", "measured"})

ANCHOR, PROVISIONAL, DISAGREES, PALE = "anchor", "provisional", "disagrees", "pale"
BURNT_PAPER = "burnt-paper"

# With fewer anchors than this of its own a photo is corrected by those of all photos together.
_OWN_ANCHORS = 4

# How far off colours are by the white paper alone, in CIEDE2000: the median over the 44 scenes of tests/bench/card.py.
PAPER_ONLY = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadBox:
    """One box: its colour, how far that is from the palette's, the error to expect, both in CIEDE2000.

    `paint` is None where the palette no longer has it. `off` is how far an anchor is from what the other anchors say of it.
    `flags` say what was noticed; where that spoilt the box it has no colour. `coats` is how many were marked beside it, 0
    for none.
    """

    box: Box
    paint: Paint | None
    colour: str | None = None
    de00: float | None = None
    spread: float | None = None
    off: float | None = None
    flags: tuple[str, ...] = ()
    coats: int = 0

    @property
    def covers(self) -> str:
        """The palette's word for a paint that hid the bar in that many coats: common practice, no source."""
        return {0: "", 1: "well", 2: "fair"}.get(self.coats, "poor")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadCard:
    """A card's boxes that were seen, films by their paint with a reason where they could not be solved."""

    card: Card
    corners: int
    boxes: tuple[ReadBox, ...]
    anchors: int
    left_out_median: float | None
    provisional: bool
    films: Mapping[str, Film | str]


def read_card(card: Card, photos: Sequence[Sequence[SeenBox]], palette: Palette, *, corners: int) -> ReadCard:
    """Correct each photo by its anchors, and average what they say."""
    paints = {box.n: _paint(palette, box.paint) for box in card.boxes}
    trusted, provisional = _anchors(card, paints)
    if not trusted:
        photos = [[_left_out_if_burnt(seen) for seen in photo] for photo in photos]
    fits = _fits(photos, {box.n: linear_of([paints[box.n].colour])[0] for box in trusted})  # type: ignore[union-attr,list-item]
    light, off, flags = _averaged(photos, fits)
    medians = [fit.left_out_median for fit, _ in fits if fit.left_out_median is not None]
    median = float(np.median(medians)) if medians else None
    numbers = {box.n for box in trusted}
    coats = {seen.box.n: seen.coats for photo in photos for seen in photo if seen.coats}
    burnt = {seen.box.n for photo in photos for seen in photo if seen.burnt_paper and not seen.flags}
    used = {n for _, anchors in fits for n in anchors}
    boxes = []
    for box in card.boxes:
        if box.n in light or box.n in flags:
            told = list(flags.get(box.n, ()))
            if box.n in numbers and box.n in used:
                told = [*([DISAGREES] if box.n in _lying(fits) else [ANCHOR]), *told]
                if provisional:
                    told.append(PROVISIONAL)
            if box.n in burnt:
                told.append(BURNT_PAPER)
            one = _read(box, paints[box.n], light.get(box.n), off.get(box.n), median, told)
            boxes.append(replace(one, coats=coats.get(box.n, 0)))
    return ReadCard(
        card=card,
        corners=corners,
        boxes=tuple(boxes),
        anchors=len(used),
        left_out_median=median,
        provisional=provisional,
        films=_films(card, light, fits),
    )


def _left_out_if_burnt(seen: SeenBox) -> SeenBox:
    """Where there are no anchors, only the paper says how light it was: a box whose paper is burnt out is left out."""
    return replace(seen, flags=(*seen.flags, CLIPPED)) if seen.burnt_paper and not seen.flags else seen


def _paint(palette: Palette, name: str) -> Paint | None:
    found = palette.find(name)
    return None if isinstance(found, Ambiguous | Mix) else found


def _anchors(card: Card, paints: Mapping[int, Paint | None]) -> tuple[list[Box], bool]:
    """The boxes whose colours are trusted; where nobody says where any is from, all that are unset, provisionally."""
    full = [
        box
        for box in card.boxes
        if box.kind is BoxKind.FULL and (paint := paints[box.n]) is not None and paint.colour is not None
    ]

    def of(sources: Iterable[str]) -> list[Box]:
        return [box for box in full if getattr(paints[box.n], "colour_from", "") in sources]

    trusted = of(TRUSTED)
    if trusted:
        return trusted, False
    said = of({"photo", "eye"})
    return ([], False) if said else (full, bool(full))


Fits = list[tuple[CameraFit, tuple[int, ...]]]


def _fits(photos: Sequence[Sequence[SeenBox]], truth: Mapping[int, Floats]) -> Fits:
    """For each photo its fit and the anchors that it was made by."""
    usable = [[seen for seen in photo if seen.box.n in truth and not seen.flags] for photo in photos]
    everything = [seen for photo in usable for seen in photo]

    def fit(seen: Sequence[SeenBox]) -> tuple[CameraFit, tuple[int, ...]]:
        light = np.array([each.light for each in seen]).reshape(len(seen), len(TONES), 3).swapaxes(0, 1)
        numbers = tuple(each.box.n for each in seen)
        return fit_camera(light, np.array([truth[n] for n in numbers]).reshape(-1, 3)), numbers

    together = fit(everything) if everything else None
    return [
        together if together is not None and len(photo) < _OWN_ANCHORS <= len(everything) else fit(photo)
        for photo in usable
    ]


def _lying(fits: Fits) -> set[int]:
    """The boxes, by number, of anchors that disagree with the others."""
    return {numbers[place] for fit, numbers in fits for place in fit.disagree}


def _averaged(
    photos: Sequence[Sequence[SeenBox]], fits: Fits
) -> tuple[dict[int, Floats], dict[int, float], dict[int, tuple[str, ...]]]:
    """By box: the mean of linear sRGB over the photos that show it well, how far an anchor is off, and else its flags."""
    light: dict[int, list[Floats]] = defaultdict(list)
    off: dict[int, list[float]] = defaultdict(list)
    spoilt: dict[int, tuple[str, ...]] = {}
    for photo, (fit, anchors) in zip(photos, fits, strict=True):
        for seen in photo:
            if seen.flags:
                spoilt[seen.box.n] = seen.flags
            else:
                light[seen.box.n].append(fit.colours(seen.light[:, None])[0])
        for n, one in zip(anchors, fit.off.tolist(), strict=True):
            off[n].append(one)
    means = {n: np.asarray(np.mean(each, axis=0), dtype=np.float64) for n, each in light.items()}
    return (
        means,
        {n: float(np.mean(each)) for n, each in off.items()},
        {n: flags for n, flags in spoilt.items() if n not in means},
    )


def _read(
    box: Box,
    paint: Paint | None,
    light: Floats | None,
    off: float | None,
    median: float | None,
    flags: list[str],
) -> ReadBox:
    if light is None:
        return ReadBox(box=box, paint=paint, flags=tuple(flags))
    colour = hex_of_linear(light)[0]
    before = _colour_before(box, paint)
    if paint is not None and paint.finish in ("satin", "gloss"):
        flags = [*flags, PALE]
    return ReadBox(
        box=box,
        paint=paint,
        colour=colour,
        de00=None if before is None else float(delta_e_2000(lab_of([colour])[0], lab_of([before])[0])),
        spread=PAPER_ONLY if median is None else median,
        off=off,
        flags=tuple(flags),
    )


def _colour_before(box: Box, paint: Paint | None) -> str | None:
    """What the palette has for what is in the box."""
    if paint is None:
        return None
    if box.kind is BoxKind.FULL:
        return paint.colour
    down = paint.let_down
    if box.kind is BoxKind.TINT and down is not None and down.white_parts == TINT_WHITE * down.paint_parts:
        return down.colour
    return None


def _films(card: Card, light: Mapping[int, Floats], fits: Fits) -> dict[str, Film | str]:
    by_paint: dict[str, dict[int, Floats]] = defaultdict(dict)
    for box in card.boxes:
        if box.kind is BoxKind.FILM and box.n in light:
            by_paint[box.paint][box.coats] = light[box.n]
    if not by_paint:
        return {}
    paper = np.mean([fit.colours(np.ones((1, 3)))[0] for fit, _ in fits], axis=0)
    found: dict[str, Film | str] = {}
    for name, coats in by_paint.items():
        if len(coats) < 2:
            found[name] = "only one of its two boxes can be read"
        else:
            one, three = (coats[count] for count in sorted(coats))
            found[name] = solve_film(paper, one, three)
    return found
