"""Which file of a content folder is which guide, shared list, plan or page, and which two would share an address."""

from __future__ import annotations

from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.listing import Listing
from guidegen.base.paths import slug
from guidegen.base.source import Span

YAML = (".yaml", ".yml")
_CHART = "figure.svg"


class Named(NamedTuple):
    """A file that stands for one thing: its address or name, and its path relative to content."""

    slug: str
    path: str
    chart: str | None = None


class Sorter:
    """Sorts the files of a listing into guides, shared lists, plans and pages.

    Of files that share an address all but the first go to `doubles`, and are told in `diagnostics`.
    """

    def __init__(self, listing: Listing) -> None:
        self.listing = listing
        self.diagnostics: list[Diagnostic] = []
        self.doubles: list[Named] = []

    def guides(self) -> tuple[Named, ...]:
        """Guides in their two forms, by address."""
        found = []
        for path in self.listing.files:
            parts = path.split("/")
            if parts[0] != "guides":
                continue
            if len(parts) == 3 and parts[2].casefold() == "guide.md":
                chart = f"guides/{parts[1]}/{_CHART}"
                found.append(Named(slug(parts[1]), path, chart if chart in self.listing.files else None))
            elif len(parts) == 2 and path.casefold().endswith(".md"):
                found.append(Named(slug(parts[1][: -len(".md")]), path))
        return self._apart(found, "guide")

    def pages(self) -> tuple[Named, ...]:
        """Pages of words, by address."""
        found = [
            Named(slug(path[len("pages/") : -len(".md")]), path)
            for path in self.listing.files
            if path.startswith("pages/") and path.count("/") == 1 and path.casefold().endswith(".md")
        ]
        return self._apart(found, "page")

    def lists(self, folder: str) -> tuple[Named, ...]:
        """The YAML files of one folder, by name."""
        found = []
        for path in self.listing.files:
            stem, dot, ending = path.rpartition(".")
            parts = stem.split("/")
            if len(parts) == 2 and parts[0] == folder and dot + ending.casefold() in YAML:
                found.append(Named(slug(parts[1]), path))
        return self._apart(found, "plan" if folder == "plans" else "shared list")

    def _apart(self, found: list[Named], what: str) -> tuple[Named, ...]:
        kept: dict[str, Named] = {}
        for one in sorted(found, key=lambda one: one.path):
            first = kept.setdefault(one.slug, one)
            if first is one:
                continue
            self.doubles.append(one)
            self.diagnostics.append(
                Diagnostic(
                    code="two-guides-one-address",
                    message=f"{one.path} and {first.path} would both be the {what} “{one.slug}”.",
                    span=Span.of_file(one.path),
                    help="Rename one of them. Case, accents and signs make no difference in an address.",
                    related=(Related(span=Span.of_file(first.path), message="has this address."),),
                )
            )
        return tuple(kept[key] for key in sorted(kept))
