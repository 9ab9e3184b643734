"""What a guide or a shared list takes from the palette, so that a change of another pot leaves it as it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from hashlib import sha256

from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide, Shared
from guidegen.model.names import Name
from guidegen.model.paint import FILMS, Ambiguous, Mix, Paint


class PaletteUse:
    """A digest for each guide of what it takes from one palette.

    That is every pot a step names, with all that goes into it, and for each paint the closest others, and what on the
    shelf stands in for it where it is not owned: for a film, which depends on the undercoat, all films there. A guide
    asks a palette for nothing else, but for a name that leads to no pot: then for all of its names, to find the nearest.
    """

    def __init__(self, palette_tools: PaletteTools) -> None:
        self._palette_tools = palette_tools
        self._pots: dict[int, str] = {}
        self._texts: dict[int, str] = {}
        self._all: str | None = None

    def of(self, guide: Guide | Shared) -> str:
        """A digest that stays while all that the guide or list takes is as it was."""
        names = dict.fromkeys(name.text for name in names_in(guide))
        return _digest(f"{name}\0{self._meant(name)}" for name in names)

    def advice_wanted_by(self, guides: Iterable[Guide | Shared]) -> list[Paint]:
        """The paints that `of` these guides will ask stand-ins for, each once."""
        find = self._palette_tools.palette.find
        named = dict.fromkeys(name.text for guide in guides for name in names_in(guide))
        pots = {
            id(one): one
            for pot in map(find, named)
            if isinstance(pot, Paint | Mix)
            for one in self._with_parts(pot)
            if isinstance(one, Paint) and not one.owned
        }
        return list(pots.values())

    def _meant(self, name: str) -> str:
        found = self._palette_tools.palette.find(name)
        if found is None or isinstance(found, Ambiguous):
            return self._everything()
        if id(found) not in self._pots:
            self._pots[id(found)] = _digest(self._said_of(found))
        return self._pots[id(found)]

    def _said_of(self, pot: Paint | Mix) -> Iterator[str]:
        """Everything about a pot, and about whatever it is made of."""
        for one in self._with_parts(pot):
            if one is None:
                yield self._everything()
            else:
                yield from self._said_of_one(one)

    def _with_parts(self, pot: Paint | Mix) -> Iterator[Paint | Mix | None]:
        """A pot and whatever it is made of, each once; None for a name that leads to no pot."""
        met = {id(pot)}
        waiting: list[Paint | Mix] = [pot]
        while waiting:
            one = waiting.pop()
            yield one
            for name in _named_by(one):
                found = self._palette_tools.palette.find(name.text)
                if found is None or isinstance(found, Ambiguous):
                    yield None
                elif id(found) not in met:
                    met.add(id(found))
                    waiting.append(found)

    def _said_of_one(self, pot: Paint | Mix) -> Iterator[str]:
        yield self._text(pot)
        if isinstance(pot, Paint):
            matcher = self._palette_tools.matcher
            for matches in (
                matcher.closest(pot),
                matcher.closest_owned(pot),
                matcher.closest_still_sold(pot),
            ):
                for match in matches:
                    yield self._text(match.paint)
                    yield repr(match.de00)
                yield ""
            if not pot.owned:
                stand_ins = self._palette_tools.stand_ins
                yield repr(stand_ins.films if pot.kind in FILMS else stand_ins.advised(pot))

    def _text(self, pot: Paint | Mix) -> str:
        """All that the palette says of it; of a paint that comes close to many, put together once."""
        if id(pot) not in self._texts:
            self._texts[id(pot)] = repr(pot)
        return self._texts[id(pot)]

    def _everything(self) -> str:
        if self._all is None:
            self._all = _digest([repr(self._palette_tools.palette)])
        return self._all


def names_in(guide: Guide | Shared) -> Iterator[Name]:
    """Every name of a pot that the steps of a guide or list name, as paint or as a substitute."""
    for step in guide.steps:
        yield from (part.name for part in step.named_parts)


def _named_by(pot: Paint | Mix) -> Iterator[Name]:
    if isinstance(pot, Mix):
        for part in pot.parts:
            yield part.name
        return
    if pot.twin_of is not None:
        yield pot.twin_of
    if pot.let_down is not None and pot.let_down.white is not None:
        yield pot.let_down.white


def _digest(parts: Iterator[str] | list[str]) -> str:
    # Each part ends in a character that none has, so that no two lists read the same.
    whole = sha256()
    for part in parts:
        whole.update(part.encode("utf-8", "surrogatepass") + b"\xff")
    return whole.hexdigest()
