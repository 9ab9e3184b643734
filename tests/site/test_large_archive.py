"""What the pages of an archive of a thousand guides come to: told from two that are smaller."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.content_folders import lay_out

from guidegen.building.build import Order, build
from guidegen.rendering.archive import colours_page, guide_links

# What a page may have at most, with so many guides.
GUIDES, ELEMENTS, BYTES = 1_000, 10_000, 500_000
# The shelf of either is longer than one page already.
FEWER, MORE = 42, 84
PAINTS = 48
STEPS = 12
_SCRIPT, _TAG = re.compile(rb"(?<=<script)[^>]*>[^<]*"), re.compile(rb"<[a-z]")


def content(guides: int) -> str:
    """Guides that share an undercoat and a list, and lack most of their paints."""
    parts = ["» site.yaml", "title: The delta's archive", "» palette.yaml", "paints:"]
    parts += [
        f'  - {{name: Silt {n}, range: Reedbank, colour: "{n * 300_000:06x}", owned: {int(n < 2)}}}'
        for n in range(PAINTS)
    ]
    parts += [
        "» shared/jetty-base.yaml",
        "steps:",
        "  - {step: Planks, technique: base coat, area: base, paint: Silt 1}",
    ]
    for guide in range(guides):
        parts += [
            f"» guides/watch-{guide:04}/guide.md",
            "---",
            f"title: Watch {guide} of the Upper Weir",
            f"date: 20{10 + guide % 15}-01-01",
            "tags: [watch]",
            "figures: 3",
            "steps:",
            "  - {step: Undercoat, technique: prime, area: all, paint: Silt 0, each: 3 min, dry: 60 min}",
        ]
        parts += [
            f"  - {{step: Area {n}, technique: base coat, area: area {n}, paint: Silt {(guide * 7 + n * 5) % PAINTS}, "
            "each: 2 min, dry: 10 min}"
            for n in range(STEPS)
        ]
        parts += ["  - insert: jetty-base", "---", "Told in short."]
    return "\n".join(parts) + "\n"


def site(folder: Path, guides: int) -> Path:
    """The site of so many of them."""
    lay_out(folder / "content", content(guides))
    built = build(Order(content=folder / "content", out=folder / "site", cache=folder / "cache"))
    assert built.counts is not None, built.diagnostics
    return folder / "site"


def weights(folder: Path) -> dict[str, tuple[int, int]]:
    """The elements and bytes of the heaviest page of each kind."""
    heaviest: dict[str, tuple[int, int]] = {}
    for file in sorted(folder.rglob("*.html")):
        path = file.relative_to(folder)
        kind = path.parts[0] if len(path.parts) > 1 else path.stem.partition("-")[0]
        data = file.read_bytes()
        elements = len(_TAG.findall(_SCRIPT.sub(b"", data)))
        before = heaviest.get(kind, (0, 0))
        heaviest[kind] = max(before[0], elements), max(before[1], len(data))
    return heaviest


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The sites of the two archives."""
    folder = tmp_path_factory.mktemp("large")
    with pytest.MonkeyPatch.context() as patch:
        # What is shorter on the pages of large archives is so here in the same parts.
        patch.setattr(colours_page, "LARGE", FEWER - 1)
        patch.setattr(guide_links, "MOST_WITH_STEPS", guide_links.MOST_WITH_STEPS * FEWER // GUIDES)
        return site(folder / "fewer", FEWER), site(folder / "more", MORE)


def test_no_page_of_a_thousand_guides_is_too_large(sites: tuple[Path, Path]) -> None:
    fewer, more = map(weights, sites)
    assert fewer.keys() == more.keys() > {"index", "shelf", "colours", "paints", "shared", "guides"}
    for kind, (elements, size) in more.items():
        for then, now, most in ((fewer[kind][0], elements, ELEMENTS), (fewer[kind][1], size, BYTES)):
            grown = now + (GUIDES - MORE) * max(0, now - then) / (MORE - FEWER)
            assert grown <= most, f"{kind}: {then} with {FEWER} guides, {now} with {MORE}, so {grown:.0f}"


def test_every_guide_is_found_on_the_pages_of_the_shelf_without_scripts(sites: tuple[Path, Path]) -> None:
    first = BeautifulSoup((sites[1] / "shelf.html").read_bytes(), "html.parser")
    pages = [str(link["href"]) for link in first.select(".all-guides > nav:last-of-type a")]
    assert pages[:2] == ["shelf.html", "shelf-2.html"]
    found: list[str] = []
    for page in pages:
        soup = BeautifulSoup((sites[1] / page).read_bytes(), "html.parser")
        found += [str(link["href"]) for link in soup.select(".uses > li > a")]
    assert len(found) == len(set(found)) == MORE
