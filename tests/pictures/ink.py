"""Curves by hand: a line of points becomes a smooth outline, a tapering stroke, a mask or a path in a drawing."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw
from scipy import ndimage
from skimage import measure

# Masks are drawn this much larger than the drawing's own units.
FINE = 4

# A handle's length as a share of its segment: 0.36 keeps a circle through four points round to the eye.
HANDLE = 0.36

# Left, top, right and bottom, in the drawing's units.
Window = tuple[int, int, int, int]
Segment = tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]


@dataclass(frozen=True)
class Line:
    """Points, and which of them are corners. Written `12,30 40,18! 60,44`, the mark making a corner."""

    points: np.ndarray
    corners: tuple[bool, ...]

    @classmethod
    def of(cls, text: str) -> Line:
        """The line that a text of points describes."""
        words = text.split()
        points = [tuple(float(n) for n in word.rstrip("!").split(",")) for word in words]
        return cls(np.array(points), tuple(word.endswith("!") for word in words))

    def turned(self, matrix: np.ndarray) -> Line:
        """The line under a 2 × 3 affine matrix."""
        return Line(self.points @ matrix[:, :2].T + matrix[:, 2], self.corners)

    def segments(self, *, closed: bool) -> list[Segment]:
        """Cubic segments through the points; at a corner the handles point along the segment."""
        count = len(self.points)
        pairs = [(i, (i + 1) % count) for i in range(count if closed else count - 1)]
        found = []
        for i, j in pairs:
            start, end = self.points[i], self.points[j]
            reach = HANDLE * float(np.linalg.norm(end - start))
            found.append(
                (
                    start,
                    start + reach * self._lead(i, j, closed),
                    end - reach * self._lead(j, i, closed, -1),
                    end,
                )
            )
        return found

    def _lead(self, at: int, other: int, closed: bool, sign: int = 1) -> np.ndarray:
        count = len(self.points)
        straight = sign * (self.points[other] - self.points[at])
        last = at in (0, count - 1) and not closed
        lead = straight if self.corners[at] or last else self.points[(at + 1) % count] - self.points[at - 1]
        length = float(np.linalg.norm(lead))
        return lead / length if length else lead

    def flat(self, *, closed: bool, steps: int = 12) -> np.ndarray:
        """The line as many short straight pieces."""
        t = np.linspace(0, 1, steps, endpoint=False)[:, None]
        parts = [
            (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
            for a, b, c, d in self.segments(closed=closed)
        ]
        return np.concatenate([*parts, self.points[-1:]] if not closed else parts)


def oval(x: float, y: float, across: float, down: float, *, points: int = 8) -> str:
    """The points of an ellipse about a centre, as a line's text."""
    turns = [2 * math.pi * i / points for i in range(points)]
    return " ".join(f"{x + across * math.cos(turn):.1f},{y + down * math.sin(turn):.1f}" for turn in turns)


def tube(text: str, *, rounded: bool = False) -> str:
    """The outline, as a line's text, of a limb through points with widths, `x,y,width`.

    Its ends are cut straight, or the first is rounded, as where a sleeve leaves a shoulder.
    """
    spine = np.array([[float(n) for n in word.split(",")] for word in text.split()])
    ahead = np.gradient(spine[:, :2], axis=0)
    ahead /= np.linalg.norm(ahead, axis=1, keepdims=True)
    aside = np.stack([-ahead[:, 1], ahead[:, 0]], axis=1) * spine[:, 2:] / 2
    left, right = spine[:, :2] + aside, (spine[:, :2] - aside)[::-1]
    last = len(spine) - 1
    ring = [
        (point, i == last or (i == 0 and not rounded))
        for side in (left, right)
        for i, point in enumerate(side)
    ]
    return " ".join(f"{x:.1f},{y:.1f}{'!' * cornered}" for (x, y), cornered in ring)


def stroke(text: str) -> np.ndarray:
    """The outline of a stroke: `points @width` swells and tapers at both ends, `@width>` only at the far one.

    A text that starts with `=` is a patch, whose points are its outline.
    """
    if text.startswith("="):
        return Line.of(text[1:]).flat(closed=True)
    way, _, pen = text.partition("@")
    blunt = pen.endswith(">")
    line = Line.of(way).flat(closed=False)
    along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    along /= along[-1] or 1
    swell = (1 - along) ** 0.8 if blunt else np.sin(math.pi * along) ** 0.75
    ahead = np.gradient(line, axis=0)
    ahead /= np.linalg.norm(ahead, axis=1, keepdims=True) + 1e-9
    aside = np.stack([-ahead[:, 1], ahead[:, 0]], axis=1) * (swell * float(pen.rstrip(">")) / 2)[:, None]
    return np.concatenate([line + aside, (line - aside)[::-1]])


def moved(text: str, matrix: np.ndarray) -> str:
    """A stroke's text under a 2 × 3 matrix; its width stays."""

    def place(found: re.Match[str]) -> str:
        x, y = matrix[:, :2] @ [float(found[1]), float(found[2])] + matrix[:, 2]
        return f"{x:.1f},{y:.1f}"

    return re.sub(r"(-?[\d.]+),(-?[\d.]+)", place, text)


def mask(shapes: list[np.ndarray], window: Window, fine: float = FINE) -> np.ndarray:
    """A mask of some outlines within a window, `fine` times the size in the drawing's units."""
    left, top, right, bottom = window
    picture = Image.new("1", (round((right - left) * fine), round((bottom - top) * fine)))
    pen = ImageDraw.Draw(picture)
    for shape in shapes:
        pen.polygon([((float(x) - left) * fine, (float(y) - top) * fine) for x, y in shape], fill=1)
    return np.array(picture, dtype=bool)


def slid(shape: np.ndarray, right: int, down: int) -> np.ndarray:
    """A mask moved by whole cells; what comes in from outside is empty."""
    height, width = shape.shape
    moved = np.zeros_like(shape)
    moved[max(down, 0) : height + min(down, 0), max(right, 0) : width + min(right, 0)] = shape[
        max(-down, 0) : height + min(-down, 0), max(-right, 0) : width + min(-right, 0)
    ]
    return moved


def rim(shape: np.ndarray, right: float, down: float) -> np.ndarray:
    """The crescent of a mask that a copy of it, moved right and down, leaves bare: where light from above falls."""
    bare = shape & ~slid(shape, round(right), round(down))
    return ndimage.binary_opening(bare, iterations=max(1, round(math.hypot(right, down) / 5)))


def traced(shape: np.ndarray, window: Window, *, slack: float = 1.0, smallest: float = 20.0) -> list[Line]:
    """The outlines of a window's mask as lines in the drawing's units, corners kept, specks left out."""
    padded = np.pad(shape, 1).astype(float)
    padded = ndimage.gaussian_filter(padded, 1.2)
    found = []
    for contour in measure.find_contours(padded, 0.5):
        ring = (contour[:, ::-1] - 0.5) / FINE + np.array(window[:2])
        ring = measure.approximate_polygon(ring, slack)[:-1]
        if len(ring) < 3 or area(ring) < smallest:
            continue
        found.append(Line(ring, tuple(_is_sharp(ring, i) for i in range(len(ring)))))
    return found


def area(ring: np.ndarray) -> float:
    """The area inside a ring."""
    x, y = ring[:, 0], ring[:, 1]
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def _is_sharp(ring: np.ndarray, at: int) -> bool:
    before, after = ring[at] - ring[at - 1], ring[(at + 1) % len(ring)] - ring[at]
    turn = math.atan2(before[0] * after[1] - before[1] * after[0], float(before @ after))
    return abs(turn) > math.radians(40)


def path(lines: list[Line], *, curved: bool = True) -> str:
    """The `d` of some closed lines in whole units, relative so that it stays short; rounding does not add up."""
    text = ""
    for line in lines:
        here = np.round(line.points[0])
        text += f"M{_joined([here])}"
        command = ""
        for _, lead, follow, end in line.segments(closed=True):
            to = np.round(end)
            handles = [np.round(lead) - here, np.round(follow) - here]
            if not curved or _straight(handles, to - here):
                word, moves = "l", [to - here]
            else:
                word, moves = "c", [*handles, to - here]
            here = to
            if not any(move.any() for move in moves):
                continue
            numbers = _joined(moves)
            if word != command:
                text += word + numbers
            else:
                text += numbers if numbers.startswith("-") else " " + numbers
            command = word
        text += "z"
    return text


def _straight(steps: list[np.ndarray], way: np.ndarray) -> bool:
    length = float(np.linalg.norm(way)) or 1.0
    return all(abs(step[0] * way[1] - step[1] * way[0]) / length < 0.2 for step in steps)


def _joined(points: list[np.ndarray]) -> str:
    text = ""
    for value in np.concatenate(points):
        word = str(int(value))
        text += word if not text or word.startswith("-") else f" {word}"
    return text
