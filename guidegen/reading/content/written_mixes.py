"""Mixtures written as one text, taken apart once the palette is known, and water among parts, which thins them."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, TypeVar

from guidegen.base.source import Source, Span
from guidegen.base.suggest import folded
from guidegen.model.guide import Insert, Instead, PaintChoice, PaintUse, Step, Stop, Thin
from guidegen.model.names import Name, Part
from guidegen.model.paint import Mix
from guidegen.reading.types.amounts import go_together
from guidegen.reading.types.mix_words import Knows, read_mix, written_part

# What thins any paint without being a pot.
THINNERS = frozenset(folded(word) for word in ("water", "thinner", "Wasser", "Verdünner", "Verdünnung"))

# What a text has in it that is more than a name; most names are told by this alone.
_MAY_BE_MIXED = re.compile(
    r"[+:%]|[,;&/].*[0-9]|[0-9].*[,;&/]|\b(?:and|und|with|mit)\b|\b(?:touch|drop|bit|dash|hauch)\b|[0-9]\D*\s(?:to|zu)\s",
    re.IGNORECASE,
)

Sources = Mapping[str, Source]
Entry = TypeVar("Entry", bound=Step | Stop | Insert)


def steps_mixed(
    entries: Iterable[Entry], find: Callable[[str], object], sources: Sources
) -> tuple[Entry, ...]:
    """The entries with what their steps paint with taken apart; `find` gives the pot of a name, None for none."""

    def knows(name: str) -> bool:
        return find(name) is not None or folded(name) in THINNERS

    return tuple(
        _step(entry, knows, find, sources) if isinstance(entry, Step) else entry for entry in entries
    )


def mixes_apart(mixes: Iterable[Mix], find: Callable[[str], object], sources: Sources) -> tuple[Mix, ...]:
    """House mixes whose parts were written as one text, with these parts."""

    def knows(name: str) -> bool:
        return find(name) is not None

    apart = [(mix, _apart(mix.parts, knows, sources)) for mix in mixes]
    return tuple(mix if parts is mix.parts else replace(mix, parts=parts) for mix, parts in apart)


def _step(step: Step, knows: Knows, find: Callable[[str], object], sources: Sources) -> Any:
    if step.instead:
        instead = tuple(_substitute(one, knows, sources) for one in step.instead)
        step = step if instead == step.instead else replace(step, instead=instead)
    choice = step.paint
    if choice is None:
        return step
    if choice.use is PaintUse.SIDE_BY_SIDE:
        parts = _apart(choice.parts, knows, sources)
        if parts is choice.parts:
            return step
        choice = PaintChoice(use=PaintUse.MIXED, parts=parts, span=choice.span)
        step = replace(step, paint=choice)
    return _thinned(step, choice, find) if choice.use is PaintUse.MIXED else step


def _substitute(one: Instead, knows: Knows, sources: Sources) -> Instead:
    parts = _apart(one.parts, knows, sources)
    return one if parts is one.parts else replace(one, parts=parts)


def _apart(parts: tuple[Part, ...], knows: Knows, sources: Sources) -> tuple[Part, ...]:
    """The parts that one text names, `parts` being that text as a single name; `parts` itself where it is no mixture."""
    if len(parts) > 1:
        return _list_apart(parts, knows, sources)
    if not parts or not _may_be_mixed(parts[0].name.text):
        return parts
    (one,) = parts
    written = read_mix(one.name.text, knows)
    source = sources.get(one.name.span.file)
    if written is None or source is None:
        return parts
    spans = _places([part.name for part in written], one.name.span, source)
    if spans is None:
        return parts
    return tuple(
        Part(name=Name(text=part.name, span=span), amount=part.measure.number, touch=part.measure.touch)
        for part, span in zip(written, spans, strict=True)
    )


def _list_apart(parts: tuple[Part, ...], knows: Knows, sources: Sources) -> tuple[Part, ...]:
    """A list whose every entry says how much of what: `[A 50%, B 50%]`; any other list as it is."""
    if not all(_says_how_much(part.name.text) for part in parts):
        return parts
    written = [written_part(part.name.text, knows) for part in parts]
    known = [knows(one.name) for one in written]
    # A bare number may belong to the name of a pot that the palette lacks.
    sure = all(known) or (any(known) and all(one.measure.unit or one.measure.touch for one in written))
    if not sure or not all(one.said for one in written) or not go_together(one.measure for one in written):
        return parts
    apart = []
    for part, one in zip(parts, written, strict=True):
        source = sources.get(part.name.span.file)
        spans = _places([one.name], part.name.span, source) if source is not None else None
        if spans is None:
            return parts
        name = Name(text=one.name, span=spans[0])
        apart.append(Part(name=name, amount=one.measure.number, touch=one.measure.touch))
    return tuple(apart)


@lru_cache(maxsize=32_768)
def _says_how_much(text: str) -> bool:
    return written_part(text).said


@lru_cache(maxsize=32_768)
def _may_be_mixed(text: str) -> bool:
    return _MAY_BE_MIXED.search(text) is not None


def _places(names: list[str], span: Span, source: Source) -> list[Span] | None:
    """Where each name stands within a value, in the order written."""
    at = source.offset(span.line, span.column)
    end = source.offset(span.end_line, span.end_column)
    places = []
    for name in names:
        found = re.compile(r"\s+".join(map(re.escape, name.split()))).search(source.text, at, end)
        if found is None:
            return None
        places.append(source.span(*found.span()))
        at = found.end()
    return places


def _thinned(step: Step, choice: PaintChoice, find: Callable[[str], object]) -> Step:
    """A step whose mixture has water in it: the rest is thinned by it, unless the step says otherwise itself."""
    water = [
        part for part in choice.parts if folded(part.name.text) in THINNERS and find(part.name.text) is None
    ]
    rest = tuple(part for part in choice.parts if part not in water)
    if not water or not rest:
        return step
    paint, thinner = (math.fsum(part.amount for part in those) for those in (rest, water))
    names = " + ".join(part.name.text for part in water)
    thin = Thin(
        text=f"{paint:g}:{thinner:g} {names}", paint_share=round(paint / math.fsum((paint, thinner)), 9)
    )
    place = step.places.get("thin")
    own = place is not None and place.file == step.span.file and place > step.span
    return replace(step, paint=replace(choice, parts=rest), thin=step.thin if own else thin)
