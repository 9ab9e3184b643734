"""Every key of a guide and of its steps lands in its field, and what is left out takes its default."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

from support.every_key import plain

from guidegen.model.site import Archive
from guidegen.model.web_address import WebAddress

MIN = 60_000

BARE_STEP = {
    "title": "Only",
    "id": "",
    "technique": "",
    "areas": [],
    "paint": {"use": "list", "parts": [{"name": "Bare", "amount": 1.0, "touch": False}]},
    "once": 0,
    "each": 0,
    "dry": {"air": 0, "warm": None},
    "holds_area": False,
    "rest": False,
    "coats": 1,
    "brush": "",
    "thin": None,
    "share": None,
    "amount": None,
    "instead": [],
    "photos": [],
    "at": None,
    "mind": "",
    "look_for": "",
    "if_wrong": "",
    "spots": "",
    "stray": [],
    "optional": False,
    "only": {},
    "materials": [],
    "tools": [],
    "shared": None,
    "unread": frozenset(),
}

BARE_GUIDE = {
    "slug": "bare",
    "file": "guides/bare.md",
    "title": "Bare",
    "kind": "painting",
    "summary": "",
    "author": "",
    "authors": [],
    "credit": "",
    "licence": "",
    "video": None,
    "language": "",
    "date": None,
    "published": None,
    "updated": None,
    "tags": [],
    "see": [],
    "was": [],
    "draft": False,
    "scale": {"ratio": 48.0, "text": "1:48", "given": True},  # the site's, as the base and the figures
    "base": 30.0,
    "surface": None,
    "figures": 5,
    "batch": 12,
    "cover": None,
    "figure": None,
    "materials": [],
    "tools": [],
    "reference": [],
    "made": [],
    "leave": [],
    "meant": [],
    "choose": {},
    "entries": [BARE_STEP],
    "inserts": [],
    "body": {
        "before": {"html": "", "plain": "", "photos": [], "links": []},
        "under": {},
        "after": {"html": "", "plain": "", "photos": [], "links": []},
    },
    "chart": None,
}

CREDITED = {"by": "Hob of the Third Jetty", "licence": "free"}
PHOTO_FILE = {
    "file": "photo.jpg",
    "path": "guides/full/photo.jpg",
    "alt": "",
    "caption": "",
    "by": "",
    "licence": "",
}


def item(name: str, purpose: str = "", amount: str = "", *cautions: str) -> dict[str, Any]:
    return {"name": name, "purpose": purpose, "amount": amount, "cautions": list(cautions)}


def test_guide_left_out(archive: Archive):
    bare = archive.guide("bare")
    assert bare is not None
    assert plain(bare) == BARE_GUIDE


def test_guide(archive: Archive):
    full = archive.guide("full")
    assert full is not None
    assert plain(dataclasses.replace(full, entries=())) == BARE_GUIDE | {
        "slug": "full",
        "file": "guides/full/guide.md",
        "title": "Full",
        "summary": "All that can be said.",
        "author": "Hob of the Third Jetty",
        "authors": ["Hob of the Third Jetty"],
        "credit": "the ferry",
        "licence": "free to copy",
        "video": plain(WebAddress.parse("https://films.example/full")),
        "language": "nl",
        "kind": "handbook",
        "date": dt.date(2026, 3, 14),
        "published": dt.date(2026, 3, 20),
        "updated": dt.date(2026, 4, 1),
        "tags": ["watch", "batch"],
        "see": ["bare"],
        "was": ["old-full"],
        "draft": True,
        "scale": {"ratio": 56.0, "text": "28 mm", "given": True},
        "base": 25.0,
        "surface": 5_000.0,
        "figures": 10,
        "batch": 5,
        "cover": PHOTO_FILE | {"alt": "The lot", "caption": "All ten"} | CREDITED,
        "figure": "watchman",
        "materials": [item("corks"), item("glue", "the base", "5 ml", "air the room")],
        "tools": [item("old brush")],
        "reference": [
            {
                "photo": PHOTO_FILE | {"alt": "A sketch"},
                "source": "the museum",
                "swatches": [{"name": "coat", "colour": "#bb8866"}],
            }
        ],
        "made": [
            {
                "date": dt.date(2025, 11, 8),
                "figures": 6,
                "minutes": {"Coats": 750_000},
                "choose": {"headgear": "hood"},
                "mixed": {"headgear": {"hood": 6}},
                "by": "Hob of the Third Jetty",
                "used": [{"paint": "Bare", "edition": "first", "colour": "#ffffff"}],
                "note": "too dark",
            }
        ],
        "leave": ["Straps"],
        "meant": [
            {"code": "highlight-darker", "step": "Coats"},
            {"code": "wash-dried-short", "step": "bare"},
        ],
        "choose": {"headgear": ["hood", "straw hat"]},
        "entries": [],
        "inserts": ["jetty-base"],
    }


def test_steps(archive: Archive):
    full = archive.guide("full")
    assert full is not None
    coats, stop, boards, tidy, beside = plain(full.entries)
    assert coats == {
        "title": "Coats",
        "id": "ochre",
        "technique": "base coat",
        "areas": ["coat", "hood"],
        "paint": {
            "use": "parts",
            "parts": [
                {"name": "Oilskin Ochre", "amount": 2.0, "touch": False},
                {"name": "Bare", "amount": 1.0, "touch": False},
            ],
        },
        "once": 10 * MIN,
        "each": 90 * MIN,
        "dry": {"air": 30 * MIN, "warm": 5 * MIN},
        "holds_area": True,
        "rest": True,
        "coats": 2,
        "brush": "size 2",
        "thin": {"text": "3:1 water", "paint_share": 0.75},
        "share": 0.36,
        "amount": 0.2,
        "instead": [
            {"parts": [{"name": "Clear", "amount": 1.0, "touch": False}], "note": ""},
            {
                "parts": [
                    {"name": "Mud", "amount": 1.0, "touch": False},
                    {"name": "Bare", "amount": 2.0, "touch": False},
                ],
                "note": "warmer",
            },
        ],
        "photos": [PHOTO_FILE | {"alt": "Ochre coats"}, PHOTO_FILE | {"alt": "Near", "caption": "So"}],
        "at": 64 * MIN + 5_000,
        "mind": "the edge",
        "look_for": "an even yellow",
        "if_wrong": "wait",
        "spots": "under the arm",
        "stray": ["hands"],
        "optional": True,
        "only": {"headgear": "hood"},
        "materials": [item("gel", "puddles")],
        "tools": [item("palette")],
        "shared": None,
        "unread": frozenset(),
    }
    assert stop == {"name": "Fit to field"}
    assert boards == BARE_STEP | {
        "title": "Boards",
        "paint": {"use": "none", "parts": []},
        "shared": "jetty-base",
        "dry": {"air": 2 * MIN, "warm": MIN},
        "holds_area": True,
    }
    assert tidy == BARE_STEP | {
        "title": "Tidy",
        "paint": {"use": "as before", "parts": []},
        "technique": "glaze",
        "dry": {"air": 2 * MIN, "warm": MIN},
        "holds_area": True,
        "brush": "size 8",
        "thin": {"text": "2:1 water", "paint_share": 0.666666667},
    }
    assert beside["paint"] == {
        "use": "list",
        "parts": [
            {"name": "Bare", "amount": 1.0, "touch": False},
            {"name": "Mud", "amount": 1.0, "touch": False},
        ],
    }


def test_pages_of_words(archive: Archive):
    bare, full = archive.pages
    assert (bare.slug, bare.title, bare.menu, bare.order, bare.text.plain) == (
        "bare",
        "Imprint",
        False,
        0,
        "",
    )
    assert (full.slug, full.title, full.menu, full.order) == ("full", "About the circle", True, 3)
    assert full.text.plain == "Words."
