"""When a plan's files have to be made again: whenever something that they are made from has changed, and only then."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import replace

import pytest
from support import town
from support.plans import evening, guide_of, plan_of, step, unit
from support.rendered_town import site_of

from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.model.site import Archive
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.site import plan_pages as module
from guidegen.rendering.site.plan_pages import plan_pages
from guidegen.rendering.theme.assets import Assets

WATCH = guide_of("ferry-watch", step("Coats", 5, 10, 15))
OTHER = guide_of("toll-house", step("Wall", 5, 10, 15))
PLAN = plan_of(unit(WATCH, 3), skip=frozenset({dt.date(2026, 4, 13), dt.date(2026, 4, 20)}))
ARCHIVE = replace(town.archive(WATCH, OTHER), plans=(PLAN,))


def keys(archive: Archive, drafts: tuple[str, ...] = ()) -> dict[str, str]:
    """The key of each file, where the guides named in `drafts` have no page."""
    shown = replace(archive, guides=tuple(guide for guide in archive.guides if guide.slug not in drafts))
    palette_tools = PaletteTools.over(archive.palette)
    context = SiteContext.of(
        shown, palette_tools, Assets(style="a.css", script="a.js", icon="a.svg", plan="p.js")
    )
    return {page.path: page.key("1") for page in plan_pages(archive.plans, archive.guides, context)}


def dearer(archive: Archive) -> Archive:
    first, *others = archive.palette.paints
    palette = replace(archive.palette, paints=(replace(first, price=99.0), *others))
    return replace(archive, palette=palette)


def slower(archive: Archive) -> Archive:
    guide = guide_of("ferry-watch", step("Coats", 5, 11, 15))
    return replace(archive, guides=(guide, archive.guides[1]))


def with_plan(**more: object) -> Callable[[Archive], Archive]:
    return lambda archive: replace(archive, plans=(replace(archive.plans[0], **more),))


CHANGES = {
    "a price": dearer,
    "a step's time": slower,
    "the currency": lambda archive: replace(archive, site=replace(archive.site, currency="GBP")),
    "the time zone": with_plan(timezone="Asia/Tokyo"),
    "a day to skip": with_plan(skip=frozenset({dt.date(2026, 4, 13)})),
    "a deadline": with_plan(deadline=dt.date(2026, 5, 1)),
    "an evening": with_plan(sittings=replace(PLAN.sittings, weekly={1: evening(20, 22)})),
}


def test_what_the_files_are_made_from_has_changed():
    before = keys(ARCHIVE)
    assert set(before) == {
        "plans.html",
        *(
            f"plans/regatta/{name}"
            for name in ("index.html", "paints.js", "plan.ics", "shopping.csv", "summary.json")
        ),
    }
    for what, change in CHANGES.items():
        after = keys(change(ARCHIVE))
        assert set(after) == set(before)
        assert not [path for path in after if after[path] == before[path]], what
    hidden = keys(ARCHIVE, drafts=("ferry-watch",))
    assert not [path for path in hidden if hidden[path] == before[path]]


def test_the_change_is_none_of_the_plans_business():
    slow = guide_of("toll-house", step("Wall", 50, 10, 15))
    assert keys(replace(ARCHIVE, guides=(WATCH, slow))) == keys(ARCHIVE)
    other_order = with_plan(skip=frozenset({dt.date(2026, 4, 20), dt.date(2026, 4, 13)}))
    assert keys(other_order(ARCHIVE)) == keys(ARCHIVE)


def test_nothing_is_worked_out_before_it_is_wanted(monkeypatch: pytest.MonkeyPatch):
    def refuse(*given: object) -> None:
        pytest.fail("The plan was worked out for its key alone.")

    monkeypatch.setattr(module, "project_of", refuse)
    assert len(keys(ARCHIVE)) == 6


def test_a_plan_is_worked_out_once_for_all_its_files(monkeypatch: pytest.MonkeyPatch):
    made = []
    real = module.project_of
    monkeypatch.setattr(module, "project_of", lambda *given: made.append(given) or real(*given))
    site = site_of(ARCHIVE)
    assert len(made) == 1
    assert b"Regatta" in site["plans.html"]
