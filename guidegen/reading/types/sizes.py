"""Types of sizes: a base, a surface, a scale."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.base.listed import list_of_words
from guidegen.model.guide import Scale
from guidegen.reading.types.base import Complaint, Words
from guidegen.reading.types.values import comma_help, number_of

# Bounds that no figure meets and that keep amounts worked out from them sane.
WIDEST_BASE = 1_000.0  # mm
LARGEST_SURFACE = 1_000_000.0  # cm²
SMALLEST_SCALE = 10_000.0  # 1:10000

# Figure sizes in mm to the eye or the crown, and the scale that goes with each; loose, as sculpting is.
# Common practice, no source.
SIZES: Mapping[int, int] = MappingProxyType(
    {6: 285, 10: 150, 15: 100, 20: 72, 28: 56, 32: 50, 54: 32, 75: 24, 90: 20}
)

_LENGTH = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,9})?)\s*(mm|cm)(?:\s+round)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Base(Words[float]):
    """How wide a round base is, in mm; none is 0."""

    expected: str = "the width of a round base such as 25 mm"
    example: str = "25 mm"

    def of(self, text: str) -> float | Complaint:
        if text.casefold() == "none":
            return 0.0
        found = _LENGTH.fullmatch(text)
        across = float(found[1]) * (10 if found[2].lower() == "cm" else 1) if found else 0.0
        if 0 < across <= WIDEST_BASE:
            return across
        if number_of(text):
            return Complaint(f"Add the unit: {text} mm")
        return Complaint(
            comma_help(text) or "Write it as 25 mm; for another form than round, give surface: 40 cm2."
        )


_AREA = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,9})?)\s*(mm|cm|m)(?:2|²|\^2)", re.IGNORECASE)
_CM2 = {"mm": 0.01, "cm": 1.0, "m": 10_000.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface(Words[float]):
    """How much there is to paint on one, in cm²."""

    expected: str = "a surface such as 40 cm2"
    example: str = "40 cm2"

    def of(self, text: str) -> float | Complaint:
        found = _AREA.fullmatch(text)
        surface = float(found[1]) * _CM2[found[2].lower()] if found else 0.0
        if 0 < surface <= LARGEST_SURFACE:
            return surface
        if number_of(text):
            return Complaint(f"Add the unit: {text} cm2")
        return Complaint(comma_help(text) or "Write it as 40 cm2.")


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleOf(Words[Scale]):
    """A scale as 1:56, or a size in mm that the table knows."""

    expected: str = "a scale such as 1:56 or 28 mm"
    example: str = "1:56"

    def of(self, text: str) -> Scale | Complaint:
        ratio = re.fullmatch(r"1\s*[:/]\s*([0-9]{1,6}(?:\.[0-9]{1,3})?)", text)
        if ratio and 1 <= float(ratio[1]) <= SMALLEST_SCALE:
            return Scale(ratio=float(ratio[1]), text=f"1:{ratio[1]}", given=True)
        size = re.fullmatch(r"([0-9]{1,4})\s*mm", text, re.IGNORECASE)
        if size and int(size[1]) in SIZES:
            return Scale(ratio=float(SIZES[int(size[1])]), text=f"{int(size[1])} mm", given=True)
        if size:
            known = list_of_words([str(one) for one in SIZES])
            return Complaint(
                f"Write one of the known sizes, {known} mm, or the scale itself, as in 1:56.",
                f"{text} is no size that goes with one scale.",
            )
        return Complaint("Write it as 1:56, or as a size such as 28 mm.")
