"""What a bench says of pots: which to open next, and which no step needs any more."""

from __future__ import annotations

from dataclasses import replace

import pytest
from support import town
from support.rendered_town import riders, site_of, soup
from support.town import step, uses

BENCH = "guides/ferry-watch/bench.html"


def pots_of(entries, label: str) -> list[list[str]]:
    """The names under a label at each step."""
    site = site_of(town.archive(replace(town.ferry_watch(), entries=entries)))
    found = []
    for leaf in soup(site, BENCH).select(".leaf[data-n]"):
        groups = [group for group in leaf.select(".in-reach div") if group.dt.string == label]
        found.append([pot.get_text() for group in groups for pot in group.select(".pot")])
    return found


@pytest.mark.parametrize(
    ("paints", "away"),
    [
        (("Deckhand", "Ropewalk", "Deckhand"), [[], [], ["Ropewalk"]]),
        (("Deckhand", "Ropewalk", "Oilskin Ochre"), [[], ["Deckhand"], ["Ropewalk"]]),
        # What goes into a house mix later is still needed, and is put away with it.
        (
            ("Pilot's Jersey", "Deckhand", "Rained-on slate", "Ropewalk"),
            [[], [], ["Deckhand"], ["Rained-on slate", "Ferryman's Slate", "Pilot's Jersey"]],
        ),
    ],
)
def test_a_pot_is_put_away_after_its_last_step(paints, away) -> None:
    assert (
        pots_of(tuple(step(f"Step {at}", uses(name), each=1) for at, name in enumerate(paints)), "Put away")
        == away
    )


def test_next_are_the_pots_that_are_not_in_hand_with_all_that_is_mixed() -> None:
    entries = tuple(
        step(name, uses(name), each=1) for name in ("Pilot's Jersey", "Rained-on slate", "Ferryman's Slate")
    )
    assert pots_of(entries, "Next") == [["Rained-on slate", "Ferryman's Slate"], [], []]


def test_no_pot_is_left_out_however_many_there_are() -> None:
    names = (
        "Deckhand",
        "Ropewalk",
        "Oilskin Ochre",
        "Buoy in Sun",
        "Saltpan White",
        "Bollard Iron",
    )
    entries = (
        step("Prime", uses("Slate Undercoat"), each=1),
        step("All", uses(*names), each=1),
        step("Seal", uses("Calm Matt"), each=1),
    )
    assert pots_of(entries, "Next")[0] == list(names)
    assert pots_of(entries, "Put away")[2] == list(names)


def test_each_bench_says_its_variant() -> None:
    site = site_of(town.archive(riders()))
    for file, option in (("bench.html", "hood"), ("bench-with-straw-hat.html", "straw hat")):
        page = soup(site, f"guides/heron-riders/{file}")
        assert page.select_one(".bench-head .doing").string == option
        assert option in page.title.string
        assert option in page.select_one(".sheet-head").get_text()
