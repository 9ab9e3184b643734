"""Whether to spray today, worked out in Python: what `templates/scripts/spraying.js` is held against, number for number."""

from __future__ import annotations

import math
from dataclasses import dataclass

from guidegen.computing.guide.spraying import (
    COLDEST_AIR,
    COLDEST_READ,
    GOOD_HUMIDITY,
    HOTTEST_AIR,
    HOTTEST_READ,
    LEAST_MARGIN,
    MOST_HUMIDITY,
    SprayVerdict,
)

# Magnus over water, -45 to 60 °C: D. Sonntag, Zeitschrift für Meteorologie 40 (1990) 340-344; in the Guide to
# Instruments and Methods of Observation (WMO-No. 8), annex 4.B.
MAGNUS_FACTOR = 17.62
MAGNUS_TEMPERATURE = 243.12


@dataclass(frozen=True, slots=True, kw_only=True)
class SprayWeather:
    """The verdict with its reasons by name; `dew_point` and `margin` in °C to one decimal, None where unknown."""

    verdict: SprayVerdict
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
        return SprayWeather(verdict=SprayVerdict.UNKNOWN, reasons=faults)
    dew = _tenths(dew_point(air, humidity))
    margin = _tenths(surface - dew)
    stops = tuple(_stops(air, margin, humidity))
    if stops:
        return SprayWeather(verdict=SprayVerdict.WAIT, reasons=stops, dew_point=dew, margin=margin)
    if humidity > GOOD_HUMIDITY:
        return SprayWeather(
            verdict=SprayVerdict.DOUBTFUL, reasons=("may-frost",), dew_point=dew, margin=margin
        )
    return SprayWeather(verdict=SprayVerdict.SPRAY, reasons=("all-well",), dew_point=dew, margin=margin)


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
