"""Where a link in a guide's Markdown leads: out of the site, to a page of it, or nowhere that is safe."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from typing import NamedTuple
from urllib.parse import unquote

from guidegen.base.listing import Listing
from guidegen.base.paths import slug
from guidegen.model.web_address import WebAddress

_SCHEME = re.compile(r"\s*([A-Za-z][A-Za-z0-9+.-]*):")
_WEB = frozenset({"http", "https"})


class Target(NamedTuple):
    """`href` for what can be followed as it stands, `to` for a page whose address rendering knows; else neither.

    `to` is `guide:SLUG`, `plan:SLUG`, `shared:NAME`, `page:NAME`, `file:PATH` (from as-is) or `step:INDEX` (from 0).
    """

    href: str = ""
    to: str = ""


def target_of(href: str, folder: str, listing: Listing, anchors: Mapping[str, int]) -> Target:
    """The target of a link written in a file of `folder`; `href` is percent-encoded, as Markdown's readers give it.

    `anchors` leads from the slugs of steps' titles to the steps.
    """
    scheme = _SCHEME.match(href)
    if scheme:
        followed = is_web(href) and WebAddress.parse(href.strip()) is not None
        return Target(href) if followed or scheme[1].lower() == "mailto" else Target()
    if href.startswith(("//", "\\", "/\\")):
        return Target()
    path, _, place = unquote(href).partition("#")
    if not path:
        index = anchors.get(slug(place)) if place else None
        return Target(to=f"step:{index}") if index is not None else Target()
    root = path.startswith("/")
    inside = posixpath.normpath(posixpath.join("" if root else folder, path.lstrip("/")))
    return _within(inside, listing) or (Target(href) if _is_page(path) and not root else Target())


def is_text_page(name: str, listing: Listing) -> bool:
    """Whether there is a page of words of that address."""
    folder, ending = "pages/", ".md"
    return any(
        slug(path[len(folder) : -len(ending)]) == name
        for path in listing.files
        if path.startswith(folder) and path.endswith(ending)
    )


def is_web(href: str) -> bool:
    """Whether a link is meant to lead into the web, so that it has to be an address there."""
    scheme = _SCHEME.match(href)
    return scheme is not None and scheme[1].lower() in _WEB


def _within(path: str, listing: Listing) -> Target | None:
    """A file of the content folder as the page made of it."""
    parts = path.split("/")
    stem, ending = posixpath.splitext(parts[-1])
    if parts[0] == "guides" and len(parts) == 2 and ending in {"", ".md"}:
        return Target(to=f"guide:{slug(stem)}")
    if parts[0] == "guides" and len(parts) == 3 and parts[2].casefold() in {"guide.md", "index.html"}:
        return Target(to=f"guide:{slug(parts[1])}")
    if parts[0] == "pages" and len(parts) == 2 and ending in {"", ".md"}:
        return Target(to=f"page:{slug(stem)}")
    if ending == ".md":
        return Target(
            to=f"guide:{slug(parts[-2] if stem.casefold() == 'guide' and len(parts) > 1 else stem)}"
        )
    if parts[0] in {"plans", "shared"} and len(parts) == 2 and ending in {".yaml", ".yml"}:
        return Target(to=f"{parts[0].removesuffix('s')}:{slug(stem)}")
    if parts[0] == "as-is" and path in listing.files:
        return Target(to=f"file:{path.removeprefix('as-is/')}")
    return None


def _is_page(path: str) -> bool:
    """Whether it names a page of the site as the author knows it from the address line."""
    return path.endswith(".html") and re.fullmatch(r"[A-Za-z0-9._/-]+", path) is not None
