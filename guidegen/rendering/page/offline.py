"""What makes a guide and its bench work without a network once they were visited: a worker, and the site as an app."""

from __future__ import annotations

import json
import posixpath
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import (
    CAUTIONS,
    GUIDES_SCRIPT,
    HOME,
    INDEX,
    KEEP_LIST,
    MANIFEST,
    PALETTE_SCRIPT,
    TECHNIQUES,
    WORKER,
    relative,
)
from guidegen.rendering.theme.assets import ICON_GROUND, own_files, script_of
from guidegen.rendering.theme.templates import Templates

WORKER_SCRIPT = "scripts/worker.js"
# Stands in the worker's script for what only this build knows.
_HERE = '"about this site"'


# What a page shows of other files, as the worker's script looks for it.
_SHOWN = (".css", ".js", ".svg", ".png", ".webp", ".jpg")


@dataclass(frozen=True, slots=True, kw_only=True)
class Offline:
    """What a page's head tells its script, relative to the page; `pages` are those to keep, this one first."""

    script: str
    worker: str
    manifest: str
    pages: str


def offline_of(context: SiteContext, page: str, other: str) -> Offline:
    """For a guide's page with its bench, or the other way round; a page that has no bench is its own `other`.

    The home page, which shows pictures of all guides, is kept only with all of them.
    """
    pages = () if page == HOME else dict.fromkeys((posixpath.basename(page), posixpath.basename(other)))
    return Offline(
        script=relative(context.assets.keep, page),
        worker=relative(WORKER, page),
        manifest=relative(MANIFEST, page),
        pages=" ".join(pages),
    )


def worker(
    templates: Templates, context: SiteContext, version: str, *, made: Iterable[str], loose: Iterable[str]
) -> bytes:
    """The worker's script. `version` is that of all that it may keep: with another it looks for what is new.

    It keeps to the pages among what is `made`, told by the folders that they lie in, and to what these may show: our
    own files by their names, and those of `loose`, which the author has copied in. All are paths in the site.
    """
    t = context.language.t
    about = {
        "version": version,
        "pages": sorted({_own_part(path) for path in made if path.endswith(".html")}),
        "copied": sorted(path for path in loose if path.casefold().endswith(_SHOWN)),
        "own": [*own_files(context.assets), PALETTE_SCRIPT, GUIDES_SCRIPT, INDEX, KEEP_LIST],
        "list": KEEP_LIST,
        "index": INDEX,
        "style": context.assets.style,
        "language": context.language.code,
        "direction": context.language.direction,
        "title": t("away.title"),
        "text": t("away.text"),
    }
    return (
        script_of(templates, WORKER_SCRIPT)
        .replace(_HERE, json.dumps(about, ensure_ascii=False, sort_keys=True), 1)
        .encode()
    )


def keep_list(moved: Iterable[str], sizes: Mapping[str, int], other: int) -> bytes:
    """Every page that is kept where a reader wants all guides, and the bytes that these come to.

    `sizes` are those of all pages, `moved` the folders of those that only lead on; `other` is what photos, styles and
    scripts come to.
    """
    folders = tuple(moved)
    pages = sorted(
        path
        for path in sizes
        if path in {HOME, TECHNIQUES, CAUTIONS}
        or (path.startswith(("guides/", "pages/")) and not path.startswith(folders))
    )
    told = {"bytes": sum(sizes[path] for path in pages) + other, "pages": pages}
    return (json.dumps(told, indent=0) + "\n").encode()


def _own_part(path: str) -> str:
    """The folder at the top that a page lies in, with a slash; or its own path, where it lies at the top itself."""
    folder, slash, _ = path.partition("/")
    return folder + slash


def manifest(context: SiteContext) -> bytes:
    """The site as an app (W3C, Web Application Manifest), its addresses relative to the file itself."""
    icons: Iterable[dict[str, str]] = (
        {"src": context.assets.icon, "sizes": "any", "type": "image/svg+xml"},
        *(
            {"src": path, "sizes": f"{side}x{side}", "type": "image/png"}
            for side, path in context.assets.icons
        ),
    )
    data = {
        "name": context.site.title,
        "lang": context.language.code,
        "dir": context.language.direction,
        "start_url": HOME,
        "scope": "./",
        "display": "minimal-ui",
        "background_color": ICON_GROUND,
        "theme_color": ICON_GROUND,
        "icons": list(icons),
    }
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()
