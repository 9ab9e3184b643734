"""How true a card makes colours, by plain arithmetic over measured paints, lamps and cameras."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from support.cameras import Scene, pixels_of

from guidegen.computing.card.camera_fit import TONES, fit_camera, straightened
from guidegen.computing.colour.spaces import Floats, decoded, delta_e_2000, encoded, lab_of_linear


def shown(linear: Floats) -> Floats:
    """What sRGB's 8 bits can say of linear colours, as a palette has it."""
    return decoded(np.rint(encoded(np.clip(linear, 0.0, 1.0)) * 255.0) / 255.0)


def beside_paper(scene: Scene, random: np.random.Generator) -> Floats:
    """What the camera delivers of the paints beside the paper for each tone (tones, n, 3), with noise and 8 bits."""
    paints, paper = pixels_of(scene.seen, random), pixels_of(scene.paper[None], random)

    def mean(levels: np.ndarray, lut: Floats) -> Floats:
        light = np.sort(lut[levels], axis=1)
        cut = levels.shape[1] // 10
        return light[:, cut:-cut].mean(axis=1)

    luts = [straightened(tone) for tone in TONES]
    return np.array([mean(paints, lut) / mean(paper, lut) for lut in luts])


def differences(scene: Scene, seen: Floats, anchors: Iterable[int]) -> Floats:
    """CIEDE2000 of all paints that are no anchors from their true colours."""
    chosen = list(anchors)
    truth = shown(scene.truth)
    rest = np.setdiff1d(np.arange(len(truth)), chosen)
    found = np.clip(fit_camera(seen[:, chosen], truth[chosen]).colours(seen[:, rest]), 0.0, 1.0)
    return delta_e_2000(lab_of_linear(found), lab_of_linear(truth[rest]))


def drawn_anchors(scene: Scene, count: int, draws: int, random: np.random.Generator) -> Iterator[list[int]]:
    """Anchors as a painter happens to have them: drawn at random, a few times over."""
    for _ in range(draws if count else 1):
        yield random.choice(len(scene.truth), count, replace=False).tolist()


def table(scenes: Iterable[Scene], counts: Iterable[int], draws: int = 10) -> dict[int, tuple[float, float]]:
    """By the number of anchors: the median over scenes and draws of the median and of the 95th percentile of ΔE00."""
    random = np.random.default_rng(44)
    every = [(scene, beside_paper(scene, random)) for scene in scenes]
    rows = {}
    for count in counts:
        found = [
            differences(scene, seen, anchors)
            for scene, seen in every
            for anchors in drawn_anchors(scene, count, draws, random)
        ]
        rows[count] = (
            float(np.median([np.median(one) for one in found])),
            float(np.median([np.percentile(one, 95) for one in found])),
        )
    return rows
