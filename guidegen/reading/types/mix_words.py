"""Mixtures as people write them: `A 2:1 B`, `2 A + 1 B`, `A: 2, B: 1`, `2 parts A and 1 part B`, `A + a touch of B`.

What is a name and what an amount depends on the pots there are: `Salt & Ash` may be one pot or two, `2 Wet Leather` too.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from guidegen.reading.types.amounts import Measure, go_together, measure_of

Knows = Callable[[str], bool]

# So many commas, plus signs and ands; the ways to take them as parts of names double with each.
_MOST_SEPARATORS = 7
# Beyond, a bare number before a name is taken for a part of the name, as a maker's number is.
_MOST_BARE = 20

_RATIO = re.compile(
    r"(?<![\w.:/-])([0-9]{1,5}(?:\.[0-9]{1,3})?)(?: : |:|/(?=1(?!\d)))([0-9]{1,5}(?:\.[0-9]{1,3})?)(?![\w.:/-])"
)
_SEPARATOR = re.compile(r"\s*[,;+&/]\s*|\s+(?:and|und|with|mit)\s+", re.IGNORECASE)
_TO = re.compile(r"(?<=\w)\s+(?:to|zu)\s+(?=[0-9])", re.IGNORECASE)
# What is said of a mixture before its parts; and half and half, as people write it.
_MIXTURE_OF = re.compile(
    r"(?:an?\s+|eine\s+)?(?:mix(?:ture)?\s+of|mischung\s+(?:aus|von)|equal\s+parts(?:\s+of)?|gleiche\s+teile)\s+",
    re.IGNORECASE,
)
# How much that is nobody knows; what is advised in its place is the least.
_SOME = re.compile(r"(?<=\s)some\s+(?=\w)", re.IGNORECASE)
_HALVES = re.compile(r"(?<!\S)50\s?/\s?50(?!\S)")
_THINNED = re.compile(r"\s+(?:thinned|diluted|verdünnt)(?=\s)", re.IGNORECASE)
_UNIT = r"(?:%|x|×|parts?\b|teile?\b|drops?\b|tropfen\b|touch\b|hauch\b|bit\b|dash\b|little\b|wenig\b)"
_BEFORE = re.compile(
    rf"([0-9./½¼¾⅓⅔]+(?:\s*{_UNIT})?|\w+\s+{_UNIT}|etwas)(?:\s+(?:of|von)\b)?\s+(.+)", re.IGNORECASE
)
_COLON = re.compile(r"(.*\S)\s*:\s*(\S.*)")
_BEHIND = re.compile(
    r"(.*\S)\s+\(?([0-9./½¼¾⅓⅔]+\s*(?:%|parts?|teile?|drops?|tropfen)|a touch|a drop)\)?", re.IGNORECASE
)
_TIMES = re.compile(r"(.*\S)\s+[x×]\s*([0-9]{1,2})")
_IN_BRACKETS = re.compile(r"(.*\S)\s*\(([0-9]{1,2})\)")
# Where the amount stands in each form, and where the name.
_FORMS = ((_COLON, 2, 1), (_BEFORE, 1, 2), (_BEHIND, 2, 1), (_TIMES, 2, 1), (_IN_BRACKETS, 2, 1))


class WrittenPart(NamedTuple):
    """A name in a mixture as written, how much of it, and whether that was said."""

    name: str
    measure: Measure
    said: bool


def read_mix(text: str, knows: Knows, *, odd: bool = False) -> tuple[WrittenPart, ...] | None:
    """The parts of a mixture, None where the text is a name, or does not say what is mixed and how.

    `knows` tells whether there is a pot of that name. A name that is unknown is taken as written where everything else
    says that it is a mixture. With `odd` amounts that cannot be set against each other will do, for advice about them.
    """
    if knows(text):
        return None
    best: tuple[tuple[int, bool, int], tuple[WrittenPart, ...]] | None = None
    text = _SOME.sub("a touch of ", text) if odd else text
    plain = _HALVES.sub("1:1", _THINNED.sub("", text.strip()))
    bare = _MIXTURE_OF.sub("", plain, count=1) if _MIXTURE_OF.match(plain) else plain
    mixed = bare != plain
    if bare[:1].isdecimal():
        bare = _TO.sub(" + ", bare)
    for way in _ways(bare, mixed=mixed):
        parts = tuple(written_part(piece, knows) if isinstance(piece, str) else piece for piece in way)
        known = sum(knows(part.name) for part in parts)
        said = all(part.said for part in parts)
        if not odd and not go_together(part.measure for part in parts):
            continue
        if known == len(parts):
            return parts
        weight = known, said, len(parts)
        if (known or said) and (best is None or weight > best[0]):
            best = weight, parts
    return best[1] if best else None


def as_typed(parts: Sequence[WrittenPart]) -> str:
    """Parts in braces: drops beside parts as a drop, and the one without per cent gets what the others leave."""
    odd = not go_together(part.measure for part in parts)
    left = 100 - math.fsum(part.measure.number for part in parts if part.measure.unit == "%")
    per_cent = any(part.measure.unit == "%" for part in parts)

    def amount(part: WrittenPart) -> str:
        if part.measure.touch or (odd and part.measure.unit == "drops"):
            return "a touch" if part.measure.touch else "a drop"
        if odd and per_cent and not part.measure.unit and left > 0:
            return f"{left:g}%"
        return f"{part.measure.number:g}{part.measure.unit if per_cent else ''}"

    return "{" + ", ".join(f"{part.name}: {amount(part)}" for part in parts) + "}"


def _ways(text: str, *, mixed: bool) -> Iterator[Sequence[WrittenPart] | Sequence[str]]:
    """The ways to take a text for a mixture of two or more, those with the longest names first.

    Where it is said to be `mixed`, commas and ands need no amounts.
    """
    ratios = list(_RATIO.finditer(text))
    if len(ratios) == 1:
        yield from _by_ratio(text, ratios[0])
    separators = list(_SEPARATOR.finditer(text))
    if 1 <= len(separators) <= _MOST_SEPARATORS:
        for choice in sorted(range(1, 2 ** len(separators)), key=lambda bits: (bits.bit_count(), bits)):
            cut = [one for at, one in enumerate(separators) if choice >> at & 1]
            ends = [0, *(at for one in cut for at in one.span()), len(text)]
            pieces = [text[start:end].strip() for start, end in list(pairwise(ends))[::2]]
            plus = all(one[0].strip() == "+" for one in cut)
            if all(pieces) and (mixed or plus or any(written_part(piece).said for piece in pieces)):
                yield pieces


def _by_ratio(text: str, ratio: re.Match[str]) -> Iterator[Sequence[WrittenPart]]:
    """`A 2:1 B`, `A and B 2:1` or `2:1 A and B`."""
    left, right = measure_of(ratio[1]), measure_of(ratio[2])
    before, behind = text[: ratio.start()].strip(" ,;("), text[ratio.end() :].strip(" ,;)")
    behind = re.sub(r"^(?:of|von|with|mit)\s+", "", behind, flags=re.IGNORECASE)
    alone = before or behind
    pairs = (
        [(before, behind)]
        if before and behind
        else [
            (alone[: cut.start()].strip(), alone[cut.end() :].strip()) for cut in _SEPARATOR.finditer(alone)
        ]
    )
    for first, last in pairs:
        if first and last and left and right:
            yield WrittenPart(first, left, said=True), WrittenPart(last, right, said=True)


def written_part(piece: str, knows: Knows = lambda _: False) -> WrittenPart:
    """A name with its amount before or behind it; a pot that is called so as a whole comes first."""
    if not knows(piece):
        for form, amount_at, name_at in _FORMS:
            found = form.fullmatch(piece)
            measure = measure_of(found[amount_at]) if found else None
            if found is None or measure is None:
                continue
            bare = form is _BEFORE and found[amount_at].isdecimal()
            if not bare or measure.number <= _MOST_BARE:
                return WrittenPart(found[name_at].strip(), measure, said=True)
    return WrittenPart(piece, Measure(1.0), said=False)
