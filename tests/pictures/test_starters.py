"""The files that a new content folder begins with: they fill in, and what they say can be read and painted."""

from __future__ import annotations

from pathlib import Path

import jinja2
import pytest

from guidegen.base.source import Source
from guidegen.checking.case import case_of
from guidegen.checking.rules import check_guide, check_palette
from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.model.paint import Palette
from guidegen.model.site import FORMAT
from guidegen.reading.content.guide import read_guide
from guidegen.reading.content.palette import palette_of, read_palette_file
from guidegen.reading.content.plan import read_plan
from guidegen.reading.content.site import read_site

START = Path(__file__).resolve().parents[2] / "templates" / "start"
WORDS = {"title": "Lamp boys", "date": "2026-05-01", "slug": "lamp-boys", "author": "The lamp watch"}


def filled(name: str) -> Source:
    """A starter file with its words put in."""
    room = jinja2.Environment(
        loader=jinja2.FileSystemLoader(START), keep_trailing_newline=True, undefined=jinja2.StrictUndefined
    )
    return Source(file=name, text=room.get_template(name).render(WORDS))


@pytest.fixture
def palette() -> Palette:
    file, told = read_palette_file(filled("palette.yaml"))
    assert told == ()
    found, told = palette_of([file])
    assert told == ()
    assert check_palette(found) == ()
    return found


def test_the_site_can_be_read() -> None:
    site, told = read_site(filled("site.yaml"))
    assert told == ()
    assert site.title == "Lamp boys"
    # Content that is begun today says by which rules, so that later ones read it by them.
    assert site.places.keys() >= {"format"}
    assert site.format == FORMAT


@pytest.mark.parametrize("name", ["guides/first-guide/guide.md", "guide.md"])
def test_a_guide_has_nothing_wrong_with_it(name: str, palette: Palette) -> None:
    guide, told = read_guide(filled(name), slug="first-guide")
    assert told == ()
    assert guide is not None
    assert guide.title == "Lamp boys"
    assert guide.steps
    assert check_guide(case_of(guide, PaletteTools.over(palette))) == ()


def test_the_plan_can_be_read() -> None:
    plan, told = read_plan(filled("plan.yaml"), slug="lamp-boys")
    assert told == ()
    assert plan is not None
    assert [unit.guide.text for unit in plan.units] == ["first-guide"]


def test_every_starter_explains_itself() -> None:
    files = [path for path in START.rglob("*") if path.is_file()]
    assert len(files) == 6
    assert all("#" in path.read_text(encoding="utf-8") for path in files)
