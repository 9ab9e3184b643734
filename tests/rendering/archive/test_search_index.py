"""The index that the home page searches by: inert, whole, and the newest first."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace

from support import town
from support.rendered_town import riders, site_of, soup
from support.town import step, uses

from guidegen.model.guide import Body, Passage
from guidegen.rendering.archive.search_index import search_index

HEAD, FOOT = "guidegenIndex([\n", "\n]);\n"


def index_of(*guides, **site) -> list[dict]:
    return read(site_of(town.archive(*guides, **site))["search-index.js"])


def read(script: bytes) -> list[dict]:
    text = script.decode()
    assert text.startswith(HEAD)
    assert text.endswith(FOOT)
    return json.loads(f"[{text.removeprefix(HEAD).removesuffix(FOOT)}]")


def test_it_has_every_guide_the_newest_first_each_on_a_line():
    old = replace(riders(), date=dt.date(2001, 1, 1))
    new = replace(town.ferry_watch(), date=dt.date(2002, 1, 1))
    undated = replace(town.short_note(), date=None)
    script = site_of(town.archive(old, undated, new))["search-index.js"]
    assert [guide["slug"] for guide in read(script)] == [new.slug, old.slug, undated.slug]
    assert script.count(b"\n") == 5
    assert search_index([]) == b"guidegenIndex([\n\n]);\n"


def test_it_has_the_words_of_all_that_a_reader_may_remember():
    (guide,) = index_of(town.ferry_watch())
    whole = json.dumps(guide, ensure_ascii=False)
    for word in ("Oilskin Ochre", "Reedbank Acrylics", "Wet Wool wash", "coat", "base coat", "wash"):
        assert word in whole, word
    assert guide["minutes"] > 0
    assert "10 figures" in guide["facts"]
    assert sum(part for _, part in guide["strip"]) <= 1001


def test_steps_lead_to_their_places_on_the_page():
    site = site_of(town.archive(town.ferry_watch(), riders()))
    for guide in read(site["search-index.js"]):
        page = soup(site, f"guides/{guide['slug']}/index.html")
        for title, place, _, _ in guide["steps"]:
            assert title in page.find(id=place).get_text(" ", strip=True)


def test_steps_of_other_variants_are_found_without_a_place():
    (guide,) = index_of(riders())
    assert "Hood" in [title for title, *_ in guide["steps"]]
    assert "Hat" not in [title for title, *_ in guide["steps"]]
    assert "Hat" in guide["text"]
    assert "Ropewalk" in guide["text"]


def test_nothing_in_it_ends_the_script_or_a_line_of_it():
    bad = '</script><script>alert(1)</script>\u2028\u2029<!-- \\ " ]);'
    guide = replace(
        town.ferry_watch(),
        title=bad,
        tags=(bad,),
        body=Body(before=Passage(plain=bad)),
        entries=(step(bad, uses("Oilskin Ochre"), (bad,), mind=bad),),
    )
    script = site_of(town.archive(guide))["search-index.js"]
    text = script.decode()
    assert "<" not in text
    assert not {"\u2028", "\u2029"} & set(text)
    (found,) = read(script)
    assert found["title"] == bad
    assert found["steps"][0][0] == bad
    assert len(text.splitlines()) == 3


def test_what_is_lacking_follows_the_shelf():
    full = replace(
        town.archive(town.ferry_watch()),
        palette=replace(town.PALETTE, paints=tuple(replace(one, owned=9) for one in town.PALETTE.paints)),
    )
    bare = replace(
        full,
        palette=replace(town.PALETTE, paints=tuple(replace(one, owned=0) for one in town.PALETTE.paints)),
    )
    assert read(site_of(full)["search-index.js"])[0]["lacks"] == 0
    assert read(site_of(bare)["search-index.js"])[0]["lacks"] > 3


def test_a_guide_that_paints_nothing_lacks_nothing_and_is_not_ready_either():
    (guide,) = index_of(replace(town.ferry_watch(), entries=()))
    assert guide["lacks"] is None


def test_a_paint_is_found_by_its_other_names_and_its_code():
    paints = tuple(
        replace(one, aliases=("old oilcloth",), code="RB-99") if one.name == "Oilskin Ochre" else one
        for one in town.PALETTE.paints
    )
    archive = replace(town.archive(town.ferry_watch()), palette=replace(town.PALETTE, paints=paints))
    (guide,) = read(site_of(archive)["search-index.js"])
    assert "Reedbank Acrylics / Oilskin Ochre (old oilcloth, RB-99)" in guide["pots"]


def test_a_guide_in_another_language_says_so():
    (guide,) = index_of(replace(town.ferry_watch(), language="cy"))
    assert guide["lang"] == "cy"
    assert "lang" not in index_of(town.ferry_watch())[0]


def test_a_guide_is_found_by_the_year_that_the_home_page_lists_it_under():
    dated = replace(town.ferry_watch(), date=dt.date(2019, 5, 4))
    (guide,) = index_of(dated)
    assert "2019" in guide["text"].split()
    (guide,) = index_of(replace(dated, date=None))
    assert "2019" not in guide.get("text", "")
