"""A guide's page for sending: what only a site can follow left out, and everything else put inside."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace

from guidegen.computing.guide.computed_guide import compute_guide
from guidegen.model.guide import Guide
from guidegen.rendering.archive.palette_script import palette_script
from guidegen.rendering.guide.bench_page import bench_view
from guidegen.rendering.guide.figures import figures_view, finished_file
from guidegen.rendering.guide.guide_page import guide_view
from guidegen.rendering.guide.paints_script import paints_script
from guidegen.rendering.guide.variants import choice_views, variants
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.page.pictures import Picture
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.standalone.one_file import one_file
from guidegen.rendering.standalone.own_source import OwnSource, source_block
from guidegen.rendering.standalone.standalone_links import StandaloneLinks, data_address
from guidegen.rendering.theme.assets import script_of, style_of
from guidegen.rendering.theme.templates import Templates

# What it needs beside what a guide's page has: the bench lies within it.
STYLES = ("style/bench.css", "style/sheet.css", "style/sent.css")
SCRIPTS = ("scripts/alarm.js", "scripts/log.js", "scripts/bench.js", "scripts/sent.js")

# The bench's place in the page.
BENCH = "paint-along"

# Stands in every file that was sent, with the guide's address, so that only such a file is written over.
MARK = "guidegen send"


def sent_page(
    guide: Guide,
    path: str,
    context: SiteContext,
    templates: Templates,
    assets: Mapping[str, bytes],
    photos: Iterable[tuple[Picture, bytes]],
    own: OwnSource,
) -> bytes:
    """A guide's page as one file. `path` is the page's and those of `assets` are the files' in the site; `photos` are
    what is put inside, as WebP, each beside its picture; `own` is what the page is made from, which it takes along.

    Raises BrokenTemplateError where a template of the author's own cannot be used.
    """
    inside = dict(photos)
    links = StandaloneLinks(inside.items())
    context = replace(context, links=links)
    pages = variants(guide)
    computed = compute_guide(guide, context.palette_tools, choice=pages[path])
    frame = frame_of(context, path, "guide", title=guide.title, description=guide.summary)
    drawing = finished_file(computed, context) or b""
    view = guide_view(computed, context, path, choices=choice_views(guide, pages, path, links))
    figures = replace(figures_view(computed, context), file=data_address("image/svg+xml", drawing))
    # A place in the world only a site has.
    values: dict[str, object] = {"frame": replace(frame, share=None, policy=""), "figures": figures}
    if not guide.handbook:
        view = replace(view, bench=f"#{BENCH}")
        values["bench"] = bench_view(computed, view, figures, path, context, inside=True)
    values["guide"] = view
    html, kept = links.with_photos(templates.render("guide.html", values).decode())
    t = context.language.t
    data = {"key": file_stem(path), "done": t("sent.done"), "clear": t("sent.clear")}
    block = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    source = source_block(own, inside, f"{html}{kept}")
    # What speaks of the reader's pots, and stands by itself in a site.
    style, script = [context.assets.style], [context.assets.script]
    told = ""
    if view.own is not None:
        style.append(context.assets.own_style)
        script += [context.assets.colour, context.assets.own]
        data_of = palette_script(context) + paints_script(computed, context)
        told = f"window.guidegenTold=()=>{{{data_of.decode()}}};\n"
    page = one_file(
        html,
        style=b"".join(assets[file] for file in style).decode()
        + "".join(style_of(templates, name) for name in STYLES),
        script=b"".join(assets[file] for file in script).decode()
        + told
        + "".join(script_of(templates, name) for name in SCRIPTS),
        icon=data_address("image/svg+xml", assets[context.assets.icon]),
        mark=mark_of(path),
        foot=f'{kept}<script type="application/json" id="sent-data">{block}</script>\n{source}',
    )
    return page.encode()


def file_stem(path: str) -> str:
    """The name of the file for a page of a guide: `ferry-watch`, or `ferry-watch-with-straw-hat`."""
    _, address, name = path.split("/")
    stem = name.removesuffix(".html")
    return address if stem == "index" else f"{address}-{stem}"


def mark_of(path: str) -> str:
    """The mark of the file for a page of a guide."""
    return f"{MARK} {file_stem(path)}"
