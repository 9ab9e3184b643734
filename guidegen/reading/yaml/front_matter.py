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


def split(source: Source) -> Parts | Diagnostic:
    """The two parts of a guide's file, or why there are none.

    The front matter ends at the first later line that is only ---.
    """
    opening = _OPENING.match(source.text)
    if opening is None:
        return Diagnostic(
            code="missing-key",
            message="The guide has no title and no steps: nothing stands between two lines of --- at its beginning.",
            span=source.span(0, 0),
            help="Begin the file with a line ---, then title: and steps:, then another line ---.",
        )
    closing = _CLOSING.search(source.text, opening.end())
    if closing is None:
        at = opening.group().rstrip().rfind("---")
        return Fault(
            "The line --- that ends what stands before the guide's text is missing.",
            "Put a line with only --- after the last of the steps.",
            at,
            at + 3,
        ).diagnostic(source)
    return Parts(opening.end(), closing.start(), min(closing.end() + 1, len(source.text)))
