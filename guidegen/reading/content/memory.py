"""What was read before, so that only what changed is read again."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.base.stamp import Stamp

T = TypeVar("T")

# The kind of what came of our own charts: they are kept by their names, since they have no path in content.
STARTER = "starter"


@dataclass(slots=True)
class ReadingMemory:
    """`texts` by path with their stamps (None where not settled), `outcomes` by kind and path with their inputs.

    It can be pickled, to be kept between runs beside a version of its own. `opened` counts the files that were opened,
    `read` the outcomes that were made, since it began.
    """

    texts: dict[str, tuple[Stamp | None, Source | Diagnostic]] = field(default_factory=dict)
    outcomes: dict[tuple[str, str], tuple[object, Any]] = field(default_factory=dict)
    opened: int = 0
    read: int = 0

    def text(
        self, path: str, stamp: Stamp, *, settled: bool, read: Callable[[str], Source | Diagnostic]
    ) -> Source | Diagnostic:
        """A file's text, read if its stamp changed or was not settled yet; the same object if it is the same."""
        known = self.texts.get(path)
        if known is not None and known[0] == stamp:
            return known[1]
        self.opened += 1
        text = read(path)
        if known is not None and known[1] == text:
            text = known[1]
        self.texts[path] = (stamp if settled else None, text)
        return text

    def outcome(self, kind: str, path: str, made_of: object, make: Callable[[], T]) -> T:
        """What `make` returns, or returned when it was last made of equal things."""
        known = self.outcomes.get((kind, path))
        if known is not None and known[0] == made_of:
            remembered: T = known[1]
            return remembered
        self.read += 1
        made = make()
        self.outcomes[kind, path] = (made_of, made)
        return made

    def settled(self, kind: str, original: T, path: str, made: T) -> T:
        """What was made of an outcome with what other files say: the same object as before if it comes to the same."""
        if made is original:
            return original
        known = self.outcomes.get((kind, path))
        if known is not None and known[0] is original and known[1] == made:
            remembered: T = known[1]
            return remembered
        self.read += 1
        self.outcomes[kind, path] = (original, made)
        return made

    def forget_but(self, paths: Iterable[str]) -> None:
        """Forget the texts and outcomes of all files but these."""
        kept = set(paths)
        self.texts = {path: text for path, text in self.texts.items() if path in kept}
        self.outcomes = {
            key: outcome for key, outcome in self.outcomes.items() if key[1] in kept or key[0] == STARTER
        }
