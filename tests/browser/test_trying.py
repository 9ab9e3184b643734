"""Trying colours in a real Chromium, from the disk: by thumb, by keys, sent as an address, taken along as a guide."""

from __future__ import annotations

import random
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.languages import ENGLISH
from support.paints import palette_of, pot, scheme, step
from support.paths import TEMPLATES

from guidegen.building.build import Order, build
from guidegen.computing.colour.clusters import main_colours
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.guide.area_states import area_states
from guidegen.model.technique import TECHNIQUES
from guidegen.rendering.theme.assets import colour_script
from guidegen.rendering.theme.templates import Templates

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CONTENT = """
» site.yaml
title: The delta's archive
» palette.yaml
paints:
  - {name: Slate Undercoat, range: Sternpost, kind: primer, colour: 3b4045, owned: 1}
  - {name: Oilskin Ochre, range: Reedbank, colour: b8862f, owned: 2}
  - {name: Gull White, range: Reedbank, colour: f0efe8, owned: 1}
  - {name: "Ferryman's <b>Slate</b>", range: Reedbank, colour: 4c5660}
  - {name: Bilge Wash, range: Ninelock, kind: wash, colour: 2a2d36, strength: 1.4, owned: 1}
  - {name: Lantern Brass, range: Reedbank, kind: metallic, colour: b08d3e, owned: 1}
  - {name: Wet Deck, range: Reedbank, kind: varnish, finish: gloss, owned: 1}
» guides/ferry-watch/guide.md
---
title: Ferry watch
figures: 5
figure: watchman
steps:
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 9 min, dry: 30 min}
  - {step: Folds, technique: wash, area: coat, paint: Bilge Wash, each: 3 min, dry: 40 min, thin: "2:1 water"}
---
The watch stands where the river is widest.
"""


def built(folder: Path, content: Path) -> Path:
    report = build(Order(content=content, out=folder, cache=folder.parent / "cache"))
    assert report.counts is not None, report.diagnostics
    return folder


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("trying")
    return built(folder / "site", lay_out(folder / "content", CONTENT))


def opened(page: Page, site: Path, place: str = "") -> Page:
    page.goto((site / "try.html").as_uri() + place)
    return page


def begun(page: Page, site: Path) -> Page:
    opened(page, site).click("[data-figure='try/watchman.js']")
    page.wait_for_selector(".try-pot")
    return page


def take(page: Page, name: str, way: str = "") -> None:
    page.locator(".try-pot", has_text=name).first.click()
    if way:
        page.locator(f".try-ways input[value='{way}']").check(force=True)


# A place of the drawing where nothing lies over an area, for a finger.
SPOT = """area => {
  const box = document.querySelector('.try-figure svg').getBoundingClientRect();
  for (let y = box.top; y < box.bottom; y += 3) for (let x = box.left; x < box.right; x += 3) {
    const hit = document.elementFromPoint(x, y), group = hit && hit.closest('[data-area]');
    if (group && group.dataset.area === area) return [x, y];
  }
}"""


def touch(page: Page, *areas: str) -> None:
    for area in areas:
        page.mouse.click(*page.evaluate(SPOT, area))


def order(page: Page) -> list[str]:
    return [" ".join(text.split()) for text in page.locator(".try-steps ol .try-step").all_inner_texts()]


def fills(markup: str) -> list[str]:
    return re.findall(r'fill="(#[0-9a-f]{6})"', markup)


def drawn(page: Page) -> list[str]:
    return fills(page.inner_html(".try-figure").partition("</defs>")[2])


def painted(page: Page, site: Path) -> Page:
    begun(page, site)
    take(page, "Slate Undercoat")
    touch(page, "coat")
    take(page, "Oilskin Ochre")
    touch(page, "coat", "hood")
    take(page, "Bilge Wash")
    touch(page, "coat")
    take(page, "Lantern Brass")
    touch(page, "lantern")
    return page


def test_two_hundred_schemes_come_out_as_in_python(page: Page) -> None:
    draw = random.Random(70)
    kinds = ("paint",) * 5 + ("wash", "glaze", "stain", "metallic", "varnish", "ink")
    paints = []
    for n in range(30):
        kind = draw.choice(kinds)
        colour = None if kind == "varnish" else "#" + bytes(draw.randrange(256) for _ in range(3)).hex()
        finish = draw.choice(("", "matt", "gloss"))
        paints.append(pot(f"Jar {n}", colour, kind, finish=finish, strength=draw.choice((0.5, 1.0, 2.5))))
    palette = palette_of(*paints)
    mixer = Mixer(palette)
    areas, ways = ("coat", "hood", "boots", "scarf"), [row.name for row in TECHNIQUES.values()]
    schemes = []
    for _ in range(200):
        steps = [
            (
                draw.choice(paints),
                draw.choice(ways),
                draw.sample(areas, draw.randint(1, 4)),
                draw.randint(1, 2),
            )
            for _ in range(draw.randint(1, 9))
        ]
        schemes.append(steps)
    data = {
        "pots": [
            {
                "name": p.name,
                "colour": p.colour,
                "kind": p.kind.value,
                "finish": p.finish,
                "strength": p.strength,
            }
            for p in paints
        ],
        "ways": {row.name: [row.role.value, row.dry] for row in TECHNIQUES.values()},
    }
    page.add_script_tag(content=colour_script(Templates(ENGLISH)))
    page.add_script_tag(content=(TEMPLATES / "scripts" / "scheme.js").read_text(encoding="utf-8"))
    told = page.evaluate(
        "([data, all]) => { const model = guidegenSchemes(guidegenColour, data); return all.map(steps => model.states(steps)); }",
        [
            data,
            [[{"pot": p.name, "way": w, "areas": a, "coats": c} for p, w, a, c in one] for one in schemes],
        ],
    )
    for steps, found in zip(schemes, told, strict=True):
        made = scheme(palette, *(step(w, a, p.name, coats=c) for p, w, a, c in steps))
        ours = {area: those[-1] for area, those in area_states(made, mixer).items() if those}
        assert found.keys() == ours.keys()
        for area, state in ours.items():
            relief = {key: getattr(state.relief, key) for key in ("edges", "flats", "recesses")}
            shown = {
                "relief": relief,
                "metal": state.metal,
                "metalEdges": state.metal_edges,
                "finish": state.finish,
            }
            assert found[area] == shown, (steps, area)


def test_a_scheme_is_painted_undone_and_scrubbed(page: Page, site: Path) -> None:
    painted(page, site)
    assert order(page) == [
        "Slate Undercoat brush undercoat the whole figure",
        "Oilskin Ochre base coat coat, hood",
        "Bilge Wash wash coat",
        "Lantern Brass base coat lantern",
    ]
    done = drawn(page)
    page.locator(".try-range").fill("1")
    assert set(drawn(page)) == {"#3b4045"} | (set(drawn(page)) - {"#b8862f", "#b08d3e"})
    assert "#b8862f" not in drawn(page)
    page.locator(".try-range").fill("4")
    assert drawn(page) == done
    touch(page, "boots")
    assert order(page)[-1].endswith("lantern, boots")
    page.get_by_role("button", name="Undo").click()
    assert drawn(page) == done
    page.get_by_role("button", name=re.compile("Take out: Lantern Brass")).click()
    assert len(order(page)) == 3
    page.get_by_role("button", name=re.compile("Later: Oilskin Ochre")).click()
    assert order(page)[1].startswith("Bilge Wash")


def test_it_is_sent_as_an_address_and_opened_elsewhere(page: Page, site: Path, browser: Browser) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = page.evaluate("location.hash")
    assert len(place) < 2000
    other = browser.new_context().new_page()
    opened(other, site, place).wait_for_selector(".try-pot")
    assert order(other) == order(page)
    assert drawn(other) == drawn(page)
    other.context.close()


def test_an_address_takes_nothing_from_what_was_kept(page: Page, site: Path) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = page.evaluate("location.hash")
    page.get_by_role("button", name=re.compile("Take out: Lantern Brass")).click()
    mine = order(page)
    page.goto("about:blank")
    opened(page, site, place).wait_for_selector(".try-pot")
    assert len(order(page)) == len(mine) + 1
    page.get_by_role("button", name="Take back what you had").click()
    page.wait_for_function("() => !location.hash && document.querySelector('.try-pot')")
    assert order(page) == mine
    assert page.locator(".try-own").is_hidden()


def test_a_step_is_dragged_to_another_place(page: Page, site: Path) -> None:
    painted(page, site)
    page.locator(".try-steps").scroll_into_view_if_needed()
    grips = page.locator(".try-steps .grip")
    grips.nth(1).hover()
    page.mouse.down()
    grips.nth(2).hover()
    page.mouse.up()
    assert [each.split()[0] for each in order(page)] == ["Slate", "Bilge", "Oilskin", "Lantern"]


def test_a_guide_and_a_starter_chart_may_have_one_name(page: Page, site: Path) -> None:
    names = opened(page, site).locator("[data-name]").evaluate_all("all => all.map(one => one.dataset.name)")
    assert len(names) == len(set(names)) == 6
    assert "guides/ferry-watch" in names


@pytest.mark.parametrize("spoil", [
    lambda text: text[:-9],
    lambda text: text[:30] + "A" + text[31:],
    lambda text: "#" + "<img src=x onerror=alert(1)>" * 3,
    lambda text: "#" + "%" * 60,
])  # fmt: skip
def test_a_broken_address_is_told(page: Page, site: Path, spoil: Any) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = spoil(page.evaluate("location.hash"))
    page.evaluate("localStorage.clear()")
    page.goto("about:blank")
    opened(page, site, place)
    page.wait_for_function("() => document.querySelector('.try-told').textContent.includes('broken')")
    assert page.locator(".try-bench").is_hidden()
    assert page.locator("img[src=x]").count() == 0


@pytest.mark.parametrize("kept", [
    "{", "[]", "7", '{"schemes": 3}', '{"schemes": [{"name": "<b>", "figure": "watchman", "steps": [{}]}, {}, {}], "shown": 9}',
])  # fmt: skip
def test_a_broken_store_is_told(page: Page, site: Path, kept: str) -> None:
    opened(page, site)
    page.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)",
        [page.get_attribute(".try-bench", "data-store"), kept],
    )
    page.reload()
    page.wait_for_function("() => document.querySelector('.try-told').textContent.includes('cannot be read')")
    page.click("[data-figure='try/watchman.js']")
    page.wait_for_selector(".try-pot")


def test_it_is_kept_and_three_stand_side_by_side(page: Page, site: Path) -> None:
    painted(page, site)
    shown = drawn(page)
    page.get_by_role("button", name="Copy the shown one here").first.click()
    take(page, "Slate</b>", "base coat")
    touch(page, "hood")
    assert drawn(page) != shown
    page.reload()
    page.wait_for_selector(".try-pot")
    assert len(order(page)) == 5
    page.get_by_role("button", name="Show Scheme 1").click()
    assert drawn(page) == shown
    page.get_by_role("button", name="Another figure").click()
    page.click("[data-figure='try/ferry.js']")
    page.wait_for_function(
        "() => document.querySelector('.try-told').textContent.includes('not on this figure')"
    )
    assert order(page)[0] == "Slate Undercoat brush undercoat the whole figure"


def test_by_keys_alone(page: Page, site: Path) -> None:
    opened(page, site)
    page.locator("[data-figure='try/watchman.js']").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".try-pot")
    assert page.evaluate("document.activeElement.className") == "try-pot"
    page.keyboard.press("Enter")
    page.locator(".try-table summary").focus()
    page.keyboard.press("Enter")
    button = page.get_by_role("button", name="Paint hood", exact=True)
    button.focus()
    page.keyboard.press("Enter")
    assert order(page) == ["Slate Undercoat brush undercoat the whole figure"]
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Paint hood"
    assert "#3b4045" in page.locator(".try-table tbody tr", has_text="hood").inner_text()
    page.keyboard.press("Control+z")
    assert order(page) == []


def test_a_guide_to_start_from_looks_as_its_own_last_picture(page: Page, site: Path) -> None:
    opened(page, site).click("[data-figure='guides/ferry-watch/try.js']")
    page.wait_for_selector(".try-pot")
    assert order(page) == ["Oilskin Ochre base coat coat", "Bilge Wash wash coat"]
    assert drawn(page) == fills(
        (site / "guides/ferry-watch/figure.svg").read_text(encoding="utf-8").partition("</defs>")[2]
    )


def test_it_is_taken_along_and_built(page: Page, site: Path, tmp_path: Path) -> None:
    painted(page, site)
    page.get_by_label("Name").fill('Rain: "grey" & <wet> # one')
    page.locator(".try-take summary").click()
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save as a file").click()
    assert saved.value.suggested_filename == "rain-grey-wet-one.md"
    content = lay_out(tmp_path / "content", CONTENT)
    (content / "guides/rain").mkdir()
    saved.value.save_as(content / "guides/rain/guide.md")
    home = built(tmp_path / "site", content)
    figure = (home / "guides/rain/figure.svg").read_text(encoding="utf-8")
    assert fills(figure.partition("</defs>")[2]) == drawn(page)


def test_what_goes_under_is_told(page: Page, site: Path) -> None:
    begun(page, site)
    take(page, "Slate Undercoat")
    touch(page, "coat")
    take(page, "Gull White")
    touch(page, "coat")
    assert "over a dark undercoat (coat)" in page.locator(".try-advice").inner_text()


def test_locked_areas_stay_and_pots_are_proposed_that_stay_apart(page: Page, site: Path) -> None:
    painted(page, site)
    page.locator(".try-table summary").click()
    page.get_by_label("Lock hood").check()
    before = order(page)
    take(page, "Gull White", "base coat")
    touch(page, "hood")
    assert order(page) == before
    assert "locked" in page.locator(".try-held").inner_text()
    page.locator(".try-apart summary").click()
    page.wait_for_function("() => document.querySelectorAll('.try-apart option').length")
    page.locator(".try-apart select").nth(0).select_option("trousers")
    page.locator(".try-apart select").nth(1).select_option("hood")
    proposed = page.locator(".try-apart li").all_inner_texts()
    assert [name.strip() for name in proposed] == ["Gull White", "Ferryman's <b>Slate</b>"]
    page.locator(".try-apart li button").first.click()
    assert "In hand: Gull White" in page.locator(".try-held").inner_text()


def test_the_readers_own_pots_are_in_the_tray(page: Page, site: Path) -> None:
    opened(page, site)
    kept = (
        '{"pots": [{"name": "Gull White", "state": "dry"}, {"name": "Reedbank / Oilskin Ochre", "state": "full"}, '
        '{"name": "Old <i>Moss</i>", "own": true, "kind": "paint", "colour": "#4a5a2c", "state": "low"}]}'
    )
    page.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)",
        [page.get_attribute(".try-bench", "data-mine"), kept],
    )
    begun(page, site)
    page.locator(".try-from").select_option("mine")
    assert sorted(page.locator(".try-pot").all_inner_texts()) == ["Oilskin Ochre", "Old <i>Moss</i>"]
    take(page, "Moss")
    touch(page, "coat")
    assert order(page) == ["Old <i>Moss</i> base coat coat"]
    page.reload()
    page.wait_for_selector(".try-pot")
    assert order(page) == ["Old <i>Moss</i> base coat coat"]


def test_whether_it_reads(page: Page, site: Path) -> None:
    painted(page, site)
    page.locator(".try-reads > summary").click()
    page.wait_for_selector(".try-least")
    said = page.locator(".try-shares").inner_text()
    assert "main colour" in said
    assert sum(map(int, re.findall(r"(\d+)%", said))) <= 101
    assert re.search(
        r"Nearest in lightness where they touch: .+, \d+ in L\*", page.locator(".try-least").inner_text()
    )
    assert re.search(r"“Ferry watch” is nearest to it: \d+ off", page.locator(".try-like").inner_text())
    greys = set(fills(page.inner_html(".try-squint").partition("</defs>")[2]))
    assert all(fill[1:3] == fill[3:5] == fill[5:7] for fill in greys)


def test_without_scripts_there_are_figures_and_what_it_needs(browser: Browser, site: Path) -> None:
    page = browser.new_context(java_script_enabled=False).new_page()
    opened(page, site)
    assert page.get_by_text("needs a browser that runs the scripts").is_visible()
    assert page.locator(".try-choice img").count() == 6
    assert page.locator(".try-bench").is_hidden()
    page.context.close()


@pytest.mark.parametrize(("look", "width"), [("light", 390), ("dark", 390), ("light", 1280)])
def test_axe_has_nothing_to_say(browser: Browser, site: Path, look: str, width: int) -> None:
    with axe_page(browser, look, width) as page:
        opened(page, site)
        assert violations(page) == []
        painted(page, site)
        for summary in page.locator("main summary").all():
            summary.click()
        page.wait_for_selector(".try-least")
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_picture_has_the_same_colours_as_in_python(page: Page, site: Path, tmp_path: Path) -> None:
    from PIL import Image

    random = np.random.default_rng(3)
    noise = random.integers(0, 256, (130, 211, 3), dtype=np.uint8)
    flat = np.full((50, 40, 3), (184, 134, 47), dtype=np.uint8)
    flat[:, 25:], flat[:9] = (76, 86, 96), (32, 33, 36)
    soft = np.asarray(Image.fromarray(noise[:9, :7]).resize((301, 170)))
    begun(page, site)
    page.locator(".try-from-picture summary").click()
    for picture in (noise, flat, soft):
        path = tmp_path / "picture.png"
        Image.fromarray(picture).save(path)
        page.set_input_files(".try-from-picture input", [])
        page.evaluate("document.querySelector('.try-from-picture canvas').hidden = true")
        page.set_input_files(".try-from-picture input", path)
        page.wait_for_selector(".try-from-picture canvas:not([hidden])")
        told = page.evaluate(
            """async () => { const canvas = document.querySelector('.try-from-picture canvas'), {width, height} = canvas;
              const {data} = canvas.getContext('2d').getImageData(0, 0, width, height);
              return guidegenClusters(guidegenColour, data, width, height, 8, {cells: 96, most: 8, rounds: 30}); }"""
        )
        assert told == [{"colour": one.colour, "share": one.share} for one in main_colours(picture, 8)]
        assert page.locator(".try-seen li").count() == len(told)
    page.locator(".try-from-picture canvas").click(position={"x": 3, "y": 3})
    assert page.locator(".try-near").is_visible()
    page.set_input_files(".try-from-picture input", [])
    path.write_bytes(b"no picture")
    page.set_input_files(".try-from-picture input", path)
    page.wait_for_function("() => document.querySelector('.try-picture-told').textContent")
    assert page.locator(".try-seen li").count() == 0
