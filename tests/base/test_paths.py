"""Names that every machine can hold."""

from __future__ import annotations

import unicodedata
from pathlib import PurePosixPath, PureWindowsPath

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from guidegen.base.paths import (
    LONGEST_SLUG,
    asset_name,
    clashes,
    shown_from,
    slug,
    why_unsafe,
)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Ferry Watch", "ferry-watch"),
        ("Caulker’s Pitch", "caulkers-pitch"),
        ("Reedbank Acrylics / Oilskin Ochre", "reedbank-acrylics-oilskin-ochre"),
        ("  Łódź, Çà & Straße! ", "lodz-ca-strasse"),
        ("ﬁne™ Ｗａｓｈ №2", "finetm-wash-no2"),
        ("Smørrebrød Ærø", "smorrebrod-aero"),
    ],
)
def test_a_slug_reads_like_its_text(text: str, name: str):
    assert slug(text) == name


@pytest.mark.parametrize("text", ["Паром", "渡し船", "!!!", "", "con", "LPT1", "a" * 100, "Ferry Паром"])
def test_what_cannot_be_kept_gets_a_mark(text: str):
    assert slug(text) != slug(text + "x")
    assert slug(text)[-8:].isalnum()


@given(st.text())
@example("CON")
@example("İ")
def test_a_slug_is_safe_everywhere(text: str):
    name = slug(text)
    assert 1 <= len(name) <= LONGEST_SLUG
    assert all(
        part and part.isascii() and part.isalnum() and part == part.lower() for part in name.split("-")
    )
    assert why_unsafe(name) is None
    assert why_unsafe(f"guides/{name}/index.html") is None
    assert slug(name) == name


@given(st.text())
def test_the_normal_form_makes_no_difference(text: str):
    assert slug(unicodedata.normalize("NFD", text)) == slug(unicodedata.normalize("NFC", text))


def test_a_name_to_be_avoided():
    assert slug("Index", avoid={"index"}).startswith("index-")
    assert slug("Map", avoid={"index"}) == "map"


def test_an_asset_is_named_by_its_content():
    assert asset_name("Two coats, côté A", "3f2a90c1d4e5f6", ".webp") == "two-coats-cote-a-3f2a90c1d4.webp"


# Windows: Microsoft, "Naming Files, Paths, and Namespaces".
@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("", "no path inside"),
        ("/etc/passwd", "no path inside"),
        ("../x", "no path inside"),
        ("a/./b", "no path inside"),
        ("a//b", "no path inside"),
        (".git/config", "leaves alone"),
        (".GitIgnore", "leaves alone"),
        (".guidegen-manifest.json", "leaves alone"),
        ("NUL", "device"),
        ("a/Aux.txt", "device"),
        ("com¹.html", "device"),
        ("lpt9 .x", "device"),
        ("x./y", "dot or a space"),
        ("x ", "dot or a space"),
        ("a:b", "“:”"),
        ("a\\b", "“\\”"),
        ("what?.txt", "“?”"),
        ("a\nb", "U+000A"),
        ("a\u202ecod.txt", "U+202E"),
        ("a\x7f", "U+007F"),
        ("x/.DS_Store", "file manager"),
        ("desktop.ini", "file manager"),
        ("a\udcff", "Unicode"),
        ("é" * 72, "143 bytes"),
        ("d/" * 100 + "x", "200 characters"),
    ],
)
def test_unsafe(path: str, words: str):
    assert words in (why_unsafe(path) or "safe")


@pytest.mark.parametrize(
    "path", ["index.html", ".htaccess", ".well-known/x.txt", "Map of the town.pdf", "ÿ/é.txt", "console.txt", "x/.gitignore", "a~1", "é" * 71]
)  # fmt: skip
def test_safe(path: str):
    assert why_unsafe(path) is None


def test_what_cannot_lie_side_by_side():
    assert clashes(["a", "b/c", "b/d", "b.txt"]) == ()
    assert clashes(["map", "Map"]) == (("Map", "map"),)
    assert clashes(["x", "x"]) == (("x", "x"),)
    assert clashes(["é", "e\u0301"]) == (("e\u0301", "é"),)
    assert clashes(["a", "a/b", "A/c/d"]) == (("a", "A/c/d"), ("a", "a/b"))
    assert clashes(["a/b/c", "a/b"]) == (("a/b", "a/b/c"),)


@pytest.mark.parametrize(
    ("content", "here", "file", "shown"),
    [
        ("/town/content", "/town", "guides/x.md", "content/guides/x.md"),
        ("/town/content", "/town/content", "guides/x.md", "guides/x.md"),
        ("/town/content", "/town/content/guides", "guides/x.md", "x.md"),
        ("/town/content", "/town/content/guides", "palette.yaml", "palette.yaml"),
        ("/town/content", "/river", "guides/x.md", "guides/x.md"),
        ("/town/content", "/town/con", "guides/x.md", "guides/x.md"),
        ("/town/content", "/", "x.md", "town/content/x.md"),
    ],
)
def test_a_file_is_shown_from_here(content: str, here: str, file: str, shown: str):
    assert shown_from(PurePosixPath(content), PurePosixPath(here))(file) == shown


def test_a_file_is_shown_with_forward_slashes():
    assert (
        shown_from(PureWindowsPath("C:\\town\\content"), PureWindowsPath("c:\\Town"))("a.md")
        == "content/a.md"
    )
