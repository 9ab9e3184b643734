"""Where a guide's front matter lies between its two lines of ---, and where its text begins."""

from __future__ import annotations

import re
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.reading.yaml.fault import Fault

_OPENING = re.compile(r"(?:[ \t]*\n)*---[ \t]*(?:\n|\Z)")
_CLOSING = re.compile(r"^---[ \t]*$", re.MULTILINE)


class Parts(NamedTuple):
    """Character offsets: the front matter from `start` to `end`, the text from `body` on."""

    start: int
    end: int
    body: int


def split(source: Source, noun: str = "guide", keys: str = "title: and steps:") -> Parts | Diagnostic:
    """The two parts of a file, or why there are none; `noun` and `keys` are what the file is and what it must say.

    The front matter ends at the first later line that is only ---.
    """
    opening = _OPENING.match(source.text)
    if opening is None:
        return Diagnostic(
            code="missing-key",
            message=f"The {noun} has no {keys.replace(':', '').replace('and', 'and no')}: nothing stands between two lines of "
            "--- at its beginning.",
            span=source.span(0, 0),
            help=f"Begin the file with a line ---, then {keys}, then another line ---.",
        )
    closing = _CLOSING.search(source.text, opening.end())
    if closing is None:
        at = opening.group().rstrip().rfind("---")
        return Fault(
            f"The line --- that ends what stands before the {noun}'s text is missing.",
            f"Put a line with only --- after {'the last of the steps' if noun == 'guide' else 'its title'}.",
            at,
            at + 3,
        ).diagnostic(source)
    return Parts(opening.end(), closing.start(), min(closing.end() + 1, len(source.text)))
