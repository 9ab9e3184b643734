"""Reflectance curves against curves computed elsewhere, and the CIE tables against colour-science's."""

from __future__ import annotations

import csv
import itertools
from pathlib import Path

import numpy as np
import pytest

from guidegen.computing import reflectance
from guidegen.computing.cie_tables import ROWS
from guidegen.computing.colour import linear_of

REFERENCE = Path(__file__).parent.parent / "reference"


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


def test_every_corner_of_the_cube_has_a_curve() -> None:
    levels = (0x00, 0x01, 0x80, 0xFE, 0xFF)
    hexes = [f"#{r:02x}{g:02x}{b:02x}" for r, g, b in itertools.product(levels, repeat=3)]
    curves = reflectance.curves_of(hexes)
    assert ((curves > 0) & (curves < 1)).all()
    wanted = np.clip(linear_of(hexes), 1e-4, 1 - 1e-4)
    assert np.abs(reflectance.linear_of_curves(curves) - wanted).max() < 1e-9


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
