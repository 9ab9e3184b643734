"""Recipes: every one that a brush can mix, in a settled order, the same as by trying them one after the other."""

from __future__ import annotations

from itertools import combinations, permutations

import numpy as np
import pytest
from support.paints import blend, let_down, palette_of, pot

from guidegen.computing.colour import recipes as recipes_module
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.recipes import Recipe, RecipeBook
from guidegen.computing.colour.spaces import delta_e_2000, lab_of
from guidegen.computing.colour.stand_in import correction_of
from guidegen.model.paint import Palette

TWO = [(1, 1), (3, 2), (2, 1), (3, 1), (5, 1), (10, 1)]
THREE = [(1, 1, 1), (2, 1, 1), (2, 2, 1), (3, 1, 1), (3, 2, 1)]


def shelf(count: int, seed: int, low: int = 0, high: int = 256) -> Palette:
    random = np.random.default_rng(seed)
    return palette_of(
        *(
            pot(
                f"Jar {n}",
                "#" + bytes(random.integers(low, high, 3).tolist()).hex(),
                owned=1,
                strength=(1.0, 1.0, 2.5)[n % 3],
                let_down=let_down("#d0c8c0", 1, 9) if n % 5 == 4 else None,
            )
            for n in range(count)
        )
    )


def one_by_one(palette: Palette, wanted: str, most: int = 5) -> list[tuple[dict[str, int], float]]:
    """Every recipe as a blend, one after the other; its colour from the prediction that `mix` prints, not rounded."""
    mixer, found = Mixer(palette), []
    for parts in (*TWO, *THREE):
        for pots in combinations(palette.paints, len(parts)):
            for order in set(permutations(parts)):
                lab = mixer.lab_of_parts(list(pots), np.array(order, dtype=float))
                away = round(float(delta_e_2000(lab_of([wanted])[0], lab)), 4)
                named = sorted(
                    ((p.name, n) for p, n in zip(pots, order, strict=True)), key=lambda one: (-one[1], one[0])
                )
                found.append((len(pots), sum(order), away, tuple(name for name, _ in named), dict(named)))
    best = min(one[2] for one in found)
    within = sorted((one for one in found if one[2] <= round(best + 1.0, 4)), key=lambda one: one[:4])
    return [(one[4], one[2]) for one in within[:most]]


def told(recipes: tuple[Recipe, ...]) -> list[tuple[dict[str, int], float]]:
    return [({paint.name: count for paint, count in one.parts}, one.de00) for one in recipes]


@pytest.mark.parametrize(("count", "seed", "wanted"), [
    (2, 1, "#7a6b55"), (3, 2, "#2c4a78"), (5, 3, "#b8862f"), (6, 4, "#808080"), (7, 5, "#a8342f"), (8, 6, "#202124"),
])  # fmt: skip
def test_they_are_those_of_trying_every_one(count: int, seed: int, wanted: str) -> None:
    palette = shelf(count, seed)
    found = RecipeBook(Mixer(palette), palette.paints).towards(lab_of([wanted])[0], most=5)
    assert [parts for parts, _ in told(found.recipes)] == [parts for parts, _ in one_by_one(palette, wanted)]
    assert [away for _, away in told(found.recipes)] == pytest.approx(
        [away for _, away in one_by_one(palette, wanted)], abs=1.1e-4
    )


def test_a_recipe_has_the_colour_that_mix_foretells() -> None:
    palette = shelf(9, 7)
    mixer = Mixer(palette)
    for one in RecipeBook(mixer, palette.paints).towards(lab_of(["#6f8a5c"])[0], most=5).recipes:
        foretold = mixer.predict(blend(palette, {paint.name: count for paint, count in one.parts}))
        assert one.colour == foretold.colour


def test_so_many_pots_and_no_more() -> None:
    palette = shelf(6, 8)
    book = RecipeBook(Mixer(palette), palette.paints)
    lab = lab_of(["#7a6b55"])[0]
    assert all(len(one.parts) == 2 for one in book.towards(lab, most=5, pots=2).recipes)
    assert book.towards(lab, most=5, pots=1) == ((), None)
    assert RecipeBook(Mixer(palette), palette.paints[:1]).towards(lab, most=5) == ((), None)


def test_the_simpler_of_two_as_good_comes_first() -> None:
    """Three parts of one and one of the other make the colour itself; 2:1 is less than 1.0 off."""
    palette = palette_of(pot("Ropewalk", "#b09a72"), pot("Jetty Plank", "#a08a64"))
    mixer = Mixer(palette)
    wanted = mixer.predict(blend(palette, {"Ropewalk": 3, "Jetty Plank": 1})).colour
    assert wanted is not None
    first, *_ = told(RecipeBook(mixer, palette.paints).towards(lab_of([wanted])[0], most=5).recipes)
    assert first[0] == {"Ropewalk": 2, "Jetty Plank": 1} or first[0] == {"Ropewalk": 1, "Jetty Plank": 1}
    assert 0 < first[1] <= 1.1


def test_equal_ones_go_by_their_names() -> None:
    palette = palette_of(
        *(pot(name, "#7f9144", range="Ninelock") for name in ("Reed", "Osier", "Sedge", "Alder"))
    )
    recipes = told(RecipeBook(Mixer(palette), palette.paints).towards(lab_of(["#7f9144"])[0], most=5).recipes)
    assert [list(parts) for parts, _ in recipes] == [
        ["Alder", "Osier"], ["Alder", "Reed"], ["Alder", "Sedge"], ["Osier", "Reed"], ["Osier", "Sedge"],
    ]  # fmt: skip


def test_what_was_tried_corrects_its_pots_alone() -> None:
    """The ratio tried becomes what was seen; other ratios are moved less the more one pot outweighs the other."""
    palette = shelf(4, 9)
    mixer = Mixer(palette)
    book = RecipeBook(mixer, palette.paints)
    one, two = palette.paints[0], palette.paints[1]
    seen = "#7d5a48"
    correction = correction_of(mixer, [(one, 4), (two, 2)], seen)
    assert correction.shares == {one.full_name: pytest.approx(2 / 3), two.full_name: pytest.approx(1 / 3)}
    found = book.towards(lab_of([seen])[0], most=5, corrections=[correction])
    again = next(r for r in found.recipes if r.parts == ((one, 2), (two, 1)))
    assert (again.colour, again.de00) == (seen, 0.0)
    before = mixer.lab_of_parts([one, two], np.array([10.0, 1.0]))
    scale = (1 - (100 + 1) / 121) / (1 - (4 + 1) / 9)
    moved = before + scale * correction.offset
    near = book.towards(moved, most=10_000, corrections=[correction])
    assert any(r.parts == ((one, 10), (two, 1)) and r.de00 == 0.0 for r in near.recipes)
    without = RecipeBook(mixer, palette.paints[1:])
    assert without.towards(moved, most=9, corrections=[correction]) == without.towards(moved, most=9)


@pytest.mark.parametrize(
    "in_rough", [100, 3], ids=["every three roughly", "threes that share two with the best"]
)
def test_many_pots_are_searched_as_well_as_few(in_rough: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond what is tried in full, the best recipe is within 0.05 of the best of all, however far away that is."""
    for seed in range(3):
        palette = shelf(30, seed, 40, 220)
        every = RecipeBook(Mixer(palette), palette.paints)
        some = RecipeBook(Mixer(palette), palette.paints)
        for wanted in ("#7a6b55", "#2f6c70", "#a08fb2", "#cc6a3c", "#5d7048", "#4040e9", "#050505"):
            lab = lab_of([wanted])[0]
            best = every.towards(lab, most=5).least
            with monkeypatch.context() as few:
                for name, value in (("MOST_IN_THREES", 3), ("MOST_IN_ROUGH", in_rough), ("BEST_SETS", 200)):
                    few.setattr(recipes_module, name, value)
                found = some.towards(lab, most=5).least
            assert best is not None
            assert found is not None
            assert best <= found <= best + 0.05, wanted


@pytest.mark.parametrize("pots", [3, 9, 25])
def test_the_first_recipe_alone_is_the_first_of_all(pots: int) -> None:
    """Also where pairs settle it, which happens here among many pots."""
    settled = 0
    for seed in range(4):
        palette = shelf(pots, seed, 40, 220)
        mixer = Mixer(palette)
        book = RecipeBook(mixer, palette.paints)
        for wanted in (
            "#7a6b55",
            "#2f6c70",
            "#a08fb2",
            "#cc6a3c",
            "#5d7048",
            *(one.colour for one in palette.paints[:4]),
        ):
            lab = lab_of([wanted])[0]
            every, first = book.towards(lab, most=5), book.first(lab)
            assert first.recipes == every.recipes[:1], wanted
            assert (first.least or 0.0) <= 1.0 or first.least == every.least
            settled += first.least != every.least
    assert settled > 0 or pots < 25


def test_what_is_known_of_three_pots_counts_among_many(monkeypatch: pytest.MonkeyPatch) -> None:
    palette = shelf(12, 3)
    mixer = Mixer(palette)
    seen = "#31d0b4"
    correction = correction_of(mixer, [(one, 1) for one in palette.paints[:3]], seen)
    monkeypatch.setattr(recipes_module, "MOST_IN_THREES", 3)
    monkeypatch.setattr(recipes_module, "BEST_SETS", 5)
    book = RecipeBook(mixer, palette.paints)
    assert book.towards(lab_of([seen])[0], most=5, corrections=[correction]).least == 0.0


@pytest.mark.parametrize("wanted", ["#9f7a43", "#2f6c70", "#4040e9"])
def test_pairs_of_very_many_pots_are_searched_as_well(wanted: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond 300 pots not every pair is tried in full; what is found is as good, and one pot more makes it no worse."""
    palette = shelf(330, 1)
    mixer, lab = Mixer(palette), lab_of([wanted])[0]
    fewer = RecipeBook(mixer, palette.paints[:300]).towards(lab, most=5).least
    some = RecipeBook(mixer, palette.paints).towards(lab, most=5)
    monkeypatch.setattr(recipes_module, "MOST_IN_PAIRS", 1000)
    every = RecipeBook(mixer, palette.paints).towards(lab, most=5)
    assert fewer is not None
    assert some.least is not None
    assert every.least is not None
    assert every.least <= some.least <= min(every.least, fewer) + 0.05
    assert some.recipes == every.recipes


def test_what_is_known_of_two_pots_counts_among_very_many(monkeypatch: pytest.MonkeyPatch) -> None:
    palette = shelf(12, 3)
    mixer = Mixer(palette)
    seen = "#31d0b4"
    correction = correction_of(mixer, [(one, 1) for one in palette.paints[:2]], seen)
    for name, value in (("MOST_IN_PAIRS", 3), ("BEST_PAIRS", 2), ("FEWEST_SEEDS", 2)):
        monkeypatch.setattr(recipes_module, name, value)
    book = RecipeBook(mixer, palette.paints)
    assert book.towards(lab_of([seen])[0], most=5, corrections=[correction]).least == 0.0


def test_more_pots_still_are_thinned_out_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is left of them are near ones and some far from all others; the best recipe is not much worse for it."""
    palette = shelf(60, 11)
    book = RecipeBook(Mixer(palette), palette.paints)
    for wanted in ("#7a6b55", "#2f6c70", "#a08fb2"):
        lab = lab_of([wanted])[0]
        every = book.towards(lab, most=5, pots=2).least
        for name, value in (("MOST_AT_ALL", 30), ("NEAREST", 20), ("APART", 10)):
            monkeypatch.setattr(recipes_module, name, value)
        some = book.towards(lab, most=5, pots=2)
        monkeypatch.undo()
        assert every is not None
        assert some.least is not None
        assert every <= some.least <= every + 2.0
        assert some.recipes
