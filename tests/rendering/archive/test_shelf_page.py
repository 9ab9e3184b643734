"""The page of the shelf."""

from __future__ import annotations

from dataclasses import replace

from support import town

from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide
from guidegen.rendering.archive.shelf_page import shelf_pages
from guidegen.rendering.guide.summary import summary_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.assets import Assets


def shelf_with(owned, *, gone=(), more=()):
    """The town's shelf with so many pots of every paint."""
    archive = town.archive()
    paints = tuple(
        replace(paint, owned=owned, discontinued=paint.name in gone) for paint in archive.palette.paints
    )
    archive = replace(archive, palette=replace(archive.palette, paints=paints))
    palette_tools = PaletteTools.over(archive.palette)
    context = SiteContext.of(archive, palette_tools, Assets(style="a.css", script="a.js", icon="a.svg"))
    (shelf,) = shelf_pages(
        [
            summary_of(compute_guide(guide, palette_tools), context.chips)
            for guide in (*archive.guides, *more)
        ],
        context,
    )
    return shelf


def test_with_every_pot_at_home_all_can_be_painted():
    shelf = shelf_with(9)
    assert len(shelf.ready) == 2
    assert (shelf.one_short, shelf.short, shelf.wanted) == ((), (), ())


def test_a_guide_that_paints_nothing_is_not_on_the_page():
    shelf = shelf_with(9, more=(replace(town.short_note(), slug="handbook", entries=()),))
    assert len(shelf.ready) == 2


def test_with_an_empty_shelf_what_completes_most_comes_first():
    shelf = shelf_with(0)
    assert not shelf.ready
    assert [guide.link.text for guide in shelf.one_short] == ["The eel seller"]
    assert shelf.wanted[0].completes == 1
    assert all(one.pot.href.startswith("paints/") for one in shelf.wanted)


def test_a_paint_no_longer_sold_names_its_guides_and_the_closest_that_is():
    shelf = shelf_with(9, gone={"Oilskin Ochre"})
    (gone,) = shelf.gone
    assert gone.pot.name == "Oilskin Ochre"
    assert [link.href for link in gone.guides] == ["guides/ferry-watch/index.html"]
    assert gone.closest is None or gone.closest.pot.name != "Oilskin Ochre"
