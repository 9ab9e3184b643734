"""What a photo shows of a card's boxes, beside the bare paper around each, and what speaks against using one."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.card.camera_fit import TONES, straightened
from guidegen.computing.card.pages import PagePlace
from guidegen.computing.colour.spaces import Floats, delta_e_2000, lab_of_linear
from guidegen.model.card import (
    BAR,
    BOX,
    CLEAR,
    CLEAR_LEFT,
    MARK,
    PAPER_FROM,
    PAPER_TO,
    Box,
    BoxKind,
    Card,
    corner_of_box,
    marks_of_box,
)

# Flags of a box: why it is left out, or what was noticed.
OUTSIDE, COVERED, CLIPPED, DARK = "outside", "covered", "clipped", "dark"
UNPAINTED, UNEVEN, SHINE = "unpainted", "uneven", "shine"

# A box is sampled on a grid of so many points a side, the paper around it every so many millimetres.
_GRID, _STEP = 36, 0.45

# The share of the lightest and of the darkest points that a mean leaves out.
_TRIM = 0.1

# All limits below are from memory. A channel is burnt out from this level on (of 255), and so much of a box, and of its
# paper, may be.
_TOP, _TOP_SHARE, _TOP_PAPER = 254, 0.03, 0.3
# Paper darker than this level leaves too few levels for paints.
_DARK_PAPER = 60
# CIEDE2000 of a ninth of a box from the whole; of paper from itself.
_UNEVEN, _STILL_PAPER = 6.0, 3.0
# It shines where a larger share of its points than the last is lighter than the median times the first, plus the second.
_SHINE, _SHINE_LEAST, _SHINE_SHARE = 1.5, 0.03, 0.03
# Paper so much darker than around the other boxes of the page has something on it.
_COVERED = 0.55
# A square darker than this beside the lightest of its box is filled; its outline, in millimetres, is no part of it.
_FILLED, _OUTLINE = 0.8, 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenBox:
    """One box in one photo: its light beside the paper's for each of TONES (tones, 3), and what speaks against it.

    `coats` is how many were marked beside it, 0 where nothing is or more than one square. `burnt_paper` is set where the
    paper is as light as a photo can tell: how light it was is not known then, and by the paper alone colours are too light.
    """

    box: Box
    light: Floats
    flags: tuple[str, ...] = ()
    coats: int = 0
    burnt_paper: bool = False


def seen_boxes(picture: NDArray[np.uint8], card: Card, place: PagePlace) -> tuple[SeenBox, ...]:
    """The boxes of one page in an upright photo (height, width, 3)."""
    boxes = card.on_page(place.page)
    looks = [_look_at(picture, card, box, place) for box in boxes]
    usual = _usual_paper([look for look in looks if look is not None])
    found = []
    for box, look in zip(boxes, looks, strict=True):
        if look is None:
            found.append(SeenBox(box=box, light=np.zeros((len(TONES), 3)), flags=(OUTSIDE,)))
        else:
            found.append(_seen(box, look, usual))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """Levels of a box (n, 3), of its bar and of the paper (m, 3), with the places on the page of the first and last.

    `marks` are those of its squares, (squares, n, 3).
    """

    inside: NDArray[np.uint8]
    at: Floats
    bar: NDArray[np.uint8]
    paper: NDArray[np.uint8]
    paper_at: Floats
    marks: NDArray[np.uint8]


def _look_at(picture: NDArray[np.uint8], card: Card, box: Box, place: PagePlace) -> _Look | None:
    """None where it is not wholly in the picture."""
    corner = np.array(corner_of_box(card.paper, box))
    at, paper_at, bar_at = corner + _inner(box.kind), corner + _around(), corner + _bar()
    height, width = picture.shape[:2]
    edges = place.pixels(np.concatenate([at, paper_at]))
    if not (
        np.isfinite(edges).all() and (edges >= 0).all() and (edges <= np.array([width - 1, height - 1])).all()
    ):
        return None

    def levels(points: Floats) -> NDArray[np.uint8]:
        x, y = np.rint(place.pixels(points)).astype(np.intp).T
        return np.asarray(picture[np.clip(y, 0, height - 1), np.clip(x, 0, width - 1)], dtype=np.uint8)

    marks = [levels(np.array(mark) + _mark()) for mark in marks_of_box(card.paper, box)]
    return _Look(
        inside=levels(at),
        at=at,
        bar=levels(bar_at),
        paper=levels(paper_at),
        paper_at=paper_at,
        marks=np.array(marks, dtype=np.uint8),
    )


@cache
def _inner(kind: BoxKind) -> Floats:
    """A grid over the part of a box that is read, from the box's corner, row by row."""
    left = CLEAR_LEFT if kind is BoxKind.FULL else CLEAR
    across, down = np.linspace(left, BOX - CLEAR, _GRID), np.linspace(CLEAR, BOX - CLEAR, _GRID)
    return np.stack(np.meshgrid(across, down), axis=-1).reshape(-1, 2)


@cache
def _bar() -> Floats:
    """A grid over the black bar of a box, from the box's corner."""
    across, down = np.linspace(BAR[0] + 0.8, BAR[1] - 0.8, 8), np.linspace(CLEAR, BOX - CLEAR, 16)
    return np.stack(np.meshgrid(across, down), axis=-1).reshape(-1, 2)


@cache
def _mark() -> Floats:
    """A grid over the inside of a square that marks coats, from the square's corner."""
    side = np.linspace(_OUTLINE, MARK - _OUTLINE, 9)
    return np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)


@cache
def _around() -> Floats:
    """The bare paper on all four sides of a box."""
    side = np.arange(-PAPER_TO, BOX + PAPER_TO + 1e-9, _STEP)
    grid = np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
    away = np.maximum(-grid, grid - BOX).max(axis=1)
    return np.asarray(grid[(away >= PAPER_FROM) & (away <= PAPER_TO + 1e-9)], dtype=np.float64)


def _luminance(light: Floats) -> Floats:
    """Roughly how light linear colours are; only ever compared with itself."""
    return np.asarray(light @ np.array([0.25, 0.6, 0.15]), dtype=np.float64)


def _usual_paper(looks: list[_Look]) -> Floats:
    """A plane (3,) over the whole page through how light the paper is around its boxes, those in the dark passed over."""
    lut = straightened(TONES[0])
    if not looks:
        return np.zeros(3)
    middle = np.array([[*look.paper_at.mean(axis=0), 1.0] for look in looks])
    light = np.array([float(np.median(_luminance(lut[look.paper]))) for look in looks])
    kept = light > 0.6 * np.median(light)
    if kept.sum() < 4:
        return np.array([0.0, 0.0, float(np.median(light))])
    return np.asarray(np.linalg.lstsq(middle[kept], light[kept], rcond=None)[0], dtype=np.float64)


def _seen(box: Box, look: _Look, usual: Floats) -> SeenBox:
    flags: list[str] = []
    luts = [straightened(tone) for tone in TONES]
    straight = luts[0]
    kept = _bare(straight[look.paper])
    expected = float(np.array([*look.paper_at.mean(axis=0), 1.0]) @ usual)
    paper = look.paper[kept]
    if float(np.median(_luminance(straight[look.paper]))) < _COVERED * expected or kept.mean() < 0.4:
        flags.append(COVERED)
    if np.median(paper) < _DARK_PAPER:
        flags.append(DARK)
    if (look.inside >= _TOP).any(axis=1).mean() > _TOP_SHARE:
        flags.append(CLIPPED)
    burnt_paper = bool((paper >= _TOP).any(axis=1).mean() > _TOP_PAPER)
    beside = [_beside_paper(lut[look.inside], look.at, lut[paper], look.paper_at[kept]) for lut in luts]
    light = np.array([_trimmed_mean(each) for each in beside])
    flags += _surface(box, look, beside[0], light[0], straight)
    return SeenBox(
        box=box,
        light=light,
        flags=tuple(flags),
        coats=_coats(straight[look.marks]),
        burnt_paper=burnt_paper,
    )


def _coats(marks: Floats) -> int:
    """How many coats are marked: the place of the filled square, from the light of all (squares, n, 3); 0 unless it is one."""
    if not len(marks):
        return 0
    much = _luminance(marks).mean(axis=1)
    (filled,) = np.nonzero(much < _FILLED * much.max())
    return int(filled[0]) + 1 if len(filled) == 1 else 0


def _bare(light: Floats) -> NDArray[np.bool_]:
    """Which points of the paper around a box are bare: about as light as most of them."""
    much = _luminance(light)
    high = float(np.percentile(much, 80))
    return np.asarray((much > 0.78 * high) & (much < 1.25 * high))


def _beside_paper(light: Floats, at: Floats, paper: Floats, paper_at: Floats) -> Floats:
    """Light (n, 3) over what bare paper would give at the same places, by a plane fitted to it."""
    middle = paper_at.mean(axis=0)

    def design(points: Floats) -> Floats:
        return np.concatenate([points - middle, np.ones((len(points), 1))], axis=1)

    plane = np.linalg.lstsq(design(paper_at), paper, rcond=None)[0]
    off = np.abs(paper - design(paper_at) @ plane).max(axis=1)
    near = off <= np.percentile(off, 85)
    plane = np.linalg.lstsq(design(paper_at[near]), paper[near], rcond=None)[0]
    under = np.maximum(design(at) @ plane, 1e-4)
    return np.asarray(light / under, dtype=np.float64)


def _trimmed_mean(light: Floats) -> Floats:
    """The mean (3,) of points (n, 3) without the lightest and the darkest."""
    order = np.argsort(_luminance(light), kind="stable")
    cut = int(len(order) * _TRIM)
    return np.asarray(light[order[cut : len(order) - cut]].mean(axis=0), dtype=np.float64)


def _surface(box: Box, look: _Look, beside: Floats, mean: Floats, straight: Floats) -> list[str]:
    """Whether it is still paper, uneven, or shines."""
    lab = lab_of_linear(np.clip(mean, 0.0, 1.1))
    white = lab_of_linear(np.ones(3))
    if float(delta_e_2000(lab, white)) < _STILL_PAPER:
        bar_dark = float(np.median(_luminance(straight[look.bar]))) < 0.5 * float(
            np.median(_luminance(straight[look.paper]))
        )
        if box.kind is not BoxKind.FULL or bar_dark:
            return [UNPAINTED]
    much = _luminance(beside)
    middle = float(np.median(much))
    if (much > _SHINE * middle + _SHINE_LEAST).mean() > _SHINE_SHARE:
        return [SHINE]
    third = _GRID // 3
    ninths = (
        beside[: _GRID * _GRID]
        .reshape(3, third, 3, third, 3)
        .transpose(0, 2, 1, 3, 4)
        .reshape(9, third * third, 3)
    )
    apart = delta_e_2000(lab_of_linear(np.clip(np.median(ninths, axis=1), 0.0, 1.1)), lab)
    return [UNEVEN] if float(apart.max()) > _UNEVEN else []
