"""Guides in the paints that their reader owns: told once, kept by the browser alone, spoken of on every page."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.own_pots import BENCH, GUIDE, SIXTY, TEXT, fills, guide, keep, kept, my_pots, own, rest

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("own-pots")
    lay_out(at / "content", TEXT)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).counts is not None
    return at / "site"


@pytest.fixture
def asked(page: Page) -> Iterator[list[str]]:
    """Every address that the page's browser asked for."""
    addresses: list[str] = []
    page.on("request", lambda request: addresses.append(request.url))
    return addresses


def test_a_reader_with_sixty_of_three_hundred_pots_shops_by_guides_and_nothing_leaves(
    page: Page, site: Path, asked: list[str]
) -> None:
    my_pots(page, site)
    page.fill("#mine-list", "\n".join(SIXTY))
    page.click(".mine-read")
    assert page.inner_text(".mine-count") == "60 pots at hand"
    guide(page, site)
    assert page.inner_text(".own-sum") == (
        "Of 4 paints you have 1; 2 have a substitute, 1 to buy, or to live without. "
        "1 more is only for optional steps, or after your stop."
    )
    lines = page.locator(".own-lines > li").all_inner_texts()
    assert [line.partition(" a ")[0].partition(" warmer")[0] for line in lines[:1]] == [
        "Mustard for Oilskin Ochre"
    ]
    assert "Kiln Red for Bell Red" in lines[1]
    assert "the author’s own substitute" in lines[1]
    # 10 figures at 2.1 ml are 21 ml: three pots of 10 ml, and of everything else none.
    assert page.inner_text(".own-buy") == "To buy for your table: Night Glow (3 pots)"
    page.fill("#figures", "4")
    page.dispatch_event("#figures", "change")
    page.get_by_text("Night Glow (1 pot)").wait_for()
    for path in (BENCH, "guides/ropes/index.html", "guides/plain/index.html", "guides/ropes/bench.html"):
        guide(page, site, path)
    assert asked
    assert [url for url in asked if not url.startswith((site.as_uri(), "data:"))] == []


def test_shelf_and_plan_speak_of_the_readers_pots(page: Page, site: Path) -> None:
    own(page, site, SIXTY)
    guide(page, site, "shelf.html")
    assert page.inner_text(".own-sum") == "1 of 4 guides can be painted with your pots"
    rows = page.locator(".own > .own-lines > li")
    shown = [" ".join(row.split()) for row in rows.all_inner_texts()]
    assert [row for row in shown if not row.startswith("Ferry bags")] == [
        "Plain",
        "Ferry watch 2 have a substitute · lacks 1 pot: Night Glow",
        "Ropes lacks 2 pots: Light Rope, Pale Rope",
    ]
    watch = rows.filter(has_text="Ferry watch")
    watch.locator("summary").first.click()
    assert [line.partition(" a ")[0] for line in watch.locator("li").all_inner_texts()[:1]] == [
        "Mustard for Oilskin Ochre"
    ]
    assert "Kiln Red for Bell Red" in watch.inner_text()
    assert "the author’s own substitute" in watch.inner_text()
    guide(page, site, "plans/regatta/index.html")
    # 20 figures at 2.1 ml, in pots of 10 ml.
    assert page.inner_text(".own-buy") == "To buy for your table: Night Glow (5 pots)"
    assert page.inner_text(".own-sum") == (
        "Of 4 paints you have 1; 2 have a substitute, 1 to buy, or to live without."
    )
    assert "Kiln Red for Bell Red" in page.inner_text(".own-lines")


def test_shelf_and_plan_take_every_area_as_a_set_and_show_recipes_in_folds(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Pale Rope"])
    guide(page, site, "shelf.html")
    ropes = page.locator(".own > .own-lines > li").filter(has=page.get_by_text("Ropes", exact=True))
    assert " ".join(ropes.inner_text().split()) == "Ropes lacks 1 pot: Light Rope"
    ropes.locator("summary").first.click()
    assert "Pale Rope would make two tones of rope alike." in ropes.inner_text()
    own(page, site, ["Reedbank / Old Rope", "Reedbank / Gull"])
    guide(page, site, "shelf.html")
    ropes.locator("summary").first.click()
    mixed = ropes.locator("li").filter(has_text="for Light Rope")
    assert "1 Gull + 1 Old Rope for Light Rope" in mixed.inner_text()
    assert "About 5 off as a rule, sometimes 15: mix, dab, let it dry, look." in mixed.inner_text()
    mixed.locator("summary").click()
    assert "ΔE00" in mixed.inner_text()
    assert mixed.locator(".own-ways li").count()


def test_what_comes_after_the_stop_is_not_lacking(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Oilskin Ochre", "Reedbank / Bell Red"])
    guide(page, site)
    assert page.inner_text(".own-sum").startswith("Of 4 paints you have 2; 2 to buy")
    page.select_option(".own select", "Fit to field")
    assert page.inner_text(".own-sum").startswith("Of 3 paints you have 2; 1 to buy")
    page.reload()
    page.locator(".own.told").wait_for()
    assert page.inner_text(".own-sum").startswith("Of 3 paints you have 2")


def test_on_the_switch_every_page_is_in_the_readers_paints_and_back(page: Page, site: Path) -> None:
    own(page, site, SIXTY)
    guide(page, site)
    coats = "#step-coats .pots"
    before = rest(page)
    assert (page.inner_text(coats), fills(page, coats)) == ("Oilskin Ochre", ["#b8862f"])
    page.check(".own-switch input")
    assert " ".join(page.inner_text(coats).split()) == "Mustard guide: Oilskin Ochre"
    assert fills(page, coats) == ["#ba8a33"]
    row = page.locator(".daubs > div").filter(has_text="scarf")
    assert "#8a3a30" in row.inner_html()
    assert "#a03030" not in row.inner_html()
    # The wet line and the evening have the colours of what is painted now.
    for css, was, now in ((".spine", "#b8862f", "#ba8a33"), (".evening", "#a03030", "#8a3a30")):
        drawn = "".join(each.inner_html() for each in page.locator(css).all())
        assert now in drawn
        assert was not in drawn
    # The wash lies over the coat that is there now.
    folds = fills(page, ".daubs > div:first-child li:nth-child(2)")
    assert folds != fills(page, ".daubs > div:first-child li:nth-child(1)")
    tray = page.locator(".tray > li").first
    assert "Mustard" in tray.inner_text()
    assert "buy" not in tray.inner_text()
    guide(page, site, BENCH)
    assert page.is_checked(".own-switch input")
    assert " ".join(page.inner_text(coats).split()) == "Mustard guide: Oilskin Ochre"
    assert "Mustard" in (page.text_content(".sheet-steps > li:first-child .with") or "")
    guide(page, site)
    page.uncheck(".own-switch input")
    assert rest(page) == before


def test_the_evening_of_another_batch_is_in_the_readers_paints_too(page: Page, site: Path) -> None:
    own(page, site, SIXTY)
    guide(page, site)
    page.check(".own-switch input")
    page.fill("#figures", "7")
    page.dispatch_event("#figures", "change")
    assert "#ba8a33" in page.locator(".evening").inner_html()
    assert "#b8862f" not in page.locator(".evening").inner_html()


def test_a_choice_is_remembered_for_the_guide_and_taken_back(page: Page, site: Path) -> None:
    own(page, site, [*SIXTY, "Reedbank / Old Rope"])
    guide(page, site)
    line = page.locator(".own-lines > li").first
    line.locator("summary").click()
    line.get_by_role("button", name="Take this: Old Rope").click()
    assert "Old Rope for Oilskin Ochre" in line.inner_text()
    assert "your choice" in line.inner_text()
    line.get_by_role("button", name="bad").click()
    page.reload()
    page.locator(".own.told").wait_for()
    assert "Old Rope for Oilskin Ochre" in line.inner_text()
    line.locator("summary").click()
    assert line.get_by_role("button", name="bad").get_attribute("aria-pressed") == "true"
    line.get_by_role("button", name="Undo").click()
    assert "Mustard for Oilskin Ochre" in line.inner_text()


def test_a_substitute_that_makes_two_tones_alike_is_refused(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Pale Rope"])
    guide(page, site, "guides/ropes/index.html")
    assert "Pale Rope would make two tones of rope alike." in page.inner_text(".own-lines")
    own(page, site, ["Reedbank / Light Rope", "Reedbank / Old Rope"])
    guide(page, site, "guides/ropes/index.html")
    said = page.inner_text(".own-lines")
    assert "Light Rope would make two tones of rope alike." in said
    assert "Old Rope would turn light and dark round on rope." in said


def test_one_pot_for_two_areas_that_may_touch_is_warned_of(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Pale Rope"])
    guide(page, site, "guides/ferry-bags/index.html")
    assert "Pale Rope then stands for both coat and bag: look where they touch." in page.inner_text(
        ".own-lines"
    )


def test_pots_of_the_same_colours_leave_every_area_as_python_has_it(page: Page, site: Path) -> None:
    twins = (
        ("Twin ochre", "paint", "#b8862f"),
        ("Twin red", "paint", "#a03030"),
        ("Twin wash", "wash", "#4a3b2a"),
    )
    pots = [{"name": name, "own": True, "kind": kind, "colour": colour} for name, kind, colour in twins]
    keep(page, site, {"pots": pots})
    guide(page, site)
    before = fills(page, ".daubs") + fills(page, ".matrix td:last-child")
    page.check(".own-switch input")
    assert " ".join(page.inner_text("#step-folds .pots").split()) == "Twin wash guide: Silt Wash"
    after = fills(page, ".daubs") + fills(page, ".matrix td:last-child")
    assert len(before) > 20
    # One step of a byte, where a film's curves are solved in another way.
    channels = [
        [[int(colour[at : at + 2], 16) for at in (1, 3, 5)] for colour in each] for each in (before, after)
    ]
    assert (
        max(abs(a - b) for one, two in zip(*channels, strict=True) for a, b in zip(one, two, strict=True))
        <= 1
    )


def test_where_each_file_has_a_store_of_its_own_links_carry_the_pots(browser: Browser, site: Path) -> None:
    agent = "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0"
    one, two = (browser.new_context(user_agent=agent) for _ in range(2))
    page = one.new_page()
    my_pots(page, site)
    assert "each page has a memory of its own" in page.inner_text(".mine-told")
    page.fill("#mine-list", "Bell Red\nGull")
    page.click(".mine-read")
    page.hover(".site-name a")
    page.mouse.down()
    link = page.get_attribute(".site-name a", "href") or ""
    other = two.new_page()
    other.goto((site / GUIDE).as_uri() + link[link.index("#") :])
    other.locator(".own.told").wait_for()
    assert other.inner_text(".own-sum").startswith("Of 4 paints you have 1")
    other.wait_for_url(lambda url: "pots=" not in url)
    one.close()
    two.close()


def test_a_mixture_is_never_shown_without_its_error_and_can_be_bottled(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Old Rope", "Reedbank / Gull"])
    guide(page, site, "guides/ropes/index.html")
    line = page.locator(".own-lines > li").filter(has_text="for Light Rope")
    assert "Old Rope" in line.inner_text()
    assert "Gull" in line.inner_text()
    assert "About 5 off as a rule, sometimes 15: mix, dab, let it dry, look." in line.inner_text()
    line.locator("summary").click()
    assert "Bottle it: 1 ml for 10 figures, 10 drops Gull + 10 drops Old Rope." in line.inner_text()
    line.get_by_role("button", name="Put the bottle among my pots").click()
    assert "Light Rope (bottled mixture) for Light Rope" in line.inner_text()
    bottle = kept(page)[-1]
    assert (bottle["kind"], bottle["own"]) == ("bottled", True)
    my_pots(page, site)
    assert "Light Rope (bottled mixture)" in page.inner_text(".mine-families")


def test_a_dried_up_pot_is_none(page: Page, site: Path) -> None:
    own(page, site, ["Reedbank / Oilskin Ochre"], "dry")
    my_pots(page, site)
    assert page.inner_text(".mine-count") == "0 pots at hand"
    guide(page, site)
    assert page.inner_text(".own-sum").startswith("Of 4 paints you have 0")


def test_lists_are_read_as_the_command_reads_them_and_the_nearest_name_is_offered(
    page: Page, site: Path
) -> None:
    my_pots(page, site)
    table = 'Name;Reihe;Bestand\n"Bell Red";Reedbank;2\nWatch Yellow;;1\nGull;Reedbank;0\nMustrd;Reedbank;1\n<b>Odd</b>;;1\n'
    page.fill("#mine-list", table)
    page.click(".mine-read")
    assert page.inner_text(".mine-taken") == "2 pots taken over. 2 names are not known here:"
    assert [pot["name"] for pot in kept(page)] == ["Reedbank / Bell Red", "Reedbank / Oilskin Ochre"]
    assert page.locator(".mine-unknown b").count() == 0
    page.get_by_role("button", name="Take Reedbank / Mustard").click()
    page.get_by_role("button", name="Keep it under this name: <b>Odd</b>").click()
    assert [pot["name"] for pot in kept(page)][2:] == ["Reedbank / Mustard", "<b>Odd</b>"]
    assert page.locator(".mine-family b").count() == 0
    page.click(".mine-undo")
    assert len(kept(page)) == 3


def test_pots_of_ones_own_and_a_file_there_and_back(page: Page, site: Path, tmp_path: Path) -> None:
    my_pots(page, site)
    page.fill("#mine-name", "Grandmother’s Red")
    page.fill("#mine-colour", "#a13131")
    page.click(".mine-add button")
    page.check("[aria-labelledby=list] label:has-text('Silt Wash') input")
    page.select_option("li:has-text('Silt Wash') .mine-state", "low")
    with page.expect_download() as waiting:
        page.click(".mine-save")
    file = tmp_path / "pots.json"
    waiting.value.save_as(file)
    before = kept(page)
    page.click(".mine-forget")
    assert kept(page) == []
    page.set_input_files("#mine-load", file)
    page.get_by_text("2 pots taken over.").wait_for()
    assert kept(page) == before
    guide(page, site)
    assert "Grandmother’s Red for Bell Red" in page.inner_text(".own-lines")


@pytest.mark.parametrize("broken", ["{not json", "[1, 2]", '{"pots": 7}', '{"pots": [{"name": 3}]}'])
def test_what_cannot_be_read_is_told_and_put_aside_whole(
    page: Page, site: Path, tmp_path: Path, broken: str
) -> None:
    keep(page, site, broken)
    my_pots(page, site)
    assert page.inner_text(".mine-told").startswith("What was kept here could not be read in full.")
    page.check("[aria-labelledby=list] label:has-text('Silt Wash') input")
    with page.expect_download() as waiting:
        page.click(".mine-aside")
    waiting.value.save_as(tmp_path / "aside")
    assert (tmp_path / "aside").read_text() == broken


def test_lists_are_bounded(page: Page, site: Path) -> None:
    own(page, site, SIXTY)
    my_pots(page, site)
    page.evaluate("document.querySelector('#mine-list').value = 'Old Rope\\n'.repeat(120000)")
    page.click(".mine-read")
    assert "more than 1 MB" in page.inner_text(".mine-taken")
    assert len(kept(page)) == 60
    many = {"pots": [{"name": f"Pot {n}", "own": True, "colour": "#808080"} for n in range(6000)]}
    keep(page, site, many)
    my_pots(page, site)
    assert page.inner_text(".mine-count") == "5,000 pots at hand"
    assert page.locator(".mine-aside").is_visible()


def test_who_has_told_of_no_pots_asks_for_nothing_of_them(page: Page, site: Path, asked: list[str]) -> None:
    page.goto((site / GUIDE).as_uri())
    page.locator(".own a").wait_for()
    assert not [
        url for url in asked if any(name in url for name in ("palette.js", "assets/own-", "assets/colour-"))
    ]
    page.click(".own a")
    page.locator(".mine-rack").first.wait_for()


def test_without_scripts_a_guide_is_as_it_was_and_the_page_says_what_it_needs(
    browser: Browser, site: Path
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / GUIDE).as_uri())
    assert not page.locator(".own").is_visible()
    page.goto((site / "my-pots.html").as_uri())
    assert page.locator(".mine-needs").is_visible()
    assert not page.locator(".mine").is_visible()
    context.close()


@pytest.mark.parametrize(("scheme", "width"), [("light", 390), ("dark", 1280)])
def test_axe_finds_nothing(browser: Browser, site: Path, scheme: str, width: int) -> None:
    with axe_page(browser, scheme, width) as page:
        own(page, site, [*SIXTY, "Reedbank / Old Rope", "Reedbank / Gull"])
        my_pots(page, site)
        page.fill("#mine-list", "Mustrd\nOdd")
        page.click(".mine-read")
        assert violations(page) == []
        for path in (GUIDE, BENCH, "guides/ropes/index.html"):
            guide(page, site, path)
            page.check(".own-switch input")
            for summary in page.locator(".own summary").all():
                summary.click()
            assert violations(page) == []
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
