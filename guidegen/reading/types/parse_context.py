"""One file while it is read: its places, the photos that lie around it, and what there is to tell its author."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping
from dataclasses import replace

from guidegen.base.diagnostic import Diagnostic, Fix, Related
from guidegen.base.listing import EMPTY, Listing
from guidegen.base.source import Source, Span
from guidegen.base.suggest import MOST_SLIPS, nearest
from guidegen.reading.yaml.front_matter import FileKind, split
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, Tree, tree_of
from guidegen.reading.yaml.quoting import shortened, typed

# Longer than any name or key; comparing longer ones letter by letter would cost more than the advice is worth.
LONGEST_NAME = 200


class ParseContext:
    """Collects diagnostics for one source; readers write to it and carry on."""

    def __init__(self, source: Source, listing: Listing = EMPTY) -> None:
        """`listing` is what photos are looked up in, from the file's own folder.

        `lost` are the places of lines that could not be read, see `Tree`; `choices` the guide's own, for help lines;
        `people` leads from the folded keys of the site's people to their names.
        """
        self.source = source
        self.listing = listing
        self.folder = posixpath.dirname(source.file)
        self.diagnostics: list[Diagnostic] = []
        self.lost: tuple[int, ...] = ()
        self.choices: Mapping[str, tuple[str, ...]] = {}
        self.people: Mapping[str, str] = {}

    def tree(self, start: int = 0, end: int | None = None) -> Tree:
        """The source's tree, or that of a stretch of it, with what there is to tell about it told."""
        tree = tree_of(self.source, start, end)
        self.diagnostics += tree.diagnostics
        self.lost = tree.lost
        return tree

    def front_matter(self, kind: FileKind) -> tuple[Node, int] | None:
        """The root of the front matter, and the offset at which the text begins; None, after telling why, without one."""
        parts = split(self.source, kind)
        if isinstance(parts, Diagnostic):
            self.diagnostics.append(parts)
            return None
        tree = self.tree(parts.start, parts.end)
        if tree.root is not None:
            return tree.root, parts.body
        if not tree.broken:
            message = f"{kind.lacks}: nothing stands between its two lines of ---."
            self.say("missing-key", message, self.source.span(0, 0), f"Write {kind.typed} between them.")
        return None

    def is_torn(self, node: Node) -> bool:
        """Whether some of the lines of a node could not be read, so that nobody knows what it lacks."""
        return any(node.start <= at <= node.end for at in self.lost)

    @property
    def may_guess(self) -> bool:
        """Whether to look for what an unknown word means: not behind a hundred mistakes, since that takes time."""
        return len(self.diagnostics) < MOST_SLIPS

    def span(self, node: Node) -> Span:
        """Where a node stands."""
        return self.source.span(node.start, node.end)

    def say(
        self,
        code: str,
        message: str,
        span: Span,
        help_line: str = "",
        related: tuple[Related, ...] = (),
        fix: Fix | None = None,
    ) -> None:
        """Add a diagnostic."""
        self.diagnostics.append(
            Diagnostic(code=code, message=message, span=span, help=help_line, related=related, fix=fix)
        )

    def bad(
        self,
        node: Node,
        key: str,
        expected: str,
        help_line: str,
        code: str = "bad-value",
        meant: str | None = None,
    ) -> None:
        """Tell that a value is not what its key needs, unless its author has been told about it already.

        Then the fix that was offered is withdrawn, since the value would not do here either. `meant` is the one value
        that can be meant, which becomes the fix.
        """
        span = self.span(node)
        if isinstance(node, Scalar) and node.diagnosed:
            self.diagnostics = [replace(d, fix=None) if d.span == span else d for d in self.diagnostics]
            return
        self.say(
            code,
            f"{found(node)} where {key} needs {expected}.",
            span,
            help_line,
            fix=Fix(span=span, text=typed(meant)) if meant is not None else None,
        )


def found(node: Node) -> str:
    """How a sentence about a value begins."""
    if isinstance(node, ListNode):
        return "A list stands" if node.items else "An empty list stands"
    if isinstance(node, MapNode):
        return "A group of keys stands" if node.entries else "An empty pair of braces stands"
    return f"“{shortened(node.value)}” stands" if node.value.strip() else "Nothing stands"


def near(name: str, known: tuple[str, ...] | list[str]) -> str | None:
    """The known name that may have been meant, if `name` is of a length that names have."""
    return nearest(name, known) if len(name) <= LONGEST_NAME else None
