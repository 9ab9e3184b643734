"""The layer theory against values from its closed forms, and against integrating its differential equation."""

from __future__ import annotations

import csv

import numpy as np
import pytest
from support.paths import REFERENCE

from guidegen.computing.colour.kubelka_munk import (
    absorption_ratio,
    layer_reflectance,
    lifted,
    thick_reflectance,
    unlifted,
)


def cases() -> list[dict[str, float]]:
    with (REFERENCE / "km-layer-check.csv").open(newline="") as file:
        return [{name: float(value) for name, value in row.items()} for row in csv.DictReader(file)]


@pytest.mark.parametrize("case", cases())
def test_layers_of_kubelka_1948(case: dict[str, float]) -> None:
    """tests/reference/km-layer-check.csv: closed forms of JOSA 38 (1948) 448."""
    ratio, thickness = case["K"] / case["S"], case["S"] * case["X"]
    assert float(layer_reflectance(ratio, case["Rg"], thickness)) == pytest.approx(case["R"], abs=1e-9)
    assert float(layer_reflectance(ratio, 0.0, thickness)) == pytest.approx(case["R0"], abs=1e-9)
    assert float(thick_reflectance(ratio)) == pytest.approx(case["Rinf"], abs=1e-9)
    # Kubelka's transmittance shows in what a ground adds: (R − R0)(1 − R0·Rg) = T²·Rg.
    r, r0, rg = float(layer_reflectance(ratio, case["Rg"], thickness)), case["R0"], case["Rg"]
    assert (r - r0) * (1 - r0 * rg) == pytest.approx(case["T"] ** 2 * rg, abs=1e-9)


def test_a_layer_is_what_its_differential_equation_grows() -> None:
    """dR/dX = S − 2(K + S)R + SR² (Kubelka and Munk 1931), by Runge–Kutta, here with S = 1."""
    ratio, ground, thickness = 0.37, 0.6, 0.8
    r, h = ground, thickness / 400
    for _ in range(400):
        slope = lambda v: 1 - 2 * (ratio + 1) * v + v * v  # noqa: E731
        a = slope(r)
        b = slope(r + h * a / 2)
        c = slope(r + h * b / 2)
        r += h * (a + 2 * b + 2 * c + slope(r + h * c)) / 6
    assert float(layer_reflectance(ratio, ground, thickness)) == pytest.approx(r, abs=1e-10)


def test_a_white_that_absorbs_nothing() -> None:
    """The limit for K = 0 (JOSA 38, equation for b → 0): R = (Rg + SX(1 − Rg))/(1 + SX(1 − Rg))."""
    rg, sx = 0.3, 0.5
    assert float(layer_reflectance(0.0, rg, sx)) == pytest.approx(
        (rg + sx * (1 - rg)) / (1 + sx * (1 - rg)), abs=1e-15
    )


def test_ratio_and_reflectance_are_inverses() -> None:
    r = np.linspace(0.001, 1.0, 500)
    assert thick_reflectance(absorption_ratio(r)) == pytest.approx(r, rel=1e-9)


def test_the_lift_is_undone() -> None:
    r = np.linspace(0.0, 1.0, 11)
    assert unlifted(lifted(r)) == pytest.approx(r, abs=1e-15)
    assert float(lifted(0.0)) == 0.005
