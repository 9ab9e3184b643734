"""A guide's page for sending: what only a site can follow left out, and everything else put inside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from guidegen.rendering.guide.guide_view import GuideView
from guidegen.rendering.page.frame import Frame
from guidegen.rendering.page.page import Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import relative
from guidegen.rendering.standalone.alone import Embedded
from guidegen.rendering.standalone.one_file import Insides, one_file
from guidegen.rendering.theme.assets import script_of, style_of
from guidegen.rendering.theme.templates import Templates

STYLE = "style/sent.css"
SCRIPT = "scripts/sent.js"

# Stands in every file that was sent, with the guide's address, so that only such a file is written over.
MARK = "guidegen send"


def sent_page(
    page: Page,
    context: SiteContext,
    templates: Templates,
    assets: Mapping[str, bytes],
    pictures: Mapping[str, Embedded],
) -> bytes:
    """A guide's page as one file. `assets` and `pictures` are by their paths in the site."""
    guide, frame = page.values["guide"], page.values["frame"]
    if not isinstance(guide, GuideView) or not isinstance(frame, Frame):
        raise TypeError(page.path)
    # What only a site has: a place in the world, and somebody who keeps it at hand.
    alone = {"guide": alone_view(guide), "frame": replace(frame, share=None, data="", offline=None)}
    html = templates.render(page.template, {**page.values, **alone}).decode()
    insides = Insides(
        style=assets[context.assets.style].decode() + style_of(templates, STYLE),
        script=assets[context.assets.script].decode() + script_of(templates, SCRIPT),
        icon=assets[context.assets.icon].decode(),
        pictures={relative(path, page.path): one for path, one in pictures.items()},
        data={
            "key": file_stem(page.path),
            "done": context.language.t("sent.done"),
            "clear": context.language.t("sent.clear"),
        },
        mark=mark_of(page.path),
    )
    return one_file(html, insides).encode()


def alone_view(guide: GuideView) -> GuideView:
    """The guide without its bench, exports and other guides; of the variants, it names the one that it shows."""
    choices = (
        replace(choice, options=tuple(one for one in choice.options if one.current))
        for choice in guide.choices
    )
    return replace(guide, bench="", exports=(), see=(), choices=tuple(choices))


def file_stem(path: str) -> str:
    """The name of the file for a page of a guide: `ferry-watch`, or `ferry-watch-with-straw-hat`."""
    _, address, name = path.split("/")
    stem = name.removesuffix(".html")
    return address if stem == "index" else f"{address}-{stem}"


def mark_of(path: str) -> str:
    """The mark of the file for a page of a guide."""
    return f"{MARK} {file_stem(path)}"
