"""What a page may weigh: its scripts and everything but its photos over the wire, in bytes; its elements, on any page."""

from __future__ import annotations

import gzip
import posixpath

import pytest

SCRIPTS = 12_000
WIRE = 60_000
# What a phone opens without delay: elements, and bytes as they lie there.
ELEMENTS, BYTES = 10_000, 500_000
KINDS = (
    "index.html",
    "colours.html",
    "try.html",
    "guides/ferry-watch/index.html",
    "guides/ferry-watch/bench.html",
    "guides/lamp-boys/index.html",
)


def parts_of(demo, path: str) -> dict[str, bytes]:
    """The page itself, its styles, scripts and icon, by path."""
    soup = demo.pages[path]
    links = [tag["href"] for tag in soup.select("link[rel=stylesheet], link[rel=icon], link[rel=manifest]")]
    links += [tag["src"] for tag in soup.select("script[src]")]
    paths = [path, *(posixpath.normpath(posixpath.join(posixpath.dirname(path), link)) for link in links)]
    return {name: (demo.folder / name).read_bytes() for name in paths}


def weights(demo, path: str) -> dict[str, int]:
    return {name: len(gzip.compress(data, 9, mtime=0)) for name, data in parts_of(demo, path).items()}


@pytest.mark.parametrize("path", KINDS)
def test_scripts_stay_small(demo, path: str) -> None:
    scripts = {name: size for name, size in weights(demo, path).items() if name.endswith(".js")}
    assert sum(scripts.values()) <= SCRIPTS, scripts


@pytest.mark.parametrize("path", KINDS)
def test_a_page_without_its_photos_stays_small(demo, path: str) -> None:
    sizes = weights(demo, path)
    assert sum(sizes.values()) <= WIRE, sizes


def test_no_page_has_more_than_a_phone_opens_without_delay(demo) -> None:
    sizes = {
        path: (len(soup.find_all()), (demo.folder / path).stat().st_size) for path, soup in demo.pages.items()
    }
    assert len(sizes) > 50
    assert {path: size for path, size in sizes.items() if size[0] > ELEMENTS or size[1] > BYTES} == {}
