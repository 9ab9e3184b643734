"""What hostile authors write is opened in a real Chromium, with a wire stretched across everything that could run or leak."""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from abuse.injected_texts import OUTSIDE, REFUSED, RUNS, TEXTS
from abuse.injected_values import ADDRESSES, STYLES
from abuse.injections import guide_of, mistaken, site_of
from click.testing import CliRunner
from support.injection_page import AUDIT, WIRE, Wired

from guidegen.base.diagnostic import has_errors
from guidegen.base.own_files import own_templates
from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.building.standalone import wrap
from guidegen.commands import check as check_command
from guidegen.preview.reload import News
from guidegen.preview.server import PANEL_STYLE, WAIT_SCRIPT, PreviewServer
from guidegen.preview.session import panel
from guidegen.rendering.page.frame import POLICY

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext

JSON_LD = "application/ld+json"


@pytest.fixture(scope="module")
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context()
    # Nothing here ever reaches a network; what would is seen all the same.
    made.route(re.compile("^https?://(?!127\\.0\\.0\\.1)"), lambda route: route.abort())
    yield made
    made.close()


@pytest.mark.parametrize("text", RUNS)
def test_the_wire_is_tripped_by_what_runs(context: BrowserContext, tmp_path: Path, text: str):
    """The same text, put into a page as it is: without this, nothing below would prove anything."""
    page = tmp_path / "raw.html"
    page.write_text(f"<!doctype html><meta charset=utf-8><title>x</title><p>{text}", encoding="utf-8")
    wired = Wired(context, page.as_uri())
    wired.page.goto(page.as_uri())
    wired.page.wait_for_timeout(0)
    wired.page.wait_for_function("() => document.readyState === 'complete'")
    trips = wired.page.evaluate("() => window.trips")
    wired.look()
    wired.page.close()
    runs = OUTSIDE not in text
    assert trips or any("a request" in str(what) for _, what in wired.found) or (not runs and wired.found)


def pages_of(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def walked(site: Path) -> list[str]:
    """Pages of every kind; every page is read in another test."""
    pages = pages_of(site)
    some = [path for path in pages if path.count("/") == 0]
    kinds = (r"guides/text.+/index\.html", r"guides/(?!text).+/index\.html", r"guides/.+/(?!index)[^/]+")
    for kind, every in zip(
        (*kinds, r"plans/.+", r"(?!guides/|plans/).+/.+"), (3, 9, 16, 16, 16), strict=True
    ):
        some += [path for path in pages if re.fullmatch(kind, path)][::every]
    return some


def test_every_page_has_the_policy_and_nothing_of_an_authors_in_its_markup(
    made: Path, context: BrowserContext
):
    """Read by the browser's own reader, every page of the site: what it would run, fetch or lead to."""
    home = (made / "site").as_uri() + "/"
    page = context.new_page()
    page.add_init_script(WIRE)
    page.goto((made / "site/index.html").as_uri())
    read = f"""([pages, home]) => pages.flatMap(([path, html]) => {{
        const document = new DOMParser().parseFromString(html, "text/html"), location = new URL(path, home);
        const audit = {AUDIT.replace("window.trips", "[]")};
        const policies = Array.from(document.querySelectorAll("meta[http-equiv=Content-Security-Policy]"), (one) => one.content);
        const first = html.indexOf("http-equiv") < html.indexOf("<script") || !html.includes("<script");
        return audit([home, false]).concat(policies.length === 1 && first ? [] : ["no policy"], policies)
            .map((what) => [path, what]);
    }})"""
    pages = pages_of(made / "site")
    found = []
    for at in range(0, len(pages), 50):
        texts = [(path, (made / "site" / path).read_text(encoding="utf-8")) for path in pages[at : at + 50]]
        found += page.evaluate(read, [texts, home])
    page.close()
    policies = {path: what for path, what in found if what.startswith("default-src")}
    assert {what: path for path, what in found if not what.startswith("default-src")} == {}
    assert list(policies) == pages
    lost = policies.pop("404.html")
    # Pages that lead on to another run nothing at all.
    assert set(policies.values()) <= {POLICY}
    assert re.fullmatch(
        r"default-src 'none'; style-src 'sha256-[\w+/=]{44}'; img-src data:; base-uri 'none'; form-action 'none'",
        lost,
    )


def test_from_the_disk_nothing_of_it_runs(made: Path, context: BrowserContext):
    wired = Wired(context, (made / "site").as_uri() + "/")
    for path in walked(made / "site"):
        wired.open(wired.home + path)
        if re.match(r"guides/text-.[05]/index", path):
            wired.page.locator("#figures").fill("7")
            wired.page.locator("#figures").press("Enter")
            wired.look()
    for path in sorted((made / "site").rglob("*.svg"))[::7]:
        wired.at = path.as_uri()
        wired.page.goto(path.as_uri())
        wired.found += [(path, trip) for trip in wired.page.evaluate("window.trips")]
    wired.page.close()
    assert wired.found == []


def test_what_looks_like_a_template_or_a_reference_stands_there_as_it_was_written(made: Path):
    titles = []
    for number in range(len(TEXTS)):
        page = (made / f"site/guides/text-{number:02}/index.html").read_text(encoding="utf-8")
        heading = re.search("<h1[^>]*>(.*?)</h1>", page, re.DOTALL)
        assert heading is not None
        titles.append(unescape(re.sub("<[^>]*>", "", heading[1])))
    assert [" ".join(title.split()) for title in titles] == [" ".join(text.split()) for text in TEXTS]


def test_what_searches_for_it_finds_it_harmless(made: Path, context: BrowserContext):
    """The home page's search shows titles, steps and sentences of every guide."""
    wired = Wired(context, (made / "site").as_uri() + "/")
    wired.open(wired.home + "index.html")
    box = wired.page.locator("input[type=search]:visible").first
    if box.count():
        for words in ("tripped", "script", "<img", "onerror", '"', "7*7", "outside.example", "</script>"):
            box.fill(words)
            wired.page.locator(".find-out:not([hidden])").wait_for()
            wired.look()
    wired.page.goto(wired.home + "index.html?q=<img src=x onerror=tripped()>#<script>tripped()</script>")
    wired.look()
    wired.page.close()
    assert wired.found == []


def test_in_the_preview_nothing_of_it_runs_and_mistakes_are_shown_harmless(
    made: Path, context: BrowserContext, tmp_path: Path
):
    """The panel over the page quotes what was written; here that is the worst of it."""
    mistakes = mistaken(tmp_path / "content")
    told = check(tmp_path / "content").diagnostics
    assert sum(has_errors([one]) for one in told) >= mistakes
    own = {
        path: (own_templates() / "preview" / Path(path).name).read_bytes()
        for path in (WAIT_SCRIPT, PANEL_STYLE)
    }
    news = News()
    server = PreviewServer(made / "site", 0, news, own)
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True).start()
    try:
        wired = Wired(context, server.address)
        for path in walked(made / "site")[::12]:
            wired.open(server.address + path)
        for at in range(0, len(told), 15):
            shown = panel(told[at : at + 15])
            if shown:
                news.tell(shown)
                wired.page.wait_for_function(
                    "words => (document.getElementById('guidegen-preview') || {innerText: ''}).innerText.includes(words)",
                    arg=next(one for one in told[at:] if has_errors([one])).message[:12],
                )
                wired.look()
        news.tell("<h2>x</h2>")
        wired.page.close()
    finally:
        server.shutdown()
        server.server_close()
    assert wired.found == []


def test_a_guide_that_is_sent_runs_nothing_of_it(made: Path, context: BrowserContext):
    """As one file, opened from anywhere; its policy names its own script and style by their hashes."""
    wired = Wired(context, "file:", alone=True)
    names = [f"text-{number:02}" for number in range(0, len(TEXTS), 14)]
    names += sorted(path.name for path in (made / "site/guides").glob("[mcf]*-*"))[::16]
    checked = check(made / "content")
    guides = [guide for guide in checked.archive.guides if guide.slug in names]
    assert len(guides) > 8
    for guide in guides:
        wrapped = wrap(checked, guide, f"guides/{guide.slug}/index.html", cache=made / "cache")
        assert wrapped.parcel is not None, wrapped.diagnostics
        out = made / wrapped.parcel.name
        out.write_bytes(wrapped.parcel.data)
        html = wrapped.parcel.data.decode()
        policies = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', html)
        hashed = r"'sha256-[\w+/=]{44}'"
        assert len(policies) == 1
        assert re.fullmatch(
            f"default-src 'none'; img-src data:; style-src {hashed}; script-src {hashed}; base-uri 'none'; form-action 'none'",
            policies[0],
        )
        wired.open(out.as_uri())
    wired.page.close()
    assert wired.found == []


@pytest.mark.parametrize("text", [*TEXTS[::13], TEXTS[4]])
def test_a_site_is_called_anything(text: str, tmp_path: Path, context: BrowserContext):
    """The site's own words stand on every page, in its feed, and in what search engines read."""
    from lxml import etree

    content = tmp_path / "content"
    (content / "guides").mkdir(parents=True)
    (content / "site.yaml").write_text(json.dumps(site_of(text, f"{OUTSIDE}/club")), encoding="utf-8")
    front = guide_of(text, "none", "none", "none")
    steps = [{"step": text, "paint": "none", "mind": text, "photo": []}]
    front = {key: front[key] for key in ("title", "summary", "author", "date", "tags")} | {"steps": steps}
    (content / "guides/x.md").write_text(f"---\n{json.dumps(front, indent=1)}\n---\n", encoding="utf-8")
    built = build(Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache"))
    assert built.counts is not None, built.diagnostics
    wired = Wired(context, (tmp_path / "site").as_uri() + "/")
    for path in ("index.html", "404.html", "guides/x/index.html"):
        wired.open(wired.home + path)
    wired.page.close()
    assert wired.found == []
    feed = etree.parse(tmp_path / "site/feed.xml").getroot()
    assert len(feed.findall("{*}entry")) == 1
    assert {etree.QName(one).namespace for one in feed.iter(etree.Element)} == {"http://www.w3.org/2005/Atom"}
    page = (tmp_path / "site/guides/x/index.html").read_text(encoding="utf-8")
    blocks = re.findall(r'<script type="application/ld\+json">(.*?)</script>', page, re.DOTALL)
    assert [json.loads(block)["name"].split() for block in blocks if "HowTo" in block] == [text.split()]


@pytest.mark.parametrize("key", ["url", "tokens"])
def test_addresses_and_styles_of_a_site_are_what_they_are_or_refused(key: str, tmp_path: Path):
    from bs4 import BeautifulSoup

    for number, text in enumerate(ADDRESSES if key == "url" else STYLES):
        content = tmp_path / f"content-{number}"
        content.mkdir()
        site = (
            {"url": text} if key == "url" else {"tokens": {"ground": text, "reading": text, "radius": text}}
        )
        (content / "site.yaml").write_text(json.dumps(site), encoding="utf-8")
        (content / "palette.yaml").write_text("paints: [{name: Ochre, colour: b86}]\n", encoding="utf-8")
        out = tmp_path / f"site-{number}"
        built = build(Order(content=content, out=out, cache=tmp_path / "cache"))
        if built.counts is None:
            assert has_errors(built.diagnostics)
            assert not out.exists()
            continue
        assert key == "url", text
        for path in out.rglob("*.html"):
            page = BeautifulSoup(path.read_bytes(), "html.parser")
            assert not [tag for tag in page.find_all(True) for name in tag.attrs if name.startswith("on")], (
                text
            )
            assert {script.get("type") for script in page.find_all("script") if not script.get("src")} <= {
                JSON_LD
            }, text


@pytest.mark.parametrize("text", REFUSED)
def test_signs_that_no_text_has_are_refused_wherever_they_stand(text: str, tmp_path: Path):
    front = guide_of(text, "Ochre", "Ochre", "none")
    (tmp_path / "guides").mkdir()
    (tmp_path / "guides/x.md").write_text(f"---\n{json.dumps(front, indent=1)}\n---\n", encoding="utf-8")
    refused = sum(one.code == "bad-value" for one in check(tmp_path).diagnostics)
    # Tabs and feeds of paper are white space, and count as a blank.
    assert (refused > 5) == (not " ".join(text.split()).isprintable()), refused
    for form in ("text", "line", "json", "sarif"):
        result = CliRunner().invoke(check_command.command, ["--content", str(tmp_path), "--format", form])
        assert result.exit_code == 1
        # Nothing steers the terminal of who reads it.
        assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f]", result.output)
