"""The feed over some years: each change is seen once, and nothing else is new to whoever reads it."""

from __future__ import annotations

from pathlib import Path

import feedparser
import pytest
from support.content_folders import lay_out

from guidegen.building.build import Built, Order, build

pytestmark = pytest.mark.slow

SITE = "» site.yaml\ntitle: The jetty\nurl: {url}\n{more}"
PALETTE = "» palette.yaml\npaints: [{name: Oilskin Ochre, colour: b8862f}]\n"
GUIDE = "» guides/{name}.md\n---\ntitle: {name}\n{more}\nsteps: [{{step: Coat, paint: Oilskin Ochre, each: 9 min}}]\n---\n"


class Reader:
    """Somebody's feed reader, on the library feedparser: an entry is seen again when its `updated` is another (RFC 4287,
    section 4.2.15).
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.seen: dict[str, object] = {}
        self.identity = ""

    def hears_of(self, text: str) -> tuple[list[str], Built]:
        content = lay_out(self.folder / "content", text)
        built = build(Order(content=content, out=self.folder / "site", cache=self.folder / "cache"))
        assert built.counts is not None, built.diagnostics
        feed = feedparser.parse((self.folder / "site" / "feed.xml").read_bytes())
        assert not feed.bozo
        assert feed.version == "atom10"
        news = [one.title for one in feed.entries if self.seen.get(one.id) != one.updated_parsed]
        self.seen |= {one.id: one.updated_parsed for one in feed.entries}
        self.identity = feed.feed.id
        return sorted(news), built


def site(url: str = "https://jetty.example/", more: str = "") -> str:
    return SITE.format(url=url, more=more)


def guide(name: str, more: str) -> str:
    return GUIDE.format(name=name, more=more)


def test_five_years_of_changes(tmp_path: Path):
    reader = Reader(tmp_path)
    first = site() + PALETTE + guide("eels", "date: 2021-05-01") + guide("lamps", "date: 2022-01-01")
    assert reader.hears_of(first)[0] == ["eels", "lamps"]
    assert reader.hears_of(guide("undated", "summary: No day"))[0] == []
    old = guide("boats", "date: 2017-02-02\npublished: 2023-03-03")
    assert reader.hears_of(old)[0] == ["boats"]
    assert reader.hears_of(guide("eels", "date: 2021-05-01\nsummary: A slip mended"))[0] == []
    assert reader.hears_of(guide("eels", "date: 2021-05-01\nupdated: 2024-04-04"))[0] == ["eels"]
    text = (tmp_path / "site" / "sitemap.xml").read_text(encoding="utf-8")
    assert "guides/eels/index.html</loc><lastmod>2024-04-04" in text
    assert "guides/boats/index.html</loc><lastmod>2023-03-03" in text
    (tmp_path / "content" / "guides" / "eels.md").unlink()
    assert reader.hears_of(guide("eel-pie", "date: 2021-05-01\nupdated: 2024-04-04\nwas: [eels]"))[0] == []
    assert reader.identity == "tag:jetty.example,2026:/"
    both = guide("lamps", "date: 2022-01-01\nupdated: 2025-01-01") + guide("nets", "date: 2025-02-02")
    assert reader.hears_of(both)[0] == ["lamps", "nets"]
    (tmp_path / "content" / "guides" / "nets.md").unlink()
    assert reader.hears_of(PALETTE)[0] == []
    news, built = reader.hears_of(site("https://elsewhere.example/club"))
    assert news == ["boats", "eel-pie", "lamps"]
    assert built.note is not None
    assert "write feed_id: tag:jetty.example,2026:/ in site.yaml" in built.note
    kept = site("https://third.example/", "feed_id: tag:elsewhere.example,2026:/club/\n")
    news, built = reader.hears_of(kept)
    assert (news, built.note) == ([], None)


def test_the_feeds_own_day_does_not_go_back_where_the_newest_goes(tmp_path: Path):
    def changed() -> str:
        return str(feedparser.parse((tmp_path / "site" / "feed.xml").read_bytes()).feed.updated)

    reader = Reader(tmp_path)
    both = guide("eels", "date: 2021-05-01") + guide("nets", "date: 2025-02-02")
    assert reader.hears_of(site() + PALETTE + both)[0] == ["eels", "nets"]
    assert changed() == "2025-02-02T00:00:00Z"
    (tmp_path / "content" / "guides" / "nets.md").unlink()
    gone = site(more="gone: {nets: {words: Marl took them back., date: 2025-03-03}, boats: Sunk.}\n")
    assert reader.hears_of(gone)[0] == []
    assert changed() == "2025-03-03T00:00:00Z"
    page = (tmp_path / "site" / "guides" / "nets" / "index.html").read_text(encoding="utf-8")
    assert "Marl took them back." in page
