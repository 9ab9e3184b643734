"""A guide is made again when what it takes from the palette changes, and never else: builds show both."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from support.content_folders import bytes_of
from support.edited_archive import begun, built, from_nothing, settle
from support.paths import CONTENT

import guidegen.building.pages
from guidegen.building.memory import Memory
from guidegen.building.pages import PageBuilder

pytestmark = pytest.mark.slow

DEMO = CONTENT
EVERY = ["eel-seller", "ferry-watch", "lamp-boys", "toll-house"]
Edit = Callable[[str, random.Random], str]


def _somewhere(text: str, draw: random.Random, pattern: str, new: str) -> str:
    found = list(re.finditer(pattern, text))
    if not found:
        return text
    at = draw.choice(found)
    return text[: at.start()] + at.expand(new) + text[at.end() :]


EDITS: dict[str, Edit] = {
    "a colour": lambda t, d: _somewhere(t, d, r"#[0-9a-f]{6}", f"#{d.randrange(1 << 24):06x}"),
    "owned": lambda t, d: _somewhere(t, d, r"owned: \d", f"owned: {d.randrange(3)}"),
    "no longer owned": lambda t, d: _somewhere(t, d, r"owned: [1-9],? ?", ""),
    "an amount": lambda t, d: _somewhere(t, d, r": \d(?=[,}\n])", f": {d.randrange(1, 6)}"),
    "a remark": lambda t, d: _somewhere(t, d, r"\n(?=  - )", f"\n# {d.random()}\n"),
    "a price": lambda t, d: _somewhere(t, d, r"price: [\d.]+", f"price: {d.randrange(1, 9)}.5"),
    "no longer sold": lambda t, d: _somewhere(t, d, r"(- \{name: [^,}]+)", r"\1, discontinued: true"),
}


def test_builds_after_edits_of_the_demos_palette_equal_builds_from_nothing(tmp_path: Path):
    content = tmp_path / "content"
    # Photos say nothing of the palette, and small ones are developed sooner.
    shutil.copytree(DEMO, content)
    for file in content.glob("guides/**/*.*"):
        if file.suffix in {".jpg", ".png", ".webp"}:
            with Image.open(file) as picture:
                picture.convert("RGB").reduce(40).save(file)
    settle(content)
    draw, held, sites = random.Random(1), Memory(), 0
    files = sorted((content / "palette").iterdir())
    for number, name in enumerate(EDITS):
        file = draw.choice(files)
        before = file.read_text("utf-8")
        file.write_text(EDITS[name](before, draw), "utf-8")
        site, told = from_nothing(content, tmp_path / f"fresh-{number}")
        kept = built(content, tmp_path / "kept", tmp_path / "cache")
        ram = built(content, tmp_path / "ram", tmp_path / "cache", held)
        assert kept.diagnostics == ram.diagnostics == told, name
        if site is None:
            file.write_text(before, "utf-8")
            continue
        sites += 1
        assert bytes_of(tmp_path / "kept") == site, name
        assert bytes_of(tmp_path / "ram") == site, name
    assert sites >= len(EDITS) - 2


# Of the edited palette's pots one is used by every guide, one by none and far from all that are.
@pytest.mark.parametrize(
    ("old", "new", "made"),
    [
        ('Never Opened, colour: "#551122"', 'Never Opened, colour: "#661122"', []),
        ('Never Opened, colour: "#551122"', 'Never Opened, colour: "#551122", owned: 2', []),
        ("8a6a2f", "8a6a55", EVERY),
        # So near to a paint in use that it is offered instead.
        ('"#551122"', '"#7a6b56"', EVERY),
    ],
)
def test_only_guides_that_take_from_a_pot_are_made_again(
    old: str, new: str, made: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    content = begun(tmp_path / "content")
    settle(content)
    memory = Memory()
    built(content, tmp_path / "site", tmp_path / "cache", memory)
    file = content / "palette.yaml"
    assert old in file.read_text("utf-8")
    again: list[str] = []
    real = guidegen.building.pages.guide_pages
    monkeypatch.setattr(
        "guidegen.building.pages.guide_pages",
        lambda guide, *rest: again.append(guide.slug) or real(guide, *rest),
    )
    file.write_text(file.read_text("utf-8").replace(old, new), "utf-8")
    built(content, tmp_path / "site", tmp_path / "cache", memory)
    assert sorted(again) == made
    assert bytes_of(tmp_path / "site") == from_nothing(content, tmp_path / "fresh")[0]


def test_only_pages_that_show_a_pot_are_rendered_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    content = begun(tmp_path / "content")
    settle(content)
    memory = Memory()
    built(content, tmp_path / "site", tmp_path / "cache", memory)
    file = content / "palette.yaml"
    again: set[str] = set()
    real = PageBuilder._rendered
    monkeypatch.setattr(PageBuilder, "_rendered", lambda self, page: again.add(page.path) or real(self, page))
    file.write_text(file.read_text("utf-8").replace("551122", "661122"), "utf-8")
    built(content, tmp_path / "site", tmp_path / "cache", memory)
    assert {path for path in again if path.endswith(".html")} == {
        "paints/index.html",
        "paints/never-opened.html",
    }
    assert bytes_of(tmp_path / "site") == from_nothing(content, tmp_path / "fresh")[0]
