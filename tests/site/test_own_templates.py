"""Templates of an author's own: used file by file, and told by their line where they cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from guidegen.building.build import Order, build
from guidegen.building.check import check

GUIDE = "---\ntitle: Lamp boys\nsteps:\n  - {step: Mount, paint: none, each: 1 min}\n---\n"


def ordered(folder: Path, **templates: str) -> Order:
    content = folder / "content"
    (content / "guides").mkdir(parents=True)
    (content / "guides" / "lamp-boys.md").write_text(GUIDE, encoding="utf-8")
    (content / "templates").mkdir()
    for name, text in templates.items():
        (content / "templates" / f"{name}.html").write_text(text, encoding="utf-8")
    return Order(content=content, out=folder / "site", cache=folder / "cache")


def test_a_template_of_ones_own_is_used_and_the_others_stay_ours(tmp_path: Path):
    order = ordered(
        tmp_path, home='{% extends "base.html" %}\n{% block main %}<h1>Our own</h1>{% endblock %}\n'
    )
    assert build(order).counts is not None
    assert "<h1>Our own</h1>" in (order.out / "index.html").read_text(encoding="utf-8")
    assert "Lamp boys" in (order.out / "guides/lamp-boys/index.html").read_text(encoding="utf-8")


def test_a_page_that_no_page_of_ours_takes_is_told_and_a_part_of_ones_own_is_not(tmp_path: Path):
    home = '{% extends "base.html" %}\n{% block main %}{% include "greeting.html" %}{% endblock %}\n'
    order = ordered(tmp_path, home=home, greeting="Good evening", about="<h1>About us</h1>", hoem="Home")
    told = check(order.content).diagnostics
    assert [(d.code, d.span.file) for d in told] == [
        ("file-not-read", "templates/about.html"),
        ("file-not-read", "templates/hoem.html"),
    ]
    assert [d.help for d in told] == [
        "A page of words is pages/about.md; a template has the name of the one whose place it takes, as home.html.",
        "Call it home.html, if that is the one whose place it takes.",
    ]
    assert build(order).counts is not None


def test_of_pages_whose_names_a_template_puts_together_nothing_is_told(tmp_path: Path):
    home = '{% extends "base.html" %}{% block main %}{% include "gre" ~ "eting.html" %}{% endblock %}'
    assert check(ordered(tmp_path, home=home, greeting="Good evening").content).diagnostics == ()


@pytest.mark.parametrize(
    "text", ["<h1>\n{% if %}</h1>\n", "<h1>\n{{ home. }}</h1>\n"], ids=["tag", "expression"]
)
def test_a_slip_is_told_by_check_with_its_line(tmp_path: Path, text: str):
    order = ordered(tmp_path, home=text)
    told = check(order.content).diagnostics
    assert [(d.code, d.span.file, d.span.line) for d in told] == [("bad-template", "templates/home.html", 2)]


@pytest.mark.parametrize(
    "text",
    [
        "<h1>\n\n{{ home.nothing }}</h1>\n",
        "<h1>\n\n{{ 1 / 0 }}</h1>\n",
        "<h1>\n\n{{ home.cards[99].title }}</h1>",
    ],
)
def test_what_it_runs_into_is_told_and_nothing_is_written(tmp_path: Path, text: str):
    order = ordered(tmp_path, home=text)
    built = build(order)
    assert built.counts is None
    assert [(d.code, d.span.file, d.span.line) for d in built.diagnostics] == [
        ("bad-template", "templates/home.html", 3)
    ]
    assert not order.out.exists() or not list(order.out.rglob("*.html"))


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("home.titel", "there is no “titel” here, but “title”."),
        ("home.cards[0].picutre", "there is no “picutre” here, but “picture”."),
        ("home.weather", "there is no “weather” here."),
    ],
)
def test_what_a_page_is_not_given_is_told_by_its_name(tmp_path: Path, asked: str, words: str):
    (told,) = build(ordered(tmp_path, home=f"<h1>{{{{ {asked} }}}}</h1>\n")).diagnostics
    assert told.message == f"The template “home.html” cannot be used: {words}"


def test_a_mended_template_builds(tmp_path: Path):
    order = ordered(tmp_path, home="{{ home.nothing }}")
    assert build(order).counts is None
    (order.content / "templates" / "home.html").write_text("<p>{{ home.title }}</p>", encoding="utf-8")
    assert build(order).counts is not None
