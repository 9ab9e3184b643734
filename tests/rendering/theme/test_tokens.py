"""The tokens of the style that site.yaml changes: which there are, what may stand there, and what becomes of them."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.rendering.theme.templates import Templates
from guidegen.rendering.theme.tokens import tokens_of, tokens_rule
from guidegen.words.language import language_of

KNOWN = tokens_of(Templates(language_of("en")))
GUIDE = (
    "» guides/lamp-boys.md\n---\ntitle: Lamp boys\nsteps: [{step: Mount, paint: none, each: 1 min}]\n---\n"
)


def test_which_tokens_there_are():
    assert {"paper", "ink", "accent", "board", "book", "t0", "s7", "edge", "spine"} <= set(KNOWN.light)
    assert {"dark-paper", "dark-accent"} <= set(KNOWN.names)
    assert "dark-board" not in KNOWN.names
    assert KNOWN.is_colour("accent")
    assert KNOWN.is_colour("dark-paper")
    assert not KNOWN.is_colour("book")


@pytest.mark.parametrize(
    ("name", "value", "css"),
    [
        ("accent", "#7A5C2E", "#7a5c2e"),
        ("accent", "7a5c2e", "#7a5c2e"),
        ("accent", "teal", "teal"),
        ("accent", "hsl(30 45% 33%)", "hsl(30 45% 33%)"),
        ("book", 'Georgia, "Noto Serif", serif', 'Georgia, "Noto Serif", serif'),
        ("t4", "clamp(1rem, calc(1rem + (2vw - 1px)), 3rem)", "clamp(1rem, calc(1rem + (2vw - 1px)), 3rem)"),
        ("edge", "2rem", "2rem"),
    ],
)
def test_what_may_stand_there(name: str, value: str, css: str):
    assert KNOWN.typed(name, value) == css
    assert f"  --{name}: {css};\n" in tokens_rule({name: value}, KNOWN)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("accent", "3px"),
        ("accent", "#12345"),
        ("accent", "red; } body { display: none"),
        ("book", "Georgia; color: red"),
        ("book", 'Georgia, "Noto'),
        ("book", "}"),
        ("edge", "calc(1rem"),
        ("edge", "1rem)"),
        ("edge", "url(https://evil.example)"),
        ("edge", "\\75rl(x)"),
        ("edge", "1rem /* the rest"),
        ("edge", "</style>"),
        ("edge", "@import x"),
        ("edge", "1rem\n}"),
    ],
)
def test_what_may_not(name: str, value: str):
    assert KNOWN.typed(name, value) is None
    assert tokens_rule({name: value}, KNOWN) == ""


def test_a_colour_of_a_light_screen_leaves_a_dark_one_alone():
    """Its ground and its letters change together, or nobody could read the one upon the other."""
    light = tokens_rule({"ink": "000", "spine": "3rem"}, KNOWN)
    assert "@media print, (prefers-color-scheme: light) {\n:root {\n  --ink: #000;\n}\n}" in light
    assert "dark" not in light
    assert "\n:root {\n  --spine: 3rem;\n}\n" in light
    dark = tokens_rule({"dark-ink": "fff"}, KNOWN)
    assert dark == "\n@media screen and (prefers-color-scheme: dark) {\n:root {\n  --ink: #fff;\n}\n}\n"


def test_a_token_that_is_none_and_a_value_that_cannot_stand_are_told(tmp_path: Path):
    site = '» site.yaml\ntokens:\n  acent: "#123456"\n  paper: 3 px\n  font: Georgia\n  edge: calc(1px\n  ink: 222\n'
    content = lay_out(tmp_path / "content", GUIDE + site)
    told = {(d.span.line, d.span.column): d for d in check(content).diagnostics}
    assert [(at, d.code) for at, d in told.items()] == [
        ((2, 3), "unknown-key"),
        ((3, 10), "bad-value"),
        ((4, 3), "unknown-key"),
        ((5, 9), "bad-value"),
    ]
    assert told[2, 3].help == "Write accent."
    assert told[2, 3].fix is not None
    assert told[2, 3].fix.text == "accent"
    assert told[4, 3].fix is None
    assert "dark-paper" in told[4, 3].help


def test_from_the_settings_to_the_style(tmp_path: Path):
    content = lay_out(
        tmp_path / "content", GUIDE + "» site.yaml\ntokens: {accent: 00525f, dark-accent: 9fe0ea}\n"
    )
    order = Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache")
    assert build(order).counts is not None
    (style,) = [p.read_text(encoding="utf-8") for p in (order.out / "assets").glob("site*.css")]
    assert style.index("--accent: #00525f") > style.index("--accent:#a5371b")
    assert style.index("--accent: #9fe0ea") > style.index("--accent: #00525f")
