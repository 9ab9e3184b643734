"""Colour conversions and differences against published tables and two independent libraries."""

from __future__ import annotations

import csv

import numpy as np
import pytest
from support.paths import REFERENCE

from guidegen.computing.colour import spaces as colour


def rows(name: str) -> list[dict[str, str]]:
    with (REFERENCE / name).open(newline="") as file:
        return list(csv.DictReader(file))


def numbers(row: dict[str, str], *names: str) -> list[float]:
    return [float(row[name]) for name in names]


def random_labs(count: int) -> tuple[np.ndarray, np.ndarray]:
    """Pairs all over CIELAB, half of them close together, some of them grey."""
    random = np.random.default_rng(2005)
    one = random.uniform((0, -100, -100), (100, 100, 100), (count, 3))
    two = random.uniform((0, -100, -100), (100, 100, 100), (count, 3))
    two[::2] = np.clip(one[::2] + random.normal(0, 3, one[::2].shape), (0, -128, -128), (100, 128, 128))
    one[::17, 1:] = 0.0
    two[::34, 1:] = 0.0
    return one, two


def test_the_34_pairs_of_sharma_wu_and_dalal() -> None:
    """Color Research and Application 30 (2005), table 1. Pair 14 lies on exactly 180° of hue: both values count."""
    for number, row in enumerate(rows("ciede2000-sharma-2005.csv"), 1):
        one, two = numbers(row, "L1", "a1", "b1"), numbers(row, "L2", "a2", "b2")
        allowed = (4.8045, 4.7461) if number == 14 else (float(row["dE00"]),)
        for difference in (colour.delta_e_2000(one, two), colour.delta_e_2000(two, one)):
            assert any(abs(float(difference) - value) < 5.001e-5 for value in allowed), number


def test_differences_agree_with_colour_science(quiet_colour_science: object) -> None:
    from colour.difference import delta_E_CIE2000

    one, two = random_labs(4000)
    assert np.abs(colour.delta_e_2000(one, two) - delta_E_CIE2000(one, two)).max() < 1e-6


def test_differences_agree_with_coloraide() -> None:
    from coloraide import Color

    one, two = random_labs(600)
    theirs = [
        Color("lab-d65", list(a)).delta_e(Color("lab-d65", list(b)), method="2000")
        for a, b in zip(one.tolist(), two.tolist(), strict=True)
    ]
    assert np.abs(colour.delta_e_2000(one, two) - theirs).max() < 1e-6


def test_differences_broadcast() -> None:
    one, two = random_labs(6)
    table = colour.delta_e_2000(one[:, None], two[None])
    assert table.shape == (6, 6)
    assert table[2, 5] == pytest.approx(float(colour.delta_e_2000(one[2], two[5])), abs=1e-12)


def test_the_published_conversions() -> None:
    """XYZ, CIELAB D65 and, by Bradford, D50, as colour-science and coloraide both have them, 4 decimals."""
    d50 = np.array([0.3457 / 0.3585, 1.0, (1.0 - 0.3457 - 0.3585) / 0.3585])  # ICC's white, CIE 15
    for row in rows("srgb-lab-check.csv"):
        xyz = colour.TO_XYZ @ colour.linear_of([row["hex"]])[0]
        assert xyz * 100 == pytest.approx(numbers(row, "X", "Y", "Z"), abs=5.1e-5)
        assert colour.lab_of([row["hex"]])[0] == pytest.approx(
            numbers(row, "L_d65", "a_d65", "b_d65"), abs=5.1e-5
        )
        adapted = colour.adaptation(colour.WHITE, d50) @ xyz
        assert colour.lab_of_xyz(adapted, d50) == pytest.approx(
            numbers(row, "L_d50", "a_d50", "b_d50"), abs=5.1e-5
        )


def test_lab_agrees_with_both_libraries_to_six_decimals(quiet_colour_science: object) -> None:
    import colour as science
    from coloraide import Color

    random = np.random.default_rng(1931)
    hexes = [f"#{number:06x}" for number in random.integers(0, 1 << 24, 300).tolist()]
    ours = colour.lab_of(hexes)
    theirs = [Color(each).convert("lab-d65").coords() for each in hexes]
    assert np.abs(ours - theirs).max() < 1e-6
    space = science.RGB_COLOURSPACES["sRGB"].copy()
    space.use_derived_matrix_RGB_to_XYZ = True
    white = (0.3127, 0.3290)
    linear = science.models.eotf_sRGB(
        np.array([[int(each[i : i + 2], 16) for i in (1, 3, 5)] for each in hexes]) / 255
    )
    lab = science.XYZ_to_Lab(linear @ space.matrix_RGB_to_XYZ.T, white)
    assert np.abs(ours - lab).max() < 1e-6


def test_every_level_comes_back_from_linear_light() -> None:
    for level in range(256):
        grey = f"#{level:02x}{255 - level:02x}{level:02x}"
        assert colour.hex_of_linear(colour.linear_of([grey])[0]) == (grey, False)


def test_what_srgb_cannot_show_is_clipped_and_said() -> None:
    assert colour.hex_of_linear([-0.01, 0.5, 1.02]) == ("#00bcff", True)
    assert colour.hex_of_linear([0.0, 1.0, 1.0 + 1e-9]) == ("#00ffff", False)


def test_no_colours_at_all() -> None:
    assert colour.lab_of([]).shape == (0, 3)


@pytest.mark.parametrize(
    ("de00", "words"),
    [
        (0.0, "can't be told apart"),
        (0.99, "can't be told apart"),
        (1.0, "only side by side"),
        (2.0, "near"),
        (5.0, "related"),
        (9.99, "related"),
        (10.0, "unlike"),
    ],
)
def test_differences_in_words(de00: float, words: str) -> None:
    assert colour.difference_words(de00) == words
