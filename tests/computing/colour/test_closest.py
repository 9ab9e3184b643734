"""The closest paints: exact, like with like, in a settled order."""

from __future__ import annotations

import numpy as np
import pytest
from support.paints import house_mix, palette_of, pot

from guidegen.computing.colour.closest import FARTHEST, MOST, Match, Matcher, role_of
from guidegen.computing.colour.spaces import delta_e_2000, lab_of
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
    assert [match.paint.name for match in matcher.closest_still_sold(gone)] == ["Buoy in Sun"]
    assert len(matcher.closest(gone)) == 2


def test_nothing_further_off_than_ten() -> None:
    matcher = Matcher(palette_of(pot("Pitch", "#202124"), pot("White", "#eeeae0")))
    assert matcher.closest_to_colour("#808080") == ()
    assert [match.de00 for match in matcher.closest_to_colour("#202124")] == [0.0]


def test_an_empty_palette() -> None:
    assert Matcher(palette_of()).closest(pot("Pitch", "#202124")) == ()
    assert Matcher(palette_of(pot("Pitch", "#202124"))).closest(pot("No colour")) == ()


def test_no_paint_within_reach_is_passed_over():
    """Random colours of all hues, blues and greys among them, against the difference to every other one."""
    random = np.random.default_rng(11)
    dark_blues = random.integers((0, 0, 90), (90, 90, 256), (300, 3))
    greys = random.integers(0, 256, (100, 1)) + random.integers(-3, 4, (100, 3))
    levels = np.clip(np.vstack([random.integers(0, 256, (500, 3)), dark_blues, greys]), 0, 255)
    palette = palette_of(*(pot(f"Jar {n}", "#" + bytes(row).hex()) for n, row in enumerate(levels.tolist())))
    matcher = Matcher(palette)
    lab = lab_of([paint.colour or "" for paint in palette.paints])
    for at, paint in enumerate(palette.paints):
        away = delta_e_2000(lab[at], lab).round(4).tolist()
        near = sorted(
            (d, other.full_name) for d, other in zip(away, palette.paints, strict=True) if d <= FARTHEST
        )
        wanted = [each for each in near if each[1] != paint.full_name][:MOST]
        assert told(matcher.closest(paint)) == wanted


def test_the_numbers_that_bound_the_difference():
    """The constants of the bound, by the equations they come from, over every chroma and hue."""
    chroma = np.linspace(0.0, 300.0, 300_001)
    stretch = 0.5 * (1.0 - np.sqrt(chroma**7 / (chroma**7 + 25.0**7)))  # G of (4)
    assert (stretch * chroma).max() < 6.5
    assert (1.0 + stretch).max() ** 2 <= 1.5**2
    hue = np.radians(np.linspace(0.0, 360.0, 360_001))
    t = (
        1.0 - 0.17 * np.cos(hue - np.pi / 6) + 0.24 * np.cos(2 * hue)
        + 0.32 * np.cos(3 * hue + np.pi / 30) - 0.20 * np.cos(4 * hue - np.radians(63))
    )  # fmt: skip
    assert 0.015 * t.max() < 0.045  # S_H ≤ S_C
    turned = 2.0 * 30.0 * np.exp(-(((np.degrees(hue) - 275.0) / 25.0) ** 2))
    rotation = 2.0 * np.sin(np.radians(turned))  # the most that −R_T of (21) can be
    assert 1.0 - rotation.max() / 2.0 > 0.1339
    away = np.abs(np.degrees(hue) - 275.0) >= 60.0
    assert 1.0 - rotation[away].max() / 2.0 > 0.9966
