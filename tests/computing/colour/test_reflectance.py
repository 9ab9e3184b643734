"""Reflectance curves against curves computed elsewhere, and the CIE tables against colour-science's."""

from __future__ import annotations

import csv
import itertools
from collections.abc import Iterable
from types import ModuleType

import numpy as np
import pytest
from support.paths import REFERENCE

from guidegen.computing.colour import reflectance
from guidegen.computing.colour.cie_tables import ROWS
from guidegen.computing.colour.spaces import decoded, linear_of


def table(name: str) -> list[list[str]]:
    with (REFERENCE / name).open(newline="") as file:
        return list(csv.reader(file))[1:]


def test_the_cie_tables_are_as_published() -> None:
    theirs = np.array(table("cie-1931-d65-10nm.csv"), dtype=float)
    assert np.abs(np.array(ROWS) - theirs).max() < 1e-15


def test_the_cie_tables_agree_with_colour_science(quiet_colour_science: object) -> None:
    import colour

    shape = colour.SpectralShape(380, 730, 10)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape)
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(shape)
    ours = np.array(ROWS)
    assert np.abs(ours[:, 1:4] - observer.values).max() < 1e-9
    assert np.abs(ours[:, 4] - light.values).max() < 1e-9


def test_curves_computed_from_the_equations_of_burns() -> None:
    """tests/reference/lhtss-check.csv: arXiv 1710.05732 and the note of 2019, checked there with another solver."""
    checked = table("lhtss-check.csv")
    ours = reflectance.curves_of(row[0] for row in checked)
    assert np.abs(ours - np.array([row[1:] for row in checked], dtype=float)).max() < 1e-5


def test_no_smoother_curve_has_the_colour() -> None:
    """At the least of Σ(Δz)², every small change that keeps the colour makes it larger."""
    curve = reflectance.curves_of(["#4c5660"])[0]
    z = np.arctanh(2 * curve - 1)
    random = np.random.default_rng(1948)
    slope = reflectance.TO_LINEAR * (1 - np.tanh(z) ** 2) / 2
    for _ in range(50):
        change = random.normal(size=36)
        change -= np.linalg.pinv(slope) @ (slope @ change)
        change *= 1e-3
        assert (np.diff(z + change) ** 2).sum() > (np.diff(z) ** 2).sum()


# Plain Newton steps run away with these, or meet a singular matrix.
HARD = ["#000002", "#000005", "#000019", "#000110", "#000114", "#020005"]
HARD += ["#020114", "#030214", "#0c0101", "#0c0103", "#160207"]


def hexes_of(levels: Iterable[int]) -> list[str]:
    """Every colour with these levels."""
    return [f"#{r:02x}{g:02x}{b:02x}" for r, g, b in itertools.product(levels, repeat=3)]


def away_from(colours: list[str], curves: np.ndarray) -> float:
    """How far the curves' linear light is from that of the colours, at the worst."""
    wanted = np.clip(linear_of(colours), 1e-4, 1 - 1e-4)
    return float(np.abs(reflectance.linear_of_curves(curves) - wanted).max())


def slope_left(curves: np.ndarray) -> float:
    """The largest slope of Σ(Δz)² along the constraint, over the largest slope there is; nought at a minimum."""
    z = np.arctanh(2 * curves - 1)
    slope = np.zeros_like(z)
    slope[:, :-1] -= 2 * np.diff(z, axis=1)
    slope[:, 1:] += 2 * np.diff(z, axis=1)
    jacobian = reflectance.TO_LINEAR * ((1 - np.tanh(z) ** 2) / 2)[:, None]
    jacobian /= np.abs(jacobian).max(axis=2, keepdims=True)
    turned = jacobian.transpose(0, 2, 1)
    pull = np.linalg.solve(jacobian @ turned, jacobian @ slope[:, :, None])
    return float(np.abs(slope - (turned @ pull)[:, :, 0]).max() / np.abs(slope).max())


@pytest.mark.parametrize("colour", HARD)
def test_a_near_black_by_itself(colour: str) -> None:
    curve = reflectance.smoothest_curves(linear_of([colour]))
    assert away_from([colour], curve) < 1e-9
    assert slope_left(curve) < 1e-6


def test_near_blacks_in_company() -> None:
    colours = [*HARD, *hexes_of((0x00, 0x40, 0xC0)), *HARD]
    curves = reflectance.smoothest_curves(linear_of(colours))
    alone = np.concatenate([reflectance.smoothest_curves(linear_of([colour])) for colour in colours])
    assert away_from(colours, curves) < 1e-9
    assert np.abs(curves - alone).max() < 1e-12


@pytest.mark.parametrize(
    "levels",
    [pytest.param(range(32), id="darkest"), pytest.param([*range(0, 256, 8), 255], id="all over the cube")],
)
def test_every_colour_has_its_smoothest_curve(levels: Iterable[int]) -> None:
    colours = hexes_of(levels)
    curves = reflectance.smoothest_curves(linear_of(colours))
    assert away_from(colours, curves) < 1e-9
    assert slope_left(curves) < 1e-6


def test_every_corner_of_the_cube_has_a_curve() -> None:
    colours = hexes_of((0x00, 0x01, 0x80, 0xFE, 0xFF))
    curves = reflectance.curves_of(colours)
    assert ((curves > 0) & (curves < 1)).all()
    assert away_from(colours, curves) < 1e-9


def test_both_ways_of_taking_a_step_agree() -> None:
    """A few colours take a dense solve each, many take a pass over the bands."""
    light = np.clip(linear_of(["#b8862f", "#2a2d36", "#ffffff", "#000019", "#808080"]), 1e-4, 1 - 1e-4).T
    point, _ = reflectance._newton(reflectance._greys(light), 0.9 * light)
    equations = reflectance._Equations(point, light)
    for dense, band in zip(equations._dense_step(), equations._band_step(), strict=True):
        assert np.abs(dense - band).max() < 1e-6 * np.abs(dense).max()


def test_a_colour_that_newton_never_reaches_raises_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reflectance, "_MOST_STEPS", 1)
    curves = reflectance.smoothest_curves(linear_of(["#160207", "#b8862f"]))
    assert ((curves > 0) & (curves < 1)).all()


def test_another_solver_finds_the_same_curves() -> None:
    """Sequential least squares (Kraft 1988, as in SciPy) over the curves themselves, not over z and multipliers."""
    optimize = pytest.importorskip("scipy.optimize")
    random = np.random.default_rng(1710)
    levels = np.concatenate([random.integers(0, 256, (5, 3)), random.integers(0, 40, (5, 3))])
    light = np.clip(decoded(levels / 255.0), 1e-4, 1 - 1e-4)
    for wanted, ours in zip(light, reflectance.smoothest_curves(light), strict=True):
        theirs = smoothest_by(optimize, wanted)
        assert np.abs(ours - theirs).max() < 1e-6


def smoothest_by(optimize: ModuleType, wanted: np.ndarray) -> np.ndarray:
    """The smoothest curve of one linear colour by SciPy's solver."""

    def curve(z: np.ndarray) -> np.ndarray:
        return (np.tanh(z) + 1) / 2

    grey = np.full(36, np.arctanh(2 * (wanted @ [0.2126, 0.7152, 0.0722]) - 1))
    found = optimize.minimize(
        lambda z: (np.diff(z) ** 2).sum(),
        grey,
        method="SLSQP",
        jac=lambda z: -2 * np.diff(z, n=2, prepend=z[0], append=z[-1]),
        constraints={
            "type": "eq",
            "fun": lambda z: reflectance.TO_LINEAR @ curve(z) / wanted - 1,
            "jac": lambda z: reflectance.TO_LINEAR * ((1 - np.tanh(z) ** 2) / 2) / wanted[:, None],
        },
        options={"maxiter": 1000, "ftol": 1e-13},
    )
    assert found.success, found.message
    return curve(found.x)


def test_a_curve_of_ones_is_white() -> None:
    assert reflectance.linear_of_curves(np.ones(36)) == pytest.approx([1, 1, 1], abs=1e-12)


def test_a_curve_does_not_depend_on_its_company(monkeypatch: pytest.MonkeyPatch) -> None:
    hexes = ["#b8862f", "#2a2d36", "#ffffff", "#c4511f", "#0000ff"]
    monkeypatch.setattr(reflectance, "_kept", {})
    together = reflectance.curves_of([*hexes, hexes[0]])
    monkeypatch.setattr(reflectance, "_kept", {})
    alone = np.array([reflectance.curves_of([each])[0] for each in (*hexes, hexes[0])])
    assert np.abs(together - alone).max() < 1e-12


def test_what_is_kept_stays_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reflectance, "_kept", {})
    monkeypatch.setattr(reflectance, "_MOST_KEPT", 4)
    for number in range(10):
        reflectance.curves_of([f"#20{number:02x}40", "#b8862f"])
        assert len(reflectance._kept) <= 4


def test_no_colours_at_all() -> None:
    assert reflectance.curves_of([]).shape == (0, 36)
