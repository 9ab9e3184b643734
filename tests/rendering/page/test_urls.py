"""Addresses: relative, ending in a file name, and no two pots at one."""

from __future__ import annotations

import pytest
from support import town

from guidegen.model.paint import Mix, Palette
from guidegen.model.web_address import WebAddress
from guidegen.rendering.page.urls import anchors, home_from_anywhere, pot_pages, relative


@pytest.mark.parametrize(
    ("target", "page", "link"),
    [
        ("index.html", "index.html", "index.html"),
        ("paints/index.html", "index.html", "paints/index.html"),
        ("index.html", "guides/ferry-watch/index.html", "../../index.html"),
        ("guides/eel-seller/index.html", "guides/ferry-watch/index.html", "../eel-seller/index.html"),
        (
            "guides/ferry-watch/index.html#step-coats",
            "paints/x.html",
            "../guides/ferry-watch/index.html#step-coats",
        ),
        ("paints/x.html#note", "paints/x.html", "#note"),
    ],
)
def test_links_are_relative_to_the_page(target: str, page: str, link: str) -> None:
    assert relative(target, page) == link


def test_every_pot_has_a_page_of_its_own() -> None:
    pages = pot_pages(town.PALETTE)
    assert pages["Reedbank Acrylics / Pilot's Jersey"] == "paints/reedbank-acrylics-pilots-jersey.html"
    assert pages["Wet Wool wash"] == "paints/mix-wet-wool-wash.html"
    assert len(set(pages.values())) == len(town.PALETTE.paints) + len(town.PALETTE.mixes)


def test_names_that_would_share_a_page_are_told_apart() -> None:
    palette = Palette(
        paints=(
            town.paint("Ash: Grey", "#808080", maker=None),
            town.paint("Ash Grey", "#818181", maker=None),
            town.paint("Index", "#000000", maker=None),
            town.paint("Mix Tar", "#101010", maker=None),
        ),
        mixes=(Mix(name="Tar", parts=(), span=town.HERE),),
    )
    pages = list(pot_pages(palette).values())
    assert pages == [
        "paints/ash-grey.html",
        "paints/ash-grey-2.html",
        "paints/index-2.html",
        "paints/mix-tar.html",
        "paints/mix-tar-2.html",
    ]


def test_steps_of_one_title_have_places_of_their_own() -> None:
    assert anchors(["Coats", "Coats 2", "Coats"], "step-") == ("step-coats", "step-coats-2", "step-coats-3")


def test_the_404_page_finds_home_from_any_depth() -> None:
    assert home_from_anywhere(WebAddress.parse("https://delta.example/bench/")) == "/bench/index.html"
    assert home_from_anywhere(WebAddress.parse("https://delta.example")) == "/index.html"
    assert home_from_anywhere(None) == "index.html"
