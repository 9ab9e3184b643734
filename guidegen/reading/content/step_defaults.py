"""What steps take where they say nothing: from their guide's defaults, else from the site's."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any, TypeVar

from guidegen.model.guide import Insert, PaintUse, Step, StepDefaults, Stop
from guidegen.reading.content.steps import STEP, none_taken
from guidegen.reading.types.base import Fields
from guidegen.reading.types.keys import Key

# Keys of how paint is laid, which only reach steps that lay some.
_LAID = ("technique", "brush", "thin")
# The keys of a step that defaults may give, and the fields they go to.
STEP_DEFAULT_KEYS: tuple[Key, ...] = tuple(
    STEP.by_word[word] for word in ("technique", "dry", "holds", "brush", "thin")
)
_WORDS = {row.name: row.field or row.name for row in STEP_DEFAULT_KEYS}


Entry = TypeVar("Entry", bound=Step | Stop | Insert)


def step_defaults(fields: Fields) -> StepDefaults:
    """Takes the values for steps out of the fields of `defaults`, with their places."""
    given = {name: fields.values.pop(name) for name in _WORDS.values() if name in fields.values}
    places = {word: fields.places[word] for word in _WORDS if word in fields.places}
    return StepDefaults(given=none_taken(given), places=places)


def with_defaults(entries: Iterable[Entry], *defaults: StepDefaults) -> tuple[Entry, ...]:
    """The entries with what their steps leave out taken from the first defaults that have it."""
    given: dict[str, Any] = {}
    places = {}
    for one in reversed(defaults):
        for word, span in one.places.items():
            places[word] = span
            given.pop(_WORDS[word], None)
        given |= one.given
    if not places:
        return tuple(entries)
    return tuple(
        _filled(entry, StepDefaults(given=given, places=places)) if isinstance(entry, Step) else entry
        for entry in entries
    )


def _filled(step: Step, defaults: StepDefaults) -> Any:
    """A step with its defaults; one that could not be read counts as unread in the step as well."""
    lays = step.paint is None or step.paint.use is not PaintUse.NONE
    missing = [word for word in defaults.places if word not in step.places and (lays or word not in _LAID)]
    if not missing:
        return step
    values = {
        _WORDS[word]: defaults.given[_WORDS[word]] for word in missing if _WORDS[word] in defaults.given
    }
    unread = step.unread.union(word for word in missing if _WORDS[word] not in values)
    places = dict(step.places) | {word: defaults.places[word] for word in missing}
    return replace(step, **values, unread=unread, places=places)
