"""Steps out of sentences that tell them, one after the other."""

from __future__ import annotations

import re
from collections.abc import Sequence

from guidegen.model.paint import Kind
from guidegen.reading.drafts.amounts import parts_in
from guidegen.reading.drafts.areas import ALL, AreaFinder
from guidegen.reading.drafts.pot_marks import (
    answered,
    carry_on,
    groups_of,
    heard,
    parts_of,
)
from guidegen.reading.drafts.pot_roles import Around, Role, Sentence, is_repair, laid_before, role_of
from guidegen.reading.drafts.pots import Pot, PotFinder
from guidegen.reading.drafts.records import Cue, Draft, DraftStep, DraftStop
from guidegen.reading.drafts.step_details import StepFiller
from guidegen.reading.drafts.step_openings import (
    Now,
    Taken,
    is_mixed_now,
    is_new,
    is_passing,
    is_purpose,
    lays_out,
    opens_step,
    says_little,
    stop_name,
    stops_here,
    unnamed_step,
)
from guidegen.reading.drafts.step_places import like_before, place_of_late, technique_again, technique_carried
from guidegen.reading.drafts.techniques import (
    FILMS_LAID,
    fits,
    fits_with,
    is_undercoat,
    kind_of,
    technique_said,
    usual_technique,
)
from guidegen.words.spoken_words import SpokenWords

# What was said so long before a step's paint is named still belongs to it. Milliseconds; from memory.
_LEAD = 20_000


class Teller:
    """Makes a draft out of what one person, or two, said about one batch."""

    def __init__(self, finder: PotFinder, words: SpokenWords, chart: Sequence[str] = ()) -> None:
        self.finder = finder
        self.words = words
        self.areas = AreaFinder(words, chart)
        self.draft = Draft(language=words.code)
        self.now = Now()
        self.filler = StepFiller(words, self.areas)

    def tell(self, cues: Sequence[Cue], *, misheard: bool = True, noted: bool = False) -> Draft:
        """The draft of what the cues say, in their order; in what was `noted` a time is one of drying."""
        self.filler.noted = noted
        self.now.mentions, sentences = heard(cues, self.finder, misheard=misheard)
        for sentence in sentences:
            self._hear(sentence)
        self._let_go_of_lead()
        return self.draft

    def _hear(self, sentence: Sentence) -> None:
        now, words = self.now, self.words
        if words.says("told", "habits", sentence.low):
            self._doubt("a habit that nobody should copy was left out", sentence)
            return
        asked, now.asked = now.asked, None
        sentence = answered(asked, sentence, words) if asked else sentence
        if self.draft.entries and isinstance(self.draft.entries[-1], DraftStop):
            sentence.low = re.sub(words.text("told", "otherwise"), "", sentence.low)
        self._approves(sentence)
        if self._stops(sentence) or self._is_optional(sentence):
            now.lacked = False
            return
        if now.fresh and not sentence.pots and re.search(words.text("told", "undone"), sentence.low):
            self._take_back()
            return
        roles = self._roles(sentence)
        taken = self._taken(sentence, roles)
        first = taken[0] if taken else len(now.mentions)
        self._alternatives(sentence, {pot: role for pot, role in roles.items() if pot < first})
        for pot in laid_before(sentence, roles, words) if taken else ():
            self._finish(pot, sentence)
        sentence.tells = bool(taken) or not sentence.pots
        made = self._take(sentence, taken, roles) if taken else self._without_pot(sentence)
        self._alternatives(sentence, {pot: role for pot, role in roles.items() if pot > first})
        now.lacked = Role.ALTERNATIVE not in roles.values() and (
            Role.LACKING in roles.values() or words.says("roles", "lacking_that", sentence.low) is not None
        )
        late = words.says("earlier", "said", sentence.low) is not None
        if late and not made and not taken and not now.told_late:
            now.late, now.told_late = sentence, True
            return
        now.told_late = late
        if made or self._says_more(sentence, opens=not taken):
            self.filler.waited = words.says("dry", "drying", sentence.low) is not None

    def _taken(self, sentence: Sentence, roles: dict[int, Role]) -> list[int]:
        """The pots that a sentence paints with; none where it mends something, or lays out what will be used."""
        taken = [pot for pot in sentence.pots if roles[pot] in (Role.TAKEN, Role.ADDED)]
        begun = bool(self.draft.steps) or self.now.lead is not None
        listed = not begun and lays_out(sentence, len(taken), self.words, self.areas)
        return [] if listed or is_repair(sentence.low, self.words) else taken

    def _says_more(self, sentence: Sentence, *, opens: bool) -> bool:
        """Whether a sentence that begins no step tells more of the last; it may be the opening of the next."""
        if opens and opens_step(sentence, self.now, self.words, self.areas):
            self._let_go_of_lead()
            self.now.lead = sentence
            return False
        if self._near_lead(sentence) and says_little(sentence, self.words, self.areas):
            return False
        self._let_go_of_lead()
        self._attributes(sentence, self.now.step)
        return True

    def _finish(self, pot: int, sentence: Sentence) -> None:
        """A varnish that is only told as being on before something else."""
        name, found = self._name(pot), self.now.mentions[pot].pot
        if kind_of(found) is Kind.VARNISH and all(name not in step.paints for step in self.draft.steps):
            self._begin(sentence, f"§{pot}", DraftStep(paints=[name]), [found], None, before=False)

    def _take_back(self) -> None:
        """The step that was just begun was a slip of the tongue."""
        self.draft.entries = [one for one in self.draft.entries if one is not self.now.step]
        self.now.step, self.now.fresh = next(reversed(self.draft.steps), None), False

    def _approves(self, sentence: Sentence) -> None:
        """“I've only got Cold Cheeks.” “That'll do as well.”: what somebody else has stands in for it."""
        approves = not sentence.pots and self.words.says("roles", "approves", sentence.low)
        if approves:
            self._alternatives(sentence, dict.fromkeys(self.now.offered, Role.ALTERNATIVE))
        self.now.offered = [] if approves or sentence.pots else self.now.offered

    def _roles(self, sentence: Sentence) -> dict[int, Role]:
        now = self.now
        around = Around(lacked=now.lacked, other_voice=sentence.besides, begun=len(self.draft.steps) > 1)
        roles = {pot: role_of(pot, sentence, self.words, around) for pot in sentence.pots}
        carry_on(sentence, roles, self.words)
        for pot, role in roles.items():
            now.offered += (
                [pot] if role in (Role.MENTIONED, Role.REJECTED, Role.ASKED) or sentence.besides else []
            )
            now.asked = (pot, sentence) if role is Role.ASKED else now.asked
        return roles

    def _stops(self, sentence: Sentence) -> bool:
        words = self.words
        if not stops_here(sentence, words, asked=self.now.purpose):
            self.now.purpose = is_purpose(sentence, words)
            return False
        if not self.draft.steps or sentence.asks:
            return False
        self._let_go_of_lead()
        last = self.draft.entries[-1]
        if isinstance(last, DraftStop):
            last.said += f" {sentence.text}"
            return True
        self.draft.entries.append(DraftStop(name=stop_name(sentence, words), said=sentence.text))
        return True

    def _is_optional(self, sentence: Sentence) -> bool:
        step = None if sentence.pots else self.now.step
        if step is None or not self.words.says("told", "optional", sentence.low):
            return False
        step.optional = True
        return True

    def _alternatives(self, sentence: Sentence, roles: dict[int, Role]) -> None:
        """Pots that will do as well, of the step that is told, or of the one whose pot is lacking."""
        step = self.now.step
        lacking = [pot for pot in roles if roles[pot] is Role.LACKING]
        if lacking:
            name = self._name(lacking[0])
            step = next((one for one in reversed(self.draft.steps) if name in one.paints), step)
        for pot, role in roles.items():
            name = self._name(pot)
            if role is Role.ALTERNATIVE and step is not None and name not in step.paints:
                if name not in (paint for paint, _ in step.instead):
                    step.instead.append((name, self.filler.asides.note(sentence)))
                self._say_if_doubtful(pot, step, sentence)

    def _take(self, sentence: Sentence, taken: list[int], roles: dict[int, Role]) -> bool:
        """Steps that begin in a sentence; False where all of it belongs to the step that is told already."""
        made = False
        groups = groups_of(sentence, taken, self.words, self.areas, self.now.mentions)
        for group, part in parts_of(sentence, groups, self.words):
            parts = {self._name(pot): value for pot, value in parts_in(part, group, self.words).items()}
            if (step := self.now.step) and is_mixed_now(step, parts, part, sentence.at, self.words):
                step.paints, step.parts, made = list(parts), parts, True
                self._attributes(sentence, step)
                continue
            made = self._take_up(sentence, part, group, roles, first=group is groups[0]) or made
        return made

    def _take_up(
        self, sentence: Sentence, part: str, group: list[int], roles: dict[int, Role], *, first: bool
    ) -> bool:
        """One group of pots: a step of its own, or more about the one that is told (both True), or nothing (False).

        `part` is what the sentence says of the group.
        """
        now, words = self.now, self.words
        group = [pot for at, pot in enumerate(group) if self._name(pot) not in map(self._name, group[:at])]
        pots = [now.mentions[pot].pot for pot in group]
        lead = self._near_lead(sentence) if first else None
        said = technique_said(part, words, pots) or (technique_said(lead.low, words, pots) if lead else "")
        sentence = now.with_late(sentence)
        before = words.says("earlier", "said", sentence.low) is not None or (
            not first and words.says("earlier", "before_this", part) is not None
        )
        taken = Taken(
            part=part,
            group=group,
            names=[self._name(pot) for pot in group],
            pots=pots,
            parts={self._name(pot): value for pot, value in parts_in(part, group, words).items()},
            technique=said or technique_carried(part, pots, now.step, words, first=first),
            added=len(group) == 1 and roles[group[0]] is Role.ADDED,
            moves=lead is not None or re.search(words.text("told", "moves"), part) is not None,
        )
        if now.step is not None and not before:
            more = self._tell_more(now.step, sentence, taken, first=first)
            if more is not None:
                return more
        begun = DraftStep(paints=taken.names, parts=taken.parts, technique=taken.technique)
        self._begin(sentence, part, begun, taken.pots, lead, before=before)
        for pot in group:
            self._say_if_doubtful(pot, now.step, sentence)
        return True

    def _tell_more(self, step: DraftStep, sentence: Sentence, taken: Taken, *, first: bool) -> bool | None:
        """True where pots are more about the step that is told, False where they are only spoken of, else None."""
        words, about = self.words, sentence.about(taken.group[0])
        like = words.says("same", "mix", taken.part) and like_before(taken.part, self.draft.steps, words)[1]
        if like and taken.goes_into(like, self._pots_of(like)):
            taken.mix_into(like, self._pots_of(like), taken.names[-1], words)
        elif step.guessed and first and fits(step.technique, taken.pots):
            step.paints, step.guessed = taken.names, False
            self._attributes(sentence, step)
            return True
        added = taken.added and fits_with(taken.pots[0], self._pots_of(step))
        if added and step.paints and taken.names[0] not in step.paints:
            taken.mix_into(step, self._pots_of(step), taken.names[0], words)
            into = self.now.fresh and words.says("add", "into", about) is not None
            another = taken.moves and (step.technique_said or (step.areas and step.areas != [ALL]))
            if not into and (another or taken.technique not in ("", step.technique)):
                return None
            step.paints, step.parts = taken.names, taken.parts
        elif not is_new(taken, self.draft.entries, step, words, self.areas):
            if taken.parts and len(taken.parts) == len(step.paints):
                step.parts = taken.parts
            if taken.technique and not step.technique_said:
                step.technique, step.technique_said = taken.technique, True
        elif is_passing(taken, about, self.draft.steps, words):
            return False
        else:
            return None
        self._attributes(sentence, step)
        return True

    def _begin(
        self,
        sentence: Sentence,
        part: str,
        step: DraftStep,
        pots: Sequence[Pot],
        lead: Sentence | None,
        *,
        before: bool,
    ) -> None:
        now, technique = self.now, step.technique
        step.technique_said = bool(technique)
        ground = any(kind_of(pot) is Kind.PRIMER for pot in pots)  # goes over all, be they rope makers
        step.areas = self.areas.find(part, lead.low if lead and not ground else "")
        if pots and not (step.areas or ground or self.draft.steps):
            step.areas = self.areas.find(sentence.low)
        if not technique:
            step.technique = usual_technique(pots, part, now.step.technique if now.step else "")
            if step.technique == "base coat" and not before:
                step.technique = technique_again(step, self.draft.steps, pots, self.words, sentence.low)
        elif technique == "tidy up":
            step.as_before = not step.paints or any(
                set(step.paints) & set(one.paints) for one in self.draft.steps
            )
        step.at = lead.at if lead is not None and lead.at is not None else sentence.at
        step.nouns = set(re.findall(r"[^\W\d_]{3,}", part if not lead else f"{lead.low} {part}"))
        place = len(self.draft.entries)
        if before:
            place = place_of_late(self.draft, step, now.step, sentence, self.words, self._name)
        self.draft.entries.insert(place, step)
        previous, now.step = now.step, step
        if lead is not None:
            now.lead = None
            self._attributes(lead, step)
        self._attributes(sentence, step, previous, part=part)

    def _without_pot(self, sentence: Sentence) -> bool:
        """A step that names no pot: the same as an area had, the first colour, an undercoat, a varnish, tidying up."""
        words, now = self.words, self.now
        aside = any(
            words.says("roles", key, sentence.low) for key in ("later", "conditional", "listed", "recap")
        )
        if aside or is_repair(sentence.low, words):
            return False
        same, like = like_before(sentence.low, self.draft.steps, words)
        if like is not None:
            lead = self._near_lead(sentence)
            technique = technique_said(sentence.low, words)
            part = sentence.low.replace(same, " ", 1) if same else sentence.low
            again = DraftStep(paints=list(like.paints), parts=dict(like.parts), technique=technique)
            self._begin(sentence, part, again, [], lead, before=False)
            if now.step is not None and not technique:
                now.step.technique = like.technique if same or like.technique in FILMS_LAID else "layer"
            self._doubt("the paint was told by what had it before", sentence)
            return True
        if sentence.pots:
            return False
        technique = technique_said(sentence.low, words)
        if technique == "tidy up" and now.step is not None and now.step.technique != "tidy up":
            tidied = DraftStep(technique=technique)
            self._begin(sentence, sentence.low, tidied, [], self._near_lead(sentence), before=False)
            return True
        step = unnamed_step(sentence, self.draft.steps, self.finder, self.words)
        if step is None:
            return False
        before = is_undercoat(step.technique) and bool(self.draft.steps)
        self._begin(sentence, sentence.low, step, [], self._near_lead(sentence), before=before)
        if step.guessed:
            self._doubt("which paint it was, was not said", sentence)
        return True

    def _near_lead(self, sentence: Sentence) -> Sentence | None:
        """The sentence that opened the step to come, if it was said not long ago."""
        lead = self.now.lead
        if lead is None or (sentence.at or 0) - (lead.at or 0) > _LEAD:
            return None
        return lead

    def _let_go_of_lead(self) -> None:
        """What opened no step: another technique with the same paint, or more about the step that was told."""
        lead, self.now.lead = self.now.lead, None
        step = self.now.step
        if lead is None or step is None:
            return
        technique = technique_said(lead.low, self.words)
        moves = re.search(self.words.text("told", "moves"), lead.low) is not None
        pots = self._pots_of(step)
        another = technique not in ("", step.technique) and step.technique_said
        if another and moves and fits(technique, pots):
            again = DraftStep(paints=list(step.paints), parts=dict(step.parts), technique=technique)
            self._begin(lead, lead.low, again, pots, None, before=False)
            self._doubt("no paint was named here, so it is the one before", lead)
            return
        self._attributes(lead, step)

    def _attributes(
        self, sentence: Sentence, step: DraftStep | None, previous: DraftStep | None = None, part: str = ""
    ) -> None:
        """What a sentence says besides: drying, coats, brush, thinning, cautions; and its words."""
        words, low = self.words, sentence.low
        if step is None:
            chatter = words.says("told", "chatter", low) or words.says("roles", "listed", low)
            if not self.draft.steps and not chatter:
                self.draft.intro.append(self.filler.asides.clean(sentence.text))
            return
        if not step.technique_said and not part and self.now.fresh and not sentence.asks:
            technique = technique_said(low, words, self._pots_of(step))
            moves = re.search(words.text("told", "moves"), low) is not None
            if technique and technique not in FILMS_LAID and not moves:
                step.technique, step.technique_said = technique, True
        self.now.fresh = bool(part)
        self.filler.fill(sentence, step, previous, part)

    def _name(self, pot: int) -> str:
        return self.finder.label(self.now.mentions[pot].pot)

    def _pots_of(self, step: DraftStep) -> list[Pot]:
        return [pot for name in step.paints if (pot := self.finder.exact(name)) is not None]

    def _say_if_doubtful(self, pot: int, step: DraftStep | None, sentence: Sentence) -> None:
        mention = self.now.mentions[pot]
        if not mention.sure and step is not None:
            step.doubts.append(f'heard "{mention.heard}", {sentence.place}: {self._name(pot)}')
            self.draft.likely[mention.heard] = self._name(pot)

    def _doubt(self, remark: str, sentence: Sentence) -> None:
        if self.now.step is not None:
            self.now.step.doubts.append(f"{remark}, {sentence.place}")
