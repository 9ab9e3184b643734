"""Whether to spray today: the bounds that `templates/scripts/spraying.js` judges by, and the words it may answer with."""

from __future__ import annotations

from enum import StrEnum

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


class SprayVerdict(StrEnum):
    """What to do. `unknown` where a reading cannot be right."""

    SPRAY = "spray"
    DOUBTFUL = "doubtful"
    WAIT = "wait"
    UNKNOWN = "unknown"
