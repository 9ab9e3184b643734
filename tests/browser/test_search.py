"""Finding guides on the home page in a real Chromium, from the disk: words and choices."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.search_archive import FERRY, LOCK, STREET, TEXT, TRAP, built, ready, sought, titles

from guidegen.rendering.archive import shelf_page

if TYPE_CHECKING:
    from playwright.sync_api import Page


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(tmp_path_factory.mktemp("search"))


@pytest.fixture
def home(page: Page, site: Path) -> Page:
    page.goto((site / "index.html").as_uri())
    return page


# What is typed, and the guides that answer.
ANSWERS = [
    ("ferry watch", {FERRY}),
    ("FERRY", {FERRY, STREET}),  # a title, and a tag
    ("puddles", {FERRY}),  # a step's advice
    ("widest", {FERRY}),  # the text
    ("rain", {FERRY}),  # the summary
    ("boots", {LOCK}),  # an area
    ("boot", {LOCK}),
    ("ninelock", {FERRY, STREET}),  # a range, by way of a mix as well
    ("slipway", {STREET}),  # a mix
    ("mustard", {FERRY}),  # another name of a paint
    ("grey coats", {LOCK, STREET}),  # there the grey is in a mix
    ("gray", set()),
    ("coats", {FERRY, LOCK, STREET, TRAP}),  # areas and base coats, though one coat is said
    ("ash white", {LOCK, TRAP}),
    ("ash", {LOCK, TRAP}),  # but no wash
    ("strasse", {STREET}),
    ("STRASSE", {STREET}),
    ("straße", {STREET}),
    ("mantel", {STREET}),
    ("Mäntel", {STREET}),
    ("strassenvolk", {STREET}),
    ("volk", {STREET}),  # the end of a long word
    ("oeuvre elise", {STREET}),
    ("Élise", {STREET}),
    ("finest", {STREET}),
    ("yd", {STREET}),
    ("e\u0301lise", {STREET}),
    ("zebra", set()),
    ("ferry zebra", set()),
]


def test_a_word_is_found_wherever_it_stands(home: Page) -> None:
    ready(home)
    assert {text: set(sought(home, text)) for text, _ in ANSWERS} == dict(ANSWERS)


def test_what_answers_best_comes_first_and_shows_the_step(home: Page) -> None:
    ready(home)
    assert sought(home, "coats")[0] in {FERRY, LOCK}
    assert sought(home, "grey coats") == [LOCK, STREET]
    step = home.locator(".why a").first
    assert step.inner_text() == "Grey coats"
    assert step.locator("mark").all_inner_texts() == ["Grey", "coats"]
    step.click()
    home.wait_for_url("**/guides/grey-coats/index.html#step-grey-coats")


def test_marks_stand_where_the_letters_are(home: Page) -> None:
    ready(home)
    sought(home, "strasse")
    assert home.locator(".finds h2 mark").all_inner_texts() == ["Straße"]
    sought(home, "elise")
    assert home.locator(".why mark").all_inner_texts() == ["Élise"]
    sought(home, "finest")
    assert home.locator(".why mark").all_inner_texts() == ["ﬁnest"]


def test_choices_sift(home: Page) -> None:
    ready(home)
    home.select_option("#find-tag", "ferry")
    assert titles(home) == [FERRY, STREET]
    home.select_option("#find-time", "60")
    assert titles(home) == []
    home.select_option("#find-tag", "")
    assert titles(home) == [LOCK, TRAP]
    home.select_option("#find-time", "")
    home.check("#find-shelf")
    assert titles(home) == [FERRY, STREET]
    assert home.locator(".find [role=status]").inner_text() == "2 of 4 guides"


def test_the_number_found_is_announced_and_nothing_else(home: Page) -> None:
    ready(home)
    told = home.locator(".find [role=status]")
    assert home.locator(":is([role=status], [aria-live]):not(.keep-all *)").count() == 1
    sought(home, "ferry")
    assert told.inner_text() == "2 of 4 guides"
    sought(home, "")
    assert told.inner_text() == ""


def test_the_form_has_its_room_before_its_script_has_come(home: Page) -> None:
    """Else all guides move down the page under the eyes of who is reading."""
    ready(home)
    tops = home.evaluate("""() => {
        const form = document.querySelector(".find"), list = document.querySelector(".all-guides");
        return [true, false].map(hidden => { form.hidden = hidden; return list.getBoundingClientRect().top; });
    }""")
    assert tops[0] == tops[1]
    assert home.locator(".keep-all ~ .all-guides, header .keep-all").count() == 0


def test_what_authors_wrote_stays_text(home: Page) -> None:
    asked: list[str] = []
    home.on("dialog", lambda dialog: asked.append(dialog.message))
    ready(home)
    for text in ("onerror", "bold", "alert", "script", "hat"):
        assert sought(home, text) == [TRAP], text
    assert home.locator(".finds img, .finds b, .finds i, .finds script").count() == 0
    assert home.locator(".why a").first.inner_text() == "<b>bold</b>"
    home.select_option("#find-tag", "</option><script>alert(2)</script>")
    assert titles(home) == [TRAP]
    home.evaluate("location.hash = 'q=' + encodeURIComponent('<img src=x onerror=alert(4)>')")
    home.wait_for_function("() => document.querySelector('#find-q').value.includes('alert(4)')")
    assert asked == []


def test_german_is_found_as_it_is_typed_and_answered_in_german(page: Page, tmp_path: Path) -> None:
    site = built(tmp_path, TEXT.replace("title: The delta's archive", "title: Das Archiv\nlanguage: de"))
    page.goto((site / "index.html").as_uri())
    ready(page)
    for typed in ("Mäntel", "Maentel", "mantel", "Mantels", "grundierungen mäntel", "Strasse", "Straßen"):
        assert sought(page, typed) == ([] if "grund" in typed else [STREET]), typed
    assert page.locator(".find [role=status]").inner_text() == "1 von 4 Anleitungen"
    assert page.locator(".find-clear").inner_text() == "Alle Anleitungen zeigen"
    assert "Malzeit" in page.locator(".finds .card-facts").first.inner_text()


def test_the_shelf_of_a_large_archive_is_asked_by_what_is_missing(
    page: Page, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Four guides take as many pages as a thousand would.
    monkeypatch.setattr(shelf_page, "MOST_LINES", 2)
    page.goto((built(tmp_path) / "shelf-2.html").as_uri())
    ready(page)
    page.select_option("#find-lacks", "1")
    assert titles(page) == [FERRY, STREET, LOCK, TRAP]  # what lacks nothing first, newest first among those
    page.select_option("#find-lacks", "0")
    assert titles(page) == [FERRY, STREET]
    page.wait_for_url(lambda url: url.endswith("#lacks=0"))
    page.reload()
    page.locator(".finds h2").first.wait_for()
    assert titles(page) == [FERRY, STREET]
    page.click(".find-clear")
    assert page.locator(".columns").is_visible()
