"""What a batch took, as the bench notes it: by a clock that the test sets, so that nothing waits."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import unquote

import pytest
import yaml
from support.benches import button, finish, kept, laid_out, opened

from guidegen.reading.content.archive import read_archive

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

# Clocks in Amsterdam are two hours ahead of UTC in June.
BEGUN = dt.datetime(2026, 6, 4, 18, 0, tzinfo=dt.UTC)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return laid_out(tmp_path_factory.mktemp("log"))


@pytest.fixture
def bench(browser: Browser, folder: Path) -> Iterator[Page]:
    context = browser.new_context(timezone_id="Europe/Amsterdam")
    page = context.new_page()
    at(page, 0)
    yield opened(page, folder)
    context.close()


def at(page: Page, minutes: float) -> None:
    """Set the page's clock so many minutes after the evening began."""
    page.clock.set_fixed_time(BEGUN + dt.timedelta(minutes=minutes))


def log(bench: Page) -> list[list[str]]:
    href = bench.locator(".save-log").get_attribute("href") or ""
    return list(csv.reader(io.StringIO(unquote(href.partition(",")[2]))))


def made(bench: Page) -> list[dict[str, object]]:
    found = yaml.safe_load(bench.locator(".made").input_value())
    assert isinstance(found, list)
    return found


def test_a_step_is_timed_asked_about_once_and_kept(bench: Page) -> None:
    """Ten faces from 20:00 to 20:52, of which ten minutes were the telephone."""
    step = bench.locator("#step-faces-and-hands")
    for n in range(1, 11):
        at(bench, 5.2 * n)
        assert step.locator(".ask").is_hidden()
        button(bench, "faces-and-hands").click()
    assert step.locator(".all-painting").inner_text() == "52 min, all painting?"
    # Nobody has to answer: the one button leads on.
    assert button(bench, "faces-and-hands").inner_text() == "Next: Lamps and boathooks"
    step.locator("[data-less='10']").click()
    assert step.locator(".ask").is_hidden()
    assert bench.locator(".told").text_content() == "42 min counted."
    bench.reload()
    assert step.locator(".ask").is_hidden()
    assert made(bench) == [{"date": BEGUN.date(), "figures": 10, "minutes": {"Faces and hands": 42}}]
    assert log(bench) == [
        ["step", "begun", "ended", "figures"],
        ["Faces and hands", "2026-06-04T20:00:00", "2026-06-04T20:52:00", "10"],
    ]


def test_who_turns_on_says_that_all_was_painting(bench: Page) -> None:
    at(bench, 12)
    finish(bench, "faces-and-hands")
    step = bench.locator("#step-faces-and-hands")
    assert [one.inner_text() for one in step.locator(".ask button:visible").all()] == [
        "−10",
        "Called away",
    ]
    button(bench, "faces-and-hands").click()
    step.locator(".ask").wait_for(state="hidden")
    assert made(bench)[0]["minutes"] == {"Faces and hands": 12}


def test_called_away_times_nothing_and_can_be_taken_back(bench: Page) -> None:
    at(bench, 40)
    finish(bench, "faces-and-hands")
    step = bench.locator("#step-faces-and-hands")
    step.locator("[data-less='0']").click()
    assert bench.locator(".told").text_content() == "Not counted."
    assert bench.locator(".made").input_value() == ""
    assert len(log(bench)) == 2
    step.locator(".take-back").click()
    assert made(bench)[0]["minutes"] == {"Faces and hands": 40}


def test_what_dries_between_coats_is_no_painting_and_a_reload_breaks_no_stretch(bench: Page) -> None:
    """A coat from 20:00 to 20:30 dries until 20:45; the next is done at 21:10, after a reload."""
    at(bench, 30)
    bench.locator("#step-coats .every").click()
    at(bench, 50)
    button(bench, "coats").click()
    bench.reload()
    at(bench, 70)
    finish(bench, "coats")
    assert bench.locator("#step-coats .all-painting").inner_text() == "55 min, all painting?"
    assert [row[1:] for row in log(bench)[1:]] == [
        ["2026-06-04T20:00:00", "2026-06-04T20:30:00", "10"],
        ["2026-06-04T20:45:00", "2026-06-04T21:10:00", "10"],
    ]


def test_the_next_evening_is_a_stretch_of_its_own(bench: Page) -> None:
    at(bench, 20)
    for _ in range(4):
        button(bench, "faces-and-hands").click()
    at(bench, 24 * 60)
    bench.reload()
    at(bench, 24 * 60 + 30)
    finish(bench, "faces-and-hands")
    assert [row[2:] for row in log(bench)[1:]] == [["2026-06-04T20:20:00", "4"], ["2026-06-05T20:30:00", "6"]]
    assert made(bench)[0]["date"] == dt.date(2026, 6, 5)
    assert made(bench)[0]["minutes"] == {"Faces and hands": 50}


def test_rubbish_in_the_store_does_no_harm(bench: Page) -> None:
    finish(bench, "faces-and-hands")
    for rubbish in ("7", '[null, {"begun": 2, "ended": 1, "by": []}]', '"x"'):
        bench.evaluate(
            """text => {
                const {store, page} = JSON.parse(document.querySelector("#bench-data").textContent);
                const kept = JSON.parse(localStorage.getItem(store));
                kept.benches[page]["step-faces-and-hands"].spans = JSON.parse(text);
                localStorage.setItem(store, JSON.stringify(kept));
            }""",
            rubbish,
        )
        bench.reload()
        assert bench.locator(".it-took").is_hidden()
        assert kept(bench)["step-faces-and-hands"]["done"] is True


def test_the_line_goes_into_the_guide(bench: Page, tmp_path: Path) -> None:
    """What is copied can be read under `made`, quotes in a note and all."""
    at(bench, 31)
    finish(bench, "faces-and-hands")
    note = bench.locator("#step-coats [data-keep='note']")
    note.evaluate("field => { field.closest('details').open = true; }")
    note.fill('A "thin" one: two of three')
    (tmp_path / "guides").mkdir()
    line = bench.locator(".made").input_value()
    (tmp_path / "guides/faces.md").write_text(
        "---\ntitle: Faces\nmade:\n"
        + line
        + "steps:\n- {step: Faces and hands, paint: none, each: 1 min}\n---\n",
        encoding="utf-8",
    )
    archive, _ = read_archive(tmp_path)
    (batch,) = archive.guides[0].made
    assert (batch.figures, dict(batch.minutes)) == (10, {"Faces and hands": 31 * 60_000})
    assert batch.note == 'Coats: A "thin" one: two of three'
