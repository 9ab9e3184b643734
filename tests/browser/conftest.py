"""A real Chromium for the tests of pages: found once, opened once, and a fresh page for each test."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Playwright

HERE = Path(__file__).parent

# The same names as in find_chromium.sh, which the test run sources.
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge")
APPLICATIONS = ("Google Chrome", "Chromium", "Microsoft Edge")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test in this folder drives a browser, and one worker shares it among them."""
    for item in items:
        if HERE in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.xdist_group("browser"))


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def chromium(playwright: Playwright) -> str:
    """The path of an installed Chromium, Chrome or Edge, or of the one that Playwright brought."""
    told = os.environ.get("GUIDEGEN_CHROMIUM", "")
    apps = (f"/Applications/{name}.app/Contents/MacOS/{name}" for name in APPLICATIONS)
    candidates = (
        *(() if told in ("", "playwright") else (told,)),
        *filter(None, map(shutil.which, NAMES)),
        *apps,
        playwright.chromium.executable_path,
    )
    found = next((path for path in candidates if Path(path).is_file()), None)
    if found is None:
        pytest.fail(
            "No Chromium, Chrome or Edge was found; install one, or set GUIDEGEN_CHROMIUM to its path."
        )
    return found


@pytest.fixture(scope="session")
def browser(playwright: Playwright, chromium: str) -> Iterator[Browser]:
    running = playwright.chromium.launch(executable_path=chromium)
    yield running
    running.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page in a profile of its own; what its scripts complain about fails the test."""
    context = browser.new_context()
    complaints: list[str] = []
    fresh = context.new_page()
    fresh.on("pageerror", lambda error: complaints.append(str(error)))
    fresh.on("console", lambda line: complaints.append(line.text) if line.type == "error" else None)
    yield fresh
    context.close()
    assert complaints == []
