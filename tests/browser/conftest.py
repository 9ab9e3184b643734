"""A real Chromium for the tests of pages: found once, opened once, and a fresh page for each test."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.made_once import made_once
from support.waiting import PATIENCE

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page, Playwright

HERE = Path(__file__).parent

# The same names as in find_chromium.sh, which the test run sources.
NAMES = (
    "chromium-headless-shell",
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "microsoft-edge",
)
APPLICATIONS = ("Google Chrome", "Chromium", "Microsoft Edge")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Every test in this folder drives a browser, which takes its time."""
    for item in items:
        if HERE in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.slow)


@pytest.fixture(scope="package")
def playwright() -> Iterator[Playwright]:
    """Ended after this folder's last test, with its thread: beside one, other tests would not start forks."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="package")
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


@pytest.fixture(scope="package")
def browser(playwright: Playwright, chromium: str) -> Iterator[Browser]:
    """It waits for what a page does as long as any test waits for anything, not for Playwright's 30 seconds."""
    milliseconds = PATIENCE * 1000
    running = playwright.chromium.launch(executable_path=chromium, timeout=milliseconds)
    make = running.new_context

    def new_context(**options: Any) -> BrowserContext:
        context = make(**options)
        context.set_default_timeout(milliseconds)
        return context

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(running, "new_context", new_context)
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


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of all that hostile authors write."""
    from abuse.injected_texts import MARKDOWN
    from abuse.injected_values import ADDRESSES, CHARTS
    from abuse.injections import lay_out

    from guidegen.base.diagnostic import has_errors
    from guidegen.building.build import Order, build

    def make(at: Path) -> None:
        lay_out(at / "content")
        built = build(
            Order(content=at / "content", out=at / "site", cache=at / "cache", leave_out_faulty=True)
        )
        assert built.counts is not None, built.diagnostics[:3]
        refused = {told.span.file.split("/")[1] for told in built.diagnostics if has_errors([told])}
        # A text may stand anywhere; of the rest much is refused, and then its guide is not there.
        assert not [name for name in refused if name.startswith("text")]
        for kind, count in (("markdown", len(MARKDOWN)), ("chart", len(CHARTS)), ("address", len(ADDRESSES))):
            shown = {path.name for path in (at / "site/guides").glob(f"{kind}-*")}
            assert shown.isdisjoint(refused)
            assert len(shown | {name for name in refused if name.startswith(kind)}) == count

    return made_once(tmp_path_factory, "injected", make)
