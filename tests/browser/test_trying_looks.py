"""What trying colours shows: the states of Python, a guide's own picture, whether it reads, colours of a picture; axe."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from click.testing import CliRunner
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.languages import ENGLISH
from support.paints import palette_of, pot, scheme, step
from support.paths import TEMPLATES
from support.trying import CONTENT, begun, built, drawn, fills, made, opened, order, painted, take, touch

from guidegen.cli import guidegen
from guidegen.computing.colour.clusters import main_colours
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.guide.area_states import area_states
from guidegen.model.technique import TECHNIQUES
from guidegen.rendering.theme.assets import colour_script
from guidegen.rendering.theme.templates import Templates

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("trying"))


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


def test_a_guide_to_start_from_looks_as_its_own_last_picture(page: Page, site: Path) -> None:
    opened(page, site).click("[data-figure='guides/ferry-watch/try.js']")
    page.wait_for_selector(".try-pot")
    assert order(page) == ["Oilskin Ochre base coat coat", "Bilge Wash wash coat"]
    assert drawn(page) == fills(
        (site / "guides/ferry-watch/figure.svg").read_text(encoding="utf-8").partition("</defs>")[2]
    )


@pytest.mark.parametrize("begin", ["own", "guide"])
def test_it_is_sent_opened_elsewhere_taken_along_and_built(
    page: Page, site: Path, browser: Browser, tmp_path: Path, begin: str
) -> None:
    if begin == "own":
        painted(page, site)
    else:
        opened(page, site).click("[data-figure='guides/lamp-boys/try.js']")
        page.wait_for_selector(".try-pot")
        take(page, "Ferryman's <b>Slate</b>", "base coat")
        touch(page, "boots")
    page.get_by_label("Name").fill('Rain: "grey" & <wet> # one')
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    elsewhere = browser.new_context().new_page()
    opened(elsewhere, site, page.evaluate("location.hash")).wait_for_selector(".try-pot")
    assert drawn(elsewhere) == drawn(page)
    elsewhere.locator(".try-take summary").click()
    with elsewhere.expect_download() as saved:
        elsewhere.get_by_role("button", name="Save as a file").click()
    assert saved.value.suggested_filename == "rain-grey-wet-one.md"
    draft = tmp_path / "draft.md"
    saved.value.save_as(draft)
    content = lay_out(tmp_path / "content", CONTENT)
    started = CliRunner().invoke(
        guidegen, ["start", str(content / "guides/rain"), "--from", str(draft), "--no-ask"]
    )
    assert started.exit_code == 0, started.output
    checked = CliRunner().invoke(guidegen, ["check", "--content", str(content), "--format", "json"])
    told = json.loads(checked.stdout)
    # What of the figure was left bare is said, as of any guide.
    about = {
        each["code"]
        for each in told["diagnostics"]
        if "rain" in each["file"] and each["severity"] != "advice"
    }
    assert (told["errors"], about - {"unpainted-area"}) == (0, set()), told
    guide = content / "guides/rain/guide.md"
    assert "paint: none" not in guide.read_text(encoding="utf-8")
    guide.write_text(guide.read_text(encoding="utf-8").replace("draft: yes\n", ""), encoding="utf-8")
    home = built(tmp_path / "site", content)
    figure = (home / "guides/rain/figure.svg").read_text(encoding="utf-8")
    assert fills(figure.partition("</defs>")[2]) == drawn(elsewhere)
    elsewhere.context.close()


def test_a_mixture_is_taken_along_as_its_pots(page: Page, site: Path) -> None:
    opened(page, site).click("[data-figure='guides/lamp-boys/try.js']")
    page.wait_for_selector(".try-pot")
    page.locator(".try-take summary").click()
    page.locator(".try-draft", has_text="paint").wait_for()
    draft = page.locator(".try-draft").inner_text()
    assert '    paint: {"Reedbank / Oilskin Ochre": 2, "Reedbank / Gull White": 1}\n' in draft
    assert '    paint: "Wet light"\n' in draft
    assert '    thin: "2:1"\n' in draft
    assert '    thin: "3:2"\n' in draft
    needed = [each.partition(",")[0].strip() for each in page.locator(".try-needed li").all_inner_texts()]
    assert needed == ["Slate Undercoat", "Oilskin Ochre", "Gull White", "Wet Deck", "Bilge Wash", "Wet light"]


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
    assert [name.strip() for name in proposed] == ["Gull White", "Ferryman's <b>Slate</b>", "Wet light"]
    page.locator(".try-apart li button").first.click()
    assert "In hand: Gull White" in page.locator(".try-held").inner_text()


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


def test_without_scripts_there_are_figures_and_what_it_needs(browser: Browser, site: Path) -> None:
    page = browser.new_context(java_script_enabled=False).new_page()
    opened(page, site)
    assert page.get_by_text("needs a browser that runs the scripts").is_visible()
    assert page.locator(".try-choice img").count() == 7
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
