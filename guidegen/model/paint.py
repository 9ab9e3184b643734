"""The palette: ranges, paints and house mixes, and how a name finds one."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from guidegen.base.slips import can_be_meant
from guidegen.base.source import Span
from guidegen.base.suggest import folded, nearest
from guidegen.model.names import NO_PLACES, Name, Part


class Kind(StrEnum):
    """What is in the pot."""

    PAINT = "paint"
    PRIMER = "primer"
    WASH = "wash"
    GLAZE = "glaze"
    INK = "ink"
    STAIN = "stain"
    METALLIC = "metallic"
    PIGMENT = "pigment"
    EFFECT = "effect"
    OIL = "oil"
    PASTE = "paste"
    MEDIUM = "medium"
    THINNER = "thinner"
    VARNISH = "varnish"


FILMS = frozenset({Kind.WASH, Kind.GLAZE, Kind.STAIN})
COLOURLESS = frozenset({Kind.MEDIUM, Kind.THINNER, Kind.VARNISH})

# Mixes may use mixes, so many deep and no deeper: nobody stirs that many cups, and what is in them is looked up by a
# function that calls itself.
DEEPEST_MIX = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A maker's line of paints; its values stand in for paints that leave theirs out. `size`, `drop` in ml."""

    name: str
    size: float | None = None
    price: float | None = None
    thinner: str = ""
    drop: float = 0.05
    note: str = ""
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class LetDown:
    """The paint let down with white, as measured: `colour` at `paint` : `white_parts`. `white` names the white."""

    colour: str
    paint_parts: float = 1.0
    white_parts: float = 9.0
    white: Name | None = None
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """A pot of paint. `was` are names it had before, which lead to it where nothing else has them.

    `colour` is `#rrggbb`, None for what has none; `colour_from` is maker, measured, photo or eye, '' where nobody says.
    `size` and `drop` are in ml, `owned` in pots.
    """

    name: str
    range: str | None = None
    code: str = ""
    edition: str = ""
    usual: bool = False
    aliases: tuple[str, ...] = ()
    was: tuple[str, ...] = ()
    kind: Kind = Kind.PAINT
    colour: str | None = None
    colour_from: str = ""
    finish: str = ""
    covers: str = ""
    binder: str = ""
    comes_as: str = ""
    size: float | None = None
    price: float | None = None
    drop: float = 0.05
    thinner: str = ""
    owned: int = 0
    discontinued: bool = False
    twin_of: Name | None = None
    note: str = ""
    hazards: tuple[Name, ...] = ()
    strength: float = 1.0
    let_down: LetDown | None = None
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)

    @property
    def full_name(self) -> str:
        """`Range / Name`, with the edition where there is one: what tells this pot from every other."""
        label = f"{self.name} ({self.edition})" if self.edition else self.name
        return f"{self.range} / {label}" if self.range else label


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """A house mix. `kind` and `strength` are as given or None; `colour` is measured, or None to be predicted.

    Of one that is bottled there are `owned` pots, each of `size` ml, filled on the day `mixed`.
    """

    name: str
    parts: tuple[Part, ...]
    kind: Kind | None = None
    colour: str | None = None
    strength: float | None = None
    aliases: tuple[str, ...] = ()
    note: str = ""
    credit: str = ""
    owned: int = 0
    size: float | None = None
    mixed: dt.date | None = None
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)

    @property
    def full_name(self) -> str:
        """Its name: house mixes belong to no range."""
        return self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Ambiguous:
    """A name that two or more pots answer to on the first level where any does."""

    found: tuple[Paint | Mix, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Everything in `palette.yaml` and `palette/*.yaml`, in the order written.

    `whole` is False where a file or a list of it could not be read, so that a name that is missing may stand there.
    """

    ranges: tuple[Range, ...] = ()
    paints: tuple[Paint, ...] = ()
    mixes: tuple[Mix, ...] = ()
    whole: bool = True
    _levels: tuple[Mapping[str, tuple[Paint | Mix, ...]], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_levels", _levels(self.paints, self.mixes))

    @property
    def pots(self) -> tuple[Paint | Mix, ...]:
        """All paints, then all house mixes."""
        return (*self.paints, *self.mixes)

    def find(self, name: str) -> Paint | Mix | Ambiguous | None:
        """The pot a name means: `Range / X` first, then a name, an alias, a bare code, an old name; None if none matches.

        Of several it is the one pot without an edition, else the one edition that is the usual one.
        """
        key = folded(name)
        for level in self._levels:
            found = level.get(key, ())
            if len(found) == 1:
                return found[0]
            if found:
                return _first_meant(found) or Ambiguous(found=found)
        return None

    def answering(self, name: str) -> tuple[Paint | Mix, ...]:
        """Every pot that has a name in any way: as its own, with its range, as an alias, as its code."""
        key = folded(name)
        return tuple(pot for level in self._levels for pot in level.get(key, ()))

    def nearest(self, name: str) -> Paint | Mix | None:
        """The pot whose name is a slip of the pen away, if there is one; a pot's own name beats another's alias."""
        labels = self._labels()
        best = nearest(name, labels)
        return labels[best] if best else None

    def label(self, pot: Paint | Mix) -> str:
        """The shortest name that finds this pot: its own, or with the range where another answers to it as well."""
        return pot.name if self.find(pot.name) is pot else pot.full_name

    def only_meant(self, name: str) -> tuple[str, Paint | Mix] | None:
        """What to write for a misspelt name, and the pot that it then finds; None unless one alone can be meant."""
        labels = self._labels()
        near = can_be_meant(name, labels)
        if len({id(labels[label]) for label in near}) != 1:
            return None
        pot = labels[near[0]]
        return (near[0], pot) if self.find(near[0]) is pot else None

    def leads_to(self, name: str) -> Paint | Mix | Ambiguous | None:
        """The pot a name means, or surely is meant for."""
        found = self.find(name)
        meant = self.only_meant(name) if found is None else None
        return meant[1] if meant else found

    def _labels(self) -> dict[str, Paint | Mix]:
        labels: dict[str, Paint | Mix] = {}
        for pot in self.pots:
            labels.setdefault(pot.name, pot)
        for pot in self.pots:
            for label in (pot.full_name, *pot.aliases):
                labels.setdefault(label, pot)
        return labels


def _first_meant(pots: tuple[Paint | Mix, ...]) -> Paint | Mix | None:
    """Of pots that share a name the one without an edition, else the one marked as usual; None where there is not one."""
    plain = [pot for pot in pots if isinstance(pot, Mix) or not pot.edition]
    usual = [pot for pot in pots if isinstance(pot, Paint) and pot.usual]
    left = plain or usual
    return left[0] if len(left) == 1 else None


def _levels(
    paints: Iterable[Paint], mixes: Iterable[Mix]
) -> tuple[Mapping[str, tuple[Paint | Mix, ...]], ...]:
    """Pots by folded names, level by level: name with range, name, aliases, code, names it had before."""
    qualified: dict[str, list[Paint | Mix]] = defaultdict(list)
    names: dict[str, list[Paint | Mix]] = defaultdict(list)
    aliases: dict[str, list[Paint | Mix]] = defaultdict(list)
    codes: dict[str, list[Paint | Mix]] = defaultdict(list)
    before: dict[str, list[Paint | Mix]] = defaultdict(list)

    def add(level: dict[str, list[Paint | Mix]], text: str, pot: Paint | Mix) -> None:
        pots = level[folded(text)]
        if text and all(pot is not other for other in pots):
            pots.append(pot)

    for paint in paints:
        labels = [paint.name, *paint.aliases, paint.code]
        if paint.edition:
            labels.append(f"{paint.name} ({paint.edition})")
        if paint.range:
            for label in filter(None, labels):
                add(qualified, f"{paint.range}/{label}", paint)
        add(names, paint.name, paint)
        if paint.edition:
            add(names, f"{paint.name} ({paint.edition})", paint)
        for alias in paint.aliases:
            add(aliases, alias, paint)
        add(codes, paint.code, paint)
        for old in paint.was:
            add(before, old, paint)
            if paint.range:
                add(before, f"{paint.range}/{old}", paint)
    for mix in mixes:
        add(names, mix.name, mix)
        for alias in mix.aliases:
            add(aliases, alias, mix)
    levels = (qualified, names, aliases, codes, before)
    return tuple({k: tuple(v) for k, v in level.items() if v} for level in levels)
