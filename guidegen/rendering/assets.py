"""The site's own files: one stylesheet, a script each for guides, plans and benches, one icon, named by what is in them."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping

from guidegen.base.paths import asset_name
from guidegen.rendering.desk import Assets
from guidegen.rendering.environment import Templates

# In the order in which they are put into the one stylesheet and the one script; plans and benches have their own.
STYLES = (
    "style/site.css",
    "style/guide.css",
    "style/steps.css",
    "style/archive.css",
    "style/plan.css",
    "style/bench.css",
    "style/paper.css",
)
SCRIPTS = ("scripts/clock.js", "scripts/spraying.js", "scripts/guide.js", "scripts/areas.js")
PLAN_SCRIPT = "scripts/plan.js"
BENCH_SCRIPT = "scripts/bench.js"

# The tokens of templates/style/site.css that site.yaml may change, and what their values may be made of: a colour,
# a length, a list of fonts, but nothing that ends a rule or fetches anything.
_TOKEN = re.compile(r"[a-z][a-z0-9-]{0,40}")
_REMARK = re.compile(r"^\s*/\*.*?\*/", re.DOTALL | re.MULTILINE)
_VALUE = re.compile(r"[#\w\s.,%'\"()+*/-]{1,200}")


def site_assets(templates: Templates, tokens: Mapping[str, str]) -> tuple[Assets, dict[str, bytes]]:
    """The names of the assets, and their bytes by path in the site."""
    style = "\n".join(map(templates.source, STYLES)) + _tokens_rule(tokens)
    script = "\n".join(_bare(templates.source(name)) for name in SCRIPTS) + "\n"
    plan = _bare(templates.source(PLAN_SCRIPT))
    bench = _bare(templates.source(BENCH_SCRIPT))
    icon = templates.source("icon.svg")
    files: dict[str, bytes] = {}
    named = []
    for stem, text, ending in (
        ("site", style, ".css"),
        ("site", script, ".js"),
        ("plan", plan, ".js"),
        ("bench", bench, ".js"),
        ("icon", icon, ".svg"),
    ):
        data = text.encode()
        path = "assets/" + asset_name(stem, hashlib.sha256(data).hexdigest(), ending)
        files[path] = data
        named.append(path)
    return Assets(style=named[0], script=named[1], plan=named[2], bench=named[3], icon=named[4]), files


def _bare(script: str) -> str:
    """A script without its indentation, the remarks on lines of their own, and line ends that nothing hangs on."""
    kept = ""
    for line in map(str.strip, _REMARK.sub("", script).splitlines()):
        if line and not line.startswith("//"):
            kept += line if line.endswith((";", "{", ",", "(")) and "//" not in line else f"{line}\n"
    return kept


def _tokens_rule(tokens: Mapping[str, str]) -> str:
    kept = {
        name: value.strip()
        for name, value in tokens.items()
        if _TOKEN.fullmatch(name) and _VALUE.fullmatch(value) and "url(" not in value.lower()
    }
    if not kept:
        return ""
    rules = "".join(f"  --{name}: {value};\n" for name, value in sorted(kept.items()))
    return f"\n:root {{\n{rules}}}\n"
