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


class Verdict(StrEnum):
    """What to do. `unknown` where a reading cannot be right."""

    SPRAY = "spray"
    DOUBTFUL = "doubtful"
    WAIT = "wait"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class SprayWeather:
    """The verdict with its reasons; `dew_point` and `margin` in °C to one decimal, None where unknown."""

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
        damp = f"Above {GOOD_HUMIDITY:.0f}% humidity a matt varnish may frost: try it on a scrap first."
        return SprayWeather(verdict=Verdict.DOUBTFUL, reasons=(damp,), dew_point=dew, margin=margin)
    return SprayWeather(
        verdict=Verdict.SPRAY,
        reasons=("The figure is well above the dew point, the air neither too damp, too cold nor too hot.",),
        dew_point=dew,
        margin=margin,
    )


def _faults(air: float, surface: float, humidity: float) -> tuple[str, ...]:
    within = f"between {COLDEST_READ:.0f} and {HOTTEST_READ:.0f} °C"
    found = []
    if not COLDEST_READ <= air <= HOTTEST_READ:
        found.append(f"The air is to be {within}.")
    if not COLDEST_READ <= surface <= HOTTEST_READ:
        found.append(f"The figure is to be {within}.")
    if not 1 <= humidity <= 100:
        found.append("The humidity is to be between 1 and 100%.")
    return tuple(found)


def _stops(air: float, margin: float, humidity: float) -> list[str]:
    found = []
    if margin < LEAST_MARGIN:
        found.append(
            f"The figure has to be at least {LEAST_MARGIN:.0f} °C above the dew point, or damp settles on it."
        )
    if humidity > MOST_HUMIDITY:
        found.append(f"Above {MOST_HUMIDITY:.0f}% humidity a matt varnish frosts.")
    if air < COLDEST_AIR:
        found.append(f"Below {COLDEST_AIR:.0f} °C the paint spits and dries badly.")
    if air > HOTTEST_AIR:
        found.append(f"Above {HOTTEST_AIR:.0f} °C the paint dries in the air and lands as dust.")
    return found


def _tenths(value: float) -> float:
    """To a tenth, halves upwards, as the browser does it."""
    return math.floor(value * 10 + 0.5) / 10
