"""The photos of a page that travels alone: inside it, each once, and leading to themselves."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from support import town
from support.rendered_town import TEMPLATES

from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Passage
from guidegen.rendering.page.passages import Passages
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.standalone.standalone_links import StandaloneLinks, data_address
from guidegen.rendering.theme.assets import site_assets

COATS, EDGES = (town.PICTURES[f"guides/ferry-watch/{name}.jpg"] for name in ("coats", "edges"))
PHOTO = b"RIFF of a photo"
ADDRESS = "data:image/webp;base64,UklGRiBvZiBhIHBob3Rv"


@pytest.fixture
def links() -> StandaloneLinks:
    return StandaloneLinks([(COATS, PHOTO), (EDGES, b"RIFF of another")])


def test_a_photo_is_put_inside_and_leads_to_itself(links: StandaloneLinks) -> None:
    view = links.picture(COATS, "guides/ferry-watch/index.html", alt='<"Coats">', caption="")
    assert (view.large, view.place, view.src) == ("#photo-1", "photo-1", ADDRESS)
    html, kept = links.with_photos(f"<p>{view.inside}</p>")
    width, height = COATS.sizes[-1]
    assert html == (
        f'<p><img src="{ADDRESS}" width="{width}" height="{height}" alt="&lt;&#34;Coats&#34;&gt;"></p>'
    )
    assert kept == ""


def test_what_is_shown_twice_lies_in_it_once(links: StandaloneLinks) -> None:
    views = [links.picture(COATS, "x.html", alt=alt, caption="") for alt in ("<Coats>", "")]
    other = links.picture(EDGES, "x.html", alt="Edges", caption="")
    unused = links.picture(EDGES, "x.html", alt="Edges", caption="")
    assert len({view.place for view in (*views, other, unused)}) == 4
    html, beside = links.with_photos("".join(view.inside for view in (*views, other)))
    page = BeautifulSoup(html + beside, "html.parser")
    assert str(page).count(ADDRESS) == 1
    (kept,) = page.find_all("image")
    width, height = COATS.sizes[-1]
    assert (kept["href"], kept["width"], kept["height"]) == (ADDRESS, str(width), str(height))
    shown = page.find_all("svg", class_="again")
    assert [one.use["href"] for one in shown if one.use] == [f"#{kept['id']}"] * 2
    assert [one.get("aria-label", one.get("aria-hidden")) for one in shown] == ["<Coats>", "true"]
    assert [one["alt"] for one in page.find_all("img")] == ["Edges"]


def test_a_mark_of_somebody_elses_stays(links: StandaloneLinks) -> None:
    assert links.with_photos("<!--photo-1--><!--photo-->") == ("<!--photo-1--><!--photo-->", "")


def test_in_a_passage_links_leave_their_words_and_photos_among_them_have_none(links: StandaloneLinks) -> None:
    archive = town.archive(town.ferry_watch())
    assets, _ = site_assets(TEMPLATES, {})
    context = SiteContext.of(archive, PaletteTools.over(archive.palette), assets, town.PICTURES)
    passage = Passage(
        html='<p><a data-to="guide:ferry-watch">Here</a>, <a data-to="file:sheet.pdf">there</a>, <a data-to="step:0">up</a>'
        ' <img data-photo="0"></p><img data-photo="0" data-alone>',
        photos=(town.photo("coats.jpg", "Coats"),),
    )

    def page(context: SiteContext) -> BeautifulSoup:
        html = Passages(context=context, page="x.html", steps={0: "#step-coats"}).html(passage)
        return BeautifulSoup(html, "html.parser")

    on_site = page(context)
    assert [len(on_site.select(css)) for css in ("a", "p a picture", "figure a picture")] == [5, 1, 1]
    alone = page(replace(context, links=links))
    assert str(alone.p) == '<p>Here, there, <a href="#step-coats">up</a> <!--photo-1--></p>'
    assert [(tag["href"], tag.get("id")) for tag in alone.find_all("a")] == [
        ("#step-coats", None),
        ("#photo-2", "photo-2"),
    ]


def test_a_drawing_travels_as_text() -> None:
    """RFC 3986: what a browser would strip or cut off is written as percent signs and digits."""
    drawing = '<svg fill="#b8862f">\n<title>50 % & “Öl”</title></svg>'.encode()
    assert data_address("image/svg+xml", drawing) == (
        "data:image/svg+xml,%3Csvg%20fill=%22%23b8862f%22%3E%0A%3Ctitle%3E50%20%25%20%26%20%E2%80%9C%C3%96l%E2%80%9D%3C/title%3E%3C/svg%3E"
    )
