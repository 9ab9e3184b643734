"""Whole content folders of odd but possible things: each is built or told, in a sentence that names the file."""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Iterator, Mapping

import pytest
from abuse.fuzzing import AROUND, GUIDE, PHOTO, PLAN, around
from abuse.ordeal import Ordeal, Outcome
from support.content_folders import files_of, put

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells what a process uses and opens"),
]

USUAL = files_of(AROUND)[GUIDE].decode()
STEPS = "steps:\n  - {step: Coats, area: coat, paint: Oilskin Ochre, each: 4 min}\n"
LINKS = ("https://[a:b]/", "https://[::g]", "http://[1:2:3]", "https://[:]", "https://[[::]]", "https://\u2100.example:99999/",
         "https:", "http://@/", "https://%/", "https://x:٣/", "https://\\", "http://[::1", "HTTPS://]", "https://.:0/")  # fmt: skip


def guide(more: str = "", steps: str = STEPS, body: str = "") -> str:
    return f"---\ntitle: Eel seller\ndate: 2026-03-14\n{more}{steps}---\n{body}"


def plan(zone: str, start: str, hours: str, figures: int = 40) -> dict[str, str]:
    week = f'{{mon-sun: ["{hours}"]}}'
    return {
        "site.yaml": f"url: https://delta.example/\ntimezone: {zone}\n",
        PLAN: f"title: x\nstart: {start}\nsittings: {week}\nunits:\n  - {{guide: ferry-watch, figures: {figures}}}\n",
    }


def many(line: str, count: int) -> str:
    return "steps:\n" + "".join(line.replace("N", str(n)) for n in range(count))


EEL = "guides/eel-seller.md"
# What lies there, and a word of what is told where it is not built, '' where it is.
FOLDERS: dict[str, tuple[Mapping[str, str | bytes], str]] = {
    "links that are no address": (
        {EEL: guide(body=" ".join(f"[x]({link}) <{link}> [y](<{link}>)" for link in LINKS))}, ""
    ),
    "a home in brackets": ({"site.yaml": "url: 'https://[.]/x'\n"}, "site.yaml"),
    "a home that falls apart": ({"site.yaml": "url: https://\u2100.example/\n"}, "site.yaml"),
    "a home with odd ports": ({"site.yaml": "url: https://delta.example:99999/\n"}, "site.yaml"),
    "a home of percent signs": ({"site.yaml": "url: https://delta.example/%/%zz/../a//b/%E0%A4%A/index.html\n", EEL: guide()}, ""),
    "a film nowhere": ({EEL: guide("video: 'http://[fe80::1%25eth0]/'\n")}, EEL),
    "links in every block": (
        {EEL: guide(body="".join(f"# [a]({x})\n\n> - [b]({x})\n\n| [c]({x}) |\n|-|\n| ![d]({x}) |\n\n[e]: {x}\n\n" for x in LINKS))}, EEL
    ),
    "a link of words beyond the site": ({EEL: guide(body="[a](../../../../../x.html#[::g]) [b](x//y.html?z) [c](%5B%5D.html) [e](#)")}, ""),
    "formulas": (
        {EEL: guide("materials: [\"glue;=cmd|'/C calc'!A0;x\", '@a', \"x\\t=1\"]\ntools: ['-1|+2', \"a, =b\", '\";=1']\n")}, ""
    ),
    "zones of files": (plan("localtime", "2026-03-28", "1:30-3:30"), "site.yaml"),
    "a skipped day": (plan("Pacific/Apia", "2011-12-29", "20:00-22:00"), ""),
    "a skipped hour": (plan("Europe/Amsterdam", "2026-03-28", "2:10-2:50"), ""),
    "the last day": (plan("Pacific/Kiritimati", "2200-12-31", "23:00-24:00", 3), ""),
    "the first day": (plan("Europe/Amsterdam", "1900-01-01", "0:00-24:00"), ""),
    "places that clash": (
        {EEL: guide(steps="steps:\n" + "".join(f"  - {{step: '{name}', paint: none, each: 1 min}}\n  - stop: '{name}'\n"
                    for name in ("ending", "steps", "Ending", "step-ending", "🦆", "index", "📎", "-", "1")))}, ""
    ),
    "options that look alike": (
        {EEL: guide("choose: {'a b': [x y, x-y, X Y, '🦆', '🦢', index, bench], a-b: [x y, con, nul]}\n")}, ""
    ),
    "the longest of everything": (
        {EEL: guide("figures: 10000\nscale: 1:9999\nsurface: 9999 m2\n", steps=many("  - {step: N, area: all, paint: Mud, each: 24 h, dry: 3650 d, coats: 9}\n", 5))}, EEL
    ),
    "names of pages": (
        {"palette/more.yaml": "paints:\n" + "".join(f"  - {{name: '{name}', colour: '#123456'}}\n" for name in
            ("index", "palette.csv", "con", "..", "🦆", "=1", "a;=b", "%2e%2e", "x" * 200, "<b>", "a|-b"))}, ""
    ),
    "old addresses": ({EEL: guide("was: [index, con, '..', '%2F', ferry-watch, eel-seller, '🦆', 'a?b#c']\n")}, EEL),
    "names of guides": (
        {f"guides/{name}/guide.md": guide() for name in ("index", "con", "e#b", "c?b", "d%2Fb", "guide.md", "🦆", "a b", "-", "x" * 100)}, ""
    ),
    "languages": (
        {"site.yaml": "language: de\nurl: https://delta.example\ncurrency: ZZZ\n", EEL: guide("language: ar-Arab-x-eel\ntitle2: x\n")}, EEL
    ),
    "chapters of any order": (
        {EEL: guide("video: https://films.example/eels?a=[&b=]#[\n", steps="steps:\n" + "".join(f"  - {{step: 'a --> b {at}', paint: none, at: '{at}', each: 1 min}}\n" for at in ("99:59", "0:00", "999:59:59", "0:00")))}, ""
    ),
    "every end of a line": ({EEL: USUAL.replace("coat.jpg", "ferry-watch/coat.jpg").replace("\n", "\r").encode() + b"\r\n\x0c\x0b\xc2\x85\xe2\x80\xa8[x](https://[a:b]/)"}, ""),
    "another encoding": ({EEL: guide(body="Fähre [x](https://[a:b]/)").encode("utf-16")}, EEL),
    "a guide of NULs": ({EEL: b"\0" * 5000}, EEL),
    "a title nobody sees": ({EEL: guide().replace("Eel seller", '"\\u200b\\u2060"')}, ""),
    "files of the site's own names": (
        {"as-is/feed.xml": "x", "as-is/guides/eel-seller/index.html": "x", "as-is/paints": "x", EEL: guide()}, "as-is/feed.xml"
    ),
    "nothing in it": ({EEL: "", "guides/heron.md": "---", "guides/otter.md": "---\n---\n", "guides/x/guide.md": "\ufeff"}, EEL),
    "photos with names of addresses": (
        {**{f"guides/eel-seller/{name}.jpg": around()[PHOTO] for name in ("a%2F..%2F", "a#b", "[::g]", "https:", "a b;c")},
         "guides/eel-seller/guide.md": guide("cover: {file: 'a#b.jpg', alt: x}\n", body="![x](<a%252F..%252F.jpg>) ![x](<[::g].jpg>) ![x](<a b;c.jpg>) ![y](https:.jpg) ![z](https://[a:b]/)")},
        "guides/eel-seller/guide.md"
    ),
    "numbers at their ends": (
        {"palette/more.yaml": "paints:\n  - {name: Eel, colour: '#000', size: 0.001 ml, price: 999999, owned: 9999, let_down: {colour: '#fff', parts: 1:9999}}\n"
         "mixes:\n  - {name: Eels, parts: {Eel: 0.01, Ropewalk: 9999, Silt Wash: a touch}}\n",
         EEL: guide("figures: 10000\n", steps="steps:\n  - {step: a, area: all, paint: {Eels: 1, Eel: 0.01}, each: 1 s, coats: 9, thin: 1:99}\n")}, ""
    ),
    "a guide about itself": ({EEL: guide("see: [eel-seller]\n", body="[a](eel-seller.md) [b](../guides/eel-seller.md#coats) [c](/guides/eel-seller)")}, ""),
    "a plan of nothing": ({PLAN: "title: x\nstart: 2026-03-29\nsittings: {sun: 2:30-2:30}\nunits: []\n"}, PLAN),
    "a list that is a guide": ({"shared/eel-seller.yaml": guide(), "guides/eel-seller.yaml": "steps: []\n"}, "shared/eel-seller.yaml"),
    "references in circles": ({EEL: guide(body="[a]: [a]\n[b]: https://[c]/\n\n[a] [b] [b][a] [[b]][b] ![b][b]\n\n[c]: <https://[d]:٣/> '[c]'\n[C] **[c]**")}, EEL),
    "tags and people": (
        {EEL: guide("tags: ['<a>', ']]>', '&amp;', '🦆', \"\\u202e\", 'a,b;=c']\nauthor: '<script>'\nlicence: ']]>'\nsummary: '--> &#0; ]]>'\n")}, ""
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def ordeal(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ordeal]:
    worker = Ordeal(tmp_path_factory.mktemp("ordeal"))
    yield worker
    worker.close()


def built(ordeal: Ordeal, files: Mapping[str, str | bytes]) -> Outcome:
    content = ordeal.cleared()
    ours = {path: data.encode() if isinstance(data, str) else data for path, data in files.items()}
    put(content, around() | ours)
    site = ["--out", str(ordeal.scratch / "site"), "--cache", str(ordeal.scratch / "cache")]
    return ordeal.put(["build", "--remove-many", "--content", str(content), *site])


@pytest.mark.parametrize("folder", FOLDERS)
def test_is_built_or_told(folder: str, ordeal: Ordeal):
    files, named = FOLDERS[folder]
    outcome = built(ordeal, files)
    assert outcome.failures == (), outcome.said
    assert (outcome.exit, named in outcome.said) == (1 if named else 0, True), outcome.said


def test_a_link_that_is_none_is_told_and_the_site_is_whole(ordeal: Ordeal):
    outcome = built(ordeal, FOLDERS["links that are no address"][0])
    assert outcome.exit == 0
    assert "bad-link" in outcome.said
    assert EEL in outcome.said
    assert '<title type="text">Eel seller</title>' in (ordeal.scratch / "site/feed.xml").read_text("utf-8")


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_no_table_of_a_site_has_a_formula(separator: str, ordeal: Ordeal):
    built(ordeal, {**FOLDERS["formulas"][0], **FOLDERS["names of pages"][0]})
    tables = sorted((ordeal.scratch / "site").rglob("*.csv"))
    assert {table.name for table in tables} == {"materials.csv", "palette.csv", "shopping.csv"}
    for table in tables:
        text = table.read_text("utf-8")
        for line in csv.reader(io.StringIO(text, newline=""), delimiter=separator):
            assert not any(cell.strip().startswith(("=", "+", "-", "@")) for cell in line), (table, line)
