"""What a sentence says of a step besides its paint: drying, coats, brush, thinning, parts, cautions, and its words."""

from __future__ import annotations

import re

from guidegen.reading.drafts.amounts import (
    brush_in,
    coats_in,
    drying_in,
    has_ratio,
    parts_in,
    thin_in,
)
from guidegen.reading.drafts.areas import AreaFinder
from guidegen.reading.drafts.asides import Asides
from guidegen.reading.drafts.records import DraftStep
from guidegen.reading.drafts.roles import Sentence
from guidegen.words.spoken_words import SpokenWords


class StepFiller:
    """Puts what sentences say into steps. `waited` where the sentence before spoke of drying, `noted` in notes."""

    def __init__(self, words: SpokenWords, areas: AreaFinder) -> None:
        self.words = words
        self.areas = areas
        self.asides = Asides(words, areas)
        self.waited = False
        self.noted = False

    def fill(
        self, sentence: Sentence, step: DraftStep, previous: DraftStep | None = None, part: str = ""
    ) -> None:
        """Fill a step from a sentence; `part` is what of it speaks of this step, where the step begins in it."""
        words, low = self.words, sentence.low
        self._drying(low, step, previous if part else None, begins=bool(part))
        step.coats = max(step.coats, coats_in(part or low, words))
        step.brush = step.brush or brush_in(low, words)
        thin = thin_in(part or low, words)
        if thin and (not step.thin or thin[0].isdigit()):
            step.thin = thin
        if not part and len(step.paints) > 1 and has_ratio(low, words):
            self._correct_parts(step, low)
        if not step.areas:
            step.areas = self.areas.find(part or low)
        if not part and len(low.split()) < 14:
            step.nouns |= set(re.findall(r"[^\W\d_]{4,}", low))
        self.asides.sort(sentence, step)

    def _drying(self, low: str, step: DraftStep, previous: DraftStep | None, *, begins: bool) -> None:
        """A time that stands before a new step's paint belongs to the step before it."""
        dry, place, remark = drying_in(low, self.words, waited=self.noted or (self.waited and not begins))
        first = re.search(r"§\d+", low)
        front = previous is not None and first is not None and place < first.start()
        if front and first is not None and re.search(r"[,;]|then|dann", low[place : first.start()]):
            step = previous or step
        if dry is not None and (step.dry is None or dry > step.dry):
            step.dry = dry
        if remark:
            step.doubts.append(remark)

    def _correct_parts(self, step: DraftStep, low: str) -> None:
        """A ratio that is told later, or anew, counts."""
        marks = list(range(len(step.paints)))
        found = parts_in(f"{low} " + " , ".join(f"§{mark}" for mark in marks), marks, self.words)
        if len(found) == len(marks):
            step.parts = {step.paints[mark]: value for mark, value in found.items()}
