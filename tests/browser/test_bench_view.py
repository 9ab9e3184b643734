"""What a bench shows without a touch: on a small phone, upright and on its side, at every step of hard guides."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from support.axe import axe_page, violations
from support.content_folders import lay_out

from guidegen.cli import guidegen

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CONTENT = """\
» palette.yaml
paints:
  - {name: Slate Undercoat for the Brush, kind: primer, colour: "#6b737a", hazards: [H222, H229]}
  - {name: Oilskin Ochre, colour: "#b8862f"}
  - {name: Saltpan White, colour: "#eeeae0"}
  - {name: Ferryman's Slate, colour: "#4c5660"}
  - {name: Pilot's Jersey, colour: "#2c4a78"}
  - {name: Bell Rope Red, colour: "#a8332f"}
  - {name: Silt Wash, kind: wash, colour: "#4a3b2a"}
mixes:
  - {name: Rained-on slate, parts: {Ferryman's Slate: 3, Pilot's Jersey: 1, Saltpan White: a touch}}

» guides/ferry-watch/guide.md
---
title: Ferry watch in wet oilskins
figure: watchman
figures: 10
steps:
  - {step: Prime, technique: spray undercoat, paint: Slate Undercoat for the Brush, once: 10 min, dry: 30 min}
  - {step: The long coats of the night watch, technique: base coat, area: [coat, hood], paint: Oilskin Ochre,
     coats: 2, thin: "3:1 water", brush: size 2, each: 4 min, dry: 15 min, mind: the edge against the scarf where a slip shows}
  - {step: Rained-on trousers, technique: base coat, area: trousers, paint: Rained-on slate, brush: size 2, each: 2 min, dry: 15 min}
  - {step: Put every slip right before the wash goes on, technique: base coat, area: [coat, hood, scarf, face],
     paint: [Oilskin Ochre, Bell Rope Red, Saltpan White, Rained-on slate], brush: size 0, each: 1 min}
  - {step: Scarf, technique: layer, area: scarf, paint: {Bell Rope Red: 3, Saltpan White: 1}, brush: size 0, each: 1 min, dry: 5 min}
  - {step: Darken the folds, technique: wash, paint: Silt Wash, brush: size 4, each: 1 min, dry: 40 min}
---

» guides/undrawn.md
---
title: Nothing draws it
steps:
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 4 min, photo: {file: coats.jpg, alt: Ochre coats}}
  - {step: Trousers, technique: base coat, area: trousers, paint: Rained-on slate, each: 2 min}
  - {step: Glue the base, paint: none, materials: [glue], each: 1 min}
---

» guides/coats.jpg = a photo 800 × 600
"""
BENCH = "guides/ferry-watch/bench.html"
FOLD = """() => {
    const leaf = document.querySelector(location.hash), foot = leaf.querySelector(".leaf-foot").getBoundingClientRect();
    const bar = document.querySelector(".bench-bar").getBoundingClientRect();
    const seen = box => box.top >= bar.bottom - 1 && box.bottom <= foot.top + 1 && box.left >= 0 && box.right <= innerWidth;
    const parts = {name: "h2", drawing: ".drawn svg"}, found = {foot: foot.height, end: Math.round(foot.bottom)};
    for (const [part, css] of Object.entries(parts)) found[part] = seen(leaf.querySelector(css).getBoundingClientRect());
    found.pots = [...leaf.querySelectorAll(".recipe .pots li")].filter(pot => !seen(pot.getBoundingClientRect())).length;
    const on = [...leaf.querySelectorAll(".leaf-foot nav > *")].filter(each => each.checkVisibility()).pop().getBoundingClientRect();
    found.button = [on.height, on.bottom <= innerHeight];
    // What lies at the edges of the screen belongs to this step.
    const at = (x, y) => document.elementFromPoint(x, y).closest(".leaf, .bench-bar");
    found.others = [at(innerWidth / 2, bar.bottom + 1), at(innerWidth / 2, innerHeight - 1)].filter(each => each !== leaf).length;
    return found;
}"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("view")
    lay_out(at / "content", CONTENT)
    places = ["--content", str(at / "content"), "--out", str(at / "site"), "--cache", str(at / "cache")]
    result = CliRunner().invoke(guidegen, ["build", *places])
    assert result.exit_code == 0, result.output
    return at / "site"


def steps(page: Page) -> list[str]:
    return page.locator(".leaf[data-n]").evaluate_all("leaves => leaves.map(leaf => leaf.id)")


@pytest.mark.parametrize("figures", [1, 10, 200])
@pytest.mark.parametrize(("size", "foot"), [((390, 664), 110), ((664, 390), 64)])
def test_all_that_a_step_needs_is_seen_without_a_touch(
    page: Page, site: Path, size: tuple[int, int], foot: int, figures: int
) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.emulate_media(reduced_motion="reduce")
    page.goto((site / BENCH).as_uri())
    page.fill("#figures", str(figures))
    page.press("#figures", "Tab")
    for step in steps(page):
        page.goto((site / BENCH).as_uri() + f"#{step}")
        for worked in (False, True):
            if worked:
                # With a clock running, too, and with what can be taken back.
                page.locator(f"#{step} .do").click()
            found = page.evaluate(FOLD)
            assert found.pop("foot") <= foot + 1, step
            if size[0] > size[1]:
                # On its side a phone may show the last of many pots only after a touch.
                found["pots"] = max(0, found["pots"] - 2)
            assert found == {
                "end": size[1], "name": True, "drawing": True, "pots": 0, "button": [64, True], "others": 0
            }, step  # fmt: skip


def test_the_drawing_shows_where_the_step_is(page: Page, site: Path) -> None:
    page.goto((site / BENCH).as_uri())
    # A drawing is cropped before it comes to the screen.
    for at in range(page.locator(".leaf .marks").count()):
        page.locator(".leaf .marks").nth(at).locator("xpath=ancestor::section").scroll_into_view_if_needed()
        page.evaluate("new Promise(then => requestAnimationFrame(() => requestAnimationFrame(then)))")
    views = page.locator(".leaf .drawn svg").evaluate_all(
        """all => all.map(svg => {
            const {x, y, width, height} = svg.viewBox.baseVal, marks = svg.querySelector(".marks"), box = marks && marks.getBBox();
            return [height, !box || (box.x >= x && box.y >= y && box.x + box.width <= x + width && box.y + box.height <= y + height)];
        })"""
    )
    whole = views[0][0]
    assert all(holds for _, holds in views)
    assert views[4][0] < whole * 0.6
    assert page.locator("#step-prime .marks, #step-darken-the-folds .marks").count() == 0
    assert page.locator(".marks").count() == 4


def test_without_a_chart_there_is_a_picture_all_the_same(page: Page, site: Path) -> None:
    page.set_viewport_size({"width": 390, "height": 664})
    page.emulate_media(reduced_motion="reduce")
    page.goto((site / "guides/undrawn/bench.html").as_uri())
    shown = []
    for step in steps(page):
        page.goto((site / "guides/undrawn/bench.html").as_uri() + f"#{step}")
        picture = page.locator(f"#{step} .drawn > *")
        box = page.locator(f"#{step} .drawn").bounding_box()
        assert box is not None
        assert box["height"] >= 110
        shown.append(picture.first.get_attribute("class") or picture.first.evaluate("each => each.localName"))
    assert shown == ["picture", "daub", "numeral"]
    assert page.locator("#step-coats img").evaluate("image => image.naturalWidth") > 0


def test_a_spray_over_all_is_one_touch(page: Page, site: Path) -> None:
    page.goto((site / BENCH).as_uri())
    assert page.locator("#step-prime .count").inner_text() == "10 at once"
    page.locator("#step-prime .do").click()
    assert page.locator("#step-prime .on").inner_text() == "Next: The long coats of the night watch"


def test_nothing_moves_while_it_is_worked(page: Page, site: Path) -> None:
    page.set_viewport_size({"width": 390, "height": 664})
    page.goto((site / BENCH).as_uri() + "#step-scarf")
    tops = []
    for press in (None, ".do", ".every", ".take-back", ".timer"):
        if press:
            page.locator(f"#step-scarf {press}").evaluate("button => button.click()")
        tops.append(
            page.locator("#step-scarf h2").evaluate(
                "heading => Math.round(heading.getBoundingClientRect().top)"
            )
        )
    assert len(set(tops)) == 1


# Colours hang on the scheme and places on the size, so each of them is looked at, and not each with each.
@pytest.mark.parametrize(
    ("scheme", "size"),
    [("light", (320, 568)), ("dark", (390, 664)), ("light", (664, 390)), ("dark", (1280, 800))],
)
def test_axe_finds_nothing_with_everything_open_and_ringing(
    browser: Browser, site: Path, scheme: Any, size: tuple[int, int]
) -> None:
    with axe_page(browser, scheme, size[0]) as page:
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.goto((site / BENCH).as_uri())
        page.locator("#step-prime").evaluate("leaf => { leaf.dataset.dry = 1; }")
        for step in ("prime", "scarf", "darken-the-folds"):
            page.locator(f"#step-{step} .timer").click()
        page.locator(".bench-bar.rings").wait_for()
        # At the top, where nothing lies under the foot.
        page.evaluate(
            "scrollTo(0, 0); document.querySelectorAll('details').forEach(each => { each.open = true; })"
        )
        assert violations(page) == []
        page.evaluate("document.querySelector('.clocks').open = false")
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


def test_what_wet_hands_touch_is_large(page: Page, site: Path) -> None:
    page.set_viewport_size({"width": 390, "height": 664})
    page.goto((site / BENCH).as_uri())
    page.locator("#step-scarf .do").click()
    page.locator("#step-scarf .timer").click()
    small = page.evaluate(
        """() => [...document.querySelectorAll(".at-hand :is(button, summary, input, .leaf-foot a, .bench-bar a, .resume a, .skip-on)")]
            .filter(each => each.checkVisibility() && each.getBoundingClientRect().height < 44).map(each => each.outerHTML)"""
    )
    assert small == []


def test_without_scripts_every_step_is_there(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 664})
    page = context.new_page()
    page.goto((site / BENCH).as_uri())
    assert page.locator(".leaf[data-n] .drawn svg").count() == 6
    assert not page.locator(".tally, .do, .heard, .clocks").first.is_visible()
    page.locator(".resume a").click()
    page.wait_for_url(lambda url: url.endswith("#step-prime"))
    context.close()
