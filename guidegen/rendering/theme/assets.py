"""The assets of a site: a stylesheet, another for the bench, a script for each kind of page that has one, and icons."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass

import rcssmin
import rjsmin

from guidegen.base.paths import asset_name
from guidegen.rendering.theme.colour_tables import colour_tables
from guidegen.rendering.theme.templates import Templates, own_icon
from guidegen.rendering.theme.tokens import tokens_of, tokens_rule

# In the order in which they are put together.
STYLES = (
    "style/site.css",
    "style/guide.css",
    "style/steps.css",
    "style/turning.css",
    "style/archive.css",
    "style/plan.css",
    "style/paper.css",
)
# The bench has one of its own, which guides need not carry.
BENCH_STYLES = (
    *(name for name in STYLES if name not in ("style/plan.css", "style/paper.css")),
    "style/bench.css",
    "style/paper.css",
    "style/sheet.css",
)
SCRIPTS = (
    "scripts/finding.js",
    "scripts/phrases.js",
    "scripts/store.js",
    "scripts/clock.js",
    "scripts/spraying.js",
    "scripts/guide.js",
    "scripts/folds.js",
    "scripts/areas.js",
    "scripts/photos.js",
    "scripts/turning.js",
)
PLAN_SCRIPTS = ("scripts/finding.js", "scripts/store.js", "scripts/plan.js")
BENCH_SCRIPTS = (
    "scripts/finding.js",
    "scripts/phrases.js",
    "scripts/store.js",
    "scripts/clock.js",
    "scripts/alarm.js",
    "scripts/log.js",
    "scripts/bench.js",
)
# What looks whether the reader has told of pots; what is asked for then, and its style; the page that they are told on.
ASK_SCRIPT = "scripts/own.js"
OWN_SCRIPTS = ("scripts/pots.js", "scripts/swaps.js", "scripts/own-lines.js", "scripts/own-paints.js")
OWN_LIST_SCRIPTS = (
    "scripts/phrases.js",
    "scripts/pots.js",
    "scripts/swaps.js",
    "scripts/own-lines.js",
    "scripts/own-lists.js",
)
OWN_STYLE = "style/own-paints.css"
MY_POTS_SCRIPTS = (
    "scripts/finding.js",
    "scripts/phrases.js",
    "scripts/pots.js",
    "scripts/swaps.js",
    "scripts/own-lines.js",
    "scripts/my-pots.js",
)
KEEP_SCRIPT = "scripts/keep.js"
# The home page has both; each looks whether it has anything to do.
HOME_SCRIPTS = ("scripts/search.js", "scripts/keep-all.js")
MOVED_SCRIPT = "scripts/moved.js"
TRYING_STYLE = "style/trying.css"
TRYING_SCRIPTS = ("scripts/finding.js", "scripts/phrases.js", "scripts/trying.js")
# What is asked for once a figure is chosen.
TRYING_TOOLS = (
    "scripts/scheme.js",
    "scripts/figure.js",
    "scripts/reads.js",
    "scripts/apart.js",
    "scripts/clusters.js",
    "scripts/picture.js",
    "scripts/dragging.js",
    "scripts/tray.js",
    "scripts/taking.js",
)
COLOUR_SCRIPTS = ("scripts/colour.js", "scripts/recipes.js")

# The icon in pixels, for home screens that take no drawing: `icon.svg` filled to the edge, and the colour it stands on.
ICON_SIDES = (192, 512)
ICON_GROUND = "#f3f4f0"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assets:
    """Where each asset lies in the site, '' for one that there is not.

    Scripts: `script` of guides, `plan`, `bench`, `search` of the home page, `my_pots`, `trying` with its `trying_tools`;
    `keep` keeps pages offline, `moved` leads on from an old address, `colour` computes colours; `ask` looks whether the
    reader has told of pots, and then guides ask for `own`, shelf and plans for `own_lists`. Styles: `style` of the site,
    and those whose names end so. `icons` have the side of each in pixels.
    """

    style: str
    script: str
    icon: str
    plan: str = ""
    bench: str = ""
    bench_style: str = ""
    keep: str = ""
    search: str = ""
    moved: str = ""
    ask: str = ""
    own: str = ""
    own_lists: str = ""
    own_style: str = ""
    my_pots: str = ""
    colour: str = ""
    trying: str = ""
    trying_tools: str = ""
    trying_style: str = ""
    icons: tuple[tuple[int, str], ...] = ()


def site_assets(templates: Templates, tokens: Mapping[str, str]) -> tuple[Assets, dict[str, bytes]]:
    """Where the assets lie, and their bytes by path in the site. Each is named after what is in it."""
    files: dict[str, bytes] = {}

    def put(stem: str, data: bytes, ending: str) -> str:
        path = "assets/" + asset_name(stem, hashlib.sha256(data).hexdigest(), ending)
        files[path] = data
        return path

    def script(stem: str, *names: str) -> str:
        return put(stem, "".join(script_of(templates, name) for name in names).encode(), ".js")

    def style(stem: str, *names: str) -> str:
        own = tokens_rule(tokens, tokens_of(templates))
        return put(stem, ("".join(style_of(templates, name) for name in names) + own).encode(), ".css")

    # They show our icon, so an author's own stands alone.
    sides = ICON_SIDES if templates.is_ours("icon.svg") else ()
    assets = Assets(
        style=style("site", *STYLES),
        script=script("site", *SCRIPTS),
        plan=script("plan", *PLAN_SCRIPTS),
        bench=script("bench", *BENCH_SCRIPTS),
        bench_style=style("bench", *BENCH_STYLES),
        keep=script("keep", KEEP_SCRIPT),
        search=script("search", *HOME_SCRIPTS),
        moved=script("moved", MOVED_SCRIPT),
        ask=script("ask", ASK_SCRIPT),
        own=script("own", *OWN_SCRIPTS),
        own_lists=script("own-lists", *OWN_LIST_SCRIPTS),
        own_style=put("own", style_of(templates, OWN_STYLE).encode(), ".css"),
        my_pots=script("my-pots", *MY_POTS_SCRIPTS),
        trying=script("try", *TRYING_SCRIPTS),
        trying_tools=script("try-tools", *TRYING_TOOLS),
        trying_style=put("try", style_of(templates, TRYING_STYLE).encode(), ".css"),
        colour=put("colour", colour_script(templates).encode(), ".js"),
        icon=put("icon", templates.source("icon.svg").encode(), ".svg"),
        icons=tuple((side, put(f"icon-{side}", own_icon(side), ".png")) for side in sides),
    )
    return assets, files


def colour_script(templates: Templates) -> str:
    """What computes colours, with the numbers that it does so by in front of it."""
    return colour_tables() + "".join(script_of(templates, name) for name in COLOUR_SCRIPTS)


def own_files(assets: Assets) -> tuple[str, ...]:
    """What pages ask for once their reader has told of pots."""
    return (assets.colour, assets.own, assets.own_lists, assets.own_style)


def script_of(templates: Templates, name: str) -> str:
    """A script, squeezed if it is ours: what authors may write in theirs nobody knows."""
    source = templates.source(name)
    return f"{rjsmin.jsmin(source) if templates.is_ours(name) else source}\n"


def style_of(templates: Templates, name: str) -> str:
    source = templates.source(name)
    return f"{rcssmin.cssmin(source) if templates.is_ours(name) else source}\n"
