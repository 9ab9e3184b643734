"""Types of single values: numbers, yes and no, colours, amounts, money, shares, parts."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from guidegen.base import units
from guidegen.model.guide import Thin
from guidegen.reading.types.amounts import LEAST_PARTS, MOST_PARTS, measure_of
from guidegen.reading.types.base import Complaint, Words
from guidegen.reading.types.parse_context import near
from guidegen.reading.types.time_words import number_in_words

# Bounds that no painter meets and that keep sums and pictures of them sane.
MOST_FIGURES = 10_000
MOST_COATS = 100
MOST_POTS = 10_000
MOST_MONEY = 1_000_000.0
MOST_STRENGTH = 1_000.0
MOST_VOLUME = 100_000.0  # ml: a drum and more

_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")
_WITH_COMMA = re.compile(r"[0-9]+,[0-9]+(\s*[^\s,]+)?")


def number_of(text: str) -> float | None:
    """A plain decimal number without sign, None for anything else."""
    return float(text) if _NUMBER.fullmatch(text) else None


def with_comma(text: str, otherwise: str) -> Complaint:
    """The complaint about a decimal comma, which is mended unless it may part thousands; `otherwise` without one."""
    if not _WITH_COMMA.fullmatch(text):
        return Complaint(otherwise)
    sure = re.search(r",[0-9]{3}(?![0-9])", text) is None
    return Complaint(comma_help(text), meant=text.replace(",", ".") if sure else None)


def comma_help(text: str) -> str:
    """What to do about a decimal comma, '' where there is none."""
    return f"The decimal sign is a point: {text.replace(',', '.')}" if _WITH_COMMA.fullmatch(text) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole(Words[int]):
    """A whole number between two bounds, both included."""

    low: int = 1
    high: int = MOST_FIGURES

    def __post_init__(self) -> None:
        object.__setattr__(self, "expected", f"a whole number from {self.low} to {self.high:,}")
        object.__setattr__(self, "example", self.example or str(self.low))

    def of(self, text: str) -> int | Complaint:
        if re.fullmatch(r"[0-9]{1,9}", text) and self.low <= int(text) <= self.high:
            return int(text)
        number = number_in_words(text)
        if number and number.is_integer() and self.low <= number <= self.high:
            return Complaint(f"Write {number:.0f}.")
        counted = re.fullmatch(r"([0-9]{1,5})\s*(?:×|[^\W\d_]{1,20}\.?)", text)
        if counted and self.low <= int(counted[1]) <= self.high:
            return Complaint(f"Write {int(counted[1])}.")
        return Complaint(f"Write digits only, from {self.low} to {self.high:,}.")


@dataclass(frozen=True, slots=True, kw_only=True)
class AtATime(Words[int]):
    """How many figures of a unit are painted at a time; all of them is 0."""

    expected: str = "how many figures at a time, or all"
    example: str = "5"

    def of(self, text: str) -> int | Complaint:
        if text.casefold() == "all":
            return 0
        found = Whole().of(text)
        return found if isinstance(found, int) else Complaint(f"{found.help.removesuffix('.')}, or all.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Decimal(Words[float]):
    """A number above nought."""

    high: float = MOST_STRENGTH

    def __post_init__(self) -> None:
        object.__setattr__(self, "expected", f"a number above 0, {self.high:,.0f} at most")

    def of(self, text: str) -> float | Complaint:
        number = number_of(text)
        if number is not None and 0 < number <= self.high:
            return number
        return with_comma(text, f"Write a number such as {self.example or '1.5'}.")


_YES_NO = {
    "yes": True, "no": False, "true": True, "false": False, "on": True, "off": False, "1": True, "0": False,
}  # fmt: skip


def _in_german(text: str) -> str:
    """What to type instead of ja or nein, '' for any other word."""
    word = {"ja": "yes", "nein": "no"}.get(text.casefold())
    return f"Write {word}." if word else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class YesNo(Words[bool]):
    """yes, no, true, false, on, off, 1 or 0, in any case."""

    expected: str = "yes or no"
    example: str = "yes"

    def of(self, text: str) -> bool | Complaint:
        return _YES_NO.get(text.casefold(), Complaint(_in_german(text) or "Write yes or no."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pots(Words[int]):
    """How many pots stand on the shelf; yes is one."""

    expected: str = "a number of pots, or yes or no"
    example: str = "1"

    def of(self, text: str) -> int | Complaint:
        if re.fullmatch(r"[0-9]{1,9}", text) and int(text) <= MOST_POTS:
            return int(text)
        answer = _YES_NO.get(text.casefold())
        if answer is not None:
            return int(answer)
        number = number_in_words(text)
        return Complaint(
            _in_german(text)
            or (f"Write {number:g}." if number and number.is_integer() else "")
            or f"Write yes, no, or how many pots there are, up to {MOST_POTS:,}."
        )


_RGB = re.compile(
    r"(?:rgb)?\s*\(?\s*([0-9]{1,3})[\s,;/]+([0-9]{1,3})[\s,;/]+([0-9]{1,3})\s*\)?", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Words[str]):
    """#rgb or #rrggbb with or without its #, read as #rrggbb in lower case."""

    expected: str = "a colour such as #b8862f"
    example: str = '"#b8862f"'
    code: str = "bad-colour"

    def of(self, text: str) -> str | Complaint:
        colour = units.read_colour(text) if text.isascii() else None
        if colour is not None:
            return colour
        digits = text.removeprefix("#")
        if re.fullmatch(r"[0-9A-Fa-f]{8}", digits):
            return Complaint(f'Leave out the last two digits, which say how clear it is: "#{digits[:6]}"')
        if light := _RGB.fullmatch(text):
            levels = [int(level) for level in light.groups()]
            if max(levels) <= 255:
                return Complaint('Write "#{:02x}{:02x}{:02x}".'.format(*levels))
        return Complaint('Write three or six of the digits 0 to 9 and a to f in quotes, as in "#b8862f".')


@dataclass(frozen=True, slots=True, kw_only=True)
class Volume(Words[float]):
    """An amount of paint, in ml. With `bare` a number alone is taken as ml."""

    expected: str = "an amount such as 17 ml"
    example: str = "17 ml"
    bare: bool = False

    def of(self, text: str) -> float | Complaint:
        alone = number_of(text)
        millilitres = alone if self.bare and alone is not None else units.read_volume(text)
        if millilitres is not None and 0 < millilitres <= MOST_VOLUME:
            return millilitres
        if alone:
            return Complaint(f"Add the unit: {text} ml")
        return with_comma(text, f"Write it as {self.example}; ml, cl and l are known.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Money(Words[float]):
    """A price in the site's currency."""

    expected: str = "a price such as 2.80"
    example: str = "2.80"

    def of(self, text: str) -> float | Complaint:
        number = number_of(text)
        if number is not None and number <= MOST_MONEY:
            return number
        # A currency's sign or letters before or after it.
        bare = re.fullmatch(r"[^0-9.,-]*([0-9]+(?:[.,][0-9]+)?)[^0-9.,]*", text)
        if bare and bare[1] != text:
            return Complaint(
                f"Write the number alone, {bare[1].replace(',', '.')}; site.yaml says which currency it is."
            )
        return with_comma(text, "Write the number alone; site.yaml says once which currency it is.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Share(Words[float]):
    """A part of the whole in percent, read as 0 to 1."""

    expected: str = "a share such as 20%"
    example: str = "20%"

    def of(self, text: str) -> float | Complaint:
        """The share, above 0 and up to 1."""
        number = number_of(text.removesuffix("%").rstrip()) if text.endswith("%") else None
        if number is not None and 0 < number <= 100:
            return number / 100
        alone = number_of(text)
        if alone is not None and 0 < alone <= 1:
            return Complaint(f"Write {alone * 100:g}%.")
        if alone is not None and alone <= 100:
            return Complaint(f"Add the sign: {text}%")
        return with_comma(text, "Write it as 20%, above 0% and up to 100%.")


_RATIO = re.compile(r"([0-9]{1,5}(?:\.[0-9]{1,3})?)\s*:\s*([0-9]{1,5}(?:\.[0-9]{1,3})?)")


def ratio_of(text: str) -> tuple[float, float] | None:
    """The two numbers of `1:9`, both above 0 and up to 10,000."""
    found = _RATIO.fullmatch(text)
    if not found:
        return None
    left, right = float(found[1]), float(found[2])
    return (left, right) if LEAST_PARTS <= min(left, right) <= max(left, right) <= MOST_PARTS else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio(Words[tuple[float, float]]):
    """Parts where the names are given elsewhere."""

    expected: str = "parts such as 1:9"
    example: str = "1:9"

    def of(self, text: str) -> tuple[float, float] | Complaint:
        return ratio_of(text) or Complaint("Write two numbers above 0 with a colon between, as in 1:9.")


@dataclass(frozen=True, slots=True, kw_only=True)
class ThinOf(Words[Thin]):
    """How a paint is thinned: parts of paint to thinner and its name, or words."""

    expected: str = "words, or parts such as 2:1 water"
    example: str = "2:1 water"

    def of(self, text: str) -> Thin | Complaint:
        """The words, and the paint's share where they begin with parts."""
        found = _RATIO.match(text)
        if found is None:
            return Thin(text=text) if len(text) <= 200 else Complaint("Shorten it to 200 characters.")
        ratio = ratio_of(found[0])
        if ratio is None or text[found.end() : found.end() + 1] not in {"", " ", ",", ";", "(", "\xa0"}:
            return Complaint(
                "Write two numbers above 0 with a colon between and the thinner's name, as in 2:1 water."
            )
        return Thin(text=text, paint_share=round(ratio[0] / math.fsum(ratio), 9))


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount(Words[tuple[float, bool]]):
    """Parts of one paint in a mixture: a number, or a touch, which counts a tenth."""

    expected: str = "a number of parts, or a touch"
    example: str = "2"

    def of(self, text: str) -> tuple[float, bool] | Complaint:
        measure = measure_of(text)
        if measure is not None:
            return measure.number, measure.touch
        best = near(text, ("a touch",))
        return with_comma(
            text, f"Write {best}." if best else "Write a number above 0 and up to 10,000, or a touch."
        )
