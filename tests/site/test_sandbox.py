"""A template of an author's own lays out pages and does nothing else, and whatever stops it is told by its line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.build import Order, build
from guidegen.rendering.theme import template_process
from guidegen.rendering.theme.broken_templates import bad_template
from guidegen.rendering.theme.template_process import BrokenTemplateError, Budget, FailedProcessError
from guidegen.rendering.theme.templates import Templates, own_templates
from guidegen.words.language import language_of

CONTENT = """
» guides/lamp-boys.md
---
title: Lamp boys
steps:
  - {step: Mount, paint: none, each: 1 min}
---
"""


def told_of(folder: Path, templates: dict[str, str]) -> tuple[Order, tuple[Diagnostic, ...]]:
    content = lay_out(folder / "content", CONTENT)
    for name, text in templates.items():
        file = content / "templates" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    order = Order(content=content, out=folder / "site", cache=folder / "cache")
    return order, build(order).diagnostics


FAULTS = {
    "a tag that is not closed": ("<p>\n{% if %}\n", 2, "Expected an expression"),
    "a name that is not there": ("<p>\n{{ nobody }}", 2, "'nobody' is undefined"),
    "a key that is not there": ("<p>\n\n{{ home.nothing }}", 3, "nothing"),
    "a sum that fails": ("<p>\n{{ 1 / 0 }}", 2, "division by zero"),
    "a template that is not there": (
        '<p>\n{% include "nobody.html" %}',
        2,
        "no template “nobody.html”",
    ),
    "a template from above": (
        '\n{% include "../site.yaml" %}',
        2,
        "no template “../site.yaml”",
    ),
    "a template from anywhere": ('{% include "/etc/hosts" %}', 1, "no template “/etc/hosts”"),
    "a macro that is not there": (
        '\n{% from "parts/macros.html" import nobody %}\n{{ nobody() }}',
        3,
        "does not export the requested name 'nobody'",
    ),
    "itself": ('<p>\n{% include "home.html" %}', 2, "again and again"),
    "the inside of a text": ("\n{{ ''.__class__.__mro__ }}", 2, "unsafe"),
    "the inside by a filter": ("\n{{ (''|attr('__class__')).mro() }}", 2, "unsafe"),
    "the inside by a format": ("\n{{ '{0.__class__.__mro__}'.format('') }}", 2, "unsafe"),
    "the inside of ours": ("\n{{ t.__globals__ }}", 2, "unsafe"),
    "the inside of a loop": (
        "\n{% for x in [1] %}{{ loop.__init__.__globals__ }}{% endfor %}",
        2,
        "unsafe",
    ),
    "what is changed": ("\n{% set a = [1] %}{{ a.append(2) }}", 2, "unsafe"),
    "loops within loops": (
        "\n{% for a in range(9999) %}{% for b in range(9999) %}{% for c in range(9999) %}{% endfor %}{% endfor %}{% endfor %}",
        2,
        "takes too long",
    ),
    "a text as long as the world": ("\n{{ 'a' * 9999999999 }}", 2, "it takes more than 1,000 MB of memory"),
    "a number as long as the world": ("\n{{ 9 ** 9999999999 }}", 2, "takes too long"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_what_stops_a_template_is_told_by_its_line(
    fault: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(template_process, "BUDGET", Budget(seconds=1.0))
    text, line, words = FAULTS[fault]
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "home.html").write_text(text, encoding="utf-8")
    templates = Templates(language_of("en"), tmp_path / "templates")
    with pytest.raises(BrokenTemplateError) as broken:
        templates.render("home.html", {"home": {"title": "Home"}})
    told = bad_template(broken.value)
    assert (told.code, told.span.file, told.span.line) == ("bad-template", "templates/home.html", line)
    assert words in told.message


def test_nothing_is_written_where_one_of_theirs_lacks_what_ours_take(tmp_path: Path):
    order, told = told_of(tmp_path, {"parts/macros.html": "<p>nothing</p>\n"})
    assert [(d.code, d.span.file) for d in told] == [("bad-template", "templates/parts/macros.html")]
    assert "it has no macro “" in told[0].message
    assert not (order.out / "index.html").exists()


def test_a_link_that_leads_out_is_no_template(tmp_path: Path):
    content = lay_out(tmp_path / "content", CONTENT)
    (tmp_path / "secret.html").write_text("<p>a secret</p>", encoding="utf-8")
    (content / "templates").mkdir()
    (content / "templates" / "home.html").write_text('<p>{% include "secret.html" %}', encoding="utf-8")
    (content / "templates" / "secret.html").symlink_to(tmp_path / "secret.html")
    order = Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache")
    assert [d.code for d in build(order).diagnostics] == ["bad-template"]
    assert not (order.out / "index.html").exists()


def test_with_one_of_their_own_the_others_come_out_the_same(tmp_path: Path):
    """The sandbox changes nothing of what our templates say."""
    order, told = told_of(tmp_path / "own", {"404.html": "<!doctype html><title>Lost</title>"})
    assert told == ()
    plain, _ = told_of(tmp_path / "plain", {})
    pages = [path.relative_to(plain.out) for path in plain.out.rglob("*.html") if path.name != "404.html"]
    assert pages
    for page in pages:
        assert (order.out / page).read_bytes() == (plain.out / page).read_bytes(), page


def test_a_macro_that_takes_something_else_than_ours_give_it(tmp_path: Path):
    ours = own_templates() / "parts" / "macros.html"
    text = re.sub(r"macro time\([^)]*\)", "macro time()", ours.read_text(encoding="utf-8"))
    order, told = told_of(tmp_path, {"parts/macros.html": text})
    assert [(d.code, d.span.file) for d in told] == [("bad-template", "templates/parts/macros.html")]
    assert "macro time" in text.splitlines()[told[0].span.line - 1]
    assert not (order.out / "index.html").exists()


def test_a_fault_of_ours_is_not_put_on_the_author(tmp_path: Path):
    """A template of ours that is given too little, beside one of theirs."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "home.html").write_text("<p>", encoding="utf-8")
    templates = Templates(language_of("en"), tmp_path / "templates")
    with pytest.raises(FailedProcessError, match="'lost' is undefined"):
        templates.render("404.html", {})
