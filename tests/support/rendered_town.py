"""The invented town's site, rendered without anything being written: every file's bytes by its path."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from bs4 import BeautifulSoup
from support import town
from support.languages import ENGLISH
from support.town import name, step, uses

from guidegen.building.social import socials_over
from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.model.guide import Body
from guidegen.rendering.archive.search_index import search_index
from guidegen.rendering.page.page import Export
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import INDEX
from guidegen.rendering.site.pages import archive_pages, guide_pages, shared_pages
from guidegen.rendering.site.plan_pages import plan_pages
from guidegen.rendering.site.site_files import site_files
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.templates import Templates

TEMPLATES = Templates(ENGLISH)


def site_of(archive, pictures=town.PICTURES) -> dict[str, bytes]:
    palette_tools = PaletteTools.over(archive.palette)
    assets, files = site_assets(TEMPLATES, archive.site.tokens)
    socials = socials_over(archive.palette) if archive.site.url else None
    context = SiteContext.of(archive, palette_tools, assets, pictures, socials)
    made, summaries = [], []
    for guide in archive.guides:
        summary, pages = guide_pages(guide, context, palette_tools)
        summaries.append(summary)
        made.extend(pages)
    made.extend(archive_pages(summaries, context, TEMPLATES))
    made.extend(plan_pages(archive.plans, archive.guides, context))
    made.extend(shared_pages(archive.shared, archive.guides, summaries, context))
    made.append(Export(path=INDEX, data=search_index(summaries)))
    keys = {page.path: page.key("") for page in made}
    sizes = {path: 20_000 for path in keys if path.endswith(".html")}
    made.extend(
        site_files(archive.guides, summaries, keys, context, TEMPLATES, sizes=sizes, loose=archive.loose)
    )
    site = dict(files)
    for page in made:
        assert page.path not in site, page.path
        site[page.path] = page.render(TEMPLATES)
    for picture in pictures.values():
        for width, _ in picture.sizes:
            for ending in ("jpg", "webp"):
                site[picture.path(width, ending)] = b""
    return site


def riders():
    return replace(
        town.ferry_watch(),
        slug="heron-riders",
        title="Heron riders",
        was=(name("old-riders"),),
        choose={"headgear": ("hood", "straw hat")},
        cover=None,
        body=Body(),
        entries=(
            step("Coat", uses("Oilskin Ochre"), ("coat",), each=3, dry=5),
            step("Hood", uses("Deckhand"), ("hood",), each=2, only={"headgear": name("hood")}),
            step("Hat", uses("Ropewalk"), ("hat",), each=2, only={"headgear": name("straw hat")}),
        ),
    )


@cache
def parsed(html: bytes) -> BeautifulSoup:
    return BeautifulSoup(html.decode(), "html.parser")


def soup(site: dict[str, bytes], path: str) -> BeautifulSoup:
    return parsed(site[path])
