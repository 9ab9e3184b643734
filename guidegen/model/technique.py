"""The techniques: what each does to an area, how much paint it lays, how long it dries, which brush.

Every figure here is common practice or from memory, no source: wet film thicknesses from typical coats by that
tool, losses from what stays in brush, palette and air. They stand in one table so that they can be argued with.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from guidegen.base.suggest import folded


class Role(StrEnum):
    """What a technique does to the colour of an area."""

    COVER = "cover"  # sets edges, flats and recesses
    FILM = "film"  # a see-through layer over all three
    EDGES = "edges"  # changes the raised edges only
    FINISH = "finish"  # leaves the hue
    GROUND = "ground"  # builds up the base; leaves the hue


@dataclass(frozen=True, slots=True)
class Technique:
    """One row: what a coat lays and how long it dries.

    `share` is the part of the figure's surface that gets paint, 0 to 1 (None: the base's disc), `wet` the thickness of
    the wet film in µm (None: no film), `loss` how many times as much paint is used up as ends on the figure. `dry` is in
    minutes and only serves advice and new guides. `brush` is the usual one, '' for none.
    """

    name: str
    role: Role
    share: float | None
    wet: float | None
    loss: float
    dry: float | None
    brush: str = ""


_C, _F, _E, _V, _G = Role.COVER, Role.FILM, Role.EDGES, Role.FINISH, Role.GROUND

TECHNIQUES: dict[str, Technique] = {
    row.name: row
    for row in (
        Technique("spray undercoat", _C, 1.00, 50, 40, 30, "can"),
        Technique("brush undercoat", _C, 1.00, 60, 1.5, 60, "flat"),
        Technique("airbrush", _C, 0.60, 25, 4, 10),
        Technique("base coat", _C, 0.20, 50, 2, 10, "2"),
        Technique("layer", _C, 0.08, 35, 3, 5, "1"),
        Technique("freehand", _C, 0.02, 30, 6, 5, "00"),
        Technique("stipple", _C, 0.05, 20, 8, 5, "foam"),
        Technique("sponge", _C, 0.05, 20, 8, 5, "foam"),
        Technique("wash", _F, 1.00, 60, 1.5, 40, "2"),
        Technique("pin wash", _F, 0.05, 60, 3, 20, "0"),
        Technique("glaze", _F, 0.10, 20, 3, 10, "1"),
        Technique("stain", _F, 0.20, 80, 1.3, 45, "2"),
        Technique("oil wash", _F, 1.00, 40, 2, 1440, "flat"),
        Technique("dry brush", _E, 0.15, 5, 10, 1, "old flat"),
        Technique("edge highlight", _E, 0.03, 30, 4, 3, "0"),
        Technique("highlight", _E, 0.02, 30, 5, 3, "0"),
        Technique("spray varnish", _V, 1.00, 40, 30, 60, "can"),
        Technique("brush varnish", _V, 1.00, 50, 1.5, 60, "soft flat"),
        Technique("pigment", _V, 0.10, None, 1, 30, "old soft"),
        Technique("paste", _G, None, 1500, 1.2, 480, "spatula"),
        Technique("sand on glue", _G, None, 400, 1.3, 240, "old"),
        Technique("water gel", _G, None, 1000, 1.1, 1440),
    )
}

BASE_COAT = TECHNIQUES["base coat"]

# Words that painters use for a row above. `spray` is decided by what is sprayed, see `technique_of`.
ALSO = {
    "prime": "brush undercoat",
    "tidy up": "base coat",
    "basecoat": "base coat",
    "drybrush": "dry brush",
    "drybrushing": "dry brush",
}

_BY_FOLDED = {folded(name): row for name, row in TECHNIQUES.items()} | {
    folded(word): TECHNIQUES[name] for word, name in ALSO.items()
}

# What an author may write without being advised: the table, its other words, and `spray`.
KNOWN_WORDS = (*TECHNIQUES, *ALSO, "spray")


def is_known(word: str) -> bool:
    """Whether a technique's word is in the table; one left out is not unknown."""
    return not word or folded(word) in _BY_FOLDED or folded(word) == "spray"


def technique_of(word: str, *, varnish: bool = False) -> Technique:
    """The row for an author's word; any other word takes the base coat's. `varnish`: the paint is a varnish."""
    key = folded(word)
    if key == "spray":
        return TECHNIQUES["spray varnish" if varnish else "spray undercoat"]
    return _BY_FOLDED.get(key, BASE_COAT)


# Techniques that lay an undercoat.
UNDERCOATS = frozenset({"spray undercoat", "brush undercoat"})

# Techniques that put paint into the air: only in a plan's spraying hours, with the cautions for sprays.
AIRBORNE = frozenset({"spray undercoat", "spray varnish", "airbrush"})
