"""Each page of the built demo: its policy, its outline, its pictures, and chips in the palette's colours."""

from __future__ import annotations

import itertools
import re

import pytest
from support.paths import CONTENT

from guidegen.model.paint import COLOURLESS, Ambiguous, Paint
from guidegen.reading.content.archive import read_palette


def test_the_policy_stands_first_and_lets_nothing_inline_through(demo):
    for path, soup in demo.pages.items():
        policy = soup.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
        assert policy is not None, path
        rules = dict(rule.split(maxsplit=1) for rule in policy["content"].split(";") if rule.strip())
        assert rules["default-src"] == "'none'", path
        assert "unsafe" not in policy["content"], path
        assert "http" not in policy["content"], path
        fetching = soup.find(["link", "script", "style", "img"])
        assert fetching is None or policy.sourceline <= fetching.sourceline, path


def test_no_inline_style_or_script(demo):
    for path, soup in demo.pages.items():
        for tag in soup.find_all(True):
            assert "style" not in tag.attrs, f"{path}: {tag.name}"
            assert not [key for key in tag.attrs if key.startswith("on")], f"{path}: {tag}"
        for script in soup.find_all("script"):
            assert script.get("src") or script.get("type") in {"application/json", "application/ld+json"}, (
                path
            )
        # The lost page stands for any address, so it carries its style; its policy names the style's hash.
        for style in soup.find_all("style"):
            assert path == "404.html"
            assert "'sha256-" in soup.find("meta", attrs={"http-equiv": True})["content"], style


def test_one_first_heading_a_title_and_a_language(demo):
    titles = []
    for path, soup in demo.pages.items():
        assert len(soup.find_all("h1")) == 1, path
        assert soup.h1.get_text(strip=True), path
        assert soup.html["lang"], path
        titles.append(soup.title.get_text(strip=True))
        levels = [int(tag.name[1]) for tag in soup.find_all(re.compile(r"h[1-6]"))]
        assert all(deeper - level <= 1 for level, deeper in itertools.pairwise(levels)), path
    assert all(titles)


def test_pictures_say_what_they_show_and_how_large_they_are(demo):
    count = 0
    for path, soup in demo.pages.items():
        for image in soup.find_all("img"):
            count += 1
            assert image.has_attr("alt"), f"{path}: {image}"
            if not image["src"].endswith(".svg"):  # a drawing fills what room there is
                assert int(image["width"]) > 0, path
                assert int(image["height"]) > 0, path
    assert count > 20


def test_every_photo_of_a_guide_is_described(demo):
    for path, soup in demo.pages.items():
        if path.startswith("guides/"):
            assert all(image["alt"].strip() for image in soup.select("figure img")), path


@pytest.mark.parametrize("pages", [("guides/",), ("paints/", "shelf.html")])
def test_a_chip_has_the_palettes_colour(demo, pages: tuple[str, ...]):
    palette, told = read_palette(CONTENT)
    assert not told
    seen = set()
    for path, soup in demo.pages.items():
        if not path.startswith(pages):
            continue
        for pot in soup.select("span.pot"):
            if pot.select_one(".blend-parts"):
                continue
            if pot.a is None:  # at the bench a pot leads nowhere
                continue
            name, maker = pot.a.get_text(strip=True), pot.small
            full = f"{maker.get_text(strip=True)} / {name}" if maker else name
            found = palette.find(full) or palette.find(name)
            assert found is not None, f"{path}: {full}"
            if isinstance(found, Ambiguous) or not isinstance(found, Paint):
                continue
            use = pot.select_one("svg.chip use")
            told_colour = None if found.kind in COLOURLESS else found.colour
            assert use.get("fill") == told_colour, f"{path}: {full}"
            seen.add(found.full_name)
    assert len(seen) > 15
