"""Spray weather: published dew points, the margin, and one verdict."""

from __future__ import annotations

import csv

import pytest
from support.paths import REFERENCE
from support.spray_weather import dew_point, spray_weather

from guidegen.computing.guide.spraying import SprayVerdict

PUBLISHED = REFERENCE / "dew-points.csv"


def test_published_dew_points():
    """A coatings maker's table of 2013 (tests/reference/README.md), printed to 0.1 °C and itself rounded unevenly."""
    with PUBLISHED.open(encoding="utf-8", newline="") as lines:
        rows = [[float(cell) for cell in row] for row in list(csv.reader(lines))[1:]]
    assert len(rows) == 99
    for air, humidity, printed in rows:
        assert dew_point(air, humidity) == pytest.approx(printed, abs=0.14), (air, humidity)


@pytest.mark.parametrize(
    ("air", "humidity", "printed"),
    [
        (20, 70, 14.4),  # worked examples of a house-paint maker's dew point page
        (10, 90, 8.4),
        (24, 60, 15.8),  # worked example of a building controls maker
        (22, 70, 16.3),  # worked example of a drying firm
        (22, 45, 9.5),
    ],
)
def test_worked_examples(air: float, humidity: float, printed: float):
    assert round(dew_point(air, humidity), 1) == printed


def test_saturated_air_is_at_its_dew_point():
    for air in (-10.0, 0.0, 15.5, 30.0):
        assert dew_point(air, 100) == pytest.approx(air)


@pytest.mark.parametrize(
    ("air", "surface", "humidity", "verdict", "reasons"),
    [
        (20, 20, 50, SprayVerdict.SPRAY, 1),
        (20, 12.3, 50, SprayVerdict.SPRAY, 1),  # dew point 9.3: the margin is 3.0 and just enough
        (20, 12.2, 50, SprayVerdict.WAIT, 1),
        (20, 20, 60, SprayVerdict.SPRAY, 1),
        (20, 20, 60.5, SprayVerdict.DOUBTFUL, 1),
        (20, 20, 70, SprayVerdict.DOUBTFUL, 1),
        (20, 20, 70.5, SprayVerdict.WAIT, 1),
        (10, 10, 40, SprayVerdict.SPRAY, 1),
        (9.9, 12, 40, SprayVerdict.WAIT, 1),
        (28, 26, 40, SprayVerdict.SPRAY, 1),
        (28.1, 26, 40, SprayVerdict.WAIT, 1),
        (5, 4, 95, SprayVerdict.WAIT, 3),  # too near the dew point, too damp, too cold
        (
            20,
            5,
            65,
            SprayVerdict.WAIT,
            1,
        ),  # a figure from a cold shed: the doubt about damp is not worth saying
        (200, 20, 50, SprayVerdict.UNKNOWN, 1),
        (20, -100, 0, SprayVerdict.UNKNOWN, 2),
        (20, 20, 101, SprayVerdict.UNKNOWN, 1),
        (float("nan"), 20, 50, SprayVerdict.UNKNOWN, 1),
    ],
)
def test_verdicts(air: float, surface: float, humidity: float, verdict: SprayVerdict, reasons: int):
    found = spray_weather(air, surface, humidity)
    assert (found.verdict, len(found.reasons)) == (verdict, reasons)
    assert (found.dew_point is None) == (verdict is SprayVerdict.UNKNOWN)


def test_figures_shown_add_up():
    found = spray_weather(20, 15.5, 65)
    assert (found.dew_point, found.margin) == (13.2, 2.3)


def test_the_margin_is_to_the_figure_and_not_to_the_air():
    assert spray_weather(20, 8, 50).margin == -1.3
