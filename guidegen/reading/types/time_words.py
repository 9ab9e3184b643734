"""Times as people write them, in English and German: `1h30`, `half an hour`, `ca. 10 min`, `10-15 min`, `über Nacht`."""

from __future__ import annotations

import re
import unicodedata
from typing import NamedTuple

from guidegen.base.units import DAY, HOUR, LONGEST, MINUTE, SECOND

# From one evening to the next morning. Common practice, no source.
OVERNIGHT = 8 * HOUR

_GERMAN_UNITS = {
    **dict.fromkeys(("sek", "sekunde", "sekunden"), SECOND),
    **dict.fromkeys(("minuten",), MINUTE),
    **dict.fromkeys(("viertelstunde", "viertelstunden"), 15 * MINUTE),
    "dreiviertelstunde": 45 * MINUTE,
    **dict.fromkeys(("std", "stdn", "stunde", "stunden"), HOUR),
    **dict.fromkeys(("tag", "tage", "tagen"), DAY),
    **dict.fromkeys(("woche", "wochen"), 7 * DAY),
}
_UNITS = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), SECOND),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), MINUTE),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), HOUR),
    **dict.fromkeys(("d", "day", "days"), DAY),
    **dict.fromkeys(("week", "weeks"), 7 * DAY),
    **_GERMAN_UNITS,
}

_SMALL = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
)
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
_SMALL_GERMAN = (
    "ein zwei drei vier fuenf sechs sieben acht neun zehn elf zwoelf dreizehn vierzehn fuenfzehn sechzehn siebzehn "
    "achtzehn neunzehn"
)
_TENS_GERMAN = "zwanzig dreissig vierzig fuenfzig sechzig siebzig achtzig neunzig"


def _numbers() -> dict[str, float]:
    """Numbers in words, and the parts of one that stand before a unit."""
    words: dict[str, float] = {}
    tens = range(20, 100, 10)
    for small_words, tens_words in ((_SMALL, _TENS), (_SMALL_GERMAN, _TENS_GERMAN)):
        words |= {word: number for number, word in enumerate(small_words.split(), 1)}
        words |= {word: number for number, word in zip(tens, tens_words.split(), strict=True)}
    ones = list(zip(range(1, 10), _SMALL.split(), _SMALL_GERMAN.split(), strict=False))
    for ten, english, german in zip(tens, _TENS.split(), _TENS_GERMAN.split(), strict=True):
        for one, english_one, german_one in ones:
            words[f"{english} {english_one}"] = words[f"{german_one}und{german}"] = ten + one
    words |= dict.fromkeys(("a", "an", "eine", "einen", "einem", "einer"), 1)
    words |= dict.fromkeys(("half", "half a", "half an", "a half", "halbe", "eine halbe", "halber"), 0.5)
    words |= dict.fromkeys(("quarter of an", "a quarter of an", "quarter", "a quarter"), 0.25)
    words |= dict.fromkeys(("three quarters of an", "three quarters"), 0.75)
    words |= dict.fromkeys(("viertel", "eine viertel"), 0.25)
    words |= {"anderthalb": 1.5, "dreiviertel": 0.75, "eine dreiviertel": 0.75}
    words |= {f"{word}einhalb": number + 0.5 for number, word in enumerate(_SMALL_GERMAN.split(), 1)}
    return words


_NUMBERS = _numbers()
_ABOUT = re.compile(
    r"(?:about|around|roughly|approximately|approx\.?|circa|ca\.?|c\.|etwa|ungefaehr|rund|[~≈])\s*"
)
_OR_SO = re.compile(r"\s+(?:or so|oder so)")
_CLOCK = re.compile(r"([0-9]{1,2}):([0-5][0-9])\s*(h|hrs?|hours?|std\.?|stunden?)")
_BETWEEN = re.compile(r"(?:between|zwischen) (.+) (?:and|und) (.+)")
_OR = re.compile(r"(.+) (?:or|oder) (.+)")
_TO = re.compile(r"\s*[-‐‑–—]\s*| (?:to|bis) ")
_TOKEN = re.compile(r"[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?|[a-z]+|\S")
_NUMBER = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,9})?")
_COMMA = re.compile(r"[0-9]{1,4},(?:[0-9]|25|75)")
_FRACTION = re.compile(r"([0-9]{1,3})/([0-9]{1,3})")
_SPELT = str.maketrans(
    {"ä": "ae", "ö": "oe", "ü": "ue", "½": " 1/2 ", "¼": " 1/4 ", "¾": " 3/4 ", "⅓": " 1/3 ", "⅔": " 2/3 ", "\u2044": "/"}
)  # fmt: skip


class TimeRange(NamedTuple):
    """The least and the most time that words may mean, in ms; the same unless they are a range."""

    least: int
    most: int


def number_in_words(text: str) -> float | None:
    """A number that is written out, in English or German; None for anything else."""
    number = _NUMBERS.get(text.casefold().translate(_SPELT))
    return None if number is None else float(number)


def read_time(text: str) -> TimeRange | None:
    """The time or range of times that a text means; None where it means none, or more than one."""
    words = " ".join(unicodedata.normalize("NFC", text).casefold().translate(_SPELT).split())
    words = _ABOUT.sub("", words, count=1) if _ABOUT.match(words) else words
    if about := _OR_SO.search(words):
        words = words[: about.start()] if about.end() == len(words) else words
    words = _CLOCK.sub(r"\1 h \2", words) if _CLOCK.fullmatch(words) else words
    if words in {"none", "keine", "no", "nein"}:
        return TimeRange(0, 0)
    if words in {"overnight", "over night", "a night", "one night", "ueber nacht", "eine nacht"}:
        return TimeRange(OVERNIGHT, OVERNIGHT)
    if _NUMBER.fullmatch(words) and ("," not in words or _COMMA.fullmatch(words)):
        words = f"{words} min"
    single = _sum(re.sub(r"(?<=[a-z])-(?=[a-z])", " ", words))
    if single is not None:
        return TimeRange(single, single)
    between = _BETWEEN.fullmatch(words)
    if between:
        return _range(between[1], between[2])
    if either := _OR.fullmatch(words):
        return _one_or_the_other(either[1], either[2])
    ends = _TO.split(words)
    return _range(*ends) if len(ends) == 2 else None


def turned_round(text: str) -> str | None:
    """A range such as 15-10 min with its shorter time first, as text; None for anything else."""
    ends = _TO.split(text.strip())
    found = re.fullmatch(rf"({_NUMBER.pattern})(.*)", ends[1]) if len(ends) == 2 else None
    other = found and f"{found[1]}-{ends[0]}{found[2]}"
    return other if other and read_time(other) else None


def _one_or_the_other(first: str, last: str) -> TimeRange | None:
    """From one time to another no more than twice as long: an hour or two, 10 or 15 min; 5 min or an hour is no range."""
    tokens = _TOKEN.findall(first.rstrip("."))
    if tokens and tokens[-1] in _UNITS and (_NUMBER.fullmatch(last) or last in _NUMBERS):
        last = f"{last} {tokens[-1]}"
    found = _range(first, last)
    return found if found is not None and found.most <= 2 * found.least else None


def _range(first: str, last: str) -> TimeRange | None:
    """From one time to a longer one; a bare number before has the unit of the one behind, minutes if both are bare."""
    if _NUMBER.fullmatch(last):
        last = f"{last} min"
    least, most = _sum(first), _sum(last)
    tokens = _TOKEN.findall(last.rstrip("."))
    if least is None and tokens and [token for token in tokens if token in _UNITS] == tokens[-1:]:
        least = _sum(f"{first} {tokens[-1]}")
    return TimeRange(least, most) if least is not None and most is not None and least < most else None


def _sum(words: str) -> int | None:
    """Numbers with their units added up, each unit once; two digits behind hours are minutes, behind minutes seconds."""
    total, before, used = 0.0, [], []
    tokens = _TOKEN.findall(words)
    for at, word in enumerate(tokens):
        if word == "." and at and tokens[at - 1] in _UNITS:
            continue
        if word not in _UNITS:
            before.append(word)
            continue
        unit = _UNITS[word]
        number = _number(before, decimal_comma=word in _GERMAN_UNITS)
        if number is None or unit in used:
            return None
        total += number * unit
        used.append(unit)
        before = []
    if not used:
        return None
    if before in (["and", "a", "half"], ["and", "half"]):
        total += used[-1] / 2
    elif (
        before
        and (finer := {HOUR: MINUTE, MINUTE: SECOND}.get(used[-1]))
        and re.fullmatch("[0-5][0-9]", " ".join(before))
        and finer not in used
        and (finer == MINUTE or len(used) == 1)
    ):
        total += int(before[0]) * finer
    elif before:
        return None
    return round(total) if total <= LONGEST else None


def _number(tokens: list[str], *, decimal_comma: bool) -> float | None:
    """The number before a unit, in digits or words; a comma is a decimal one before a German unit, and wherever it can
    be nothing else: 1,5 and 0,75, but neither 1,500 nor 1,30.
    """
    if tokens[:1] in (["and"], ["und"]):
        tokens = tokens[1:]
    part = 0.0
    if tokens[-3:] == ["and", "a", "half"]:
        tokens, part = tokens[:-3], 0.5
    elif tokens and (fraction := _FRACTION.fullmatch(tokens[-1])):
        if not int(fraction[2]):
            return None
        tokens, part, decimal_comma = tokens[:-1], int(fraction[1]) / int(fraction[2]), False
        if not tokens:
            return part
    words = " ".join(tokens)
    if words in _NUMBERS:
        return _NUMBERS[words] + part
    if _NUMBER.fullmatch(words) and (decimal_comma or "," not in words or _COMMA.fullmatch(words)):
        return float(words.replace(",", ".")) + part
    return None
