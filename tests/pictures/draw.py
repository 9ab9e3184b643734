"""Draw the demo archive's pictures and the starter charts: `python tests/pictures/draw.py [word ...]`.

Only what has one of the words in its path is drawn. Everything shown is invented, and drawn by this script.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import cards
import numpy as np
import scenes
import scenes_more
import scenes_widow
from chart import chart
from figures.eel_seller import eel_seller
from figures.ferry import ferry
from figures.heron_rider import heron_rider
from figures.toll_house import toll_house
from figures.watchman import watchman
from figures.widow import widow
from store import store

ROOT = Path(__file__).resolve().parents[2]
GUIDES = ROOT / "content" / "guides"
CHARTS = ROOT / "templates" / "charts"

CHARTED = {
    CHARTS / "watchman.svg": watchman,
    CHARTS / "heron-rider.svg": heron_rider,
    CHARTS / "ferry.svg": ferry,
    CHARTS / "toll-house.svg": toll_house,
    CHARTS / "stallholder.svg": eel_seller,
    GUIDES / "widow-tansley" / "figure.svg": widow,
}

PICTURES: dict[str, Callable[[], np.ndarray]] = {
    "ferry-watch/finished.jpg": scenes.watch_finished,
    "ferry-watch/undercoat.jpg": scenes.watch_undercoat,
    "ferry-watch/coats.jpg": scenes.watch_coats,
    "ferry-watch/folds.webp": scenes.watch_folds,
    "ferry-watch/faces.heic": scenes.watch_faces,
    "ferry-watch/puddles.jpg": scenes.watch_puddles,
    "widow-tansley/finished.jpg": scenes_widow.widow_finished,
    "widow-tansley/colour-study.png": scenes_widow.widow_study,
    "widow-tansley/face.webp": scenes_widow.widow_face,
    "widow-tansley/shawl.jpg": scenes_widow.widow_shawl,
    "widow-tansley/glow.jpg": scenes_widow.widow_glow,
    "patience/finished.jpg": scenes_more.boat_finished,
    "patience/hull.jpg": scenes_more.boat_hull,
    "patience/deckhouse.webp": scenes_more.boat_deckhouse,
    "heron-riders/finished.jpg": scenes_more.riders_finished,
    "heron-riders/plumage.jpg": scenes_more.riders_plumage,
    "heron-riders/straw-hat.webp": scenes_more.riders_hat,
    "toll-house/finished.jpg": scenes_more.house_finished,
    "toll-house/stones.jpg": scenes_more.house_stones,
    "eel-seller.jpg": scenes_more.sellers,
    "handbook-card/printed.jpg": cards.card_printed,
    "handbook-card/painted.jpg": cards.card_painted,
    "handbook-card/read.jpg": cards.card_read,
}


def main(words: list[str]) -> None:
    """Draw what was asked for, or everything."""
    for path, figure in CHARTED.items():
        if not words or any(word in path.as_posix() for word in words):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(chart(figure()), encoding="utf-8")
            print(path.relative_to(ROOT), path.stat().st_size)
    for name, scene in PICTURES.items():
        path = GUIDES / name
        if not words or any(word in name for word in words):
            path.parent.mkdir(parents=True, exist_ok=True)
            store(scene(), path)
            print(path.relative_to(ROOT), path.stat().st_size)


if __name__ == "__main__":
    main(sys.argv[1:])
