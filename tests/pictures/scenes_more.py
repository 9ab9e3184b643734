"""The pictures of boat, riders, toll house and eel sellers."""

from __future__ import annotations

import numpy as np
from backdrop import Standing, develop, glow, stand, sweep
from figure import Figure, posed, turn
from figures.eel_seller import eel_seller
from figures.ferry import ferry
from figures.heron_rider import heron_rider
from figures.toll_house import toll_house
from render import Coat, Light
from scenes import DARK, FACES, PAPER
from wardrobe import BOAT_DONE, HOUSE_DONE, RIDER_DONE, SAILCLOTH, SELLER_DONE, SLATE, all_in


def areas(figure: Figure) -> tuple[str, ...]:
    """The areas of a figure."""
    return tuple(dict.fromkeys(piece.area for piece in figure.pieces))


def boat_finished() -> np.ndarray:
    """Patience in still water, her stern light lit."""
    table = sweep("2c3540", "3d4751")
    stand(table, Standing(figure=ferry(), coats=BOAT_DONE, x=800, foot=960, tall=900, light=Light(key=0.85)))
    unit = 900 / 450
    glow(table, 800 + (570 - 330) * unit, 960 - (454 - 132) * unit, 330, tint="ff9a45", strength=0.8)
    return develop(table, vignette=0.36)


def boat_hull() -> np.ndarray:
    """The hull after the airbrush, everything else in its undercoat."""
    table = sweep(*PAPER)
    coats = all_in(SAILCLOTH, areas(ferry())) | {
        "hull": Coat("2c4a78", "182a49", "4e70a0", shine=0.12),
        "keel": Coat("8f4a36", 0.3, 0.1),
    }
    bare = posed(ferry(), {}, without={"water", "rigging", "oar"})
    stand(table, Standing(figure=bare, coats=coats, x=800, foot=1010, tall=960))
    return develop(table)


def boat_deckhouse() -> np.ndarray:
    """The deckhouse close to, window by window."""
    table = sweep(*DARK)
    stand(table, Standing(figure=ferry(), coats=BOAT_DONE, x=560, foot=1700, tall=1900))
    return develop(table)


def rider(headgear: str, lean: float = 0) -> tuple[Figure, dict[str, Coat]]:
    """A rider in a hood or a straw hat, the bird's neck a little otherwise each time."""
    off = {"hood", "straw hat"} - {headgear}
    figure = posed(heron_rider(), {"head": turn(lean, 256, 184)}, without=off)
    return figure, {area: coat for area, coat in RIDER_DONE.items() if area not in off}


def riders_finished() -> np.ndarray:
    """Three riders in file, two hooded and one under straw."""
    table = sweep("46525a", "66727a", pool=(0.45, 0.6))
    for x, foot, tall, blur, headgear, lean, coat, skin in (
        (1310, 790, 600, 2.4, "hood", -4, "5c3a4c", 2),
        (865, 900, 750, 0.8, "straw hat", 3, "5d7048", 1),
        (360, 1010, 900, 0, "hood", 0, "2f6c70", 0),
    ):
        figure, coats = rider(headgear, lean)
        cloth = Coat(coat, 0.62, 0.34)
        own = {"coat": cloth} | ({"hood": cloth} if headgear == "hood" else {})
        own |= {"face": Coat(FACES[skin], 0.5, 0.32), "hands": Coat(FACES[skin], 0.5, 0.3)}
        stand(
            table, Standing(figure=figure, coats=coats | own, x=x, foot=foot, tall=tall, blur=blur, seed=skin)
        )
    return develop(table)


def riders_plumage() -> np.ndarray:
    """The bird dry brushed, the rider still in undercoat."""
    table = sweep(*PAPER)
    figure, done = rider("hood")
    coats = all_in(SLATE, areas(figure)) | {area: done[area] for area in ("plumage", "wing", "crest")}
    stand(table, Standing(figure=figure, coats=coats, x=760, foot=1480, tall=1540))
    return develop(table)


def riders_hat() -> np.ndarray:
    """The straw hat close to."""
    table = sweep(*DARK)
    figure, coats = rider("straw hat")
    stand(table, Standing(figure=figure, coats=coats, x=640, foot=2050, tall=2300))
    return develop(table)


def house_finished() -> np.ndarray:
    """The toll house with its lamps lit and the barrier up."""
    table = sweep("3a424b", "525b63")
    stand(
        table,
        Standing(figure=toll_house(), coats=HOUSE_DONE, x=800, foot=1030, tall=980, light=Light(key=0.9)),
    )
    unit = 980 / 500
    glow(table, 800 + (207 - 250) * unit, 1030 - (504 - 290) * unit, 240, strength=0.5)
    glow(table, 800 + (308 - 250) * unit, 1030 - (504 - 286) * unit, 260, strength=0.35)
    return develop(table, vignette=0.36)


def house_stones() -> np.ndarray:
    """The walls sponged and dry brushed, the rest in undercoat."""
    table = sweep(*PAPER)
    coats = all_in(SLATE, areas(toll_house())) | {
        "stone": HOUSE_DONE["stone"],
        "steps": HOUSE_DONE["steps"],
        "chimney": HOUSE_DONE["chimney"],
    }
    stand(table, Standing(figure=toll_house(), coats=coats, x=820, foot=1120, tall=1110))
    return develop(table)


def sellers() -> np.ndarray:
    """Five eel sellers, each in another cap and apron."""
    table = sweep(*PAPER)
    for x, foot, tall, blur, cap, apron, skin, flip in (
        (480, 700, 500, 3, "1f2a40", "a08fb2", 2, False),
        (1130, 700, 500, 3, "5c3a4c", "b09a72", 3, True),
        (250, 930, 640, 0, "8f4a36", "9fc0c6", 1, False),
        (1350, 930, 640, 0, "4c5660", "d6c196", 4, True),
        (800, 1020, 740, 0, "5d7048", "6f93bd", 0, False),
    ):
        own = {
            "cap": Coat(cap, 0.55, 0.3),
            "apron": Coat(apron, 0.5, 0.34),
            "skin": Coat(FACES[skin], 0.5, 0.34),
        }
        stand(
            table,
            Standing(
                figure=eel_seller(),
                coats=SELLER_DONE | own,
                x=x,
                foot=foot,
                tall=tall,
                blur=blur,
                flip=flip,
                seed=skin,
            ),
        )
    return develop(table)
