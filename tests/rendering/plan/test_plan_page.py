"""A plan's page: the answer in words, the months, the to-do lists with their links, the shopping; plans worked by hand."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace

import pytest
from support import town
from support.languages import ENGLISH, GERMAN
from support.plans import evening, guide_of, name, painted, plan_of, step, stop, unit

from guidegen.base.units import MINUTE
from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.plan.project import Project, project_of
from guidegen.model.guide import Guide, PaintedBatch
from guidegen.model.plan import Plan
from guidegen.model.site import Archive, Site
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.plan.plan_page import plan_card, plan_view, without_drafts
from guidegen.rendering.plan.plan_view import DayView, PlanView
from guidegen.rendering.plan.plan_words import about
from guidegen.rendering.theme.assets import Assets
from guidegen.words.language import Language

WATCH = guide_of(
    "ferry-watch",
    step("Coats", 5, 10, 15, coats=2),
    stop("Fit to stand on the jetty"),
    step("Eyes", 0, 5, 0),
)
RIDERS = guide_of(
    "heron-riders",
    step("Feathers", 0, 5, 0),
    step("Hat", 0, 5, 0, only={"headgear": "straw hat"}),
    step("Feathers", 0, 5, 0),
    choose={"headgear": ("hood", "straw hat")},
)
# Six figures of the watch need 5 + 60, 60 and 30 minutes and one more setting up; the sittings have an hour each.
LATE = plan_of(unit(WATCH, 6), week={0: evening(20, 21), 2: evening(20, 21)}, deadline=dt.date(2026, 4, 10))
PALETTE_TOOLS = PaletteTools.over(town.PALETTE)


def desk_of(*guides: Guide, **site: str) -> SiteContext:
    archive = Archive(site=Site(**({"title": "The Delta Bench"} | site)), palette=town.PALETTE, guides=guides)
    return SiteContext.of(archive, PALETTE_TOOLS, Assets(style="a.css", script="a.js", icon="a.svg"))


def view(plan: Plan, *guides: Guide, needs: tuple[PaintNeed, ...] = (), language: str = "en") -> PlanView:
    found = replace(project_of(plan, guides, town.PALETTE), needs=needs)
    return plan_view(found, desk_of(*guides, language=language))


def days(shown: PlanView) -> dict[str, DayView]:
    return {day.iso: day for month in shown.months for week in month.weeks for day in week if day}


def test_a_late_plan_says_what_is_missing_and_what_would_mend_it():
    shown = view(LATE, WATCH)
    assert not shown.verdict.good
    assert shown.verdict.answer == "Too late by 3 days"
    assert shown.verdict.says == (
        "The last figure is dry on Monday, 13 April 2026 at about 20:50.",
        "50 min of painting falls after the deadline, Friday, 10 April 2026.",
        "Done and dry by then: 0 of 6 figures.",
    )
    assert shown.verdict.mends == (
        "Paint 4 of ferry-watch instead of 6.",
        "Sit down once more, 20:00 to 21:00, for instance on Tue 7 April.",
    )
    assert [(fact.label, fact.text) for fact in shown.sums] == [
        ("plan.finish", "13 April 2026, about 20:50"),
        ("plan.short", "50 min"),
        ("plan.painting", "2 h 40 min"),
        ("plan.sittings", "3"),
    ]


@pytest.mark.parametrize(
    ("deadline", "answer"),
    [
        (6, "In time, on the very day of the deadline"),
        (7, "In time, with 1 day to spare"),
        (9, "In time, with 3 days to spare"),
        (None, "Done on Monday, 6 April 2026"),
    ],
)
def test_a_plan_in_time_says_so_first(deadline: int | None, answer: str):
    """One figure: 5 + 10 min, 15 drying, 10 min, 15 drying, 5 min: dry at 21:00, the last needs no drying."""
    plan = plan_of(unit(WATCH, 1), deadline=deadline and dt.date(2026, 4, deadline))
    shown = view(plan, WATCH)
    assert shown.verdict.good
    assert (shown.verdict.answer, shown.verdict.mends) == (answer, ())
    assert shown.verdict.says == ("The last figure is dry on Monday, 6 April 2026 at about 21:00.",)
    card = plan_card(project_of(plan, [WATCH], town.PALETTE), desk_of(WATCH))
    assert (card.answer, card.href, card.figures, card.sittings) == (answer, "plans/regatta/index.html", 1, 1)


def test_an_earlier_stop_and_leaving_a_unit_out_mend_too():
    """20 + 20 minutes for the wall and 30 for the boat, one hour on the only evening until the deadline."""
    wall = guide_of("toll-house", step("Wall", 0, 20, 0), stop("Rough"), step("Edges", 0, 20, 0))
    boat = guide_of("patience", step("Hull", 0, 30, 0))
    plan = plan_of(unit(wall, 1), unit(boat, 1), week={0: evening(20, 21)}, deadline=dt.date(2026, 4, 6))
    assert view(plan, wall, boat).verdict.mends == (
        "Leave out toll-house.",
        "Leave out patience.",
        "Call toll-house done at “Rough”.",
    )


def test_drying_alone_can_be_late_and_nothing_may_mend_it():
    gel = guide_of("patience", step("Gel", 0, 10, 72 * 60))
    shown = view(plan_of(unit(gel, 1), deadline=dt.date(2026, 4, 7)), gel)
    assert (
        shown.verdict.says[1]
        == "All painting is done by the deadline, Tuesday, 7 April 2026; only drying falls after it."
    )
    assert shown.verdict.late
    assert shown.verdict.mends == ()


def test_what_never_fits_is_said_once_for_all_batches():
    sprayed = guide_of("patience", step("Seal", 5, 10, 0, technique="spray varnish"))
    shown = view(plan_of(unit(sprayed, 4, batch=1), spraying={}), sprayed)
    assert not shown.verdict.good
    assert shown.verdict.answer == "It is never finished"
    assert shown.verdict.says == (
        "patience stays at step 1, “Seal”: no spraying hours in a sitting still to come have room for it.",
    )
    assert view(plan_of()).verdict.answer == "There is nothing to paint"


def test_the_calendar_has_every_month_with_something_in_it_in_weeks_from_monday():
    shown = view(replace(LATE, deadline=dt.date(2026, 6, 10)), WATCH)
    assert [month.name for month in shown.months] == ["April 2026", "June 2026"]
    april = shown.months[0].weeks
    assert all(len(week) == 7 for week in april)
    # 1 April 2026 is a Wednesday, by ISO 8601's calendar the third day of its week.
    assert [day and day.number for day in april[0]] == [None, None, 1, 2, 3, 4, 5]
    found = days(shown)
    painted = {iso for iso, day in found.items() if day.painted}
    assert painted == {"2026-04-06", "2026-04-08", "2026-04-13"}
    assert [(link.text, link.href) for link in found["2026-04-08"].painted] == [("20:00", "#sitting-2")]
    assert {iso for iso, day in found.items() if day.finish} == {"2026-04-13"}
    assert {iso for iso, day in found.items() if day.deadline} == {"2026-06-10"}
    # Sittings that are not needed are shown until the deadline, and none before the start.
    assert {iso for iso, day in found.items() if day.free} == {
        "2026-04-15", "2026-04-20", "2026-04-22", "2026-04-27", "2026-04-29",
        "2026-06-01", "2026-06-03", "2026-06-08", "2026-06-10",
    }  # fmt: skip
    assert found["2026-04-13"].look == "painted dry"
    assert found["2026-06-10"].look == "free due"


def test_a_calendar_reaches_to_the_last_day_there_is():
    shown = view(replace(LATE, deadline=dt.date(9999, 12, 31)), WATCH)
    assert shown.months[-1].name == "December 9999"
    assert days(shown)["9999-12-31"].deadline


def test_each_sitting_has_its_jobs_with_their_times_and_their_steps_on_the_guides_page():
    shown = view(LATE, WATCH)
    first, second, third = shown.sittings
    assert (first.day, first.hours, first.last_stroke, first.hands_on.text) == (
        "Monday, 6 April 2026",
        "20:00 to 21:00",
        "about 20:55",
        "55 min",
    )
    rows = [
        (job.start, job.end, job.title, job.coat, job.figures, job.set_up)
        for sitting in (first, second)
        for job in sitting.jobs
    ]
    assert rows == [
        ("20:00", "20:55", "Coats", "coat 1 of 2", "figures 1–5", "5 min setting up"),
        ("20:00", "20:15", "Coats", "coat 1 of 2", "figure 6", "5 min setting up"),
        ("about 20:15", "20:55", "Coats", "coat 2 of 2", "figures 1–4", ""),
    ]
    assert {job.href for sitting in shown.sittings for job in sitting.jobs} == {
        "../../guides/ferry-watch/index.html#step-coats",
        "../../guides/ferry-watch/index.html#step-eyes",
    }
    assert [sitting.late for sitting in shown.sittings] == [False, False, True]
    assert third.anchor == "sitting-3"
    # What is ticked goes by unit, batch, step, coat and how many figures have had that, however the sittings fall.
    assert {
        (job.number, job.batch, job.n, job.lays, job.before, job.after) for job in first.jobs + second.jobs
    } == {(1, 1, 1, 1, 0, 5), (1, 1, 1, 1, 5, 6), (1, 1, 1, 2, 0, 4)}


def test_ticks_are_kept_where_the_bench_keeps_them():
    """Seven hoods and five hats in batches of six: one hood in the second batch, which is at its hats after it."""
    guide = guide_of(
        "eel-seller",
        step("Stir", 5, 0, 0),
        step("Hood", 0, 5, 0, only={"headgear": "hood"}),
        step("Coat", 0, 5, 0),
        step("Hat", 0, 5, 0, only={"headgear": "hat"}),
        step("Coat", 0, 5, 0),
        choose={"headgear": ("hood", "hat")},
    )
    plan = plan_of(
        unit(guide, 12, 6, mixed={"headgear": {"hood": 7, "hat": 5}}, done={2: name("Hood")}),
        unit(WATCH, 2),
        week={0: evening(10, 22)},
    )
    data = json.loads(view(plan, guide, WATCH).ticks)
    mixed, plain = data["units"]
    assert [one["key"] for one in mixed["batches"] + plain["batches"]] == [
        "guidegen:The Delta Bench:eel-seller:regatta.1:1",
        "guidegen:The Delta Bench:eel-seller:regatta.1:2",
        "guidegen:The Delta Bench:ferry-watch:regatta.2:1",
    ]
    assert [one["counts"] for one in mixed["batches"]] == [[1, 6, 6, 0, 6], [1, 1, 6, 5, 6]]
    assert [one["behind"] for one in mixed["batches"]] == [0, 2]
    # Of two steps of one title `done` means the last.
    assert [one["title"] for one in mixed["steps"]] == ["Stir", "Hood", "", "Hat", "Coat"]
    assert (mixed["bench"], plain["bench"]) == ("../../guides/eel-seller/", "../../guides/ferry-watch/")
    assert [one["mixed"] for one in mixed["batches"]] == [
        {"headgear": {"hood": 6}},
        {"headgear": {"hood": 1, "hat": 5}},
    ]
    assert [one["page"] for one in mixed["batches"]] == ["index", "index"]
    assert [one.get("own", False) for one in mixed["steps"]] == [False, True, False, True, False]
    assert "mixed" not in plain["batches"][0]


def test_times_are_told_to_five_minutes_and_on_their_own_day():
    def told(clock: str, language: Language = ENGLISH) -> str:
        return about(dt.datetime.fromisoformat(f"2026-04-06T{clock}"), language)

    assert [told("20:32:29"), told("20:32:31"), told("20:35")] == [
        "about 20:30",
        "about 20:35",
        "about 20:35",
    ]
    assert (told("00:01"), told("23:59")) == ("about 00:00", "about 23:55")
    assert told("20:34", GERMAN) == "etwa 20:35"


def test_a_sitting_opens_with_its_jobs_in_words_and_its_pots_in_order():
    """Seven steps of 10 to 70 minutes: the five longest are named, in their order, and the two shortest counted."""
    long = guide_of(
        "patience",
        *(step(f"Step {n}", 0, 10 * n, 0, paint=painted("Oilskin Ochre")) for n in (3, 1, 4, 2, 5)),
        *(step(f"Step {n}", 0, 10 * n, 0, paint=painted("Silt Wash")) for n in (7, 6)),
    )
    shown = view(plan_of(unit(long, 1), week={0: evening(14, 22)}), long)
    assert shown.sittings[0].in_short == (
        "patience: Step 3, Step 4, Step 5, Step 7 and Step 6; 2 smaller jobs"
    )
    assert [pot.name for pot in shown.sittings[0].pots] == ["Oilskin Ochre", "Silt Wash"]
    two = view(plan_of(unit(WATCH, 1), unit(RIDERS, 1)), WATCH, RIDERS)
    assert two.sittings[0].in_short == "ferry-watch: Coats and Eyes; heron-riders: Feathers"


def test_waiting_for_something_to_dry_is_said():
    shown = view(plan_of(unit(WATCH, 1)), WATCH)
    assert [job.wait and job.wait.text for job in shown.sittings[0].jobs] == [None, "15 min", "15 min"]


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", ("Times measured: 1 evening, 12 figures.", "Times estimated.")),
        ("de", ("Zeiten gemessen: 1 Abend, 12 Figuren.", "Zeiten geschätzt.")),
    ],
)
def test_a_unit_says_whether_its_times_were_measured(language: str, said: tuple[str, ...]):
    batch = PaintedBatch(date=dt.date(2026, 3, 14), figures=12, minutes={"Coats": 24 * MINUTE})
    timed = guide_of("timed", step("Coats", 0, 2, 0), made=(batch,))
    shown = view(plan_of(unit(timed, 1), unit(WATCH, 1)), timed, WATCH, language=language)
    assert tuple(one.times for one in shown.units) == said


def test_a_unit_leads_to_its_variant_its_stop_and_its_batches():
    shown = view(
        plan_of(
            unit(WATCH, 25, batch=10, to="fit to STAND on the jetty"),
            unit(RIDERS, 3, choose={"headgear": "straw hat"}),
            unit(WATCH, 20, batch=10),
        ),
        WATCH,
        RIDERS,
    )
    first, second, third = shown.units
    assert (first.name, first.batches) == ("ferry-watch (unit 1)", "3 batches of 10, the last of 5")
    assert first.to is not None
    assert first.to.href == "../../guides/ferry-watch/index.html#stop-fit-to-stand-on-the-jetty"
    assert first.to.text == "Fit to stand on the jetty"
    assert (second.options, second.batches, second.to) == (("straw hat",), "all at once", None)
    assert second.href == "../../guides/heron-riders/with-straw-hat.html"
    assert third.batches == "2 batches of 10"
    places = {
        job.href.rpartition("/")[2]
        for sitting in shown.sittings
        for job in sitting.jobs
        if job.unit == "heron-riders"
    }
    assert places == {
        "with-straw-hat.html#step-feathers",
        "with-straw-hat.html#step-hat",
        "with-straw-hat.html#step-feathers-2",
    }


def test_a_guide_without_a_page_is_counted_but_neither_linked_nor_told_of():
    """The times are those of the whole plan; no word of the draft gets out."""
    draft = guide_of(
        "secret", step("Hidden", 0, 10, 0), stop("Unseen"), step("Veiled", 0, 300, 0), draft=True
    )
    draft = replace(draft, title="Covert")
    plan = plan_of(unit(WATCH, 1), unit(draft, 1, to="Unseen"), deadline=dt.date(2026, 4, 5))
    whole = project_of(plan, [WATCH, draft], town.PALETTE)
    context = desk_of(WATCH)
    quiet = without_drafts(whole, context)
    shown = plan_view(quiet, context)
    assert shown.units[1].name == "A guide not published yet"
    assert (shown.units[1].href, shown.units[1].to) == ("", Link(text="a stop of it", href=""))
    assert quiet.schedule.finish == whole.schedule.finish
    assert quiet.schedule.hands_on == whole.schedule.hands_on
    words = repr(shown)
    assert not [word for word in ("Covert", "Hidden", "Unseen", "Veiled", "secret") if word in words]
    assert without_drafts(whole, desk_of(WATCH, draft)) is whole


def test_shopping_tells_what_to_buy_from_what_is_there():
    def need(name: str, ml: float | None, buy: int) -> PaintNeed:
        paint = next(paint for paint in town.PALETTE.paints if paint.name == name)
        cost = None if paint.price is None else buy * paint.price
        return PaintNeed(paint=paint, steps=(), ml=ml, drops=None, owned=paint.owned, buy=buy, cost=cost)

    needs = (need("Ropewalk", 18, 2), need("Deckhand", 1, 0), need("Silt Wash", None, 0))
    shown = view(LATE, WATCH, needs=(*needs, replace(needs[0], cost=None, buy=1))).shopping
    assert [(row.pot.name, row.amount, row.pots, row.cost) for row in shown.lacking] == [
        ("Ropewalk", "18 ml", 2, "5.60 EUR"),
        ("Ropewalk", "18 ml", 1, ""),
    ]
    assert [(row.pot.name, row.amount) for row in shown.owned] == [
        ("Deckhand", "1 ml"),
        ("Silt Wash", "by eye"),
    ]
    assert (shown.pots, shown.cost, shown.unpriced) == (3, "5.60 EUR", 1)
    assert shown.owned[0].pot.href == "../../paints/reedbank-acrylics-deckhand.html"


def test_ticks_are_kept_under_a_name_of_their_own():
    """Pages from files share one store in Chromium, so site and plan are both in the key."""
    found: Project = project_of(LATE, [WATCH], town.PALETTE)
    keys = {
        json.loads(
            plan_view(replace(found, plan=replace(LATE, slug=slug)), desk_of(WATCH, title=title)).ticks
        )["units"][0]["batches"][0]["key"]
        for slug in ("regatta", "winter")
        for title in ("The Delta Bench", "The Upper Weir")
    }
    assert len(keys) == 4
    assert all(key.startswith("guidegen:") for key in keys)


def test_a_job_without_a_link_is_told_apart_by_its_number():
    """Past the variants that get pages, the steps of a combination have no place to lead to."""
    many = {f"choice {n}": ("plain", "other") for n in range(6)}
    guide = guide_of("toll-house", step("Wall", 0, 10, 0), step("Wall", 0, 10, 0), choose=many)
    both = {"choice 0": "other", "choice 1": "other"}
    shown = view(plan_of(unit(guide, 1, choose=both)), guide)
    assert shown.units[0].href == "../../guides/toll-house/index.html"
    assert [(job.href, job.n) for job in shown.sittings[0].jobs] == [("", 1), ("", 2)]
    (told,) = json.loads(shown.ticks)["units"]
    assert [one["id"] for one in told["steps"]] == ["1", "2"]
    assert told["bench"] == ""
