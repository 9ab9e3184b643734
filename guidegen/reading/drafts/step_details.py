"""What a sentence says of a step besides its paint: drying, coats, brush, thinning, parts, cautions, and its words."""

from __future__ import annotations

import re

from guidegen.base.units import MINUTE, SECOND
from guidegen.reading.drafts.amounts import (
    brush_in,
    coats_in,
    drying_in,
    hands_on,
    has_ratio,
    is_equal,
    parts_in,
    thin_in,
    times_in,
    warm_in,
)
from guidegen.reading.drafts.areas import AreaFinder
from guidegen.reading.drafts.pot_roles import Sentence
from guidegen.reading.drafts.records import DraftStep
from guidegen.reading.drafts.techniques import is_undercoat
from guidegen.words.spoken_words import SpokenWords

# Remarks of one kind that a step keeps; what else was said stands in its text or in a comment.
_MOST = 2


class Asides:
    """Sorts what is said beside a step by what it is for: cautions, what to look for, repairs, harmless slips, chatter."""

    def __init__(self, words: SpokenWords, areas: AreaFinder) -> None:
        self._words = words
        self._areas = areas

    def sort(self, sentence: Sentence, step: DraftStep) -> None:
        """Put a sentence where it belongs in its step."""
        words, low = self._words, sentence.low
        but = self._areas.but(low)
        if but and but not in step.spots:
            step.spots.append(but)
        if words.says("dry", "others", low):
            self._hands(low, step)
        elif hands_on(low, words) and (times := times_in(low, words)) and step.each is None:
            step.each = times[0][0]
        for key, kept in (("if_wrong", step.if_wrong), ("look_for", step.look_for), ("mind", step.mind)):
            if words.says("told", key, low) and not re.search(words.text("told", "unfinished"), low):
                if len(kept) < _MOST:
                    kept.append(self.clean(sentence.text))
                return
        if words.says("told", "needn_t", low):
            step.stray += [area for area in self._areas.find(low) if area not in ("all", *step.stray)]
        if (variant := words.says("told", "variant", low)) is not None:
            who = variant.groupdict().get("who") or ""
            step.only = step.only or (who if sentence.pots and sentence.tells else "")
            if not step.only:
                step.doubts.append(f"only for some of them? “{self.clean(sentence.text)}”")
        clean = self.clean(sentence.text)
        chatter = words.says("told", "chatter", low) or words.says("stop", "not_stop", low)
        if clean and not chatter:
            cut = re.search(words.text("told", "unfinished"), low)
            tells = sentence.tells and not (sentence.asks or sentence.besides or cut)
            (step.said if tells else step.beside).append(clean)

    def note(self, sentence: Sentence) -> str:
        """What is said of a substitute, in few words; '' where only its name is said."""
        for clause in re.split(r"[,;] ", sentence.text)[1:]:
            if 2 <= len(clause.split()) <= 12 and re.search(
                r"\b(?:it's|it is|just|etwas|das ist|warmer|wärmer)\b", clause
            ):
                return self.clean(clause)
        return ""

    def clean(self, text: str) -> str:
        """A sentence without what fills pauses, with a capital letter and a full stop."""
        fillers = self._words.text("told", "fillers_pattern")
        plain = re.sub(rf"^(?:(?:{fillers})(?: *,)? +)+", "", text, flags=re.IGNORECASE)
        plain = re.sub(
            rf"(?:, *)?\b(?:{self._words.text('told', 'pauses')})\b,?", "", plain, flags=re.IGNORECASE
        )
        plain = " ".join(plain.split()).strip(" ,;:")
        return "" if not plain else plain[:1].upper() + plain[1:] + ("" if plain[-1] in ".!?" else ".")

    def _hands(self, low: str, step: DraftStep) -> None:
        """“The other nine got the same, twenty minutes or so”: that long for all of them, shared out."""
        said = self._words.says("dry", "others", low)
        times = times_in(low, self._words)
        number = re.search(rf"(?<= )({self._words.number})(?= )", said[0]) if said else None
        if number and times:
            count = max(1, round(self._words.value(number[1])))
            step.each = max(30 * SECOND, round(times[0][0] / count / (30 * SECOND)) * 30 * SECOND)
            step.doubts.append(f"{times[0][0] // MINUTE} min for {count} figures")


class StepFiller:
    """Puts what sentences say into steps. `waited` where the sentence before spoke of drying, `noted` in notes."""

    def __init__(self, words: SpokenWords, areas: AreaFinder) -> None:
        self.words = words
        self.areas = areas
        self.asides = Asides(words, areas)
        self.waited = False
        self._told: list[DraftStep] = []
        self.noted = False
        self._asked = ("", "")  # a question that was just asked, and by whom

    def fill(
        self, sentence: Sentence, step: DraftStep, previous: DraftStep | None = None, part: str = ""
    ) -> None:
        """Fill a step from a sentence; `part` is what of it speaks of this step, where the step begins in it."""
        words, low = self.words, sentence.low
        if not any(step is one for one in self._told[-1:]):
            self._told = [*self._told[-1:], step]
        (asked, voice), self._asked = self._asked, (low if sentence.asks else "", sentence.speaker)
        if asked and words.says("roles", "yes", low):  # an hour? Yes.
            self._amounts(asked, "", step, None)
        if not (sentence.asks or (sentence.besides and (not asked or voice == sentence.speaker))):
            self._amounts(low, part, step, previous)
            if not part and len(step.paints) > 1 and (has_ratio(low, words) or is_equal(low, words)):
                self._correct_parts(step, sentence)
            if not step.areas and (part or not is_undercoat(step.technique)):
                step.areas = self.areas.find(part or low)
        if not part and len(low.split()) < 14:
            step.nouns |= set(re.findall(r"[^\W\d_]{4,}", low))
        self.asides.sort(sentence, step)

    def _amounts(self, low: str, part: str, step: DraftStep, previous: DraftStep | None) -> None:
        """Drying, coats, brush and thinning; questions tell none of them."""
        self._drying(part or low, step, previous if part else None, begins=bool(part))
        step.coats = max(step.coats, coats_in(part or low, self.words))
        step.brush = step.brush or brush_in(low, self.words)
        thin = thin_in(part or low, self.words)
        if thin and (not step.thin or thin[0].isdigit()):
            step.thin = thin

    def _drying(self, low: str, step: DraftStep, previous: DraftStep | None, *, begins: bool) -> None:
        """A time that stands before a new step's paint belongs to the step before it."""
        if (warm := warm_in(low, self.words)) is not None:
            low, minutes = warm
            step.warm = minutes or step.warm
            if not minutes:
                step.doubts.append("dried with a hair dryer")
        dry, place, remark = drying_in(low, self.words, waited=self.noted or (self.waited and not begins))
        first = re.search(r"§\d+", low)
        front = dry is not None and previous is not None and first is not None and place < first.start()
        if (
            front
            and first is not None
            and re.search(r"[,;]|then|dann|later|später", low[place : first.start()])
        ):
            step = previous or step
        elif previous is not None and any(
            self.words.says("dry", key, low[:place]) for key in ("once", "meanwhile")
        ):
            step = previous
        if dry is not None and (step.dry is None or dry > step.dry):
            step.dry = dry
        if step.dry is None and step is self._told[-1] and self.words.says("dry", "like_before", low):
            step.dry = self._told[0].dry
        if remark:
            step.doubts.append(remark)

    def _correct_parts(self, step: DraftStep, sentence: Sentence) -> None:
        """A ratio that is told later, or anew, counts; of a paint that it names so much is meant: “four of the teal”."""
        said = {pot: step.paints.index(name) for pot, name in sentence.names.items() if name in step.paints}
        low = re.sub(
            r"§(\d+)", lambda pot: f"§{said[int(pot[1])]}" if int(pot[1]) in said else "other", sentence.low
        )
        marks = list(range(len(step.paints)))
        others = " , ".join(f"§{mark}" for mark in marks if mark not in said.values())
        found = parts_in(f"{low} {others}", marks, self.words)
        if len(found) == len(marks):
            step.parts = {step.paints[mark]: value for mark, value in found.items()}
