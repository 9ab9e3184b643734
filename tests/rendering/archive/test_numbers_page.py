"""The page of numbers: its rows in an order that hangs on nothing but what is counted."""

from __future__ import annotations

from itertools import product

from support import town

from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.rendering.archive.numbers_page import numbers_view
from guidegen.rendering.guide.summary import Painted, Summary
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.assets import Assets


def test_names_that_differ_in_case_alone_stand_in_the_same_order_at_every_build():
    """Python orders a set of texts differently in every process (PYTHONHASHSEED)."""
    names = tuple("".join(letters) for letters in product("Oo", "Dd", "Dd", "Aa"))
    archive = town.archive()
    assets = Assets(style="a.css", script="a.js", icon="a.svg")
    context = SiteContext.of(archive, PaletteTools.over(archive.palette), assets)
    batch = Painted(by=names, year=2026, figures=1, hands_on=0)
    view = numbers_view([Summary(slug="eel", title="Eel", painted=(batch,))], context)
    assert [row.name.text for row in view.people] == sorted(names)
