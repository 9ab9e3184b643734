"""A page written again for a life without its site: what stays, what goes, what is put inside."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup

from guidegen.rendering.standalone.alone import Embedded, alone
from guidegen.rendering.standalone.one_file import Insides, one_file, pruned, unclosable

PHOTO = Embedded(type="image/webp", data=b"RIFF of a photo")
DRAWING = Embedded(
    type="image/svg+xml", data='<svg fill="#b8862f">\n<title>50 % & “Öl”</title></svg>'.encode()
)
PICTURES = {"../../photos/a-960.jpg": PHOTO, "../../photos/a-1600.jpg": PHOTO, "figure.svg": DRAWING}


def body(html: str) -> str:
    """What becomes of a body."""
    page = alone(f"<html><head></head><body>{html}</body></html>", PICTURES, head="", foot="")
    found = re.fullmatch(r"<html><head></head><body>(.*)</body></html>", page, re.DOTALL)
    assert found is not None, page
    return found[1]


@pytest.mark.parametrize(
    "html",
    [
        '<p>Kept &amp; <b title="a > b">to the letter</b>, &lt;b&gt; &#39;too&#39;.</p>',
        '<a href="#coats">down</a> <a href="https://ferry.example/a?b=1&amp;c">out</a>',
        '<a href="mailto:ferry@delta.example">by mail</a> <a name="old">a place</a>',
        '<nav aria-label="Here"><ul><li><a href="#steps">Steps</a></li></ul></nav>',
        '<svg viewBox="0 0 1 1"><path d="M0 0h1"/><use href="#c-flat"/></svg><br>',
        '<script type="application/json" id="clock-data">{"a": "\\u003cb>"}</script>',
        "<ul><li><p>A paragraph<li>and an item that nobody closed</ul>",
        "<p></p><ul></ul>",
    ],
)
def test_what_stays_stays_to_the_letter(html: str) -> None:
    said = body(html)
    assert BeautifulSoup(said, "html.parser") == BeautifulSoup(html, "html.parser")
    assert "nobody closed" in html or said == html


@pytest.mark.parametrize(
    ("html", "becomes"),
    [
        # A link into the site leaves its words, wherever it stands among others.
        ('<p>In <a href="../../paints/reed.html"><i>Reed</i></a>.</p>', "<p>In <i>Reed</i>.</p>"),
        ('<p><a href="other.html">Alone</a></p>', "<p>Alone</p>"),
        # Without an address, or in a list of links, it goes, and what then holds nothing goes with it.
        ('<ul><li><a href="">To the bench</a></li>\n<li>Steps</li></ul>', "<ul>\n<li>Steps</li></ul>"),
        ('<p><a href="">To the bench</a></p>-', "-"),
        ('<nav><ul>\n<li><a href="../index.html">Guides</a></li>\n</ul></nav>-', "-"),
        (
            '<nav><a href="#a">A</a> <a href="b.html">B</a></nav>',
            '<nav><a href="#a">A</a> </nav>',
        ),
        # Of a choice between pages the one that this is stays, and is no way anywhere.
        (
            '<nav class="choice"><span>hat</span> <a href="index.html" aria-current="page">hood</a> <a href="b.html">b</a></nav>',
            '<div role="group" class="choice"><span>hat</span> <b>hood</b> </div>',
        ),
        # Scripts, styles and links to files of the site; remarks.
        (
            '<script src="../site.js" defer></script><style>p{}</style><link rel="next" href="x"><!-- x -->-',
            "-",
        ),
        ('<script type="application/ld+json">{"a": "<p>"}</script>-', "-"),
        # A picture that nobody brought leaves its words.
        ('<img src="https://harbour.example/logo.png" alt="The harbour &amp; co">', "The harbour &amp; co"),
    ],
)
def test_what_leads_into_the_site(html: str, becomes: str) -> None:
    assert body(html) == becomes


FIGURE = (
    '<figure class="photo"><a href="../../photos/a-1600.jpg"><picture><source type="image/webp" srcset="x 480w">'
    '<img src="../../photos/a-960.jpg" srcset="y 480w" sizes="9rem" width="1600" height="900" alt="&lt;Coats&gt;"'
    ' loading="lazy" decoding="async"></picture></a></figure>'
)


def test_a_photo_is_put_inside_and_its_link_leads_to_itself() -> None:
    assert body(FIGURE) == (
        '<figure class="photo"><a id="photo-1" href="#photo-1"><picture>'
        f'<img src="{PHOTO.address}" width="1600" height="900" alt="&lt;Coats&gt;"></picture></a></figure>'
    )
    assert PHOTO.address == "data:image/webp;base64,UklGRiBvZiBhIHBob3Rv"


def test_a_photo_among_words_has_no_link() -> None:
    html = '<p>See <a href="../../photos/a-1600.jpg"><img src="../../photos/a-960.jpg" alt="this"></a>.</p>'
    assert body(html) == f'<p>See <img src="{PHOTO.address}" alt="this">.</p>'


def test_what_is_shown_twice_lies_in_it_once() -> None:
    page = BeautifulSoup(body(FIGURE + FIGURE.replace("&lt;Coats&gt;", "")), "html.parser")
    assert str(page).count("data:image/webp") == 1
    (kept,) = page.find_all("image")
    assert (kept["href"], kept["width"], kept["height"]) == (PHOTO.address, "1600", "900")
    shown = page.select("figure svg")
    assert [one.use["href"] for one in shown if one.use] == [f"#{kept['id']}"] * 2
    assert [one.get("aria-label", one.get("aria-hidden")) for one in shown] == ["<Coats>", "true"]
    assert not page.find_all("img")


def test_a_drawing_travels_as_text() -> None:
    """RFC 3986: what a browser would strip or cut off is written as percent signs and digits."""
    assert DRAWING.address == (
        "data:image/svg+xml,<svg fill=%22%23b8862f%22>%0A<title>50 %25 %26 %E2%80%9C%C3%96l%E2%80%9D</title></svg>"
    )


def test_the_inside_cannot_end_its_own_element() -> None:
    assert unclosable('say("</SCRIPT>")\r\n//<!-- x', "script") == 'say("<\\/SCRIPT>")\n//<\\!-- x'
    assert unclosable('p::after{content:"</style>"}', "style") == 'p::after{content:"<\\/style>"}'
    page = one_file(
        "<html><head><title>x</title></head><body>.</body></html>",
        Insides(
            style='p{content:"</style><p>"}\n',
            script='"</script><p>";',
            icon="<svg/>",
            pictures={},
            data={"key": "</script><p>"},
            mark='a "mark"',
        ),
    )
    found = BeautifulSoup(page, "html.parser")
    assert not found.find_all("p")
    assert [tag["content"] for tag in found.find_all("meta", attrs={"name": "generator"})] == ['a "mark"']
    assert page.index("Content-Security-Policy") < page.index("<style>") < page.index("<title>")


def test_rules_that_no_element_asks_for_are_left_out() -> None:
    style = """
.card{a:b}
.card,.photo img{a:b}
p.photo:not(.card){a:b}
.lit .photo{a:b}
a{a:b}
@media print{.card{a:b}
.cards{a:b}
}
@page{margin:0}
:root{--card:1}"""
    assert pruned(style, '<p class="photo">x</p> classList.add("lit")').splitlines() == [
        "",
        ".photo img{a:b}",
        "p.photo:not(.card){a:b}",
        ".lit .photo{a:b}",
        "a{a:b}",
        "@media print{.card{a:b}",
        "}",
        "@page{margin:0}",
        ":root{--card:1}",
    ]
