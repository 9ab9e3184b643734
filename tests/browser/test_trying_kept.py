"""What trying colours keeps: schemes on figures of their own, work that goes on after an address, undo, the focus of the keys."""

from __future__ import annotations

import base64
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.content_folders import lay_out
from support.trying import CONTENT, begun, built, drawn, fills, made, opened, order, painted, take, touch

if TYPE_CHECKING:
    from playwright.sync_api import Page

OCHRE = "Reedbank / Oilskin Ochre"
# More than the test has done.
MOST_UNDOES = 20
DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("trying"))


def address(schemes: Any) -> str:
    """An address that is whole, whatever it says: with the sum at its end that the page looks at."""
    text = base64.urlsafe_b64encode(json.dumps(schemes).encode()).decode().rstrip("=")
    rest, digits = 7, ""
    for sign in text:
        rest = (rest * 31 + ord(sign)) % 46656
    while rest or not digits:
        digits, rest = DIGITS[rest % 36] + digits, rest // 36
    return f"#{text}.{digits}"


def one_step(way: str = "base coat", area: str = "coat", name: str = "Rain", coats: float = 1) -> str:
    return address([[OCHRE, way, area], [[name, "watchman", [[0, 1, [2], 1, coats]]]]])


def figure(page: Page) -> str:
    return (page.get_attribute(".try-figure svg", "aria-label") or "").partition(",")[0]


def send(page: Page) -> str:
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place: str = page.evaluate("location.hash")
    return place


def again(page: Page) -> None:
    page.reload()
    page.wait_for_selector(".try-pot")


def test_a_starter_chart_is_drawn_without_the_layers_of_variants(page: Page, site: Path) -> None:
    for picture in sorted((site / "try").glob("*.svg")):
        opened(page, site).evaluate("localStorage.clear()")
        page.reload()
        page.click(f"[data-figure='try/{picture.stem}.js']")
        page.wait_for_selector(".try-figure svg")
        shown = fills(picture.read_text(encoding="utf-8").partition("</defs>")[2])
        assert drawn(page) == shown, picture.stem


def test_each_scheme_stands_on_its_own_figure(page: Page, site: Path) -> None:
    painted(page, site)
    shown = drawn(page)
    page.get_by_role("button", name="Copy the shown one here").first.click()
    page.get_by_role("button", name="Another figure").click()
    page.click("[data-figure='try/ferry.js']")
    page.wait_for_selector("[aria-label^='River ferry']")
    # What lies on the whole figure lies on the whole of another.
    assert order(page) == ["Slate Undercoat brush undercoat the whole figure"]
    small = page.locator(".try-pick svg").evaluate_all("all => all.map(each => each.getAttribute('viewBox'))")
    assert small[0] != small[1] == small[2]
    page.get_by_role("button", name="Show Scheme 1").click()
    page.wait_for_selector(".try-figure [aria-label^='Watchman']")
    assert drawn(page) == shown
    again(page)
    assert drawn(page) == shown


def test_another_figure_is_undone(page: Page, site: Path) -> None:
    painted(page, site)
    shown, steps = drawn(page), order(page)
    page.get_by_role("button", name="Another figure").click()
    page.click("[data-figure='try/ferry.js']")
    page.wait_for_selector(".try-figure [aria-label^='River ferry']")
    assert "3 areas" in page.inner_text(".try-told")
    page.get_by_role("button", name="Undo").click()
    page.wait_for_selector(".try-figure [aria-label^='Watchman']")
    assert (drawn(page), order(page)) == (shown, steps)


def test_work_goes_on_after_an_address_was_sent(page: Page, site: Path) -> None:
    painted(page, site)
    page.locator(".try-table summary").click()
    page.get_by_label("Lock hood").check()
    send(page)
    again(page)
    assert page.locator(".try-own").is_hidden()
    page.locator(".try-table summary").click()
    assert page.get_by_label("Lock hood").is_checked()
    for pot, area in (("Gull White", "scarf"), ("Oilskin Ochre", "boots")):
        take(page, pot, "base coat")
        touch(page, area)
        steps = order(page)
        again(page)
        assert order(page) == steps
    assert not page.evaluate("location.hash")


def test_a_lock_is_large_enough_for_a_thumb(page: Page, site: Path) -> None:
    painted(page, site).locator(".try-table summary").click()
    box = page.get_by_label("Lock hood").bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 24


def test_two_addresses_take_nothing_from_what_was_kept(page: Page, site: Path) -> None:
    painted(page, site)
    mine = order(page)
    page.goto("about:blank")
    opened(page, site, one_step()).wait_for_selector(".try-pot")
    page.goto("about:blank")
    opened(page, site, one_step(area="hood")).wait_for_selector(".try-pot")
    take(page, "Gull White", "base coat")
    touch(page, "boots")
    hers = order(page)
    page.goto("about:blank")
    opened(page, site, one_step(area="scarf")).wait_for_selector(".try-pot")
    assert order(page) == ["Oilskin Ochre base coat scarf"]
    for before in (hers, mine):
        page.get_by_role("button", name="Take back what you had").click()
        page.wait_for_function(
            "n => document.querySelectorAll('.try-steps ol li').length === n", arg=len(before)
        )
        assert order(page) == before


@pytest.mark.parametrize("broken", [
    one_step(way="constructor"), one_step(way="toString"), one_step(coats=1.5),
])  # fmt: skip
def test_an_address_that_says_what_there_is_not_is_told(page: Page, site: Path, broken: str) -> None:
    opened(page, site, broken)
    page.wait_for_function("() => document.querySelector('.try-told').textContent.includes('broken')")
    assert page.locator(".try-bench").is_hidden()


@pytest.mark.parametrize("area", ["__proto__", "constructor", "nonsense"])
def test_areas_that_the_figure_has_not_are_left_out_and_told(page: Page, site: Path, area: str) -> None:
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    opened(page, site, one_step(area=area)).wait_for_selector(".try-pot")
    assert page.inner_text(".try-told") == "1 area of the scheme is not on this figure."
    page.locator(".try-take summary").click()
    page.wait_for_function("() => document.querySelector('.try-draft').textContent")
    assert order(page) == []
    assert "paint:" not in page.inner_text(".try-draft")
    assert errors == []


def test_signs_that_no_text_can_have_are_written_out(page: Page, site: Path) -> None:
    opened(page, site, one_step(name="Rain\x7f\u2028\x85 1")).wait_for_selector(".try-pot")
    page.locator(".try-take summary").click()
    page.wait_for_function("() => document.querySelector('.try-draft').textContent")
    draft = page.evaluate("document.querySelector('.try-draft').textContent")
    assert 'title: "Rain\\u007f\\u2028\\u0085 1"\n' in draft
    page.goto("about:blank")
    opened(page, site, one_step(name="  ")).wait_for_selector(".try-pot")
    assert page.locator(".try-called").first.inner_text() == "Scheme 1"


def test_the_focus_stays_with_what_was_moved(page: Page, site: Path) -> None:
    def focus() -> str:
        name: str = page.evaluate(
            "document.activeElement.getAttribute('aria-label') || document.activeElement.className"
        )
        return name

    painted(page, site)
    page.get_by_role("button", name="Later: Oilskin Ochre").press("Enter")
    assert focus().startswith("Later: Oilskin Ochre")
    page.keyboard.press("Enter")
    # The last one goes no later.
    assert focus().startswith("Earlier: Oilskin Ochre")
    page.keyboard.press("Enter")
    assert order(page)[2].startswith("Oilskin Ochre")
    page.get_by_role("button", name="Take out: Oilskin Ochre").press("Enter")
    assert focus().startswith("Take out: Lantern Brass")
    for _ in range(3):
        page.keyboard.press("Enter")
    assert (order(page), focus()) == ([], "Undo")
    page.get_by_role("button", name="Show Scheme 2").press("Enter")
    assert focus() == "Show Scheme 2"
    page.get_by_role("button", name="Undo").focus()
    for _ in range(MOST_UNDOES):
        if focus() == "Undo":
            page.keyboard.press("Enter")
    assert focus() == "try-range"


def test_the_tray_is_one_stop_of_the_tab_key(page: Page, site: Path) -> None:
    held = "() => document.activeElement.textContent"
    begun(page, site)
    names = page.locator(".try-pot").all_inner_texts()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowDown")
    assert page.evaluate(held) == names[2]
    page.keyboard.press("End")
    assert page.evaluate(held) == names[-1]
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    assert names[-1] in page.inner_text(".try-held")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") != "try-pot"
    page.keyboard.press("Shift+Tab")
    assert page.evaluate(held) == names[-1]
    assert page.locator(".try-pot[tabindex='0']").count() == 1


def test_more_pots_than_are_shown_are_told_and_names_tell_pots_apart(page: Page, tmp_path: Path) -> None:
    many = "".join(f'  - {{name: Jar {n}, range: Ninelock, colour: "4c56{n:02d}"}}\n' for n in range(60))
    twin = "  - {name: Lantern Brass, range: Ninelock, kind: metallic, colour: a08d3e}\n"
    content = lay_out(tmp_path / "content", CONTENT.replace("mixes:\n", f"{many}{twin}mixes:\n"))
    begun(page, built(tmp_path / "site", content))
    assert (
        page.inner_text(".try-more-pots")
        == "60 of 69 pots are shown: look for one by name, or choose a family."
    )
    page.fill(".try-q", "lantern")
    assert page.locator(".try-pot").all_inner_texts() == [
        "Ninelock / Lantern Brass",
        "Reedbank / Lantern Brass",
    ]
    assert page.inner_text(".try-more-pots") == ""
    take(page, "Ninelock / Lantern Brass")
    assert page.locator(".try-pot[aria-pressed='true']").count() == 1
    page.fill(".try-q", "nobody has this")
    assert page.inner_text(".try-more-pots") == "No pot answers to that."


@pytest.mark.parametrize("path", ["try.html", "my-pots.html"])
def test_the_menu_stands_on_one_line(page: Page, site: Path, path: str) -> None:
    page.set_viewport_size({"width": 390, "height": 664})
    page.goto((site / path).as_uri())
    places = page.locator(".masthead nav li a:visible, .nav-more summary").evaluate_all(
        "all => all.map(each => each.getBoundingClientRect().bottom)"
    )
    assert max(places) - min(places) < 3


def test_red_and_black_are_families_and_lightnesses_as_any(page: Page, tmp_path: Path) -> None:
    more = "  - {name: Bell Red, colour: a8202a}\n  - {name: Coal, colour: '000000'}\n  - {name: Tar, colour: '202020'}\n"
    begun(
        page,
        built(
            tmp_path / "site", lay_out(tmp_path / "content", CONTENT.replace("mixes:\n", f"{more}mixes:\n"))
        ),
    )
    page.locator(".try-family").select_option("red")
    assert page.locator(".try-pot").all_inner_texts() == ["Bell Red"]
    page.locator(".try-family").select_option("black")
    assert page.locator(".try-pot").all_inner_texts() == ["Slate Undercoat", "Coal", "Tar", "Bilge Wash"]
    page.locator(".try-family").select_option("every colour")
    take(page, "Slate Undercoat")
    touch(page, "coat")
    take(page, "Bell Red")
    touch(page, "coat")
    assert "Bell Red over a dark undercoat (coat)" in page.inner_text(".try-advice")


def test_on_paper_each_scheme_has_its_steps_below_it(page: Page, site: Path) -> None:
    painted(page, site)
    page.get_by_role("button", name="Copy the shown one here").first.click()
    page.get_by_role("button", name="Take out: Lantern Brass").click()
    assert page.locator(".try-brief:visible").count() == 0
    page.emulate_media(media="print")
    below = [each.splitlines() for each in page.locator(".try-brief").all_inner_texts()]
    assert [len(steps) for steps in below] == [4, 3, 0]
    assert " ".join(below[0][-1].split()) == "Lantern Brass base coat lantern"
    assert page.locator(".try-steps").is_hidden()


@pytest.mark.parametrize(("scale", "tall"), [("6 mm", 6), ("1:32", 54), ("1:112", 14)])
def test_one_squints_at_a_figure_of_its_own_size(page: Page, tmp_path: Path, scale: str, tall: float) -> None:
    text = CONTENT.replace("figures: 5\nfigure: watchman", f"figures: 5\nscale: {scale}\nfigure: watchman")
    opened(page, built(tmp_path / "site", lay_out(tmp_path / "content", text)))
    page.click("[data-figure='guides/ferry-watch/try.js']")
    page.wait_for_selector(".try-pot")
    page.locator(".try-reads > summary").click()
    page.wait_for_selector(".try-squint svg")
    blur, height = page.locator(".try-squint svg").evaluate(
        "one => [parseFloat(one.style.filter.slice(5)), one.getBoundingClientRect().height]"
    )
    assert blur == pytest.approx(0.2 / tall * height, rel=1e-3)
