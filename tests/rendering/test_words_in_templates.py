"""Templates and scripts hold no words of their own: whatever a reader sees or hears comes out of a language's table."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from guidegen.base.own_files import own_templates

TEMPLATES = Path(own_templates())
# What `guidegen start` lays out and the preview's panel are the author's, who is spoken to in English.
OF_AUTHORS = {"start", "preview"}

PAGES = sorted(
    path for path in TEMPLATES.rglob("*.html") if not OF_AUTHORS & set(path.relative_to(TEMPLATES).parts)
)
SCRIPTS = sorted((TEMPLATES / "scripts").glob("*.js"))

_JINJA = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", re.DOTALL)
_HIDDEN = re.compile(r"<!--.*?-->|<(script|style)\b.*?</\1>", re.DOTALL)
_SPOKEN = re.compile(r"""\b(?:aria-label|aria-description|alt|title|placeholder|label)=["']([^"']*)""")
_LETTERS = re.compile(r"[^\W\d_]{2,}")

# Jinja's own blocks that hold text, and that no reader sees: names of classes.
_CLASSES = re.compile(r"\{% block kind %\}.*?\{% endblock %\}", re.DOTALL)

_COMMENT = re.compile(r"/\*.*?\*/|(?<![:\"'])//[^\n]*", re.DOTALL)
_LITERAL = re.compile(r'"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`', re.DOTALL)
_INSIDE = re.compile(r"\$\{[^{}]*(?:\{[^{}]*\}[^{}]*)*\}|<[^>]*>")
_TWO_WORDS = re.compile(r"[^\W\d_]{2,} [^\W\d_]{2,}")

# What only the browser reads, key by key: names it keeps things under, switches, and lists of its own words.
UNSEEN = {"use strict", "guidegen sent ", "guidegen pots", "guidegen ", "about this site"}


def bare(text: str) -> list[str]:
    """What a template would show by itself."""
    plain = _JINJA.sub("\0", _CLASSES.sub("", text))
    spoken = _SPOKEN.findall(plain)
    return [part for part in (*re.sub(r"<[^>]*>", "\0", _HIDDEN.sub("\0", plain)).split("\0"), *spoken)
            if _LETTERS.search(part)]  # fmt: skip


def told(script: str) -> list[str]:
    """What a script could say by itself: literals with two words side by side that are no selector and no markup."""
    found = []
    for literal in _LITERAL.findall(_COMMENT.sub("", script)):
        text = _INSIDE.sub("\0", literal[1:-1])
        if _TWO_WORDS.search(text) and not re.search(r"[.#\[:>;]", text):
            found.append(literal[1:-1])
    return found


def test_the_search_finds_words() -> None:
    assert bare('<p title="Go on">{{ t("x") }} and more</p>') == [" and more", "Go on"]
    assert told('const a = "Put it down", b = one(".leaf p"); // say it loud') == ["Put it down"]


@pytest.mark.parametrize("page", PAGES, ids=lambda path: path.name)
def test_pages_hold_no_words(page: Path) -> None:
    assert bare(page.read_text("utf-8")) == []


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.name)
def test_scripts_hold_no_words(script: Path) -> None:
    assert set(told(script.read_text("utf-8"))) <= UNSEEN
