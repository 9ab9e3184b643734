"""Where a guide's front matter lies between its two lines of ---, and where its text begins."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.reading.yaml.fault import Fault

_OPENING = re.compile(r"(?:[ \t]*\n)*---[ \t]*(?:\n|\Z)")
_CLOSING = re.compile(r"^---[ \t]*$", re.MULTILINE)
# What is typed for it, or made of it by a word processor.
_MEANT_TO_CLOSE = re.compile(r"^(?:--|-{4,20}|[–—]{1,3}-?)[ \t]*$", re.MULTILINE)


class Parts(NamedTuple):
    """Character offsets: the front matter from `start` to `end`, the text from `body` on."""

    start: int
    end: int
    body: int


@dataclass(frozen=True, slots=True)
class FileKind:
    """What a file with front matter is: its noun, the keys it must have, and what stands last before the closing ---."""

    noun: str
    keys: tuple[str, ...]
    last: str

    @property
    def lacks(self) -> str:
        """The beginning of a sentence about one that says none of its keys."""
        return f"The {self.noun} has {' and '.join(f'no {key}' for key in self.keys)}"

    @property
    def typed(self) -> str:
        """The required keys as they are typed: `title: and steps:`."""
        return " and ".join(f"{key}:" for key in self.keys)


GUIDE_FILE = FileKind("guide", ("title", "steps"), "the last of the steps")


def split(source: Source, kind: FileKind = GUIDE_FILE) -> Parts | Diagnostic:
    """The two parts of a file, or why there are none. The front matter ends at the first later line that is only ---."""
    opening = _OPENING.match(source.text)
    if opening is None:
        return Diagnostic(
            code="missing-key",
            message=f"{kind.lacks}: nothing stands between two lines of --- at its beginning.",
            span=source.span(0, 0),
            help=f"Begin the file with a line ---, then {kind.typed}, then another line ---.",
        )
    closing = _CLOSING.search(source.text, opening.end())
    if closing is None:
        meant = _MEANT_TO_CLOSE.search(source.text, opening.end())
        if meant is not None:
            at, end = meant.start(), meant.start() + len(meant[0].rstrip())
            message = f"“{meant[0].rstrip()}” does not end what stands before the {kind.noun}'s text; three dashes do."
            return Fault(message, "Write --- here.", at, end).diagnostic(source)
        at = opening.group().rstrip().rfind("---")
        return Fault(
            f"The line --- that ends what stands before the {kind.noun}'s text is missing.",
            f"Put a line with only --- after {kind.last}.",
            at,
            at + 3,
        ).diagnostic(source)
    return Parts(opening.end(), closing.start(), min(closing.end() + 1, len(source.text)))
