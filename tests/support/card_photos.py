"""Photos of cards that were never printed: a page drawn, painted, and seen by a camera from somewhere."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from io import BytesIO
from itertools import pairwise

import numpy as np
import segno
from PIL import Image, ImageDraw, ImageFilter

from guidegen.computing.card.corner_codes import CornerCode, text_of
from guidegen.computing.card.pages import PagePlace, homography
from guidegen.model.card import (
    BAR,
    BOX,
    MARK,
    PAPERS,
    BoxKind,
    Card,
    code_centres,
    corner_of_box,
    marks_of_box,
)

# A page's corners in a photo in pixels, clockwise from the page's top left.
Corners = tuple[tuple[float, float], ...]

DOTS = 14.0  # pixels a millimetre of a drawn page


def drawn(card: Card, page: int = 0) -> Image.Image:
    """A page as it is printed, with what is written on it as grey lines, RGB."""
    width, height = (round(side * DOTS) for side in PAPERS[card.paper])
    image = Image.new("RGB", (width, height), "white")
    pen = ImageDraw.Draw(image)

    for corner, centre in enumerate(code_centres(card.paper)):
        code = coded(text_of(CornerCode(card.id, page, corner, card.paper)), 20.0)
        image.paste(code, tuple(round(v * DOTS) - code.width // 2 for v in centre))
    for box in card.on_page(page):
        x, y = corner_of_box(card.paper, box)
        pen.rectangle([v * DOTS for v in (x, y, x + BOX, y + BOX)], outline="black", width=3)
        if box.kind is BoxKind.FULL:
            pen.rectangle([v * DOTS for v in (x + BAR[0], y, x + BAR[1], y + BOX)], fill="black")
        for left, top in marks_of_box(card.paper, box):
            pen.rectangle([v * DOTS for v in (left, top, left + MARK, top + MARK)], outline="black", width=3)
        for line in range(4):
            pen.line(
                [v * DOTS for v in (x, y + BOX + 5 + 3 * line, x + BOX + 5, y + BOX + 5 + 3 * line)],
                fill="#444444",
                width=6,
            )
    return image


def coded(text: str, size: float) -> Image.Image:
    """A code with its quiet zone, RGB, its modules so many millimetres wide together."""
    modules = segno.make(text, version=2, error="m", boost_error=False).matrix_iter(border=4)
    values = np.array([[0 if module else 255 for module in row] for row in modules], dtype=np.uint8)
    side = round(size * len(values) / (len(values) - 8) * DOTS)
    return Image.fromarray(values).resize((side, side), Image.Resampling.NEAREST).convert("RGB")


def painted(
    image: Image.Image, card: Card, colours: Mapping[int, tuple[float, float, float]], page: int = 0
) -> Image.Image:
    """The page with boxes painted in sRGB values 0..255, bar and all, a little beyond the edge here and there."""
    image = image.copy()
    pen = ImageDraw.Draw(image)
    for box in card.on_page(page):
        if box.n in colours:
            x, y = corner_of_box(card.paper, box)
            over = 0.3 * (box.n % 3 - 1)
            edges = (x - over, y + 0.2, x + BOX + over, y + BOX - 0.2)
            pen.rectangle([v * DOTS for v in edges], fill=tuple(round(v) for v in colours[box.n]))
    return image


def marked(image: Image.Image, card: Card, coats: Mapping[int, int], page: int = 0) -> Image.Image:
    """The page with a cross of ink in the square of so many coats, by box."""
    image = image.copy()
    pen = ImageDraw.Draw(image)
    for box in card.on_page(page):
        if box.n in coats:
            x, y = marks_of_box(card.paper, box)[coats[box.n] - 1]
            for begin, end in ((y, y + MARK), (y + MARK, y)):
                pen.line(
                    [v * DOTS for v in (x, begin, x + MARK, end)], fill="#20305a", width=round(0.7 * DOTS)
                )
    return image


def seen_from(
    page: Image.Image,
    corners: Corners,
    size: tuple[int, int],
    table: str = "#6b5a48",
) -> Image.Image:
    """The page in a photo of `size`, its corners (clockwise from the top left) at these pixels."""
    width, height = page.size
    at = ((0, 0), (width, 0), (width, height), (0, height))
    rows, wanted = [], []
    for (x, y), (u, v) in zip(corners, at, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        wanted += [u, v]
    numbers = np.linalg.solve(np.array(rows, dtype=float), np.array(wanted, dtype=float))
    # The page is made smaller first, since the transform looks at single pixels.
    longest = max(np.hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(corners))
    shrink = max(1.0, height / longest / 1.2)
    smaller = page.resize((round(width / shrink), round(height / shrink)), Image.Resampling.BOX)
    ratio = np.array([[smaller.width / width], [smaller.height / height]])
    matrix = np.append(numbers, 1.0).reshape(3, 3)
    matrix[:2] *= ratio
    matrix /= matrix[2, 2]
    coefficients = tuple(matrix.ravel()[:8].tolist())
    seen = smaller.transform(size, Image.Transform.PERSPECTIVE, coefficients, Image.Resampling.BICUBIC)
    mask = Image.new("L", smaller.size, 255).transform(
        size, Image.Transform.PERSPECTIVE, coefficients, Image.Resampling.BILINEAR
    )
    photo = Image.new("RGB", size, table)
    photo.paste(seen, mask=mask)
    return photo


def posed(random: np.random.Generator, paper: str, size: tuple[int, int]) -> Corners:
    """Where a page's corners lie in a photo of `size`, all within, taken by hand from half a metre or so above it."""
    width, height = PAPERS[paper]
    flat = np.array([(0, 0, 0), (width, 0, 0), (width, height, 0), (0, height, 0)]) - (
        width / 2,
        height / 2,
        0,
    )
    lean, tip = np.radians(random.uniform(-25, 25, 2))
    turn = np.radians(random.choice([0, 90, 180, 270]) + random.uniform(-12, 12))
    around = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    across = np.array([[1, 0, 0], [0, np.cos(lean), -np.sin(lean)], [0, np.sin(lean), np.cos(lean)]])
    along = np.array([[np.cos(tip), 0, np.sin(tip)], [0, 1, 0], [-np.sin(tip), 0, np.cos(tip)]])
    seen = flat @ (along @ across @ around).T + (0, 0, random.uniform(450, 700))
    points = seen[:, :2] / seen[:, 2:]
    points -= points.min(axis=0)
    frame = np.array(size, dtype=float)
    points *= random.uniform(0.8, 0.98) * (frame / points.max(axis=0)).min()
    points += random.uniform(0.01, 0.99, 2) * (frame - points.max(axis=0))
    return tuple((float(x), float(y)) for x, y in points)


def off_mm(place: PagePlace, card: Card, corners: Corners) -> float:
    """How far the worst of the boxes of a page lies from where it is, when the page's corners are at these pixels."""
    width, height = PAPERS[card.paper]
    paper = np.array([(0, 0), (width, 0), (width, height), (0, height)], dtype=float)
    true = homography(paper, np.array(corners) - 0.5)
    middles = np.array([corner_of_box(card.paper, box) for box in card.on_page(place.page)]) + BOX / 2
    back = np.concatenate([place.pixels(middles), np.ones((len(middles), 1))], axis=1) @ np.linalg.inv(true).T
    return float(np.linalg.norm(back[:, :2] / back[:, 2:] - middles, axis=1).max())


def lit(photo: Image.Image, strength: float = 0.35, angle: float = 0.6) -> Image.Image:
    """Light that falls off across the picture, in linear light, by `strength` from one side to the other."""
    from guidegen.computing.colour.spaces import decoded, encoded

    values = decoded(np.asarray(photo, dtype=float) / 255.0)
    height, width = values.shape[:2]
    across = np.linspace(-0.5, 0.5, width)[None] * np.cos(angle)
    down = np.linspace(-0.5, 0.5, height)[:, None] * np.sin(angle)
    values *= (1.0 - strength / 2.0 + strength * (across + down))[..., None]
    return Image.fromarray(np.rint(np.clip(encoded(values), 0, 1) * 255.0).astype(np.uint8))


def noisy(photo: Image.Image, sigma: float = 4.0, seed: int = 1) -> Image.Image:
    """With a sensor's noise, `sigma` in levels."""
    values = np.asarray(photo, dtype=float) + np.random.default_rng(seed).normal(
        0.0, sigma, (photo.height, photo.width, 3)
    )
    return Image.fromarray(np.clip(np.rint(values), 0, 255).astype(np.uint8))


def blurred(photo: Image.Image, sigma: float = 1.5) -> Image.Image:
    return photo.filter(ImageFilter.GaussianBlur(sigma))


def jpeg(photo: Image.Image, quality: int = 85) -> Image.Image:
    out = BytesIO()
    photo.save(out, "JPEG", quality=quality)
    return Image.open(BytesIO(out.getvalue())).convert("RGB")


def recoloured(photo: Image.Image, change: Callable[[np.ndarray], np.ndarray]) -> Image.Image:
    """Every pixel's sRGB values 0..1 (h, w, 3) led through a function."""
    return Image.fromarray(
        np.rint(np.clip(change(np.asarray(photo, dtype=float) / 255.0), 0, 1) * 255.0).astype(np.uint8)
    )
