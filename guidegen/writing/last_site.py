"""The site as the last build left it, for pages of it that are to stay: what is there, and what a page refers to."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from urllib.parse import unquote

from guidegen.writing.artifact import Artifact, is_page
from guidegen.writing.manifest import PENDING, Manifest, read_manifest

# Attributes that hold addresses; `content` is that of a meta element, which names pictures by whole addresses.
_ATTRIBUTE = re.compile(
    r"""\s(?:href|src(?:set)?|poster|data(?:-[a-z]+)?|content)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""",
    re.IGNORECASE,
)
_IN_STYLE = re.compile(r"""url\(\s*(?:"([^"]*)"|'([^']*)'|([^\s"')]+))\s*\)""", re.IGNORECASE)
# Lists of addresses are parted by these; what leads a page on begins with `url=`.
_PARTED = re.compile(r"[\s,;]+")


@dataclass(frozen=True, slots=True)
class LastSite:
    """The files that the manifest lists and that are there. `placeholder` makes the page that says one is to come."""

    out: Path
    manifest: Manifest
    placeholder: Callable[[str], bytes]

    @classmethod
    def of(cls, out: Path, placeholder: Callable[[str], bytes]) -> LastSite:
        """The site in a folder, an empty one where no build has been. Raises as `read_manifest` does."""
        return cls(out, read_manifest(out), placeholder)

    def holds(self, path: str) -> bool:
        """Whether this file is one of ours and there."""
        file = self.out / path
        return path in self.manifest.files and file.is_file() and not file.is_symlink()

    def holds_page(self, path: str) -> bool:
        """Whether this page is there, and no mere announcement of it by a build that was killed."""
        if not self.holds(path):
            return False
        pending = self.manifest.files[path] == PENDING
        return not pending or (self.out / path).read_bytes() != self.placeholder(path)

    def text(self, path: str) -> str:
        """A file's text, empty where it is not there."""
        return (self.out / path).read_text(encoding="utf-8", errors="replace") if self.holds(path) else ""

    def artifact(self, path: str) -> Artifact:
        """The file as one of the next site: the same bytes, made from the same."""
        return Artifact(path=path, key=self.manifest.files[path].key, data=self.out / path)

    def references(self, path: str) -> Iterator[str]:
        """The files of this site that a page or a style of it needs or leads to, by their paths."""
        pattern = _ATTRIBUTE if is_page(path) else _IN_STYLE
        addresses: set[str] = set()
        for written in {value for found in pattern.findall(self.text(path)) for value in found}:
            value = unescape(written)
            addresses |= {value, *_PARTED.split(value)}
        for address in sorted(addresses):
            yield from self._meant(address.removeprefix("url="), path)

    def _meant(self, address: str, page: str) -> Iterator[str]:
        """The file that an address names. Of a whole address the end counts, wherever the site may live."""
        target = re.split(r"[?#]", address, maxsplit=1)[0]
        _, whole, rest = target.partition("://")
        if whole:
            parts = rest.split("/")
            wanted = ["/".join(parts[at:]) for at in range(1, len(parts))]
        elif target and not target.startswith("/"):
            wanted = [posixpath.normpath(posixpath.join(posixpath.dirname(page), target))]
        else:
            return
        yield from (path for path in map(unquote, wanted) if path in self.manifest.files)
