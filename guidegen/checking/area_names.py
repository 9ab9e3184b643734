"""Areas whose name surely is meant for another area of the guide, or for several in one."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from typing import NamedTuple

from guidegen.base.slips import is_sure
from guidegen.base.suggest import folded
from guidegen.model.guide import Guide
from guidegen.model.names import Name

# Several areas under one name, in English and German.
_JOINED = re.compile(r"\s+(?:and|und|plus)\s+|\s*[,;&+/]\s*")
_ARTICLE = re.compile(r"(?:the|der|die|das|den|his|her|its|their)\s+", re.IGNORECASE)
_ALL_BUT = re.compile(
    r"(?:all|everything|alles)\s+(?:but|except|save|au(?:ß|ss)er)\s+(?:the\s+)?(.+)", re.IGNORECASE
)


class MisnamedArea(NamedTuple):
    """An area where it is first named, what is wrong with it, what to do, and the folded areas that are meant."""

    area: Name
    message: str
    help: str
    meant: frozenset[str]


def misnamed_areas(guide: Guide, chart_areas: Collection[str] | None) -> Iterator[MisnamedArea]:
    """The misnamed areas of a guide. Where its chart has areas, one that is nearly another's is told by these."""
    named: dict[str, list[Name]] = {}
    for area in (*(area for step in guide.steps for area in step.areas), *guide.leave):
        named.setdefault(folded(area.text), []).append(area)
    # The name that is given more often is the one that was meant, then the one that is given first.
    ranked = sorted(named, key=lambda key: -len(named[key]))
    slips = {
        key: meant
        for at, key in enumerate(ranked)
        if (meant := next((one for one in ranked[:at] if is_sure(key, one, ours=True)), None))
    }
    for key in ranked:
        bare = folded(_ARTICLE.sub("", named[key][0].text, count=1))
        if bare in named and bare != key:
            slips[key] = bare
    for key, (area, *_) in named.items():
        pieces = [piece.strip() for piece in _JOINED.split(area.text)]
        if found := _ALL_BUT.match(area.text):
            but = {key, folded(found[1]), *slips}
            pieces = [
                named[other][0].text
                for other in ranked
                if other not in but and not _JOINED.search(named[other][0].text)
            ]
            help_line = f"List the areas that are painted: [{', '.join(pieces) or '…'}]."
        elif len(pieces) > 1 and any(folded(piece) in named.keys() - {key} for piece in pieces):
            help_line = f"Write [{', '.join(pieces)}]."
        else:
            if key in slips and not chart_areas:
                meant = named[slips[key]][0].text
                message = f"The area “{area.text}” is nearly “{meant}”, and stands apart from it."
                yield MisnamedArea(area, message, f"Write {meant}.", frozenset({slips[key]}))
            continue
        message = f"“{area.text}” is read as the name of one area."
        yield MisnamedArea(area, message, help_line, frozenset(map(folded, pieces)))
