"""Plans, variants and shared lists from outside: a content folder goes in, and the site's files are read by others."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out
from support.paths import CASES

from guidegen.building.build import Order, build
from guidegen.commands.build import command
from guidegen.commands.plan import command as plan

CASE = (CASES / "plans.txt").read_text(encoding="utf-8")
DRAFT_WORDS = ("nobody has seen", "Plumage", "night-heron", "Fit for the reeds")


def built(folder: Path, *options: str) -> Result:
    arguments = ["--content", str(folder / "content"), "--out", str(folder / "site")]
    return CliRunner().invoke(command, [*arguments, "--cache", str(folder / "cache"), *options])


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    lay_out(tmp_path / "content", CASE)
    return tmp_path


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("plans")
    lay_out(at / "content", CASE)
    result = built(at)
    assert result.exit_code == 0, result.output
    return at / "site"


def page(site: Path, path: str) -> BeautifulSoup:
    return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser")


def words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def broken_links(site: Path) -> list[tuple[str, str]]:
    """Local links that lead nowhere, to a folder, or to a place that is not on the page."""
    pages = {path.relative_to(site).as_posix(): page(site, str(path)) for path in site.rglob("*.html")}
    broken = []
    for path, soup in pages.items():
        for tag in soup.find_all(["a", "link", "script"]):
            link = str(tag.get("href") or tag.get("src") or "")
            if path == "404.html" or not link or "://" in link:
                continue
            target, _, place = link.partition("#")
            file = (site / path).parent / target if target else site / path
            there = file.is_file() and file.resolve().relative_to(site.resolve()).as_posix()
            if not there or (place and pages[there].find(id=place) is None):
                broken.append((path, link))
    return broken


def jobs(soup: BeautifulSoup) -> list[tuple[str, str, str]]:
    return [
        (
            words(job.select_one(".when")).replace(" ", ""),
            words(job.select_one(".what")),
            words(job.select_one(".which")),
        )
        for job in soup.select(".job")
    ]


def test_the_page_has_the_jobs_that_were_worked_out_by_hand(site: Path):
    """Sprayed 20:00-20:14 with 10 min setting up, dry 20:42 and 20:44; a coat 20:42-20:52, dry 20:57 and 21:02; another
    20:57-21:07, dry 21:12 and 21:17: the hat of the first 21:12-21:16, a minute of waiting, that of the second until
    21:21; boards 21:21-21:25, dry 21:33 and 21:35; a puddle each, 21:33 and 21:35.
    """
    soup = page(site, "plans/regatta/index.html")
    watch = "Ferry watch in wet oilskins"
    # The page tells them to five minutes.
    assert jobs(soup) == [
        ("20:00–20:15", "Prime", f"figures 1–2 · {watch} · 10 min setting up"),
        ("about20:40–20:50", "Coats , coat 1 of 2", f"figures 1–2 · {watch}"),
        ("about20:55–21:05", "Coats , coat 2 of 2", f"figures 1–2 · {watch}"),
        ("about21:10–21:15", "Hat", f"figure 1 · {watch}"),
        ("about21:15–21:20", "Hat", f"figure 2 · {watch}"),
        ("about21:20–21:25", "Boards", f"figures 1–2 · {watch}"),
        ("about21:35", "Puddles", f"figure 1 · {watch}"),
        ("about21:35", "Puddles", f"figure 2 · {watch}"),
    ]
    assert words(soup.select_one("#answer")) == "In time, with 4 days to spare"
    assert "The last figure is dry on Monday, 6 April 2026 at about 21:35." in words(
        soup.select_one(".answer")
    )
    waits = [words(idle) for idle in soup.select(".idle")]
    assert waits[0] == "28 min until something is dry"
    assert waits[-1] == "about 21:35 Brush down, 48 min of painting"


def test_the_page_and_the_command_say_the_same(site: Path):
    for name in ("regatta", "winter"):
        content = site.parent / "content"
        result = CliRunner().invoke(plan, [name, "--content", str(content), "--json"])
        assert result.exit_code == 0
        data = json.loads(result.stdout)
        told = [job["start"][:16] for sitting in data["sittings"] for job in sitting["jobs"]]
        soup = page(site, f"plans/{name}/index.html")
        # What is shown is told to five minutes; what programs read is exact.
        assert [job.time["datetime"] for job in soup.select(".job")] == told
        rows = [
            [words(cell) for cell in row.select("td")] for row in soup.select("#shopping ~ .scroll tbody tr")
        ]
        buying = [row for row in data["shopping"] if row["pots"]]
        assert [row[1:] for row in rows] == [[str(row["pots"]), f"{row['cost']:.2f} EUR"] for row in buying]


def test_the_calendar_is_a_table_with_the_days_marked_in_words_too(site: Path):
    soup = page(site, "plans/regatta/index.html")
    table = soup.select_one("table.month")
    assert words(table.caption) == "April 2026"
    assert [words(cell) for cell in table.select("thead th")] == [
        "Mon",
        "Tue",
        "Wed",
        "Thu",
        "Fri",
        "Sat",
        "Sun",
    ]
    marked = {words(cell) for cell in table.select("td[class]") if "beside" not in cell["class"]}
    assert marked == {"6 20:00 dry", "10 due"}
    assert table.select_one("a")["href"] == "#sitting-1"


def test_the_shopping_list_is_read_by_csv(site: Path):
    """Of Jetty Plank 2 × 0.4 ml for the hats and 2 × 0.3 for the boards: 1.4 ml, two pots of 1 ml at 2.50."""
    text = (site / "plans/regatta/shopping.csv").read_bytes().decode()
    rows = {row["name"]: row for row in csv.DictReader(io.StringIO(text, newline=""), strict=True)}
    assert set(rows) == {"Slate Undercoat", "Ropewalk", "Jetty Plank"}
    plank = rows["Jetty Plank"]
    assert (plank["ml"], plank["buy"], plank["cost"], plank["currency"]) == ("1.4", "2", "5.00", "EUR")
    assert (rows["Ropewalk"]["ml"], rows["Ropewalk"]["buy"]) == ("0.4", "0")
    together = page(site, "plans/regatta/index.html").select_one("tfoot tr")
    assert words(together) == "Together 2 5.00 EUR"


def test_the_calendar_file_is_read_by_icalendar(site: Path):
    from icalendar import Calendar

    found = Calendar.from_ical((site / "plans/regatta/plan.ics").read_bytes())
    assert found.errors == []
    (event,) = found.walk("VEVENT")
    assert event.errors == []
    assert event.decoded("dtstart").isoformat() == "2026-04-06T20:00:00+01:00"
    assert event.decoded("dtend").isoformat() == "2026-04-06T22:00:00+01:00"
    assert "21:12 to 21:16: Hat, figure 1" in event["description"]


def test_every_link_leads_somewhere(site: Path):
    assert broken_links(site) == []


def test_steps_and_units_lead_to_the_variant_that_is_painted(site: Path):
    soup = page(site, "plans/regatta/index.html")
    hat = next(link for link in soup.select(".job a") if words(link) == "Hat")
    assert hat["href"] == "../../guides/ferry-watch/with-straw-hat.html#step-hat"
    assert (
        words(soup.select_one(".units tbody th")) == "Ferry watch in wet oilskins straw hat Times estimated."
    )


def test_without_scripts_there_is_a_ring_to_tick_on_paper_and_nothing_to_press(site: Path):
    soup = page(site, "plans/regatta/index.html")
    assert len(soup.select(".job > .ring")) == len(soup.select(".job"))
    assert soup.select("input, button") == []
    assert soup.select_one(".ticks").has_attr("hidden")


def test_a_late_plan_says_what_would_mend_it(site: Path):
    """Half an hour on the only evening in time: 12 minutes for priming one of the watch, and neither its coat, for it
    dries, nor the heron's 20 minutes fit after that. Then 5 + 20 + 5 minutes, and 3 two weeks later.
    """
    soup = page(site, "plans/winter/index.html")
    assert "bad" in soup.select_one(".answer")["class"]
    assert [words(part) for part in soup.select(".answer > h2, .answer > p, .answer li")] == [
        "Too late by 14 days",
        "The last figure is dry on Monday, 20 April 2026 at about 20:05.",
        "33 min of painting falls after the deadline, Monday, 6 April 2026.",
        "Done and dry by then: 0 of 2 figures.",
        "Leave out Ferry watch in wet oilskins.",
    ]
    assert [words(sitting) for sitting in soup.select(".sitting .flag")] == ["after the deadline"] * 2
    assert [words(link) for link in page(site, "plans.html").select(".bad h2 a")] == ["Winter table"]


def test_nothing_of_a_draft_is_told(site: Path):
    for path, data in bytes_of(site).items():
        for word in DRAFT_WORDS:
            assert word.encode() not in data, (path, word)
            assert word not in path
    assert "A guide not published yet" in words(page(site, "plans/winter/index.html").select_one(".units"))


def test_with_drafts_shown_the_plan_leads_to_them(folder: Path):
    order = Order(content=folder / "content", out=folder / "site", cache=folder / "cache", drafts=True)
    assert build(order).counts is not None
    links = {link["href"] for link in page(folder / "site", "plans/winter/index.html").select(".units a")}
    assert "../../guides/night-heron/index.html#stop-fit-for-the-reeds" in links
    assert broken_links(folder / "site") == []


def test_a_plan_is_left_out_with_a_guide_it_needs(folder: Path):
    """With a unit missing it would promise too much."""
    guide = folder / "content/guides/ferry-watch.md"
    guide.write_text(guide.read_text(encoding="utf-8").replace("Deckhand", "Deckhnad"), encoding="utf-8")
    assert built(folder).exit_code == 1
    assert not (folder / "site").exists()
    assert built(folder, "--leave-out-faulty").exit_code == 1
    site = folder / "site"
    assert not (site / "plans").exists()
    assert not (site / "plans.html").exists()
    assert [
        words(link) for link in page(site, "index.html").select(".masthead nav a") if words(link) == "Plans"
    ] == []
    assert broken_links(site) == []


@pytest.mark.parametrize("text", ["steps: [", "steps:\n  - {step: Boards, paint: Jetti Plank}\n"])
def test_guides_that_insert_a_faulty_list_are_left_out_with_it(folder: Path, text: str):
    (folder / "content/shared/jetty-base.yaml").write_text(text, encoding="utf-8")
    assert built(folder, "--leave-out-faulty").exit_code == 1
    site = folder / "site"
    assert not (site / "guides/ferry-watch/index.html").exists()
    assert not (site / "shared/jetty-base.html").exists()
    assert (
        words(page(site, "shared/puddles.html").select_one(".columns"))
        == "Inserted by No guide inserts it yet."
    )
    assert broken_links(site) == []


def test_a_shared_list_names_who_inserts_it(site: Path):
    soup = page(site, "shared/jetty-base.html")
    assert words(soup.select_one(".uses li")) == "Ferry watch in wet oilskins Steps 4"
    assert [words(heading) for heading in soup.select(".shared-steps h3")] == ["1 Boards", "Inserts Puddles"]
    inner = page(site, "shared/puddles.html")
    assert [words(row) for row in inner.select(".uses li")] == [
        "Ferry watch in wet oilskins Steps 5",
        "Jetty base",
    ]
    flags = [link["href"] for link in page(site, "guides/ferry-watch/index.html").select(".doing a.flag")]
    assert flags == ["../../shared/jetty-base.html", "../../shared/puddles.html"]


def test_a_variant_has_its_own_times_materials_and_what_goes_where(site: Path):
    """For two figures: 10 + 4, twice 10, 6 for hoods or 8 for hats, boards 4, puddles 2."""
    for path, own, other, minutes in (
        ("index.html", "hood", "hat", 46),
        ("with-straw-hat.html", "hat", "hood", 48),
    ):
        soup = page(site, f"guides/ferry-watch/{path}")
        assert soup.select_one('[data-show="whole.handsOn"]')["datetime"] == f"PT{minutes}M"
        areas = {words(cell) for cell in soup.select(".matrix tbody th")}
        assert own in areas
        assert other not in areas
        assert ("chopped raffia" in words(soup)) == (own == "hat")
        assert ("Deckhand" in words(soup.select_one(".tray"))) == (own == "hood")
        here = [words(link) for link in soup.select('.choice a[aria-current="page"]')]
        assert here == ["straw hat" if own == "hat" else "hood"]


def test_the_second_build_writes_nothing(folder: Path):
    assert built(folder).exit_code == 0
    before = bytes_of(folder / "site")
    again = json.loads(built(folder, "--json").stdout)
    assert (again["written"], again["removed"]) == (0, 0)
    assert bytes_of(folder / "site") == before
