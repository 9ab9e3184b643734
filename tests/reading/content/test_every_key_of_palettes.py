"""Every key of site.yaml, the palette and plans lands in its field, and what is left out takes its default."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from support.content_folders import lay_out
from support.every_key import CASE, plain

from guidegen.base.units import HOUR, MINUTE
from guidegen.model.site import Archive
from guidegen.model.web_address import WebAddress
from guidegen.reading.content.archive import read_archive


def test_site(archive: Archive):
    assert plain(archive.site) == {
        "title": "The Nightjetty Archive",
        "summary": "How the watch is painted.",
        "author": "the Painting Circle",
        "people": [
            {
                "key": "hob",
                "name": "Hob of the Third Jetty",
                "link": plain(WebAddress.parse("https://hob.example/")),
            }
        ],
        "licence": "free to copy",
        "contact": "jetty@club.example",
        "feed_id": "tag:archive.example,2026:painting",
        "gone": {"eel-pie": {"words": "Hob took it back", "date": None}},
        "url": plain(WebAddress.parse("https://archive.example/painting")),
        "language": "de-CH",
        "timezone": "Europe/Amsterdam",
        "currency": "GBP",
        "format": 1,
        "tokens": {"ground": "#1f2a40"},
        "defaults": {
            "figures": 5,
            "scale": {"ratio": 48.0, "text": "1:48", "given": True},
            "base": 30.0,
            "batch": 12,
            "range": "Reedbank Acrylics",
            "steps": {"given": {}},
        },
        "meant": ["unsealed", "photo-without-alt"],
        "cure": 12 * HOUR,
    }


def test_site_left_out(tmp_path: Path):
    read, told = read_archive(lay_out(tmp_path, "» palette.yaml\npaints: [{name: Bare, colour: fff}]\n"))
    assert told == ()
    assert plain(read.site) == {
        "title": "Painting guides",
        "summary": "",
        "author": "",
        "people": [],
        "licence": "",
        "contact": "",
        "feed_id": "",
        "gone": {},
        "url": None,
        "language": "en",
        "timezone": "UTC",
        "currency": "EUR",
        "format": 1,
        "tokens": {},
        "defaults": {
            "figures": 1,
            "scale": {"ratio": 56.0, "text": "1:56", "given": False},
            "base": None,
            "batch": None,
            "range": None,
            "steps": {"given": {}},
        },
        "meant": [],
        "cure": 24 * HOUR,
    }


BARE_PAINT = {
    "name": "Bare",
    "range": "Reedbank Acrylics",  # the site's
    "code": "",
    "edition": "",
    "usual": False,
    "aliases": [],
    "was": [],
    "kind": "paint",
    "colour": "#ffffff",
    "colour_from": "",
    "finish": "",
    "covers": "",
    "binder": "",
    "comes_as": "",
    "size": 17.0,  # the range's, as the next three
    "price": 2.8,
    "drop": 0.04,
    "thinner": "water",
    "owned": 0,
    "discontinued": False,
    "twin_of": None,
    "note": "",
    "hazards": [],
    "strength": 1.0,
    "let_down": None,
}


def test_palette(archive: Archive):
    full = {
        "name": "Oilskin Ochre",
        "range": "Reedbank Acrylics",
        "code": "RB05",
        "edition": "after the fire",
        "usual": True,
        "aliases": ["Ochre", "Watch Yellow"],
        "was": ["Oilskin Yellow"],
        "kind": "primer",
        "colour": "#b8862f",
        "colour_from": "photo",
        "finish": "satin",
        "covers": "fair",
        "binder": "enamel",
        "comes_as": "can",
        "size": 100.0,
        "price": 7.0,
        "drop": 0.04,
        "thinner": "water",
        "owned": 1,
        "discontinued": True,
        "twin_of": "Bare",
        "note": "smells",
        "hazards": ["H222", "EUH208"],
        "strength": 1.5,
        "let_down": {"colour": "#e0c9a0", "paint_parts": 2.0, "white_parts": 9.0, "white": "Bare"},
    }
    clear = BARE_PAINT | {
        "name": "Clear",
        "range": "Ninelock",
        "kind": "medium",
        "colour": None,  # a medium's is ignored
        "size": 24.0,
        "price": None,
        "drop": 0.05,
        "thinner": "",
    }
    assert plain(archive.palette.ranges) == [
        {
            "name": "Reedbank Acrylics",
            "size": 17.0,
            "price": 2.8,
            "thinner": "water",
            "drop": 0.04,
            "note": "shake well",
        },
        {"name": "Ninelock", "size": 24.0, "price": None, "thinner": "", "drop": 0.05, "note": ""},
    ]
    assert plain(archive.palette.paints) == [full, BARE_PAINT, clear]
    assert plain(archive.palette.mixes) == [
        {
            "name": "Mud",
            "parts": [
                {"name": "Oilskin Ochre", "amount": 2.5, "touch": False},
                {"name": "Bare", "amount": 0.1, "touch": True},
            ],
            "kind": "wash",
            "colour": "#4a3b2a",
            "strength": 2.0,
            "aliases": ["Silt"],
            "note": "stir",
            "credit": "the eel seller",
            "owned": 2,
            "size": 17.0,
            "mixed": dt.date(2026, 3, 14),
        },
        {
            "name": "Plain",
            "parts": [{"name": "Bare", "amount": 1.0, "touch": False}],
            "kind": None,
            "colour": None,
            "strength": None,
            "aliases": [],
            "note": "",
            "credit": "",
            "owned": 0,
            "size": None,
            "mixed": None,
        },
    ]


def test_plans(archive: Archive):
    bare, full = plain(archive.plans)
    assert full == {
        "slug": "full",
        "file": "plans/full.yaml",
        "title": "Regatta",
        "start": dt.date(2026, 6, 1),
        "deadline": dt.date(2026, 6, 20),
        "sittings": {
            "weekly": {0: [[1200, 1320]], 1: [], 2: [[1200, 1320]], 5: [[600, 750], [1380, 1500]]},
            "dated": {dt.date(2026, 6, 3): [[540, 600]]},
        },
        "spraying": {"weekly": {5: [[600, 720]]}, "dated": {}},
        "skip": frozenset({dt.date(2026, 6, 10)}),
        "units": [
            {
                "guide": "full",
                "figures": 24,
                "batch": 6,
                "to": "Fit to field",
                "choose": {"headgear": "straw hat"},
                "mixed": {"headgear": {"hood": 14, "straw hat": 10}},
                "trial": 1,
                "done": {1: "Prime", 2: "Fit to field"},
                "without": ["Tufts", "Puddles"],
            },
            {
                "guide": "bare",
                "figures": 3,
                "batch": None,
                "to": None,
                "choose": {},
                "mixed": {},
                "trial": 0,
                "done": {},
                "without": [],
            },
        ],
        "change": {"paint": MINUTE, "mix": 2 * MINUTE, "metal": 3 * MINUTE, "airbrush": 4 * MINUTE},
        "set_up": 10 * MINUTE,
        "clean_up": 5 * MINUTE,
        "cure": 12 * HOUR,
        "since": dt.datetime.fromisoformat("2026-06-02T20:30"),
        "timezone": "Europe/Amsterdam",
        "whole": True,
    }
    evening = [[1200, 1320]]
    # The site's, which the plan leaves out.
    assert bare["cure"] == 12 * HOUR
    assert (bare["deadline"], bare["spraying"], bare["skip"]) == (None, None, frozenset())
    assert bare["sittings"] == {"weekly": {0: evening, 4: evening, 5: evening, 6: evening}, "dated": {}}


def test_british_and_american_are_the_same(tmp_path: Path):
    british = lay_out(tmp_path / "british", CASE.replace("color:", "colour:"))
    american = lay_out(
        tmp_path / "american", CASE.replace("colour:", "color:").replace("licence:", "license:")
    )
    first, second = read_archive(british), read_archive(american)
    assert first[1] == second[1] == ()
    assert plain(first[0].palette) == plain(second[0].palette)
    assert plain(first[0].guides) == plain(second[0].guides)
