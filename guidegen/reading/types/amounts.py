"""How much of a paint goes into a mixture: `2`, `1/2`, `70%`, `2 parts`, `3 drops`, `a touch`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

# Bounds that no painter meets and that keep sums of parts sane.
MOST_PARTS = 10_000.0
LEAST_PARTS = 0.001
TOUCH = 0.1

_TOUCHES = frozenset(
    {
        "a touch",
        "touch",
        "a drop",
        "a bit",
        "a dash",
        "a little",
        "ein hauch",
        "hauch",
        "ein tropfen",
        "ein wenig",
        "etwas",
    }
)
_UNITS = {
    "": "", "x": "", "×": "", "%": "%", "part": "", "parts": "", "teil": "", "teile": "", "drop": "drops", "drops": "drops",
    "tropfen": "drops",
}  # fmt: skip
_WORDS = {
    "a": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "five": 5.0, "half a": 0.5, "half": 0.5, "ein": 1.0,
    "zwei": 2.0, "drei": 3.0, "vier": 4.0, "fünf": 5.0,
}  # fmt: skip
_SIGNS = str.maketrans({"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3"})
_MEASURE = re.compile(
    r"(?:(?P<whole>[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9}))?(?:\s*(?<![0-9])(?P<over>[0-9]{1,4})\s*/\s*(?P<under>[0-9]{1,4}))?"
    r"(?P<word>[a-zü][a-zü ]*?)??\s*(?P<unit>%|x|×|parts?|teile?|drops?|tropfen)?"
)


class Measure(NamedTuple):
    """An amount: the number that it counts, whether it is a touch, and what it is counted in: '', `%` or `drops`."""

    number: float
    touch: bool = False
    unit: str = ""


def measure_of(text: str) -> Measure | None:
    """The amount that a text means, None for any other text and beyond 0.001 to 10,000."""
    words = " ".join(text.casefold().split())
    if words in _TOUCHES:
        return Measure(TOUCH, touch=True)
    found = _MEASURE.fullmatch(" ".join(words.translate(_SIGNS).split()))
    if found is None:
        return None
    whole, over, under, word, unit = found.group("whole", "over", "under", "word", "unit")
    if word:
        number = _WORDS.get(word.strip(), 0.0) if unit and not (whole or over) else 0.0
    else:
        number = float(whole or 0)
        number += int(over) / int(under) if over and int(under) else 0.0
        number = 0.0 if over and not int(under) else number
    return Measure(number, unit=_UNITS[unit or ""]) if LEAST_PARTS <= number <= MOST_PARTS else None


def go_together(measures: Iterable[Measure]) -> bool:
    """Whether amounts can be set against each other: all of them in per cent or drops, or none; a touch of parts."""
    return len({measure.unit for measure in measures}) <= 1
