"""What makes a guide and its bench work without a network once they were visited: a worker, and the site as an app."""

from __future__ import annotations

import json
import posixpath
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.rendering.desk import Desk
from guidegen.rendering.environment import Templates
from guidegen.rendering.icon_png import GROUND
from guidegen.rendering.squeeze import squeezed_script
from guidegen.rendering.urls import HOME, MANIFEST, WORKER, relative

WORKER_SCRIPT = "scripts/worker.js"
# Stands in the worker's script for what only this build knows.
_HERE = '"about this site"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Offline:
    """What a page's head tells its script, relative to the page; `pages` are those to keep, this one first."""

    script: str
    worker: str
    manifest: str
    pages: str


def offline_of(desk: Desk, page: str, other: str) -> Offline:
    """For a guide's page with its bench, or the other way round."""
    return Offline(
        script=relative(desk.assets.keep, page),
        worker=relative(WORKER, page),
        manifest=relative(MANIFEST, page),
        pages=f"{posixpath.basename(page)} {posixpath.basename(other)}",
    )


def worker(templates: Templates, desk: Desk, version: str) -> bytes:
    """The worker's script. `version` is that of all that it may keep: with another it looks for what is new."""
    t = desk.language.t
    about = {
        "version": version,
        "style": desk.assets.style,
        "language": desk.language.code,
        "direction": desk.language.direction,
        "title": t("away.title"),
        "text": t("away.text"),
    }
    source = templates.source(WORKER_SCRIPT)
    script = squeezed_script(source) if templates.is_ours(WORKER_SCRIPT) else source
    return script.replace(_HERE, json.dumps(about, ensure_ascii=False, sort_keys=True), 1).encode()


def manifest(desk: Desk) -> bytes:
    """The site as an app (W3C, Web Application Manifest), its addresses relative to the file itself."""
    icons: Iterable[dict[str, str]] = (
        {"src": desk.assets.icon, "sizes": "any", "type": "image/svg+xml"},
        *({"src": path, "sizes": f"{side}x{side}", "type": "image/png"} for side, path in desk.assets.icons),
    )
    data = {
        "name": desk.site.title,
        "lang": desk.language.code,
        "dir": desk.language.direction,
        "start_url": HOME,
        "scope": "./",
        "display": "minimal-ui",
        "background_color": f"#{GROUND:06x}",
        "theme_color": f"#{GROUND:06x}",
        "icons": list(icons),
    }
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()
