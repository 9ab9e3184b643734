"""What a guide's page says before and after its steps is said once, in words that a painter knows, and by the numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from support import town
from support.languages import ENGLISH
from support.rendered_town import riders, site_of, soup
from support.town import step, uses

from guidegen.computing.guide.batch import Pass, pass_bars
from guidegen.model.guide import Stop
from guidegen.model.web_address import WebAddress
from guidegen.rendering.guide.evening_chart import BETWEEN, draw_evening, marks, percent
from guidegen.rendering.guide.scheme_views import colour_words

PAGE = "guides/ferry-watch/index.html"
MINUTE = 60_000


@pytest.fixture(scope="module")
def page() -> BeautifulSoup:
    return soup(site_of(town.archive(town.ferry_watch(), riders())), PAGE)


def test_of_a_guide_with_variants_the_steps_of_the_page_are_counted() -> None:
    page = soup(site_of(town.archive(riders())), "guides/heron-riders/index.html")
    head = {one.dt.get_text(): one.dd.get_text() for one in page.select(".head .facts > div")}
    assert head["Steps"] == str(len(page.select(".step")))
    assert int(head["Steps"]) < len(riders().steps)


def test_what_may_stand_in_is_listed_once_with_a_mark(page: BeautifulSoup) -> None:
    rows = {row.select_one(".name").get_text(): row for row in page.select(".tray > li")}
    ochre = [item.get_text(" ", strip=True) for item in rows["Oilskin Ochre"].select(".instead li")]
    assert sum("Brass Lamp" in item for item in ochre) == 1
    assert "the author’s choice" in ochre[0]
    assert all(len(row.select(".instead")) <= 1 for row in rows.values())


def test_a_named_mix_stands_with_its_parts_where_one_mixes(page: BeautifulSoup) -> None:
    words = page.find(id="step-darken-the-folds").select_one(".pots").get_text(" ", strip=True)
    for part in ("Wet Wool wash", "5 parts Bilge Wash", "2 parts Kelp Wash", "1 part Clear Medium"):
        assert part in words


def test_how_an_area_ends_is_told_in_colour_words(page: BeautifulSoup) -> None:
    told = [cell.get_text() for cell in page.select(".matrix td:last-child .unseen")]
    assert told
    assert not [words for words in told if "#" in words]
    assert colour_words("#c01818", ENGLISH) == "red"
    assert colour_words("#12233f", ENGLISH) == "dark blue"
    assert colour_words("#f6f6f2", ENGLISH) == "white"
    assert colour_words("#808080", ENGLISH, metal=True) == "metal"


def test_one_step_is_no_steps(page: BeautifulSoup) -> None:
    for line in page.select(".tray .nums"):
        word, *numbers = line.get_text(" ", strip=True).split()
        assert word == ("Steps" if len(numbers) > 1 else "Step")


def test_the_end_is_no_row_of_its_own_where_the_last_stop_is_it() -> None:
    guide = town.ferry_watch()
    ended = replace(
        guide,
        entries=(
            *guide.entries,
            replace(next(one for one in guide.entries if isinstance(one, Stop)), name="Fit for show"),
        ),
    )
    for one, last in ((guide, "The end"), (ended, "Fit for show")):
        rows = soup(site_of(town.archive(one)), PAGE).select(".tide tbody th")
        assert rows[-1].get_text() == last
        assert len(rows) == 3


def test_a_batch_that_never_waits_is_named_up_to_three_times_as_many() -> None:
    waits = (
        step("Coats", uses("Oilskin Ochre"), ("coat",), each=1, dry=30),
        step("Hems", uses("Deckhand"), ("coat",), each=1),
    )
    for figures, hidden in ((10, True), (12, False)):
        guide = replace(town.ferry_watch(), figures=figures, entries=waits)
        page = soup(site_of(town.archive(guide)), PAGE)
        line = page.select_one(".no-wait")
        assert line.has_attr("hidden") is hidden is (int(line["data-from"]) > 3 * figures)
        assert line.get_text() == f"With {line['data-from']} figures nothing has to wait"


def test_each_look_of_the_chips_is_in_the_key_before_the_first_chip(page: BeautifulSoup) -> None:
    shapes = [use["href"] for use in page.select(".key use")]
    assert shapes[0] == "#c-primer"
    seen = {use["href"].split("-")[1] for use in page.select(".tray summary use")} - {"flat", "hole"}
    keyed = {shape.split("-")[1] for shape in shapes}
    assert {look for look in seen if look not in ("medium", "thinner", "varnish")} <= keyed


def test_every_step_is_on_the_contact_sheet(page: BeautifulSoup) -> None:
    listed = [link["href"] for link in page.select(".contact li:not(.halt) a")]
    assert listed == [f"#{shown['id']}" for shown in page.select(".step")]
    for shown, link in zip(page.select(".step"), page.select(".contact li:not(.halt) a"), strict=True):
        assert bool(link.select(".thumb svg")) == bool(shown.select(".pots"))


@pytest.mark.parametrize(
    ("film", "leads"),
    [
        ("https://films.example/oilskins.mp4", "https://films.example/oilskins.mp4#t=245"),
        ("https://films.example/oilskins.webm?cut=2", "https://films.example/oilskins.webm?cut=2#t=245"),
        ("https://films.example/oilskins", None),
    ],
)
def test_where_the_film_is_a_file_each_time_leads_to_its_moment(film: str, leads: str | None) -> None:
    guide = replace(town.ferry_watch(), video=WebAddress.parse(film))
    coats = soup(site_of(town.archive(guide)), PAGE).find(id="step-coats")
    (time,) = [one.dd for one in coats.select(".facts > div") if one.dt.get_text() == "In the video"]
    assert time.get_text() == "4:05"
    assert (time.a["href"] if time.a else None) == leads


def test_no_place_before_the_steps_is_named_like_a_step(page: BeautifulSoup) -> None:
    first = page.select_one(".step")
    assert not [tag["id"] for tag in first.find_all_previous(id=True) if tag["id"].startswith("step-")]


class TestEvening:
    PASSES = (
        Pass(n=1, areas=(0, 1), each=10 * MINUTE, dry=30 * MINUTE),
        Pass(n=2, areas=(1,), each=20 * MINUTE, dry=5 * MINUTE, holds_area=True),
    )

    def test_what_dries_lies_below_what_is_painted(self) -> None:
        bars = pass_bars(self.PASSES, 1)
        drawn = BeautifulSoup(
            draw_evening(self.PASSES, bars, {1: ("#aa0000",), 2: (None,)}, 2, ENGLISH), "html.parser"
        )
        painted, drying = drawn.select(".painted"), drawn.select(".drying")
        assert [(one["x"], one["width"]) for one in painted] == [("0%", "16.67%"), ("66.67%", "33.33%")]
        # The first holds both areas for half an hour, the second would dry past the last stroke.
        assert [(one["x"], one["width"], one["fill"]) for one in drying] == [("16.67%", "50%", "#aa0000")] * 2
        assert "bare" in painted[1]["class"]

    def test_nothing_is_drawn_of_no_time(self) -> None:
        assert draw_evening((), (), {}, 3, ENGLISH) == ""

    @pytest.mark.parametrize("hours", [0.2, 1, 3, 8, 30, 200, 5000])
    def test_marks_are_few_and_lie_on_the_line(self, hours: float) -> None:
        end = int(hours * 60 * MINUTE)
        found = marks(end)
        assert 1 <= len(found) <= 8
        assert found[0] == 0
        assert found[-1] < end
        if len(found) > 1:
            between = found[1] - found[0]
            assert between in [one * MINUTE for one in BETWEEN] or between % (1440 * MINUTE) == 0

    def test_halves_of_a_hundredth_go_up_as_in_browsers(self) -> None:
        assert percent(1, 3) == "33.33%"
        assert percent(2, 3) == "66.67%"
        assert percent(0, 3) == "0%"
