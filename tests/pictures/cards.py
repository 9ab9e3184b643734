"""The handbook's card: printed, painted, and what was read of it, as a phone on a desk would see them."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from PIL import Image, ImageDraw, ImageFont
from support.card_photos import DOTS, blurred, drawn, marked, noisy, seen_from
from support.paths import CONTENT

from guidegen.base.source import Source
from guidegen.computing.card.choice import card_of, chosen
from guidegen.computing.colour.spaces import decoded, encoded, linear_of
from guidegen.model.card import BOX, Card, corner_of_box
from guidegen.reading.content.palette import palette_of, read_palette_file

PAGE = CONTENT / "guides" / "handbook-card" / "guide.md"

# What the pots of the page's palette really are; three are by eye there, and wrong.
PAINTS = {
    "Mustard Sail": "#bd8f35", "Wet Plank": "#5e4c3b", "Gull": "#e6e4dc", "Kiln Row": "#8f4a36",
    "Harbour Blue": "#33566e", "Reed": "#7f9144", "Tar": "#232428", "Net Twine": "#b9a67c",
    "Bell Rope": "#a03a34", "Evening Mud": "#6d5a4a", "Samphire": "#4f6b3a", "Slack Tide": "#7d8f94",
}  # fmt: skip

SIZE = (1000, 1300)
CORNERS = ((118.0, 96.0), (880.0, 110.0), (905.0, 1196.0), (86.0, 1180.0))

# A lamp's warmth, and a camera's contrast.
LAMP, BEND = np.array([0.80, 0.72, 0.56]), 0.3


def the_card() -> Card:
    """The card of the page's palette, as `guidegen card` makes it."""
    text = re.search(r"```yaml content/palette.yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert text
    file, _ = read_palette_file(Source(file="palette.yaml", text=text[1]))
    palette, _ = palette_of([file])
    return card_of(chosen(palette, palette.paints, tint=False, film=False).boxes, "a4")


def lettered(card: Card) -> Image.Image:
    """The printed page with its words."""
    page = drawn(card)
    pen = ImageDraw.Draw(page)
    small, large = ImageFont.load_default(2.6 * DOTS), ImageFont.load_default(4 * DOTS)
    pen.text((32 * DOTS, 11 * DOTS), f"Swatch card {card.id}", fill="black", font=large)
    for box in card.boxes:
        x, y = corner_of_box(card.paper, box)
        place = (x * DOTS, (y + BOX + 3) * DOTS)
        pen.rectangle([place, (place[0] + 33 * DOTS, place[1] + 18 * DOTS)], fill="white")
        pen.multiline_text(place, f"{box.n}  {box.paint}\nuntil the bar is hidden", fill="black", font=small)
    return page


def on_the_desk(page: Image.Image, *, seed: int) -> Image.Image:
    """Seen by a phone under a warm lamp from the left."""
    flat = seen_from(page, CORNERS, SIZE, table="#8d6f52")
    light = decoded(np.asarray(flat, dtype=float) / 255.0)
    across = np.linspace(1.12, 0.78, SIZE[0])[None, :, None]
    down = np.linspace(1.05, 0.92, SIZE[1])[:, None, None]
    values = np.clip(encoded(light * LAMP * across * down), 0.0, 1.0)
    values = (1.0 - BEND) * values + BEND * values**2 * (3.0 - 2.0 * values)
    return noisy(blurred(Image.fromarray(np.rint(values * 255).astype(np.uint8)), 0.6), 2.0, seed)


def _painted(card: Card) -> Image.Image:
    page = lettered(card)
    pen = ImageDraw.Draw(page)
    random = np.random.default_rng(12)
    for box in card.boxes:
        x, y = corner_of_box(card.paper, box)
        light = encoded(linear_of([PAINTS[box.paint]])[0] * 0.88) * 255.0
        edge = random.uniform(-0.4, 0.3, 4)
        pen.rounded_rectangle(
            [v * DOTS for v in (x + edge[0], y + edge[1], x + BOX - edge[2], y + BOX - edge[3])],
            radius=1.2 * DOTS,
            fill=tuple(np.rint(light).astype(int).tolist()),
        )
    return marked(page, card, {box.n: 1 + box.n % 3 for box in card.boxes})


def card_printed() -> np.ndarray:
    """Before: nothing in the boxes."""
    return np.asarray(on_the_desk(lettered(the_card()), seed=1))


def card_painted() -> np.ndarray:
    """Painted and dry: this is the photo that the page has read."""
    return np.asarray(on_the_desk(_painted(the_card()), seed=2))


def card_read() -> np.ndarray:
    """What was read: each box of the photo beside its colour as it came out."""
    from guidegen.computing.card.boxes import seen_boxes
    from guidegen.computing.card.camera_fit import fit_camera
    from guidegen.computing.card.corner_codes import find_codes
    from guidegen.computing.card.pages import pages_in
    from guidegen.computing.colour.spaces import hex_of_linear

    card, photo = the_card(), card_painted()
    (place,), _ = pages_in(find_codes(photo).codes)
    seen = seen_boxes(photo, card, place)
    sure = [n for n, box in enumerate(card.boxes) if n < 9]
    light = np.array([one.light for one in seen]).swapaxes(0, 1)
    fit = fit_camera(light[:, sure], linear_of([PAINTS[card.boxes[n].paint] for n in sure]))
    picture = Image.fromarray(photo)
    pen = ImageDraw.Draw(picture)
    for box, colour in zip(card.boxes, fit.colours(light), strict=True):
        x, y = corner_of_box(card.paper, box)
        corners = place.pixels(np.array([(x + 10, y), (x + 20, y), (x + 20, y + 20), (x + 10, y + 20)]))
        around = place.pixels(np.array([(x, y), (x + 20, y), (x + 20, y + 20), (x, y + 20)]))
        pen.polygon([tuple(p) for p in corners.tolist()], fill=hex_of_linear(colour)[0])
        pen.polygon([tuple(p) for p in around.tolist()], outline="white", width=3)
    return np.asarray(picture)
