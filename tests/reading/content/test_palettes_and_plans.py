"""Palettes of several files, and plans: what is kept of a faulty one, and what is not told twice."""

from __future__ import annotations

import datetime as dt

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan
from guidegen.reading.content.palette import palette_of, read_palette_file
from guidegen.reading.content.plan import NO_START, read_plan
from guidegen.reading.content.shared import read_shared


def codes(told: tuple[Diagnostic, ...]) -> list[str]:
    return [one.code for one in told]


def palette_from(*texts: str, default_range: str | None = None) -> tuple[Palette, list[str]]:
    files = [read_palette_file(Source(file=f"palette/{i}.yaml", text=text)) for i, text in enumerate(texts)]
    palette, told = palette_of([file for file, _ in files], default_range)
    return palette, codes((*(one for _, each in files for one in each), *told))


def plan_of(text: str) -> tuple[Plan, list[str]]:
    plan, told = read_plan(Source(file="plans/regatta.yaml", text=text), slug="regatta")
    assert plan is not None
    return plan, codes(told)


class TestPalette:
    """Several files together."""

    def test_ranges_fill_what_is_left_out(self):
        palette, told = palette_from(
            "ranges: {Reedbank Acrylics: {size: 17 ml, price: 2.80, thinner: water, drop: 0.04}}\n",
            "paints:\n- {name: A, range: reedbank  acrylics, colour: 123}\n- {name: B, colour: 123, size: 10 ml}\n"
            "- {name: C, range: '', colour: 123}\n- {name: D, range: Ninelock, colour: 123}\n",
            default_range="Reedbank Acrylics",
        )
        assert told == []
        assert [(p.range, p.size, p.price, p.thinner, p.drop) for p in palette.paints] == [
            ("reedbank  acrylics".replace("  ", " "), 17.0, 2.8, "water", 0.04),
            ("Reedbank Acrylics", 10.0, 2.8, "water", 0.04),
            (None, None, None, "", 0.05),
            ("Ninelock", None, None, "", 0.05),
        ]

    def test_colours_of_the_colourless_are_ignored(self):
        palette, told = palette_from(
            "paints: [{name: A, kind: varnish, colour: 123}, {name: B, kind: medium}]"
        )
        assert told == []
        assert [paint.colour for paint in palette.paints] == [None, None]

    def test_a_colour_is_not_missed_where_it_or_the_kind_is_unreadable(self):
        assert palette_from("paints: [{name: A, colour: red}, {name: B, kind: vrnsh}]")[1] == [
            "bad-colour",
            "bad-value",
        ]

    def test_a_pot_given_twice_makes_no_name_ambiguous(self):
        palette, told = palette_from(
            "paints: [{name: A, colour: 123}, {name: a, colour: 456}]\nmixes: [{name: M, parts: {A: 1}}]"
        )
        assert told == ["duplicate-paint"]
        assert [paint.colour for paint in palette.paints] == ["#112233"]

    def test_names_are_not_missed_where_a_file_is_broken(self):
        assert palette_from("mixes: [{name: M, parts: {A: 1}}]", "paints: [")[1] == ["bad-yaml"]
        assert palette_from("mixes: [{name: M, parts: {A: 1}}]", "paints: A")[1] == ["bad-value"]
        assert palette_from("mixes: [{name: M, parts: {A: 1}}]", "")[1] == ["unknown-paint"]

    def test_decimal_commas_in_braces(self):
        source = Source(
            file="palette.yaml", text="paints: [{name: Ä, colour: 123, price: 2,80, size: 17,5 ml}]"
        )
        told = read_palette_file(source)[1]
        assert [(one.code, one.span.column, one.span.end_column) for one in told] == [
            ("bad-value", 40, 44),
            ("bad-value", 52, 59),
        ]
        assert [one.help for one in told] == [
            "The decimal sign is a point: 2.80",
            "The decimal sign is a point: 17.5 ml",
        ]


class TestPlan:
    """Timetables, and plans that are faulty."""

    def test_a_date_beats_a_day_and_a_day_beats_a_range(self):
        plan, told = plan_of(
            "title: R\nstart: 2026-06-01\nunits: [{guide: a, figures: 1}]\n"
            'sittings: {wed: "9:00-10:00", mon-fri: "20:00-22:00", sat-sun: ["14:00-16:00", "10:00-12:00"], '
            '2026-06-03: none, 2026-06-07: "23:00-1:30"}'
        )
        assert told == []
        hours = {day: plan.sittings.on(dt.date(2026, 6, day)) for day in (2, 3, 6, 7, 10)}
        assert hours == {
            2: ((1200, 1320),),
            3: (),
            6: ((600, 720), (840, 960)),
            7: ((1380, 1530),),
            10: ((540, 600),),
        }

    def test_days_over_the_weekend(self):
        plan, _ = plan_of(
            'title: R\nstart: 2026-06-01\nunits: [{guide: a, figures: 1}]\nsittings: {sat-mon: "9:00-10:00"}'
        )
        assert sorted(plan.sittings.weekly) == [0, 5, 6]

    def test_what_is_left_of_a_faulty_one(self):
        plan, told = plan_of(
            "title: R\nstart: soon\nunits: [{guide: a, figures: 1}, {guide: b}]\nsittings: never"
        )
        assert sorted(told) == ["bad-date", "bad-value", "missing-key"]
        assert plan.start == NO_START
        assert [(unit.guide.text, unit.figures) for unit in plan.units] == [("a", 1), ("b", 1)]
        assert plan.sittings.weekly == {}
        assert {"start", "sittings"} <= plan.places.keys()

    def test_no_sittings_are_a_timetable_too(self):
        assert plan_of("title: R\nstart: 2026-06-01\nunits: [{guide: a, figures: 1}]\nsittings: {}")[1] == []


def test_a_slip_in_a_key_is_told_once():
    assert palette_from("paints: [{name: A, coluor: 123456}]")[1] == ["unknown-key"]
    assert palette_from("paint: [{name: A, colour: 123456}]\nmixes: [{name: M, parts: {A: 1}}]")[1] == [
        "unknown-key"
    ]


def test_no_group_of_keys_at_all():
    for text in ("word", "- a list\n", "[]"):
        assert palette_from(text)[1] == ["bad-value"]
        assert codes(read_plan(Source(file="plans/p.yaml", text=text), slug="p")[1]) == ["bad-value"]
        assert codes(read_shared(Source(file="shared/s.yaml", text=text), "s", Listing())[1]) == ["bad-value"]
