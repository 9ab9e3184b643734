"""Surfaces against published worked examples, and which of them a technique covers."""

from __future__ import annotations

import pytest
from support.guides import guide

from guidegen.computing.guide.surface import Surface, body_surface, disc, figure_surface, surface_of
from guidegen.model.technique import TECHNIQUES


def test_the_body_of_du_bois():
    # Du Bois and Du Bois, Archives of Internal Medicine 17 (1916) 863; 70 kg and 175 cm is the usual example.
    assert body_surface(70, 175) == pytest.approx(1.848, abs=5e-4)


def test_a_second_body_by_the_same_formula():
    # Worked with logarithms by hand: 60 kg, 165 cm gives 0.007184 · 5.6980 · 40.522 = 1.659 m².
    assert body_surface(60, 165) == pytest.approx(1.659, abs=1e-3)


def test_a_round_base_of_25_mm_is_4_9_square_centimetres():
    assert disc(25) == pytest.approx(4.9087, abs=1e-4)


def test_a_figure_of_28_mm():
    # Twice 1.848 m² is 36,960 cm²; over 56² = 3,136 that is 11.8 cm².
    assert figure_surface(56) == pytest.approx(11.79, abs=0.01)


def test_half_the_scale_is_four_times_the_surface():
    assert figure_surface(28) == pytest.approx(4 * figure_surface(56))


SURFACE = Surface(figure=10.0, base=5.0)


@pytest.mark.parametrize(
    ("technique", "share", "expected"),
    [
        ("wash", None, 15.0),  # all of it takes the base in
        ("base coat", None, 2.0),
        ("base coat", 1.0, 15.0),  # the author's own share
        ("wash", 0.4, 4.0),
        ("paste", None, 5.0),  # the base alone
        ("paste", 0.3, 3.0),
    ],
)
def test_what_a_technique_covers(technique: str, share: float | None, expected: float):
    assert SURFACE.under(TECHNIQUES[technique], share) == pytest.approx(expected)


def test_without_a_base():
    bare = Surface(figure=10.0)
    assert bare.under(TECHNIQUES["wash"]) == 10.0
    assert bare.under(TECHNIQUES["paste"]) is None


def test_a_measured_surface_stands_for_all_but_the_base_by_itself():
    measured = surface_of(guide(base=25.0, surface=40.0))
    assert measured.under(TECHNIQUES["wash"]) == 40.0
    assert measured.under(TECHNIQUES["base coat"]) == pytest.approx(8.0)
    assert measured.under(TECHNIQUES["paste"]) == pytest.approx(4.9087, abs=1e-4)


def test_a_guide_goes_by_its_ratio_and_base():
    found = surface_of(guide(ratio=24, base=40.0))
    assert found.figure == pytest.approx(figure_surface(24))
    assert found.base == pytest.approx(12.566, abs=1e-3)
