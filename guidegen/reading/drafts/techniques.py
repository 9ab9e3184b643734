"""Which technique a sentence tells of, and which one a pot is for where nothing was said."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from guidegen.model.paint import FILMS, Kind, Paint
from guidegen.model.technique import UNDERCOATS
from guidegen.reading.drafts.pots import Pot
from guidegen.words.spoken_words import SpokenWords

_VARNISHES = frozenset({"spray varnish", "brush varnish"})
FILMS_LAID = frozenset({"wash", "pin wash", "glaze", "stain", "oil wash"})
# Techniques that only pots of these kinds are laid by.
_ONLY = {
    **dict.fromkeys(UNDERCOATS, frozenset({Kind.PRIMER})),
    **dict.fromkeys(_VARNISHES, frozenset({Kind.VARNISH})),
    "pigment": frozenset({Kind.PIGMENT, Kind.EFFECT}),
    "paste": frozenset({Kind.PASTE, Kind.EFFECT}),
    "oil wash": frozenset({Kind.OIL}),
    "stain": frozenset({Kind.STAIN, Kind.INK, Kind.WASH}),
    "sand on glue": frozenset[Kind](),
    "water gel": frozenset[Kind](),
}


def technique_said(text: str, words: SpokenWords, pots: Sequence[Pot] = ()) -> str:
    """The technique that a sentence tells of and that these pots allow, '' if none."""
    for aside in words.patterns("techniques", "aside"):
        text = aside.sub(" ", text)
    text = " ".join(text.split())
    kinds = _kinds(pots)
    if kinds & {Kind.PRIMER, Kind.VARNISH}:
        return usual_technique(pots, text) if not re.search(r"\bair ?brush", text) else "airbrush"
    for name, patterns in words.named_patterns("techniques", "names"):
        if _fits(name, kinds) and any(one.search(text) for one in patterns):
            return name
    return ""


def _kinds(pots: Sequence[Pot]) -> frozenset[Kind]:
    """The kinds of pots, what thins aside."""
    return frozenset(map(kind_of, pots)) - {Kind.MEDIUM, Kind.THINNER}


def fits(technique: str, pots: Sequence[Pot]) -> bool:
    """Whether pots of these kinds may be laid so."""
    return _fits(technique, _kinds(pots))


@cache
def _fits(technique: str, kinds: frozenset[Kind]) -> bool:
    if not kinds:
        return True
    if technique in _ONLY:
        return bool(kinds & _ONLY[technique])
    if kinds & {Kind.PRIMER}:
        return technique in UNDERCOATS | {"airbrush"}
    if kinds & {Kind.VARNISH}:
        return technique in _VARNISHES
    if kinds == {Kind.WASH}:
        return technique in FILMS_LAID | {"freehand", "stipple", "sponge", "airbrush", "tidy up"}
    if kinds == {Kind.GLAZE}:
        return technique in FILMS_LAID | {"airbrush", "edge highlight", "highlight"}
    if kinds == {Kind.PASTE}:
        return technique == "paste"
    if kinds == {Kind.PIGMENT}:
        return technique == "pigment"
    return True


def fits_with(pot: Pot, others: Sequence[Pot]) -> bool:
    """Whether a pot is stirred into others: films into films, what covers into what covers."""
    film = kind_of(pot) in FILMS
    return all((kind_of(other) in FILMS) is film for other in others) and kind_of(pot) is not Kind.VARNISH


def kind_of(pot: Pot) -> Kind:
    """What is in a pot; a house mix of no kind is a paint, or a wash if its name says so."""
    if isinstance(pot, Paint):
        return pot.kind
    return pot.kind or (Kind.WASH if re.search(r"\bwash\b", pot.name.lower()) else Kind.PAINT)


def usual_technique(pots: Sequence[Pot], text: str, before: str = "") -> str:
    """What pots of these kinds are for where nothing was said. Common practice, no source.

    `before` is the technique of the step before: an ink after a wash is one.
    """
    kinds = _kinds(pots)
    paints = [pot for pot in pots if isinstance(pot, Paint)]
    can = any(pot.comes_as == "can" for pot in paints)
    brushed = re.search(r"\b(?:brush(?:ed)?|pinsel)\b", text) is not None
    sprayed = re.search(r"\b(?:can|spray\w*|dose|sprüh\w*|gesprüht)\b", text) is not None
    way = "spray" if sprayed or (can and not brushed) else "brush"
    for kind, technique in (
        (Kind.PRIMER, f"{way} undercoat"),
        (Kind.VARNISH, f"{way} varnish"),
        (Kind.OIL, "oil wash"),
        (Kind.WASH, "wash"),
        (Kind.GLAZE, "glaze"),
        (Kind.STAIN, "stain"),
        (Kind.INK, "wash" if before == "wash" else "glaze"),
        (Kind.PIGMENT, "pigment"),
        (Kind.PASTE, "paste"),
    ):
        if kind in kinds:
            return technique
    if paints and all(pot.comes_as == "airbrush" for pot in paints):
        return "airbrush"
    return "base coat"


def is_undercoat(technique: str) -> bool:
    """Whether it is what comes before all paint."""
    return technique in UNDERCOATS


def pot_for(technique: str, text: str, pots: Sequence[Pot]) -> Pot | None:
    """The only pot that a step without a name can mean: an undercoat or a varnish, by its colour, finish and can."""
    kind = Kind.PRIMER if technique in UNDERCOATS else Kind.VARNISH if technique in _VARNISHES else None
    found = [pot for pot in pots if isinstance(pot, Paint) and pot.kind is kind and not pot.discontinued]
    named = [
        pot
        for pot in found
        if any(len(word) > 4 and word in text.split() for word in pot.name.lower().split())
    ]
    found = named or found
    for words, able in _TELLS:
        if re.search(rf"\b(?:{words})\b", text):
            found = [pot for pot in found if able(pot)] or found
    if len(found) > 1:
        sprayed = technique.startswith("spray")
        found = [pot for pot in found if (pot.comes_as == "can") is sprayed] or found
    if len(found) > 1:
        found = [pot for pot in found if pot.owned] or found
    return found[0] if len(found) == 1 else None


def lightens(fresh: Sequence[Pot], pots: Sequence[Pot]) -> bool:
    """Whether what is stirred into a paint that was used before is lighter than it. A mixture of ours has no colour here."""
    known = [pot for pot in pots if all(pot is not other for other in fresh)]
    old = [_light(pot) for pot in known if isinstance(pot, Paint) and pot.colour]
    new = [_light(pot) for pot in fresh if isinstance(pot, Paint) and pot.colour]
    return bool(old and new) and min(new) > max(old)


def _light(pot: Paint) -> float:
    """How light a paint is: luma of ITU-R BT.601, which is near enough to tell light from dark."""
    colour = pot.colour or "#000000"
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return 0.299 * red + 0.587 * green + 0.114 * blue


def _grey(pot: Paint, low: int, high: int) -> bool:
    """Whether a paint is nearly grey, as light as this, 0 to 255."""
    red, green, blue = (int((pot.colour or "#808080")[at : at + 2], 16) for at in (1, 3, 5))
    return low <= (red + green + blue) / 3 <= high and max(red, green, blue) - min(red, green, blue) < 60


# Words that tell undercoats and varnishes apart, each with what it asks of the pot.
_TELLS = (
    ("black|schwarz\\w*", lambda pot: _grey(pot, 0, 60)),
    ("gr[ea]y|grau\\w*", lambda pot: _grey(pot, 61, 190)),
    ("white|weiß\\w*", lambda pot: _grey(pot, 191, 255)),
    ("matt|matte|mattlack", lambda pot: pot.finish == "matt"),
    ("gloss|glossy|shiny|glanz\\w*|glänzend\\w*", lambda pot: pot.finish == "gloss"),
    ("satin|seidenmatt\\w*", lambda pot: pot.finish == "satin"),
)
