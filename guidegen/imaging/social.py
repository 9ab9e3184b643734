"""The picture shown where a guide's address is shared: its cover beside the colours it is painted with."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from guidegen.imaging.derive import jpeg

if TYPE_CHECKING:
    from PIL import Image

# The Open Graph protocol names no size; 1200 × 630 is what sites that show such pictures ask for (common
# practice, no source).
WIDTH, HEIGHT = 1200, 630
FOLDER = "assets/social"
VERSION = 1

_PAPER = (244, 241, 234)
_RIM = (90, 86, 80)  # at least 3:1 against the paper, for chips as pale as it
_MARGIN = 48
_WIDEST_COVER = 840  # a 4:3 photo is shown whole; a wider one loses its sides
_NARROWEST_COVER = 420
_LARGEST_CHIP = 132
_SMALLEST_CHIP = 48
_FINER = 4  # circles are drawn so much larger and then shrunk, for smooth edges


def social_key(cover: str | None, colours: Sequence[str]) -> str:
    """The key of a composition: of the cover's key (None without one) and the colours, `#rrggbb`, in order."""
    made_of = f"{VERSION}:{cover or ''}:{','.join(colours)}"
    return hashlib.sha256(made_of.encode()).hexdigest()[:20]


def social_path(key: str) -> str:
    """Where the composition lies in the site, relative to its top."""
    return f"{FOLDER}/{key}.jpg"


def compose(cover: bytes | None, colours: Sequence[str]) -> bytes:
    """A JPEG of 1200 × 630: the cover's whole height on the left, the colours as round chips on paper beside it.

    `cover` is one of our own derivatives, the widest if there is a choice; `colours` are `#rrggbb`, and as many
    are shown as there is room for. There is no writing on it.
    """
    from PIL import Image

    page = Image.new("RGB", (WIDTH, HEIGHT), _PAPER)
    left = 0
    if cover is not None:
        photo = _cover(cover, whole_width=not colours)
        page.paste(photo, (0, 0))
        left = photo.width
    if colours:
        page.paste(_chips(WIDTH - left, colours), (left, 0))
    return jpeg(page)


def _cover(data: bytes, *, whole_width: bool) -> Image.Image:
    from PIL import Image, ImageOps

    with Image.open(BytesIO(data)) as opened:
        opened.draft("RGB", (_WIDEST_COVER, HEIGHT))  # type: ignore[no-untyped-call, unused-ignore]
        photo = opened.convert("RGB")
    own = round(photo.width * HEIGHT / photo.height)
    width = WIDTH if whole_width else max(_NARROWEST_COVER, min(_WIDEST_COVER, own))
    return ImageOps.fit(photo, (width, HEIGHT), Image.Resampling.BICUBIC)


def _chips(width: int, colours: Sequence[str]) -> Image.Image:
    """A panel of chips, as large as lets all of them in; those that do not fit at the smallest are left out."""
    from PIL import Image, ImageDraw

    across, down, side = _grid(width, len(colours))
    panel = Image.new("RGB", (width * _FINER, HEIGHT * _FINER), _PAPER)
    draw = ImageDraw.Draw(panel)
    gap = side // 4
    shown = colours[: across * down]
    rows = -(-len(shown) // across)
    top = (HEIGHT - rows * side - (rows - 1) * gap) / 2
    for at, colour in enumerate(shown):
        row, column = divmod(at, across)
        in_row = min(across, len(shown) - row * across)
        x = (width - in_row * side - (in_row - 1) * gap) / 2 + column * (side + gap)
        y = top + row * (side + gap)
        edges = tuple(v * _FINER for v in (x, y, x + side, y + side))
        draw.ellipse(edges, fill=colour, outline=_RIM, width=2 * _FINER)
    return panel.resize((width, HEIGHT), Image.Resampling.BOX)


def _grid(width: int, count: int) -> tuple[int, int, int]:
    """Chips across, chips down, and their side in pixels; a gap is a quarter of a side."""
    for side in range(_LARGEST_CHIP, _SMALLEST_CHIP - 1, -4):
        pitch = side + side // 4
        most_across = (width - 2 * _MARGIN + side // 4) // pitch
        most_down = (HEIGHT - 2 * _MARGIN + side // 4) // pitch
        if most_across * most_down >= count:
            break
    # A few chips stand in a block of the panel's own shape, not in a line.
    shapely = min(most_across, math.ceil(math.sqrt(count * width / HEIGHT)))
    return min(most_across, max(shapely, math.ceil(count / most_down))), most_down, side
