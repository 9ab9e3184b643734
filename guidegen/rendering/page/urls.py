"""Where every page and file of a site lies, and links between them that work from `file://` as well."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Mapping
from dataclasses import replace

from guidegen.base.paths import slug
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.model.web_address import WebAddress

HOME = "index.html"
NOT_FOUND = "404.html"
PAINTS = "paints/index.html"
TECHNIQUES = "techniques.html"
CAUTIONS = "cautions.html"
SHELF = "shelf.html"
MY_POTS = "my-pots.html"
COLOURS = "colours.html"
NUMBERS = "numbers.html"
TRYING = "try.html"
# The pots that colours are tried with. It keeps its name, so that a change of a pot leaves the page alone.
TRYING_POTS = "try/pots.js"
PALETTE_CSV = "paints/palette.csv"
PALETTE_GPL = "paints/palette.gpl"
# What pages ask of the palette in a reader's browser. It keeps its name, so that a change of a pot leaves pages alone.
PALETTE_SCRIPT = "paints/palette.js"
# What each guide takes, for the page of the shelf.
GUIDES_SCRIPT = "paints/guides.js"
PLANS = "plans.html"
FEED = "feed.xml"
SITEMAP = "sitemap.xml"
# At the top, since a worker may keep only what lies below it.
WORKER = "offline.js"
MANIFEST = "site.webmanifest"
# What there is to keep for where there is no network, and how much that is.
KEEP_LIST = "offline.json"
# What the home page fetches to search by. It keeps its name, so that a new word in a guide leaves the home page alone.
INDEX = "search-index.js"
# Beside the page of each guide and plan: what later builds tell of it while it is faulty.
SUMMARY = "summary.json"
# What no page shows before a reader asks: for other programs, and for the search.
UNSEEN = frozenset({FEED, SITEMAP, WORKER, MANIFEST, KEEP_LIST, INDEX})

# Addresses under paints/ that no paint may take.
_TAKEN = frozenset({"index"})


def relative(target: str, page: str) -> str:
    """The link from one page to another file of the site, by their paths in it; `target` may carry a #place."""
    path, mark, place = target.partition("#")
    if path == page and mark:
        return mark + place
    # The standard library's own way takes ten times as long, and an archive has a hundred thousand links, most of them
    # into another folder of the site's top.
    if path.partition("/")[0] != page.partition("/")[0]:
        return "../" * page.count("/") + target
    here, there = page.split("/")[:-1], path.split("/")
    common = 0
    for ours, theirs in zip(here, there[:-1], strict=False):
        if ours != theirs:
            break
        common += 1
    return "../" * (len(here) - common) + "/".join(there[common:]) + mark + place


def guide_file(guide_slug: str, name: str = HOME) -> str:
    """A file of a guide: its page, its bench, its exports."""
    return f"guides/{guide_slug}/{name}"


def plan_file(plan_slug: str, name: str = HOME) -> str:
    """A file of a plan: its page, its calendar, its shopping list."""
    return f"plans/{plan_slug}/{name}"


def shared_file(name: str) -> str:
    """The page of a shared list."""
    return f"shared/{name}.html"


def text_page_file(name: str) -> str:
    """A page of words about the archive itself."""
    return f"pages/{name}.html"


def person_file(key: str) -> str:
    """The page of somebody who paints or writes here."""
    return f"people/{slug(key)}.html"


def trying_file(name: str) -> str:
    """What the page where colours are tried asks for."""
    return f"try/{name}"


def shelf_file(number: int) -> str:
    """A page of the shelf after the first, from 2 on."""
    return f"shelf-{number}.html"


def step_places(titles: Iterable[str]) -> tuple[str, ...]:
    """The places of a guide's steps on its page, by their titles in order."""
    return anchors(titles, "step-")


def stop_places(names: Iterable[str]) -> tuple[str, ...]:
    """The places of a guide's stops on its page, by their names in order."""
    return anchors(names, "stop-")


def bench_file(page: str) -> str:
    """The bench of a guide's page, beside it."""
    folder, name = posixpath.split(page)
    return f"{folder}/bench.html" if name == "index.html" else f"{folder}/bench-{name}"


def technique_place(name: str) -> str:
    """The paragraph about a technique of the table."""
    return f"{TECHNIQUES}#{slug(name)}"


def pot_pages(palette: Palette) -> dict[str, str]:
    """The page of each paint and house mix, by full name; a number tells apart what would share an address."""
    pages: dict[str, str] = {}
    taken = set(_TAKEN)
    for pot in palette.pots:
        pages.setdefault(pot.full_name, f"paints/{_numbered(_pot_slug(pot), taken)}.html")
    return pages


def old_pot_pages(palette: Palette, pages: Mapping[str, str]) -> dict[str, Paint]:
    """The paint that each address leads to at which a paint of an old name had its page; none that is in use.

    A paint that was there before it got an edition had its page by its name alone, which leads to the usual one.
    """
    taken = set(pages.values())
    found: dict[str, Paint] = {}
    for paint in sorted(palette.paints, key=lambda one: not one.usual):
        before = [f"{paint.range} {old}" if paint.range and "/" not in old else old for old in paint.was]
        for own in map(slug, (*before, _pot_slug(replace(paint, edition="")))):
            path = f"paints/{own}.html"
            if path not in taken and own not in _TAKEN:
                found.setdefault(path, paint)
    return found


def _pot_slug(pot: Paint | Mix) -> str:
    if isinstance(pot, Mix):
        return slug(f"mix {pot.name}")
    return slug(" ".join(filter(None, (pot.range, pot.name, pot.edition))))


def anchors(titles: Iterable[str], prefix: str) -> tuple[str, ...]:
    """One place name for each title, in order; a number tells apart what would share one."""
    taken: set[str] = set()
    return tuple(_numbered(f"{prefix}{slug(title)}", taken) for title in titles)


def _numbered(wanted: str, taken: set[str]) -> str:
    """The name, with a number from 2 on where it is taken; it is taken from then on."""
    name, count = wanted, 1
    while name in taken:
        count += 1
        name = f"{wanted}-{count}"
    taken.add(name)
    return name


def home_from_anywhere(site: WebAddress | None) -> str:
    """The home page as the 404 page links it: that page may be served at any depth."""
    return f"{site.folder}{HOME}" if site else HOME
