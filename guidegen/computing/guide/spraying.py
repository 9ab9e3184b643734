"""Whether to spray today: the dew point, the margin over it, and the humidity, as one verdict.

`templates/scripts/spraying.js` is its twin for the page; a test holds the two together, number for number.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

# Magnus over water, -45 to 60 °C: D. Sonntag, Zeitschrift für Meteorologie 40 (1990) 340-344; in the Guide to
# Instruments and Methods of Observation (WMO-No. 8), annex 4.B.
MAGNUS_FACTOR = 17.62
MAGNUS_TEMPERATURE = 243.12

# ISO 8502-4: the surface at least this far above the dew point.
LEAST_MARGIN = 3.0

# Matt varnish frosts in damp air; air too cold or too hot to spray in: common practice, no source. The label wins.
GOOD_HUMIDITY = 60.0
MOST_HUMIDITY = 70.0
COLDEST_AIR = 10.0
HOTTEST_AIR = 28.0

# Where the formula holds and a painter may be.
COLDEST_READ = -45.0
HOTTEST_READ = 60.0

# Every reason, with the number that it turns on, None for those without.
REASONS: dict[str, float | None] = {
    "air-unread": None,
    "figure-unread": None,
    "humidity-unread": None,
    "near-dew": LEAST_MARGIN,
    "too-damp": MOST_HUMIDITY,
    "too-cold": COLDEST_AIR,
    "too-hot": HOTTEST_AIR,
    "may-frost": GOOD_HUMIDITY,
    "all-well": None,
}


class Verdict(StrEnum):
    """What to do. `unknown` where a reading cannot be right."""

    SPRAY = "spray"
    DOUBTFUL = "doubtful"
    WAIT = "wait"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class SprayWeather:
    """The verdict with its reasons by name; `dew_point` and `margin` in °C to one decimal, None where unknown."""

    verdict: Verdict
    reasons: tuple[str, ...]
    dew_point: float | None = None
    margin: float | None = None


def dew_point(air: float, humidity: float) -> float:
    """The dew point in °C of air at `air` °C and `humidity` % relative humidity, by Magnus' formula."""
    load = math.log(humidity / 100) + MAGNUS_FACTOR * air / (MAGNUS_TEMPERATURE + air)
    return MAGNUS_TEMPERATURE * load / (MAGNUS_FACTOR - load)


def spray_weather(air: float, surface: float, humidity: float) -> SprayWeather:
    """Judge the air and the figure's own temperature in °C, and the air's relative humidity in %.

    The margin is taken from the dew point as shown, to a tenth of a degree, so that a reader can follow it.
    """
    faults = _faults(air, surface, humidity)
    if faults:
        return SprayWeather(verdict=Verdict.UNKNOWN, reasons=faults)
    dew = _tenths(dew_point(air, humidity))
    margin = _tenths(surface - dew)
    stops = tuple(_stops(air, margin, humidity))
    if stops:
        return SprayWeather(verdict=Verdict.WAIT, reasons=stops, dew_point=dew, margin=margin)
    if humidity > GOOD_HUMIDITY:
        return SprayWeather(verdict=Verdict.DOUBTFUL, reasons=("may-frost",), dew_point=dew, margin=margin)
    return SprayWeather(verdict=Verdict.SPRAY, reasons=("all-well",), dew_point=dew, margin=margin)


def _faults(air: float, surface: float, humidity: float) -> tuple[str, ...]:
    right = {
        "air-unread": COLDEST_READ <= air <= HOTTEST_READ,
        "figure-unread": COLDEST_READ <= surface <= HOTTEST_READ,
        "humidity-unread": 1 <= humidity <= 100,
    }
    return tuple(reason for reason, holds in right.items() if not holds)


def _stops(air: float, margin: float, humidity: float) -> list[str]:
    against = {
        "near-dew": margin < LEAST_MARGIN,
        "too-damp": humidity > MOST_HUMIDITY,
        "too-cold": air < COLDEST_AIR,
        "too-hot": air > HOTTEST_AIR,
    }
    return [reason for reason, holds in against.items() if holds]


def _tenths(value: float) -> float:
    """To a tenth, halves upwards, as the browser does it."""
    return math.floor(value * 10 + 0.5) / 10
