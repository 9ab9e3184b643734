"""What lies in the content folder by what it is for, and the one place that opens its text files."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import GuidegenError
from guidegen.base.listing import Listing
from guidegen.base.own_files import own_templates
from guidegen.base.source import Source, Span
from guidegen.reading.content.file_kinds import YAML, Named, Sorter
from guidegen.reading.content.misplaced import misplaced
from guidegen.reading.content.walk import Walk

# A text file of a content folder: four times a palette of 3,000 paints.
LARGEST_TEXT = 2_000_000
# A guide, a shared list or a plan: a thousand steps and a text of sixty pages. Guides come from other people too, and
# this bound keeps a hostile one from costing more than seconds.
LARGEST_GUIDE = 500_000


@dataclass(frozen=True, slots=True, kw_only=True)
class ContentFiles:
    """The content folder's files by what they are for; all paths relative to `root`, sorted.

    Where two files would share one address or name, the second is left out here and told in `diagnostics`, but it is
    among `doubles`, so that it is read and its mistakes are told as well.
    """

    root: Path
    listing: Listing
    site: str | None = None
    palettes: tuple[str, ...] = ()
    guides: tuple[Named, ...] = ()
    shared: tuple[Named, ...] = ()
    plans: tuple[Named, ...] = ()
    pages: tuple[Named, ...] = ()
    doubles: tuple[Named, ...] = ()
    loose: tuple[str, ...] = ()
    templates: tuple[str, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()


def discover(content: Path) -> ContentFiles:
    """Walk a content folder once.

    Links that lead out of it are not followed. Dot-files and what file managers leave behind are passed over, but in
    as-is/ only the latter. Raises GuidegenError where there is no such folder, or nothing in it that guidegen knows.
    """
    _refuse_no_folder(content)
    root = Path(os.path.realpath(content))
    walk = Walk(str(root))
    walk.go()
    listing = Listing(walk.files, walk.links, frozenset(walk.outside))
    sorter = Sorter(listing)
    guides, shared, plans = sorter.guides(), sorter.lists("shared"), sorter.lists("plans")
    pages = sorter.pages()
    site = next((f"site{ending}" for ending in YAML if f"site{ending}" in listing.files), None)
    palettes = _palettes(listing)
    named = (*guides, *shared, *plans, *pages, *sorter.doubles)
    read = {site or "", *palettes, *(one.path for one in named)}
    if site is None and not (palettes or guides or shared or plans):
        raise GuidegenError(
            f"The folder {content} has no guides, no palette and no site.yaml in it.",
            "Begin with guidegen start, or name another folder with --content.",
        )
    return ContentFiles(
        root=root,
        listing=listing,
        site=site,
        palettes=palettes,
        guides=guides,
        shared=shared,
        plans=plans,
        pages=pages,
        doubles=tuple(sorter.doubles),
        loose=_below(listing, "as-is"),
        templates=_below(listing, "templates"),
        diagnostics=(*walk.diagnostics, *sorter.diagnostics, *misplaced(listing.files, read)),
    )


def _refuse_no_folder(content: Path) -> None:
    if not content.is_dir():
        is_file = content.exists()
        raise GuidegenError(
            f"There is no content folder at {content}."
            if not is_file
            else f"{content} is a file, not a folder.",
            "Make one with guidegen start, or name another with --content.",
        )


def _palettes(listing: Listing) -> tuple[str, ...]:
    """palette.yaml, and every list of paints in palette/."""
    lists = (path for path in sorted(listing.files) if path.casefold().endswith(YAML))
    return tuple(
        path
        for path in lists
        if path.rpartition(".")[0] == "palette" or (path.startswith("palette/") and path.count("/") == 1)
    )


def _below(listing: Listing, folder: str) -> tuple[str, ...]:
    return tuple(path for path in sorted(listing.files) if path.startswith(f"{folder}/"))


def starter_charts() -> tuple[str, ...]:
    """The names of the charts that come with guidegen."""
    return tuple(sorted(path.stem for path in _starter_folder().glob("*.svg")))


def starter_chart(name: str) -> Source | Diagnostic:
    """The text of a starter chart."""
    return open_text(_starter_folder(), f"{name}.svg")


def _starter_folder() -> Path:
    return own_templates() / "charts"


def open_text(root: Path, path: str) -> Source | Diagnostic:
    """A text file of the content folder, or why it cannot be read: too large, not UTF-8, or the machine's reason."""
    largest = (
        LARGEST_GUIDE if path.endswith(".md") or path.startswith(("shared/", "plans/")) else LARGEST_TEXT
    )
    try:
        with (root / path).open("rb") as file:
            data = file.read(largest + 1)
    except OSError as error:
        return _unread(path, f"{path} cannot be opened: {error.strerror}.", "Look at who may read it.")
    if len(data) > largest:
        bound = f"{largest // 1_000_000} MB" if largest >= 1_000_000 else f"{largest // 1_000} kB"
        return _unread(
            path,
            f"{path} is larger than {bound}, which is as large as it can be.",
            "Divide it, or look whether it is a text at all.",
        )
    try:
        return Source.from_bytes(path, data)
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode().replace("\r\n", "\n").replace("\r", "\n")
        line, column = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
        return Diagnostic(
            code="bad-yaml",
            message=f"{path} is not written in UTF-8; the first sign that cannot be read is in line {line}.",
            span=Span(file=path, line=line, column=column, end_line=line, end_column=column),
            help="Save it as UTF-8; editors offer that under Save as or Encoding.",
        )


def _unread(path: str, message: str, help_line: str) -> Diagnostic:
    return Diagnostic(code="bad-yaml", message=message, span=Span.of_file(path), help=help_line)
