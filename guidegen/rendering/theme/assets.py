"""The site's own files: one stylesheet, a script each for guides, plans, benches and the search, icons, named by what is in them."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.base.paths import asset_name
from guidegen.rendering.theme.icon_png import SIDES, icon_png
from guidegen.rendering.theme.squeeze import squeezed_script, squeezed_style
from guidegen.rendering.theme.templates import Templates
from guidegen.rendering.theme.tokens import tokens_of, tokens_rule

# In the order in which they are put into the one stylesheet and the one script; plans and benches have their own.
STYLES = (
    "style/site.css",
    "style/guide.css",
    "style/steps.css",
    "style/turning.css",
    "style/archive.css",
    "style/plan.css",
    "style/bench.css",
    "style/paper.css",
    "style/sheet.css",
)
SCRIPTS = (
    "scripts/finding.js",
    "scripts/clock.js",
    "scripts/spraying.js",
    "scripts/guide.js",
    "scripts/areas.js",
    "scripts/photos.js",
    "scripts/turning.js",
)
PLAN_SCRIPT = "scripts/plan.js"
BENCH_SCRIPT = "scripts/bench.js"
KEEP_SCRIPT = "scripts/keep.js"
SEARCH_SCRIPT = "scripts/search.js"


def site_assets(templates: Templates, tokens: Mapping[str, str]) -> tuple[Assets, dict[str, bytes]]:
    """The names of the assets, and their bytes by path in the site."""
    style = "".join(_style(templates, name) for name in STYLES) + tokens_rule(tokens, tokens_of(templates))
    script = "".join(_script(templates, name) for name in SCRIPTS)
    plan = _script(templates, PLAN_SCRIPT)
    bench = _script(templates, BENCH_SCRIPT)
    keep = _script(templates, KEEP_SCRIPT)
    search = _script(templates, SEARCH_SCRIPT)
    icon = templates.source("icon.svg")
    files: dict[str, bytes] = {}
    named = []
    for stem, text, ending in (
        ("site", style, ".css"),
        ("site", script, ".js"),
        ("plan", plan, ".js"),
        ("bench", bench, ".js"),
        ("icon", icon, ".svg"),
        ("keep", keep, ".js"),
        ("search", search, ".js"),
    ):
        named.append(_named(stem, text.encode(), ending, files))
    # They are drawn from our icon, so an author's own stands alone.
    sides = SIDES if templates.is_ours("icon.svg") else ()
    icons = tuple((side, _named(f"icon-{side}", icon_png(side), ".png", files)) for side in sides)
    assets = Assets(
        style=named[0],
        script=named[1],
        plan=named[2],
        bench=named[3],
        icon=named[4],
        keep=named[5],
        search=named[6],
        icons=icons,
    )
    return assets, files


def _named(stem: str, data: bytes, ending: str, files: dict[str, bytes]) -> str:
    """Puts a file among the others under a name that tells what is in it, and returns its path in the site."""
    path = "assets/" + asset_name(stem, hashlib.sha256(data).hexdigest(), ending)
    files[path] = data
    return path


def _script(templates: Templates, name: str) -> str:
    """A script, squeezed if it is ours: what authors may write in theirs nobody knows."""
    source = templates.source(name)
    return squeezed_script(source) if templates.is_ours(name) else f"{source}\n"


def _style(templates: Templates, name: str) -> str:
    source = templates.source(name)
    return squeezed_style(source) if templates.is_ours(name) else f"{source}\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assets:
    """The site's own files by their paths in it; `icons` in pixels by their side."""

    style: str
    script: str
    icon: str
    plan: str = ""
    bench: str = ""
    keep: str = ""
    search: str = ""
    icons: tuple[tuple[int, str], ...] = ()
