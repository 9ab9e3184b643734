"""Which parts of the figure a sentence speaks of."""

from __future__ import annotations

import re
from collections.abc import Sequence

from guidegen.base.suggest import folded
from guidegen.words.spoken_words import SpokenWords

ALL = "all"
_ARTICLE = r"(?:the|all the|both|their|his|her|its|those|these|die|der|das|den|dem|alle|beide|ihre)"
_TO = r"(?:on|onto|over|across|for|along|around|round|to|auf|für|über|an|am|um|paint|do|cover|male|paint all)"
_GETS = (
    r"(?:are|is|get|gets|got|have|take|takes|want|wants|in|bekommen|bekommt|kriegen|kriegt|sind|ist|werden|wird|male|mit"
    r"|need|needs|had|next|first|now|then|go|goes|\?|,|:)"
)


class AreaFinder:
    """Finds areas: those of a chart, else those that painters name, else what stands where an area would."""

    def __init__(self, words: SpokenWords, chart: Sequence[str] = ()) -> None:
        self._words = words
        self.chart = {folded(area): area for area in chart}

    def known(self, word: str) -> str:
        """The area that a word means, '' if none."""
        key = folded(word)
        for form in (
            key,
            key.removesuffix("s"),
            key + "s",
            key.removesuffix("es"),
            key + "n",
            key.removesuffix("n"),
        ):
            if form in self.chart:
                return self.chart[form]
        areas = self._words.words("areas")
        if self._words.code == "de":  # of a compound the last part: Lederschürze
            compound = any(word.endswith(area) for area in areas if 4 <= len(area) <= len(word) - 3)
            return word if compound or word in areas else ""
        return word if word in areas else ""

    def find(self, text: str, lead: str = "") -> list[str]:
        """The areas that a sentence in small letters paints, `all` for everything; without those that are left out.

        `lead` is the sentence that opened the step. Its areas count where `text` names no area that is known but only a
        place on one: “now the scarf”, “along the fringe”.
        """
        here = self._named(text)
        opened = self._named(lead) if lead and not any(map(self.known, here)) else []
        return opened if any(map(self.known, opened)) else here or opened

    def _named(self, text: str) -> list[str]:
        words = self._words
        for section, key in (("areas", "but"), ("areas", "avoided"), ("coats", "said"), ("coats", "second")):
            for pattern in words.patterns(section, key):
                text = pattern.sub(" ", text)
        named = text.split()
        some = self._words.words("areas", "some")
        found = [
            self.known(word.removesuffix("'s"))
            for before, word in zip(["", *named], named, strict=False)
            if before not in some
        ]
        found = list(dict.fromkeys(filter(None, found)))
        if found:
            return found[:6]
        if words.says("areas", "all", text):
            return [ALL]
        if words.says("areas", "leather", text):
            return ["Leder" if words.code == "de" else "leather"]
        return self._by_place(text)

    def but(self, text: str) -> str:
        """What is left out of everything: `bar the face`."""
        said = self._words.says("areas", "but", text)
        return said[0] if said else ""

    def _by_place(self, text: str) -> list[str]:
        for form in (
            rf"(?:^|(?<= )){_TO} {_ARTICLE} ([^ §¤.,;:?!0-9]+)",
            rf"(?:^|(?<= )){_ARTICLE} ([^ §¤.,;:?!0-9]+)(?= {_GETS})",
        ):
            for found in re.finditer(form, text):
                noun = found[1]
                if len(noun) > 2 and "'" not in noun and not self._is_other(noun):
                    return [noun]
        return []

    def _is_other(self, noun: str) -> bool:
        """Whether a noun is known to be no area."""
        words = self._words
        return (
            noun in words.words("no_areas")
            or noun in words.words("function")
            or noun in words.words("colours")
            or noun in words.words("connectives")
            or noun in words.numbers
        )
