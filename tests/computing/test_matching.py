"""The closest paints: exact, like with like, in a settled order."""

from __future__ import annotations

import numpy as np
import pytest
from pots import house_mix, palette_of, pot

from guidegen.computing.colour import delta_e_2000, lab_of
from guidegen.computing.matching import FARTHEST, MOST, Match, Matcher, role_of
from guidegen.model.paint import Kind, Paint, Palette


def random_palette(count: int, seed: int) -> Palette:
    """Paints around a few hues, many of them close together, some of them alike."""
    random = np.random.default_rng(seed)
    kinds = ["paint", "paint", "paint", "ink", "primer", "wash", "glaze", "metallic", "medium"]
    pots = []
    for number in range(count):
        middle = random.integers(40, 216, 3)
        levels = np.clip(middle + random.integers(-30, 31, 3), 0, 255).tolist()
        pots.append(
            pot(
                f"Jar {number}",
                "#" + bytes(levels).hex(),
                kinds[number % len(kinds)],
                range=("Reedbank Acrylics", "Ninelock")[number % 2],
                owned=int(number % 3 == 0),
                discontinued=number % 5 == 0,
            )
        )
    return palette_of(*pots)


def searched(palette: Palette, paint: Paint, difference: object) -> list[tuple[float, str]]:
    """All pairs the slow way: difference to everything, then the rules."""
    others = [
        other
        for other in palette.paints
        if other is not paint and other.colour and role_of(other.kind) == role_of(paint.kind) is not None
    ]
    away = difference(  # type: ignore[operator]
        np.repeat(lab_of([paint.colour or ""]), len(others), axis=0),
        lab_of([other.colour or "" for other in others]),
    )
    near = [(round(float(d), 4), other.full_name) for d, other in zip(away, others, strict=True)]
    return sorted(each for each in near if each[0] <= FARTHEST)[:MOST]


def told(matches: tuple[Match, ...]) -> list[tuple[float, str]]:
    return [(match.de00, match.paint.full_name) for match in matches]


def test_the_closest_are_those_of_a_full_search_with_colour_science(quiet_colour_science: object) -> None:
    from colour.difference import delta_E_CIE2000

    palette = random_palette(400, 7)
    matcher = Matcher(palette)
    for paint in palette.paints[:60]:
        if role_of(paint.kind) is None:
            continue
        theirs = searched(palette, paint, delta_E_CIE2000)
        ours = told(matcher.closest(paint))
        assert [d for d, _ in ours] == pytest.approx([d for d, _ in theirs], abs=1e-3)
        assert ours == searched(palette, paint, delta_e_2000)


def test_like_is_compared_with_like() -> None:
    palette = palette_of(
        *(pot(kind.value.title(), "#80604a", kind.value) for kind in Kind),
        pot("Ochre", "#80604a"),
        pot("Clay Wash", "#80604a", "wash"),
        pot("Bell Metal", "#80604a", "metallic"),
        house_mix("House brown", {"Ochre": 1}, colour="#80604a"),
    )
    matcher = Matcher(palette)

    def names(name: str) -> set[str]:
        asked = palette.find(name)
        assert isinstance(asked, Paint)
        return {match.paint.name for match in matcher.closest(asked)}

    assert names("Ochre") == {"Paint", "Primer", "Ink", "Oil", "Effect"}
    assert names("Clay Wash") == {"Wash", "Glaze", "Stain"}
    assert names("Bell Metal") == {"Metallic"}
    for kind in ("Pigment", "Paste", "Medium", "Thinner", "Varnish"):
        assert names(kind) == set()
    assert {match.paint.kind for match in matcher.closest_to_colour("#80604a")} <= {
        Kind.PAINT,
        Kind.PRIMER,
        Kind.INK,
        Kind.OIL,
        Kind.EFFECT,
    }
    assert {match.paint.name for match in matcher.closest_to_colour("#80604a", "metal")} == {
        "Metallic",
        "Bell Metal",
    }
    assert matcher.closest_to_colour("#80604a", None) == ()


def test_ties_go_by_full_name() -> None:
    palette = palette_of(
        pot("Reed", "#7f9144", range="Reedbank Acrylics"),
        pot("Reed", "#7f9144", range="Ninelock"),
        pot("Reed", "#7f9144", range="Reedbank Acrylics", edition="2019"),
        pot("Reed", "#7f9144"),
    )
    names = [match.paint.full_name for match in Matcher(palette).closest_to_colour("#7f9144")]
    assert names == ["Ninelock / Reed", "Reed", "Reedbank Acrylics / Reed", "Reedbank Acrylics / Reed (2019)"]


def test_the_owned_get_their_own_list() -> None:
    owned = [pot(f"Owned {n}", f"#7f914{n}", owned=1) for n in range(2)]
    others = [pot(f"Nearer {n}", "#7f9144") for n in range(6)]
    matcher = Matcher(palette_of(*owned, *others))
    asked = pot("Weedraft", "#7f9144")
    assert len(matcher.closest(asked)) == MOST
    assert {match.paint.name for match in matcher.closest_owned(asked)} == {"Owned 0", "Owned 1"}
    assert matcher.closest_owned_to_colour("#7f9144") == matcher.closest_owned(asked)


def test_a_paint_no_longer_sold_has_living_neighbours() -> None:
    gone, other_gone = (pot(name, "#c99b45", discontinued=True) for name in ("Brass Lamp", "Old Brass"))
    sold = pot("Buoy in Sun", "#cc9d48")
    matcher = Matcher(palette_of(gone, other_gone, sold))
    assert [match.paint.name for match in matcher.closest_living(gone)] == ["Buoy in Sun"]
    assert len(matcher.closest(gone)) == 2


def test_nothing_further_off_than_ten() -> None:
    matcher = Matcher(palette_of(pot("Pitch", "#202124"), pot("White", "#eeeae0")))
    assert matcher.closest_to_colour("#808080") == ()
    assert [match.de00 for match in matcher.closest_to_colour("#202124")] == [0.0]


def test_an_empty_palette() -> None:
    assert Matcher(palette_of()).closest(pot("Pitch", "#202124")) == ()
    assert Matcher(palette_of(pot("Pitch", "#202124"))).closest(pot("No colour")) == ()
