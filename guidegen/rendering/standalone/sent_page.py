"""A guide's page for sending: what only a site can follow left out, and everything else put inside."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace

from guidegen.computing.guide.computed_guide import ComputedGuide, compute_guide
from guidegen.model.guide import Guide
from guidegen.rendering.archive.palette_script import palette_script
from guidegen.rendering.guide.bench_page import bench_view
from guidegen.rendering.guide.figures import figures_view, finished_file
from guidegen.rendering.guide.guide_page import guide_view
from guidegen.rendering.guide.guide_view import GuideView
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
from guidegen.words.language import Language

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
    view = guide_view(computed, context, path, choices=choice_views(guide, pages, path, links))
    values = _shown(computed, view, path, context)
    html, kept = links.with_photos(templates.render("guide.html", values).decode())
    source = source_block(own, inside, f"{html}{kept}")
    # What speaks of the reader's pots, and stands by itself in a site.
    style, script, told = [context.assets.style], [context.assets.script], ""
    if view.own is not None:
        style.append(context.assets.own_style)
        script += [context.assets.colour, context.assets.own]
        data_of = palette_script(context) + paints_script(computed, context)
        told = f"window.guidegenTold=()=>{{{data_of.decode()}}};\n"
    page = one_file(
        html,
        style=_joined(style, assets) + "".join(style_of(templates, name) for name in STYLES),
        script=_joined(script, assets) + told + "".join(script_of(templates, name) for name in SCRIPTS),
        icon=data_address("image/svg+xml", assets[context.assets.icon]),
        mark=mark_of(path),
        foot=f"{kept}{_script_data(path, context.language)}\n{source}",
    )
    return page.encode()


def _shown(computed: ComputedGuide, view: GuideView, page: str, context: SiteContext) -> dict[str, object]:
    """What the page's template is given: the bench within it, and no place in the world, which only a site has."""
    guide = computed.guide
    frame = frame_of(context, page, "guide", title=guide.title, description=guide.summary)
    drawing = finished_file(computed, context) or b""
    figures = replace(figures_view(computed, context), file=data_address("image/svg+xml", drawing))
    values: dict[str, object] = {"frame": replace(frame, share=None, policy=""), "figures": figures}
    if not guide.handbook:
        view = replace(view, bench=f"#{BENCH}")
        values["bench"] = bench_view(computed, view, figures, page, context, inside=True)
    return values | {"guide": view}


def _joined(files: Iterable[str], assets: Mapping[str, bytes]) -> str:
    return b"".join(assets[file] for file in files).decode()


def _script_data(path: str, language: Language) -> str:
    """The element that tells the script what this file is called and what it may say."""
    data = {"key": file_stem(path), "done": language.t("sent.done"), "clear": language.t("sent.clear")}
    block = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f'<script type="application/json" id="sent-data">{block}</script>'


def file_stem(path: str) -> str:
    """The name of the file for a page of a guide: `ferry-watch`, or `ferry-watch-with-straw-hat`."""
    _, address, name = path.split("/")
    stem = name.removesuffix(".html")
    return address if stem == "index" else f"{address}-{stem}"


def mark_of(path: str) -> str:
    """The mark of the file for a page of a guide."""
    return f"{MARK} {file_stem(path)}"
