"""The pictures of the widow."""

from __future__ import annotations

import numpy as np
from backdrop import Standing, develop, glow, stand, sweep
from chart import Block
from figure import Figure, posed
from figures.widow import widow
from ink import FINE
from render import Lamp, Light, encoded, linear
from scenes import DARK, PAPER
from wardrobe import IRON, SAILCLOTH, WIDOW_DONE


def old_widow(*, patterned: bool = False) -> Figure:
    """The widow, with or without the freehand border on her shawl."""
    return posed(widow(), {}, without=() if patterned else ("border",))


LAMPLIGHT = Light(
    key=0.5,
    fill=0.2,
    sky=0.24,
    sky_tint=(0.72, 0.84, 1.0),
    lamps=(Lamp(88, 318, height=46, strength=2.3, near=120),),
)


def widow_finished() -> np.ndarray:
    """The widow, lamp lit, against the dark."""
    table = sweep("1d232c", "2f3740", pool=(0.38, 0.5))
    stand(
        table,
        Standing(
            figure=old_widow(patterned=True), coats=WIDOW_DONE, x=830, foot=1030, tall=980, light=LAMPLIGHT
        ),
    )
    unit = 980 / 580
    glow(table, 830 - (210 - 88) * unit, 1030 - (584 - 318) * unit, 560, strength=0.95)
    return develop(table, vignette=0.45)


def widow_study() -> np.ndarray:
    """The colour study: the block print, coloured, with six swatches beside it."""
    figure = old_widow(patterned=True)
    block = Block(figure, figure.pieces)
    plan = {name: coat.parts() for name, coat in WIDOW_DONE.items()}
    page = np.ones((figure.height * FINE, figure.width * FINE, 3)) * linear("efe6d2")
    page[block.covered] = linear("1b1f24")
    for number, area in enumerate(block.areas, 1):
        for part, colour in enumerate(plan[area]):
            page[(block.owner == number) & (block.part == part)] = colour
    page = page.reshape(figure.height * 2, 2, figure.width * 2, 2, 3).mean(axis=(1, 3))
    sheet = np.ones((figure.height * 2 + 60, 1160, 3)) * linear("efe6d2")
    sheet[30 : 30 + page.shape[0], 20 : 20 + page.shape[1]] = page
    for row, colour in enumerate(("4a2f40", "2a5f64", "983029", "c99274", "f4cdb0", "e08a3c")):
        top = 70 + row * 180
        sheet[top : top + 150, 920:1110] = linear("1b1f24")
        sheet[top + 5 : top + 145, 925:1105] = linear(colour)
    return (encoded(sheet) * 255 + 0.5).astype(np.uint8)


def widow_face() -> np.ndarray:
    """Her face close to, warm on the lamp side."""
    table = sweep(*DARK)
    light = Light(key=0.8, fill=0.25, sky=0.28, lamps=(Lamp(88, 318, height=60, strength=1.1, near=130),))
    stand(table, Standing(figure=old_widow(), coats=WIDOW_DONE, x=800, foot=2210, tall=2450, light=light))
    return develop(table)


def widow_shawl() -> np.ndarray:
    """The freehand border along the shawl."""
    table = sweep(*PAPER)
    stand(
        table,
        Standing(
            figure=old_widow(patterned=True),
            coats=WIDOW_DONE | {"lamp": IRON, "glass": SAILCLOTH, "flame": SAILCLOTH},
            x=660,
            foot=1730,
            tall=2200,
        ),
    )
    return develop(table)


def widow_glow() -> np.ndarray:
    """The first glaze of the glow: lamp, sleeve and shawl."""
    table = sweep("262d36", "3a424b", pool=(0.3, 0.5))
    stand(
        table, Standing(figure=old_widow(), coats=WIDOW_DONE, x=1080, foot=1480, tall=1750, light=LAMPLIGHT)
    )
    unit = 1750 / 580
    glow(table, 1080 - (210 - 88) * unit, 1480 - (584 - 318) * unit, 640, strength=0.9)
    return develop(table, vignette=0.4)
