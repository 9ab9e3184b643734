"""Nothing in the built demo leads nowhere, nothing lies there unused, and nothing is asked of another machine."""

from __future__ import annotations

import json
import posixpath
import re
from collections import Counter
from collections.abc import Iterator
from urllib.parse import unquote, urlsplit

from bs4 import BeautifulSoup

# Files that no page has to lead to: for web servers, for other programs, and our own record of what was written.
UNLINKED = re.compile(
    r"index\.html|404\.html|sitemap\.xml|guides/[^/]+/guide\.json|(guides|plans)/[^/]+/summary\.json|\.guidegen-manifest.*|\.gitignore"
)
# Names that guides of the demo had before.
OLD_ADDRESSES = ("jetty-watch",)
# Where the demo says that it lives: what begins with it is the site's own, told to those who link to it.
AT_HOME = "https://archive.example/painting/"


def addresses(soup: BeautifulSoup) -> Iterator[str]:
    """Everything that a page leads to, fetches or names by an address."""
    for tag in soup.find_all(True):
        for key in ("href", "src", "poster", "data", "action", "formaction", "xlink:href", "ping"):
            if tag.get(key) is not None:
                yield str(tag[key])
        if tag.get("srcset"):
            for candidate in str(tag["srcset"]).split(","):
                address, width = candidate.split()
                assert re.fullmatch(r"[1-9]\d*w", width), candidate
                yield address
        if tag.name == "meta" and str(tag.get("http-equiv")).lower() == "refresh":
            yield str(tag["content"]).partition("url=")[2]
        for key in ("data-worker", "data-manifest", "data-index", "data-style", "data-palette"):
            if tag.get(key) is not None:
                yield str(tag[key])
        yield from str(tag.get("data-pages", "")).split()
        yield from str(tag.get("data-scripts", "")).split()


def told_outside(soup: BeautifulSoup) -> Iterator[str]:
    """What a page's head tells those who link to it, by whole addresses."""
    yield from (str(link["href"]) for link in soup.find_all("link", rel="canonical"))
    yield from (str(meta["content"]) for meta in soup.find_all("meta", property=["og:url", "og:image"]))


def test_every_address_for_the_outside_is_of_a_file_of_the_site(demo):
    for page, soup in demo.pages.items():
        told = list(told_outside(soup))
        assert len(told) == (0 if page == "404.html" else 3), page
        for address in told:
            assert address.startswith(AT_HOME), page
            assert address.removeprefix(AT_HOME) in demo.files, f"{page} tells of {address}"


def target_of(page: str, address: str) -> str:
    path = unquote(urlsplit(address).path)
    return posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) if path else page


def is_outward(address: str) -> bool:
    """Whether an address leaves the site; an empty icon, `data:,`, keeps browsers from asking for one."""
    return address != "data:," and bool(urlsplit(address).scheme or urlsplit(address).netloc)


def test_every_address_leads_to_a_file_of_the_site_letter_for_letter(demo):
    count = 0
    for page, soup in demo.pages.items():
        for address in addresses(soup):
            if is_outward(address) or address == "data:,":
                continue
            count += 1
            if (
                page == "404.html"
            ):  # it stands for any address, so it names the home page from the server's root
                assert address == urlsplit(AT_HOME).path + "index.html"
                continue
            # A set of names knows capitals from small letters on every disk; a folder is in none of them.
            assert target_of(page, address) in demo.files, f"{page} leads to {address}"
    assert count > 1500


def test_every_place_on_a_page_is_there(demo):
    count = 0
    for page, soup in demo.pages.items():
        for address in addresses(soup):
            place = unquote(urlsplit(address).fragment)
            target = target_of(page, address)
            if "=" in place:  # what the home page is to search for
                assert target == "index.html"
                continue
            if place and not is_outward(address) and target.endswith(".html"):
                count += 1
                assert place in demo.ids[target], f"{page} leads to {address}"
    assert count > 30


def test_what_refers_to_an_id_finds_one(demo):
    for page, soup in demo.pages.items():
        known = set(demo.ids[page])
        for tag in soup.find_all(True):
            for key in ("for", "aria-labelledby", "aria-describedby", "aria-controls", "list", "headers"):
                value = tag.get(key)
                names = value.split() if isinstance(value, str) else value or []
                assert known.issuperset(names), f"{page}: {tag.name} {key}={value}"


def test_no_id_stands_twice(demo):
    for page, names in demo.ids.items():
        assert [name for name, count in Counter(names).items() if count > 1] == [], page


def test_nothing_lies_there_unused(demo):
    used = set()
    for page, soup in demo.pages.items():
        used |= {target_of(page, address) for address in addresses(soup) if not is_outward(address)}
        used |= {address.removeprefix(AT_HOME) for address in told_outside(soup)}
    manifest = json.loads((demo.folder / "site.webmanifest").read_text("utf-8"))
    used |= {icon["src"] for icon in manifest["icons"]}
    for path in demo.files:
        if path.endswith(".css"):
            text = (demo.folder / path).read_text(encoding="utf-8")
            used |= {target_of(path, found) for found in re.findall(r"url\(\s*[\"']?([^\"')]+)", text)}
    # What the page for trying colours asks for once a figure is chosen stands in its attributes.
    trying = str(demo.pages["try.html"])
    used |= {path for path in demo.files if path.endswith(".js") and path in trying}
    # What home keeps for a reader who wants all guides is told in an attribute, too.
    used |= {str(place["data-list"]) for place in demo.pages["index.html"].select("[data-list]")}
    # An old address keeps its files under their old names.
    old = {f"guides/{was}/" for was in OLD_ADDRESSES}
    unused = {
        path for path in demo.files - used if not UNLINKED.fullmatch(path) and not path.startswith(tuple(old))
    }
    # as-is/ is copied whether or not a page leads there; the demo's own files there are linked or none.
    assert unused == set()


def test_nothing_is_asked_of_another_machine(demo):
    """Only a link that a reader follows may lead out; what a page fetches by itself is the site's own."""
    for page, soup in demo.pages.items():
        for tag in soup.find_all(True):
            for key in ("src", "srcset", "poster", "data", "action"):
                assert not is_outward(str(tag.get(key, ""))), f"{page}: {tag}"
            if tag.name in {"link", "use", "image"} and tag.get("rel") != ["canonical"]:
                assert not is_outward(str(tag.get("href", ""))), f"{page}: {tag}"
            if tag.name == "a" and is_outward(str(tag.get("href", ""))):
                assert urlsplit(str(tag["href"])).scheme in {"https", "http"}, f"{page}: {tag}"
    for path in demo.files:
        if path.endswith((".css", ".js")):
            text = (demo.folder / path).read_text(encoding="utf-8")
            assert not re.search(r"@import|url\(\s*[\"']?(?:https?:)?//", text), path
            # The worker stands between the pages and their own server; another test holds it to that.
            asking = r"\b(?:XMLHttpRequest|sendBeacon|WebSocket|EventSource)\b"
            assert not re.search(
                asking if path == "offline.js" else rf"\bfetch\b(?!\(list\))|{asking}", text
            ), path
