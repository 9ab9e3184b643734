"""Every address of every page of a site that was built, and those that lead nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

from bs4 import BeautifulSoup


def dead_links(site: Path, url: str = "") -> list[tuple[str, str]]:
    """Addresses by their page that are of no file of the site, or of a place that is not on the page they lead to.

    `url` is where the site says that it lives; other whole addresses are not followed.
    """
    soups = {
        file.relative_to(site).as_posix(): BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
        for file in site.rglob("*.html")
    }
    dead = []
    for page, soup in soups.items():
        for address in _addresses(soup):
            whole = bool(url) and address.startswith(url)
            if (
                page == "404.html"
                or address.startswith(("data:", "mailto:"))
                or ("://" in address and not whole)
            ):
                continue
            path, _, place = (address.removeprefix(url).lstrip("/") if whole else address).partition("#")
            start = site if whole else (site / page).parent
            file = start / unquote(path) if path else site / page
            there = file.is_file() and file.resolve().relative_to(site.resolve()).as_posix()
            if not there or (place and there in soups and soups[there].find(id=place) is None):
                dead.append((page, address))
    for style in site.rglob("*.css"):
        named = re.findall(r"url\([\"']?([^\"')]+)", style.read_text(encoding="utf-8"))
        lacking = [one for one in named if not one.startswith("data:") and not (style.parent / one).is_file()]
        dead += [(style.relative_to(site).as_posix(), address) for address in lacking]
    return dead


def _addresses(soup: BeautifulSoup) -> Iterator[str]:
    for tag in soup.find_all(True):
        for key in ("href", "src", "data-worker", "data-manifest", "data-index"):
            if tag.get(key):
                yield str(tag[key])
        for candidate in str(tag.get("srcset", "")).split(","):
            if candidate.strip():
                yield candidate.split()[0]
        yield from str(tag.get("data-pages", "")).split()
        if tag.name == "meta" and tag.get("property") == "og:image":
            yield str(tag["content"])
