"""A page with its style and script inside: neither can end its element, and the policy stands before both."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from guidegen.rendering.standalone.one_file import one_file, policy, unclosable


def test_the_inside_cannot_end_its_own_element() -> None:
    assert unclosable('say("</SCRIPT>")\r\n//<!-- x', "script") == 'say("<\\/SCRIPT>")\n//<\\!-- x'
    assert unclosable('p::after{content:"</style>"}', "style") == 'p::after{content:"<\\/style>"}'


@pytest.mark.parametrize(
    "html",
    [
        "<!doctype html>\n<html><head><title>x</title></head><body>.</body></html>",
        '<!doctype html>\n<HTML lang="en">\n<HEAD class="a"><title>x</title></HEAD><body>.</body></HTML>',
        # HTML, §13.1.2.4: of an author's own page these tags may be left out.
        '<!doctype html>\n<html lang="en"><title>x</title><header>Head</header>.</html>',
        "<!doctype html><title>x</title>.",
        "<title>x</title>.",
    ],
)
def test_style_script_and_what_they_may_do_are_put_in(html: str) -> None:
    style, script = 'p{content:"</style><p>"}\n', '"</script><p>";'
    page = one_file(
        html,
        style=style,
        script=script,
        icon="data:image/svg+xml,<svg/>",
        mark='a "mark"',
        foot="<i>foot</i>",
    )
    found = BeautifulSoup(page, "html.parser")
    assert not found.find_all("p")
    assert [tag["content"] for tag in found.find_all("meta", attrs={"name": "generator"})] == ['a "mark"']
    assert [tag["content"] for tag in found.find_all("meta", attrs={"http-equiv": True})] == [
        policy(unclosable(style, "style"), unclosable(script, "script"))
    ]
    assert page.index("Content-Security-Policy") < page.index("<style>") < page.index("<title>")
    assert page.index("<title>") < page.index("<i>foot</i>") < page.index("<script>")
    assert page.lower().startswith(html[: html.find("<html" if "<html" in html else "<title")].lower())
