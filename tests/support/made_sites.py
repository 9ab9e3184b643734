"""Small made-up sites to publish, a disk that fails or is watched, and what has to hold of a site at every moment."""

from __future__ import annotations

import errno
import os
import posixpath
import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from hypothesis import strategies as st

from guidegen.base.paths import clashes
from guidegen.writing.artifact import Artifact
from guidegen.writing.atomic import Disk
from guidegen.writing.manifest import MANIFEST
from guidegen.writing.publication import Installed, publication

HOME = "index.html"

# Path to bytes.
Site = Mapping[str, bytes]


def relative(target: str, page: str) -> str:
    return posixpath.relpath(target, posixpath.dirname(page) or ".")


def page(path: str, words: str, links: Iterable[str] = ()) -> bytes:
    anchors = "".join(f'<a href="{relative(link, path)}">{link}</a>' for link in links)
    return f"<!doctype html><html><body><p>{words}</p>{anchors}</body></html>\n".encode()


def style(path: str, words: str, links: Iterable[str] = ()) -> bytes:
    return (f"/* {words} */" + "".join(f"url({relative(link, path)})" for link in links) + "\n").encode()


def placeholder(path: str) -> bytes:
    return page(path, "being published", [HOME])


def artefacts_of(site: Site, *, keys: bool = True) -> list[Artifact]:
    return [
        Artifact(path=path, key=data.hex()[-40:] + str(hash_of(data)) if keys else "", data=data)
        for path, data in site.items()
    ]


def hash_of(data: bytes) -> int:
    return int.from_bytes(data, "big") % 1_000_003


def publish(
    artifacts: Iterable[Artifact], out: Path, *, disk: Disk | None = None, memory: Path | None = None, **more
) -> Installed:
    """Publish these files, and no others."""
    with publication(out, memory=memory, disk=disk) as site:
        for artifact in artifacts:
            site.add(artifact)
        return site.install(memory=memory, **more)


def put(site: Site, out: Path, *, keys: bool = True, **more) -> Installed:
    """Publish with the settings of the tests; what is not said is as usual."""
    given = {"placeholder": placeholder, "version": "0.1.0", "disk": Hasty()} | more
    return publish(artefacts_of(site, keys=keys), out, **given)


def files_in(out: Path) -> dict[str, bytes]:
    """Every file but the manifest, by path."""
    return {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in sorted(out.rglob("*"))
        if path.is_file() and path != out / MANIFEST
    }


def folders_in(out: Path) -> set[str]:
    return {path.relative_to(out).as_posix() for path in out.rglob("*") if path.is_dir()}


def folders_around(site: Site) -> set[str]:
    return {parent.as_posix() for path in site for parent in Path(path).parents} - {"."}


def check_whole(out: Path, *sites: Site) -> None:
    """Every page is a page of one of the sites or the small one, and its links, and those of styles, lead on."""
    for path, data in files_in(out).items():
        if not path.endswith((".html", ".css")):
            continue
        known = {site[path] for site in sites if path in site} | {placeholder(path)}
        assert data in known, f"{path} is not whole"
        for link in re.findall(r'href="([^"]+)"|url\(([^)]+)\)', data.decode()):
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), link[0] or link[1]))
            assert (out / target).is_file(), f"{path} links to {target}, which is not there"


class Hasty(Disk):
    """A disk that flushes nothing, since no test cuts the power."""

    def write(self, path, chunks, *, durable=False):
        return super().write(path, chunks)


class Watched(Hasty):
    """Calls a check after every operation, and before the first."""

    def __init__(self, check: Callable[[], None]):
        self.check, self.count = check, 0
        check()

    def _then(self, result=None):
        self.count += 1
        self.check()
        return result

    def write(self, path, chunks, *, durable=False):
        return self._then(super().write(path, chunks))

    def replace(self, source, target):
        self._then(super().replace(source, target))

    def remove(self, path):
        self._then(super().remove(path))

    def make_folder(self, path):
        self._then(super().make_folder(path))

    def remove_folder(self, path):
        self._then(super().remove_folder(path))


class Failing(Hasty):
    """Fails at one operation, counted from nought, or from it on; a file being written then is left half."""

    def __init__(self, at: int, number: int = errno.ENOSPC, *, once: bool = True):
        self.at, self.number, self.once, self.count = at, number, once, 0
        self.failed = False

    def _before(self, path):
        self.count += 1
        if self.count - 1 == self.at or (not self.once and self.count > self.at):
            self.failed = True
            self.fail(path)

    def fail(self, path):
        raise OSError(self.number, os.strerror(self.number), str(path))

    def write(self, path, chunks, *, durable=False):
        try:
            self._before(path)
        except BaseException:
            data = b"".join(chunks)
            path.write_bytes(data[: len(data) // 2])
            raise
        return super().write(path, chunks)

    def replace(self, source, target):
        self._before(target)
        super().replace(source, target)

    def remove(self, path):
        # A full disk still lets go.
        if self.once:
            self._before(path)
        super().remove(path)

    def make_folder(self, path):
        self._before(path)
        super().make_folder(path)

    def remove_folder(self, path):
        if self.once:
            self._before(path)
        super().remove_folder(path)


class Killed(BaseException):
    """Stands for the signal that no program survives."""


class Killing(Failing):
    """As if the program were killed at an operation: from then on it does nothing more, not even tidy up."""

    def __init__(self, at: int):
        super().__init__(at, once=True)

    def _before(self, path):
        if self.failed or self.count == self.at:
            self.failed = True
            raise Killed
        self.count += 1


# An archive that grows, loses, renames and edits guides which link to each other.
OLD: Site = {
    HOME: page(
        HOME, "one", ["guides/ferry-watch/index.html", "guides/toll-house/index.html", "paints/index.html"]
    ),
    "404.html": page("404.html", "lost", [HOME]),
    "assets/site-1.css": style("assets/site-1.css", "one", ["assets/reed-1.woff2"]),
    "assets/reed-1.woff2": b"font one",
    "guides/ferry-watch/index.html": page(
        "guides/ferry-watch/index.html",
        "one",
        [
            HOME,
            "assets/site-1.css",
            "guides/toll-house/index.html",
            "photos/coats.webp",
            "guides/ferry-watch/guide.json",
        ],
    ),
    "guides/ferry-watch/guide.json": b'{"title": "one"}',
    "guides/toll-house/index.html": page(
        "guides/toll-house/index.html",
        "one",
        ["guides/ferry-watch/index.html", "guides/eel-seller/index.html"],
    ),
    "guides/eel-seller/index.html": page(
        "guides/eel-seller/index.html", "one", ["guides/toll-house/index.html", "photos/eel.webp"]
    ),
    "paints/index.html": page("paints/index.html", "same", [HOME]),
    "photos/coats.webp": b"coats",
    "photos/eel.webp": b"eel",
}
NEW: Site = {
    HOME: page(
        HOME, "two", ["guides/ferry-watch/index.html", "guides/heron-riders/index.html", "paints/index.html"]
    ),
    "404.html": OLD["404.html"],
    "assets/site-2.css": style("assets/site-2.css", "two", ["assets/reed-2.woff2"]),
    "assets/reed-2.woff2": b"font two",
    "guides/ferry-watch/index.html": page(
        "guides/ferry-watch/index.html",
        "two",
        [
            HOME,
            "assets/site-2.css",
            "guides/heron-riders/index.html",
            "photos/riders.webp",
            "guides/ferry-watch/guide.json",
        ],
    ),
    "guides/ferry-watch/guide.json": b'{"title": "two"}',
    "guides/heron-riders/index.html": page(
        "guides/heron-riders/index.html",
        "two",
        ["guides/ferry-watch/index.html", "guides/patience/index.html"],
    ),
    "guides/patience/index.html": page(
        "guides/patience/index.html", "two", ["guides/heron-riders/index.html"]
    ),
    "paints/index.html": OLD["paints/index.html"],
    "photos/riders.webp": b"riders",
}


# Sites drawn for laws, to publish one after the other

_PAGES = ("404.html", "guides/a/index.html", "guides/b/index.html", "guides/b/bench.html", "paints/x.html")
_ASSETS = ("photos/one.webp", "photos/two.webp", "guides/a/guide.json", "reed.woff2")
# Files that an author has copied in as they are: some cannot lie beside each other, so one has to make room.
_LOOSE = ("loose", "loose/inner.txt", "loose/inner/deep.html", "Map.html", "map.html", "map.html/key.txt")


@st.composite
def sites(draw: st.DrawFn, *, loose: bool = True) -> dict[str, bytes]:
    """A small site whose pages and style link to what is in it; two of them share some files, and differ in others."""
    names = draw(st.sets(st.sampled_from(_PAGES + _ASSETS + (_LOOSE if loose else ()))))
    clashing = {second for _, second in clashes(names)}
    paths = sorted(names - clashing | {"index.html"})
    words = st.sampled_from(("one", "two", "three"))
    site = {}
    for path in paths:
        links = draw(st.sets(st.sampled_from(paths), max_size=4)) if path.endswith(".html") else ()
        site[path] = (
            page(path, draw(words), sorted(links)) if path.endswith(".html") else draw(words).encode()
        )
    if draw(st.booleans()):
        site["a.css"] = style("a.css", draw(words), sorted(names & {"photos/one.webp", "reed.woff2"}))
    return site
