"""Where the pages of cards lie in a photo: by the corners of their codes, each with its place on the paper."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import islice, product

import numpy as np

from guidegen.computing.card.corner_codes import SeenCode
from guidegen.computing.colour.spaces import Floats
from guidegen.model.card import code_corners

# Three corners are enough; two leave open how the page leans.
ENOUGH = 3

# Points further than this from where the page has them are no part of it; so far off on the whole it is not one flat page.
_OFF_MM, _FLAT_MM = 0.6, 0.35

# Two prints of one page in a picture share their codes, so corners are tried together; more of them are a joke.
_MOST_TRIED = 256


@dataclass(frozen=True, slots=True, kw_only=True)
class PagePlace:
    """A page in a photo. `matrix` (3, 3) takes millimetres on the paper to pixels; `off_mm` is the points' median error."""

    card: str
    page: int
    paper: str
    corners: int
    matrix: Floats
    off_mm: float

    def pixels(self, points: Floats) -> Floats:
        """Where points (n, 2) of the paper lie in the photo, x and y (n, 2)."""
        return _projected(self.matrix, points)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOfPage:
    """A page that cannot be placed: how many of its corners were read; `crooked` if those fit no flat page."""

    card: str
    page: int
    corners: int
    crooked: bool = False


def pages_in(codes: Iterable[SeenCode]) -> tuple[tuple[PagePlace, ...], tuple[PartOfPage, ...]]:
    """The pages that the codes of one photo belong to, and those that too little is seen of."""
    groups: dict[tuple[str, int, str], dict[int, list[SeenCode]]] = defaultdict(lambda: defaultdict(list))
    for seen in codes:
        card, page, corner, paper = seen.code
        groups[card, page, paper][corner].append(seen)
    found: list[PagePlace] = []
    parts: list[PartOfPage] = []
    for (card, page, paper), corners in sorted(groups.items()):
        if len(corners) < ENOUGH:
            parts.append(PartOfPage(card=card, page=page, corners=len(corners)))
            continue
        choices = islice(product(*(corners[corner] for corner in sorted(corners))), _MOST_TRIED)
        tried = (_placed(card, page, paper, choice) for choice in choices)
        fitting = [place for place in tried if place is not None and place.off_mm < _FLAT_MM]
        if fitting:
            found.append(min(fitting, key=lambda place: place.off_mm))
        else:
            parts.append(PartOfPage(card=card, page=page, corners=len(corners), crooked=True))
    return tuple(found), tuple(parts)


def _placed(card: str, page: int, paper: str, codes: tuple[SeenCode, ...]) -> PagePlace | None:
    paper_points = np.concatenate([code_corners(paper, seen.code.corner) for seen in codes])
    photo_points = np.concatenate([seen.in_photo for seen in codes])
    kept = np.ones(len(paper_points), dtype=bool)
    matrix = None
    for _ in range(3):
        if kept.sum() < 8:
            return None
        matrix = homography(paper_points[kept], photo_points[kept])
        if matrix is None:
            return None
        back = np.linalg.norm(
            _projected(np.asarray(np.linalg.inv(matrix), dtype=np.float64), photo_points) - paper_points,
            axis=1,
        )
        kept = back < max(_OFF_MM, 3.0 * float(np.median(back)))
    if matrix is None or not np.isfinite(back).all():
        return None
    return PagePlace(
        card=card,
        page=page,
        paper=paper,
        corners=len(codes),
        matrix=matrix,
        off_mm=float(np.median(back)),
    )


def homography(source: Floats, target: Floats) -> Floats | None:
    """The matrix (3, 3) that takes points (n, 2) to others in perspective, by least squares; None for points on a line.

    The direct linear transformation with both sets scaled first: Hartley and Zisserman, Multiple View Geometry in
    Computer Vision, 2nd edition (2004), algorithm 4.2.
    """
    one, other = _scaling(source), _scaling(target)
    if one is None or other is None:
        return None
    (x, y), (u, v) = _projected(one, source).T, _projected(other, target).T
    nought, unit = np.zeros_like(x), np.ones_like(x)
    rows = np.concatenate(
        [
            np.stack([x, y, unit, nought, nought, nought, -u * x, -u * y, -u], axis=1),
            np.stack([nought, nought, nought, x, y, unit, -v * x, -v * y, -v], axis=1),
        ]
    )
    values, vectors = np.linalg.eigh(rows.T @ rows)
    if values[1] < 1e-9 * values[-1]:
        return None
    matrix: Floats = np.linalg.inv(other) @ vectors[:, 0].reshape(3, 3) @ one
    if abs(np.linalg.det(matrix)) < 1e-30 or abs(matrix[2, 2]) < 1e-12:
        return None
    return np.asarray(matrix / matrix[2, 2], dtype=np.float64)


def _scaling(points: Floats) -> Floats | None:
    middle = points.mean(axis=0)
    reach = float(np.linalg.norm(points - middle, axis=1).mean())
    if reach < 1e-9:
        return None
    factor = 2.0**0.5 / reach
    return np.array([[factor, 0.0, -factor * middle[0]], [0.0, factor, -factor * middle[1]], [0.0, 0.0, 1.0]])


def _projected(matrix: Floats, points: Floats) -> Floats:
    """Points (n, 2) taken through a homography (3, 3)."""
    projected = np.concatenate([points, np.ones((len(points), 1))], axis=1) @ matrix.T
    depth = np.where(np.abs(projected[:, 2:]) < 1e-12, 1e-12, projected[:, 2:])
    return np.asarray(projected[:, :2] / depth, dtype=np.float64)
