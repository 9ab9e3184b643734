"""The pictures of the ferry watch."""

from __future__ import annotations

import night
import numpy as np
from backdrop import HIGH, WIDE, Standing, develop, glow, stand, sweep
from figure import Figure, Piece, posed, turn
from figures.watchman import watchman
from ink import Line
from render import Coat, Lamp, Light
from wardrobe import (
    PLANKS,
    SLATE,
    WATCH_AREAS,
    WATCH_DONE,
    WATCH_FLATS,
    WATCH_WASHED,
    all_in,
)

PAPER = ("b9ae9a", "dccfb6")
DARK = ("353c45", "4b535c")
FACES = ("b27d5e", "c58f70", "8a5a40", "d09d7d", "6f4632", "b27d5e", "c58f70")
ROLLS = ("6f93bd", "9fc0c6", "b09a72", "a08fb2", "5d7048", "8f4a36", "6f93bd")
TURNS = (-7, 3, -2, 6, -5, 0, 4)


def watch(number: int) -> Figure:
    """A watchman, each with his own turn of the head, some without a beard."""
    figure = posed(watchman(), {"head": turn(TURNS[number % 7], 215, 212)})
    return posed(figure, {}, without={"beard"} if number % 3 == 1 else ())


def dressed(number: int, coats: dict[str, Coat]) -> dict[str, Coat]:
    """A stage's coats with this watchman's own skin and bed roll."""
    skin, roll = FACES[number % 7], ROLLS[number % 7]
    return coats | {
        "face": Coat(skin, coats["face"].low if number == 0 else 0.5, 0.32),
        "bedroll": Coat(roll, 0.5, 0.3),
    }


def watch_finished() -> np.ndarray:
    """The watch on its jetty at night, lamps lit."""
    table = night.delta()
    night.fog(table, 500, 90, 0.62)
    boards = {
        "planks": Coat("6f5c49", 0.5, 0.18),
        "planks worn": Coat("806c55", 0.5, 0.2),
        "ends": Coat("54453a", 0.5, 0.1),
        "beam": Coat("54453a", 0.5, 0.1),
        "post": Coat("4d4035", 0.5, 0.15),
        "rope": Coat("b09a72", 0.4, 0.2),
    }
    places = [(185, 838, 470), (500, 872, 530), (830, 918, 600), (1140, 870, 526), (1430, 838, 468)]
    lamps = tuple(
        Lamp(x - t * 0.245, 260 - (960 - f) - t * 0.80 + 60, height=90, strength=1.3, near=170)
        for x, f, t in places
    )
    stand(
        table,
        Standing(
            figure=night.jetty(),
            coats=boards,
            x=WIDE / 2,
            foot=HIGH + 8,
            tall=420,
            light=Light(key=0.26, fill=0.14, sky=0.17, sky_tint=(0.6, 0.76, 1.0), lamps=lamps),
            shadow=0,
        ),
    )
    for order in (0, 4, 1, 3, 2):
        x, foot, tall = places[order]
        light = Light(
            key=0.36,
            fill=0.16,
            sky=0.22,
            sky_tint=(0.62, 0.78, 1.0),
            lamps=(Lamp(62, 114, height=34, strength=1.8, near=105),),
        )
        stand(
            table,
            Standing(
                figure=watch(order),
                coats=dressed(order, WATCH_DONE),
                x=x,
                foot=foot,
                tall=tall,
                light=light,
                shadow=0.75,
                seed=order,
                blur=0.9 if order in {0, 4} else 0,
                flip=order == 3,
            ),
        )
        unit = tall / 560
        glow(
            table,
            x + (138 if order == 3 else -142) * unit,
            foot - (564 - 118) * unit,
            330 * tall / 500,
            strength=0.85,
        )
    night.fog(table, 1040, 90, 0.2, seed=31)
    return develop(table, vignette=0.42)


def watch_undercoat() -> np.ndarray:
    """Six in slate undercoat, still on their corks."""
    table = sweep(*PAPER)
    for number, (x, foot, tall, blur) in enumerate(
        [
            (330, 690, 470, 5),
            (800, 670, 470, 6),
            (1270, 690, 470, 5),
            (240, 930, 640, 0),
            (800, 1000, 720, 0),
            (1360, 930, 640, 0),
        ]
    ):
        stand(
            table,
            Standing(
                figure=watch(number),
                coats=all_in(SLATE, WATCH_AREAS),
                x=x,
                foot=foot,
                tall=tall,
                blur=blur,
                flip=number % 2 == 1,
                seed=number,
            ),
        )
    return develop(table)


def watch_coats() -> np.ndarray:
    """Two with ochre on coat and hood and nothing else: taken upright on a phone."""
    table = sweep(*PAPER, wide=1200, high=1600, pool=(0.45, 0.6))
    ochre = {"coat": WATCH_FLATS["coat"], "hood": WATCH_FLATS["hood"]}
    stand(
        table,
        Standing(
            figure=watch(4),
            coats=all_in(SLATE, WATCH_AREAS) | ochre,
            x=860,
            foot=1040,
            tall=820,
            blur=6,
            seed=3,
        ),
    )
    stand(
        table,
        Standing(
            figure=watch(0), coats=all_in(SLATE, WATCH_AREAS) | ochre, x=500, foot=1490, tall=1240, seed=4
        ),
    )
    return develop(table)


def watch_folds() -> np.ndarray:
    """Before and after the wash, side by side."""
    table = sweep(*PAPER)
    stand(
        table,
        Standing(
            figure=watch(5),
            coats=WATCH_WASHED,
            x=1330,
            foot=700,
            tall=520,
            blur=7,
            seed=8,
        ),
    )
    stand(
        table,
        Standing(figure=watch(0), coats=WATCH_FLATS | {"base": SLATE}, x=430, foot=1000, tall=860, seed=5),
    )
    stand(
        table,
        Standing(figure=watch(0), coats=WATCH_WASHED, x=1060, foot=1020, tall=880, seed=6),
    )
    return develop(table)


def watch_faces() -> np.ndarray:
    """Close to two faces, with the light picked out on hood and nose."""
    table = sweep(*DARK)
    stand(
        table,
        Standing(figure=watch(3), coats=dressed(3, WATCH_DONE), x=1290, foot=1560, tall=1500, blur=8, seed=2),
    )
    stand(
        table,
        Standing(
            figure=watch(0),
            coats=dressed(0, WATCH_DONE),
            x=640,
            foot=1990,
            tall=2150,
            seed=7,
            light=Light(lamps=(Lamp(62, 114, strength=0.8, near=90),)),
        ),
    )
    return develop(table)


def watch_puddles() -> np.ndarray:
    """A base seen close: boards, damp, and gel puddles by the boots."""
    table = sweep(*DARK, pool=(0.5, 0.7))
    figure = watchman()
    wet = Coat("54483a", "42382d", "c3ced2", shine=0.2)
    for outline, glint in (
        ("92,520 112,511 150,514 170,524 150,533 108,530", "=104,520 124,515 140,517 120,524"),
        ("230,500 262,493 304,498 320,510 294,519 248,515", "=250,505 278,499 300,503 270,510"),
        ("192,531 224,527 252,531 238,537 204,537", "=206,531 224,529 232,531 214,534"),
    ):
        figure.pieces.append(
            Piece(area="puddle", outline=Line.of(outline), light=(glint,), rim=0, shade=0.8, swell=1.6)
        )
    stand(
        table,
        Standing(
            figure=figure,
            coats=dressed(0, WATCH_DONE) | {"puddle": wet, "base": PLANKS},
            x=720,
            foot=1000,
            tall=2100,
            seed=7,
        ),
    )
    return develop(table)
