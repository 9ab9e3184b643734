"""Looks through the content folder once: which files there are, and what each is for. Nothing else here opens files."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.base.source import Source, Span
from guidegen.reading.listing import Listing, Stamp

# A guide of four million characters would fill two thousand pages; reading more only costs memory.
LARGEST_TEXT = 4_000_000
# Deeper folders than this are a loop of links or a mistake.
DEEPEST = 32

_YAML = (".yaml", ".yml")


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What lies in the content folder, by what it is for; paths are relative to it, in sorted order.

    `guides` are the guides' files, folder form or short.
    """

    root: Path
    listing: Listing = field(default_factory=Listing)
    site: str | None = None
    palette: tuple[str, ...] = ()
    guides: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()
    plans: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    templates: tuple[str, ...] = ()

    def chart_beside(self, guide: str) -> str | None:
        """The figure.svg in the folder of a guide's own."""
        folder, _, name = guide.rpartition("/")
        chart = f"{folder}/figure.svg"
        return chart if name == "guide.md" and chart in self.listing.files else None


def discover(content: Path) -> Found:
    """Look through a content folder. Raises MachineError where there is none, or it cannot be looked into."""
    if not content.is_dir():
        raise MachineError(
            f"There is no content folder “{content}”.",
            "Name it with --content, or make one with guidegen start.",
        )
    listing = _Walk(content).listing()
    files = sorted(listing.files)
    guides = tuple(path for path in files if _is_guide(path))
    return Found(
        root=content,
        listing=listing,
        site="site.yaml" if "site.yaml" in listing.files else None,
        palette=tuple(path for path in files if path == "palette.yaml" or _is_in(path, "palette", _YAML)),
        guides=guides,
        shared=tuple(path for path in files if _is_in(path, "shared", _YAML)),
        plans=tuple(path for path in files if _is_in(path, "plans", _YAML)),
        loose=tuple(path for path in files if path.startswith("as-is/")),
        templates=tuple(path for path in files if path.startswith("templates/")),
    )


def _is_in(path: str, folder: str, endings: tuple[str, ...]) -> bool:
    first, _, rest = path.partition("/")
    return first == folder and "/" not in rest and rest.lower().endswith(endings)


def _is_guide(path: str) -> bool:
    parts = path.split("/")
    if parts[0] != "guides":
        return False
    return (len(parts) == 3 and parts[2] == "guide.md") or (len(parts) == 2 and parts[1].endswith(".md"))


class _Walk:
    """One walk through a folder. Links are followed inside content and noted where they leave it."""

    def __init__(self, root: Path) -> None:
        self.root = Path(os.path.realpath(root))
        self.files: dict[str, Stamp] = {}
        self.links: dict[str, str] = {}
        self.outside: set[str] = set()

    def listing(self) -> Listing:
        ahead = [("", self.root)]
        while ahead:
            before, folder = ahead.pop()
            for entry in self._entries(folder, top=not before):
                path = before + entry.name
                if entry.is_symlink():
                    self._link(path, entry)
                elif entry.is_dir(follow_symlinks=False):
                    if path.count("/") < DEEPEST:
                        ahead.append((path + "/", Path(entry.path)))
                elif entry.is_file(follow_symlinks=False):
                    self._file(path, entry)
        return Listing(self.files, self.links, frozenset(self.outside))

    def _entries(self, folder: Path, *, top: bool) -> list[os.DirEntry[str]]:
        try:
            with os.scandir(folder) as entries:
                return [entry for entry in entries if not entry.name.startswith(".")]
        except OSError as error:
            if not top:
                return []  # it went away, or is not for us: what needs its files will say so
            raise MachineError(
                f"The content folder “{folder}” cannot be looked into ({error.strerror}).",
                "Allow reading it, or name another with --content.",
            ) from error

    def _file(self, path: str, entry: os.DirEntry[str]) -> None:
        try:
            found = entry.stat()
        except OSError:
            return
        self.files[path] = Stamp(found.st_size, found.st_mtime_ns, found.st_ino)

    def _link(self, path: str, entry: os.DirEntry[str]) -> None:
        real = Path(os.path.realpath(entry.path))
        if not real.is_relative_to(self.root):
            self.outside.add(path)
        elif real.is_dir():
            self.links[path] = real.relative_to(self.root).as_posix()
        elif real.is_file():
            self._file(path, entry)


def source_of(found: Found, path: str) -> Source | Diagnostic:
    """A file's text, or why it cannot be had."""
    file = found.root / path
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST_TEXT + 1)
    except OSError as error:
        return _unreadable(
            path, f"The file cannot be read ({error.strerror}).", "Allow reading it, or remove it."
        )
    if len(data) > LARGEST_TEXT:
        return _unreadable(
            path,
            f"The file is larger than {LARGEST_TEXT // 1_000_000} MB, far more than a text of this kind can need.",
            "Take out what is not text, or divide it.",
        )
    try:
        return Source.from_bytes(path, data)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        span = Span(file=path, line=line, column=1, end_line=line, end_column=1)
        return Diagnostic(
            code="bad-yaml",
            message=f"Line {line} has characters that are not written in UTF-8.",
            span=span,
            help="Save the file as UTF-8 in your editor.",
        )


def _unreadable(path: str, message: str, help_line: str) -> Diagnostic:
    return Diagnostic(code="bad-yaml", message=message, span=Span.of_file(path), help=help_line)
