"""Hard cases of guides in a real Chromium: forty steps and one, names without end, mixes only, other languages, right to left.

What is held against them: WCAG 2.2, success criteria 1.4.4, 1.4.10, 1.4.12, 2.4.11 and 2.5.8, axe's rules, and paper.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from support.axe import axe_page, violations
from support.hard_cases import CASES, ENDLESS, hard_cases

from guidegen.commands.build import command

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

KINDS = [f"guides/{case}/{page}.html" for case in CASES for page in ("index", "bench")]

# The plain ones are among the pages that tests/browser/test_pages.py holds against axe.
AXED = [
    f"guides/{case}/{page}.html" for case in ("endless", "mixes", "hebrew") for page in ("index", "bench")
]

# 1.4.12: what a reader's own style may set.
SPACED = """* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }
p { margin-block-end: 2em !important }"""
DOUBLE = "html { font-size: 200% !important }"
OUTSIDE = """() => document.documentElement.scrollWidth <= innerWidth ? [] : [document.documentElement.scrollWidth,
    ...Array.from(document.querySelectorAll("main *")).filter(place => !place.closest(".scroll, .unseen, .shapes")
        && place.getBoundingClientRect().right > innerWidth + 1).slice(0, 5).map(place => place.outerHTML.slice(0, 90))]"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("hard")
    content = hard_cases(at / "content")
    result = CliRunner().invoke(
        command, ["--content", str(content), "--out", str(at / "site"), "--cache", str(at / "cache")]
    )
    assert result.exit_code == 0, result.output
    return at / "site"


@pytest.mark.parametrize(
    "more", ["", SPACED, DOUBLE, SPACED + DOUBLE], ids=["plain", "spaced", "double", "both"]
)
def test_nothing_sticks_out(browser: Browser, site: Path, more: str) -> None:
    """Reflow at 320 px; text of twice the size at 390 px and on a desktop; the reader's own spacing."""
    context = browser.new_context(reduced_motion="reduce", bypass_csp=True)
    page = context.new_page()
    found = []
    for width in (390, 1280) if DOUBLE in more else (320, 640):
        page.set_viewport_size({"width": width, "height": 800})
        for path in KINDS:
            page.goto((site / path).as_uri())
            if more:
                page.add_style_tag(content=more)
            outside = page.evaluate(OUTSIDE)
            if outside:
                found.append((path, width, outside))
    context.close()
    assert found == []


@pytest.mark.parametrize(("scheme", "width"), [("dark", 390), ("light", 1280)])
def test_axe_finds_nothing(browser: Browser, site: Path, scheme: Any, width: int) -> None:
    found = []
    with axe_page(browser, scheme, width) as page:
        for path in AXED:
            page.goto((site / path).as_uri())
            if "endless/index" in path:
                page.locator(".photo a").first.click()
            if "bench" in path:
                page.locator(".every").first.click()
                page.evaluate("scrollTo(0, 0)")
            found += [(path, *broken) for broken in violations(page)]
    assert found == []


@pytest.mark.parametrize(
    "path", ["guides/endless/index.html", "guides/endless/bench.html", "guides/hebrew/bench.html"]
)
@pytest.mark.parametrize("size", [(390, 844), (1280, 720)])
def test_by_keyboard_alone_everything_is_reached_and_seen(
    page: Page, site: Path, path: str, size: tuple[int, int]
) -> None:
    """2.1.1, 2.4.7 and 2.4.11: each control has the focus once, in order, with an outline, and under nothing."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.emulate_media(reduced_motion="reduce")
    page.goto((site / path).as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    if "bench" in path:
        page.locator(".timer").first.click()
        page.evaluate("document.activeElement.blur(); scrollTo(0, 0)")
    wanted = page.evaluate(
        """() => Array.from(document.querySelectorAll("a[href], button, input, textarea, summary, [tabindex='0']"))
            .filter(place => place.checkVisibility()).length"""
    )
    hidden, reached = [], set()
    for _ in range(wanted + 5):
        page.keyboard.press("Tab")
        told = page.evaluate(
            """() => {
                const at = document.activeElement;
                if (at === document.body) return null;
                const box = at.getClientRects()[0], hit = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                at.dataset.reached = at.dataset.reached || String(Math.random());
                return {key: at.dataset.reached, html: at.outerHTML.slice(0, 90), line: getComputedStyle(at).outlineStyle,
                    seen: !!hit && (at.contains(hit) || hit.contains(at) || !!at.closest("label"))};
            }"""
        )
        if told is None:
            continue
        reached.add(told["key"])
        if not told["seen"] or told["line"] != "solid":
            hidden.append(told["html"])
    assert hidden == []
    assert len(reached) == wanted


def test_everything_that_can_be_clicked_is_large_enough(page: Page, site: Path) -> None:
    """2.5.8: 24 by 24 CSS pixels, links within a sentence aside; at the bench 44."""
    page.set_viewport_size({"width": 390, "height": 800})
    for path, least, those in (
        (
            "guides/forty/index.html",
            24,
            "button, input, summary, .step-list a, .nums a, .matrix a, .jump a, nav a",
        ),
        (
            "guides/forty/bench.html",
            44,
            ".leaf button, .leaf-foot a, .leaf input, .bench-bar a, .leaf summary",
        ),
    ):
        page.goto((site / path).as_uri())
        small = page.evaluate(
            """([least, those]) => Array.from(document.querySelectorAll(those)).filter(place => place.checkVisibility())
                .map(place => [place.outerHTML.slice(0, 80), place.getBoundingClientRect()])
                .filter(([, box]) => box.width < least || box.height < least).map(([html]) => html)""",
            [least, those],
        )
        assert small == []


def test_a_text_from_right_to_left_has_its_page_that_way(page: Page, site: Path) -> None:
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto((site / "guides/hebrew/index.html").as_uri())
    assert page.locator("article").get_attribute("dir") == "rtl"
    assert page.locator("h1").get_attribute("lang") == "he"
    spine, body = (page.locator(f".step {part}").first.bounding_box() for part in (".spine", ".body"))
    assert spine is not None
    assert body is not None
    assert spine["x"] > body["x"] + body["width"] - 1
    # What comes next lies to the left.
    page.locator(".step h3 a").first.focus()
    page.keyboard.press("ArrowLeft")
    assert page.evaluate("document.activeElement.closest('.row').className") == "row stop"
    page.goto((site / "guides/german/index.html").as_uri())
    assert page.locator("article").get_attribute("dir") is None
    assert page.locator("h1").get_attribute("lang") == "de"


def pdf_of(page: Page, path: Path, out: Path, size: str) -> Path:
    page.goto(path.as_uri())
    page.pdf(path=out, format=size, print_background=True)
    return out


def pages_in(pdf: Path) -> int:
    told = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    return int(next(line for line in told.splitlines() if line.startswith("Pages:")).split()[1])


needs_poppler = pytest.mark.skipif(
    shutil.which("pdfinfo") is None, reason="poppler's tools are not installed"
)


@needs_poppler
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_every_bench_fits_one_page_of_paper(page: Page, site: Path, tmp_path: Path, size: str) -> None:
    for case in CASES:
        pdf = pdf_of(page, site / f"guides/{case}/bench.html", tmp_path / f"{case}.pdf", size)
        assert pages_in(pdf) == 1, case


@needs_poppler
@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_on_paper_all_steps_stand_in_order(page: Page, site: Path, tmp_path: Path, size: str) -> None:
    def text_of(path: str) -> str:
        pdf = pdf_of(page, site / path, tmp_path / "one.pdf", size)
        return subprocess.run(
            ["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True
        ).stdout

    for path in ("guides/forty/bench.html", "guides/forty/index.html"):
        text = " ".join(text_of(path).split())
        text = text[text.rindex("Steps") :] if "index" in path else text
        places = [text.index(f"Layer {n} of the long watch") for n in range(1, 41)]
        assert places == sorted(places), path
        assert text.index("Fit for the quay") > places[14]
    assert ENDLESS in "".join(text_of("guides/endless/bench.html").split())
