"""Steps out of notes: a list in which each line is a step, headings with what belongs to them, or plain prose."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from guidegen.base.units import MINUTE
from guidegen.reading.drafts.amounts import (
    added_parts,
    brush_in,
    coats_in,
    drying_in,
    hands_on,
    parts_in,
    thin_in,
    times_in,
    times_over,
)
from guidegen.reading.drafts.areas import ALL, AreaFinder
from guidegen.reading.drafts.fields import Field, StepFields, field_of
from guidegen.reading.drafts.note_lines import (
    NoteLine,
    in_columns,
    is_prose,
    note_lines,
    with_headings,
    without_title,
    written_out,
)
from guidegen.reading.drafts.pot_marks import THINNERS, groups_of, heard, parts_of
from guidegen.reading.drafts.pot_roles import Around, Role, Sentence, role_of
from guidegen.reading.drafts.pots import Mention, PotFinder
from guidegen.reading.drafts.prose import Teller
from guidegen.reading.drafts.records import Cue, Draft, DraftStep, DraftStop
from guidegen.reading.drafts.sentences import tokens_of
from guidegen.reading.drafts.step_openings import stops_here
from guidegen.reading.drafts.step_places import like_before
from guidegen.reading.drafts.tables import settle
from guidegen.reading.drafts.techniques import fits, kind_of, technique_said, usual_technique
from guidegen.words.spoken_words import SpokenWords

_GOES_ON = re.compile(
    r"(?:\(|->|→|or\b|oder\b|instead\b|statt\b|alternativ|alternative|else\b|sonst\b|mind\b|nb\b|note:|notiz|achtung|vorsicht|careful|tipp?:|hinweis"
    r"|look for|if (?:it|you|they)|wenn|falls|(?:dry|dries|drying)\b(?![ -]?brush)|trocknen\b|trocknet|brush:|brush size|pinsel:|pinsel größe|thin\b"
    r"|verdünnt|optional|no (?:\w+ ){1,3}\?)",
    re.IGNORECASE,
)
_STOP = re.compile(
    r"\W*(?:stop|stopp|halt|haltepunkt|milestone)\b(?:\s*[:–—-]+\s*|\s+(?:here|hier)\b\W*|\W*$|\s*\()(.*?)\)?",
    re.IGNORECASE,
)
_GLUED = re.compile(
    r"(?<= x)(?=[2-6]\b)|(?<=\d)(?=(?:x|ml|min|mins|h|std|s|sek|tropfen|drops?|teile?|parts?|%)\b)",
    re.IGNORECASE,
)
_CLOCK = re.compile(r"(?<![\d:])(?:(\d{1,2}):)?(\d{1,2}):([0-5]\d)(?![\d:])")
_THEN = re.compile(
    r"\s*(?:→|->|=>|;|(?:,\s*)?\b(?:and then|then|after that|und dann|dann|danach|anschließend|zuletzt|finally|lastly)\b)\s*",
    re.IGNORECASE,
)
_MINUTES = re.compile(r"(?<=\d) ?m(?:in)?\.?(?=[\s,;)]|$)")
_TITLED = re.compile(r"(?P<title>[^:]{1,60}?)\s*(?::(?!\d)|\s[–—-]{1,2}(?=\s))\s*(?P<rest>\S.*)")


class NoteReader:
    """Reads notes by the palette at hand."""

    def __init__(self, finder: PotFinder, words: SpokenWords, chart: Sequence[str] = ()) -> None:
        self.finder = finder
        self.words = words
        self.chart = chart
        self.areas = AreaFinder(words, chart)
        self.put = StepFields(finder, words)
        self.draft = Draft(language=words.code, likely=self.put.likely, unknown=self.put.unknown)
        self._heading = ""
        self._parents: list[tuple[int, str]] = []
        self._last: DraftStep | None = None
        self._under_heading = False
        self._listed = False

    def read(self, text: str) -> Draft:
        """The draft of the notes."""
        items = without_title(with_headings(list(note_lines(text)), self._names_any), self._names_any)
        if is_prose(items):
            cues = [Cue(item.text, item.line) for item in items if not item.level]
            return Teller(self.finder, self.words, self.chart).tell(cues, noted=True)
        for item in items:
            self._item(item)
        return self.draft

    def _item(self, item: NoteLine) -> None:
        text = in_columns(_MINUTES.sub(" min", _GLUED.sub(" ", written_out(item.text, self.finder))))
        if self._stop(item, text):
            return
        if item.level:
            self._head(item, text)
            return
        if self._listed and not item.mark and not item.depth:
            self._heading = ""  # a line that is no longer of the list below it
        self._listed = bool(item.mark)
        keyed = _TITLED.fullmatch(text)
        field = field_of(keyed["title"]) if keyed else None
        if keyed and field and not re.match(r"\(?\d", item.mark) and self._keyed(field, keyed["rest"]):
            return
        titled = keyed if keyed and not self._pots(keyed["title"]) else None
        pieces = self._pieces(titled["rest"] if titled else text)
        if len(pieces) > 1:
            for piece in pieces:
                self._piece(item, piece, titled["title"].strip(" *_") if titled else "")
            return
        self._piece(item, text)

    def _pieces(self, text: str) -> list[str]:
        """What follows one after the other in a line, each with its pot: “Deckhand → Silt Wash → Cold Cheeks”."""
        for sign in (_THEN, re.compile(r",\s+")):
            pieces = [piece for piece in sign.split(text) if piece.strip()]
            named = [piece for piece in pieces if self._pots(piece)]
            told = any(technique_said(piece.lower(), self.words) for piece in named[1:])
            mixed = self.words.says("add", "mixed", text.lower())
            if len(named) > 1 and (sign is _THEN or (told and not mixed)):
                joined: list[str] = []
                for piece in pieces:
                    if joined and piece not in named:
                        joined[-1] += f", {piece}"
                    else:
                        joined.append(piece)
                return joined
        return [text]

    def _stop(self, item: NoteLine, text: str) -> bool:
        found = _STOP.fullmatch(text)
        words = self.words
        low = " ".join(token.low for token in tokens_of([Cue(text, item.line)])).rstrip(" .!")
        said = stops_here(Sentence(text=text, low=low), words)
        if found is None and not (said and not self._pots(text) and len(text.split()) <= 14):
            return False
        name = (found[1] if found else text).strip(" .:*_#-–—")
        name = "" if name.startswith(("if ", "wenn ", "falls ")) else name
        if self.draft.steps:
            self.draft.entries.append(DraftStop(name=name or words.text("stop", "name")))
            self._under_heading = False
        return True

    def _head(self, item: NoteLine, text: str) -> None:
        """A heading: of a step if a pot or a technique is named in it, else of the lines below."""
        text = re.sub(r"^\d{1,3}[.)]\s+", "", text)
        self._parents = []
        self._listed = False
        self._heading = text if item.level > 1 else ""
        self._under_heading = False
        if item.level > 1 and self._pots(text):
            self._piece(item, text)
            self._under_heading = True
        elif item.level > 1:
            self._last = None

    def _keyed(self, field: Field, value: str) -> bool:
        """“Brush: size 2” belongs to the step above; “Paint: X” begins one where that has a paint already."""
        if field.key == "paint" and not self._pots(value) and re.search(r"[.!?] |(?:\S+ ){4}", value):
            return False
        if field.key in {"step", "stop"} or (field.key not in {"paint", "instead"} and self._pots(value)):
            return False
        step = self._last
        if field.key == "paint" and (step is None or step.paints):
            step = self._new(self._heading)
        if step is None and self._heading:
            step = self._new(self._heading)
        if step is None:
            return False
        self.put.put(step, field, value)
        pots = " ".join(step.paints)
        if field.key in {"paint", "technique"}:
            if field.key == "paint":
                step.technique = step.technique if step.technique_said else ""
            settle(
                step,
                self.put,
                f"{step.title} {pots}".lower(),
                [one for one in self.draft.steps if one is not step],
            )
        return True

    def _new(self, title: str) -> DraftStep:
        step = DraftStep(title=title[:200])
        self.draft.entries.append(step)
        self._last = step
        return step

    def _piece(self, item: NoteLine, text: str, over: str = "") -> None:
        """Read a line or a piece of one as a step, as more about the last, or as a title of lines below; `over` is its title."""
        mentions, sentence = self._heard(item, text)
        if self.words.says("roles", "listed", sentence.low) and not self.draft.steps:
            return
        roles = {pot: role_of(pot, sentence, self.words, Around()) for pot in sentence.pots}
        parent = over or next((title for depth, title in reversed(self._parents) if depth < item.depth), "")
        goes_on = _GOES_ON.match(text) is not None and self._last is not None
        if self._last is not None and (
            goes_on or (item.depth > 0 and not parent and not item.mark and not sentence.pots)
        ):
            self._more(item, text, sentence, roles, mentions)
            return
        used = [pot for pot in sentence.pots if roles[pot] in (Role.TAKEN, Role.ADDED, Role.MENTIONED)]
        _, like = like_before(sentence.low, self.draft.steps, self.words)
        if item.mark and not used and self._of_its_own(text, sentence):
            used = [pot for pot in sentence.pots if roles[pot] is Role.ALTERNATIVE]
            roles = {pot: Role.TAKEN if pot in used else role for pot, role in roles.items()}
        if not used and sentence.pots and self._last is not None:
            self._more(item, text, sentence, roles, mentions)
            return
        if like is None and not used and not self._is_step_without_pot(item, text, sentence):
            if item.mark and (
                text.rstrip().endswith(":") or (len(text.split()) <= 4 and not self._under_heading)
            ):
                self._parents = [
                    *(one for one in self._parents if one[0] < item.depth),
                    (item.depth, text.rstrip(": ")),
                ]
                self._last = None
            elif self._last is not None:
                self._more(item, text, sentence, roles, mentions)
            elif len(text.split()) > 3:
                self.draft.intro.append(text)
            return
        self._step(item, text, sentence, used, roles, mentions, parent or self._heading, like)

    def _of_its_own(self, text: str, sentence: Sentence) -> bool:
        """Whether an item begins with another part of the figure than the step above, so that “instead” is its own."""
        first = self.areas.known(re.split(r"\W+", text.lower(), maxsplit=1)[0])
        said = re.search(r"\b(?:instead|stattdessen)\b", sentence.low) is not None
        return bool(first and said and self._last and first not in self._last.areas)

    def _is_step_without_pot(self, item: NoteLine, text: str, sentence: Sentence) -> bool:
        numbered = bool(re.match(r"\(?\d", item.mark))
        said = technique_said(sentence.low, self.words)
        ground = (
            said in {"tidy up", "sand on glue", "water gel", "paste", "pigment"}
            or "undercoat" in said
            or "varnish" in said
        )
        titled = _TITLED.fullmatch(text)
        unknown = titled is not None and not self._under_heading and self._unknown(titled["rest"]) != ""
        return numbered or (ground and len(text.split()) <= 12) or (unknown and bool(item.mark))

    def _unknown(self, rest: str) -> str:
        """A paint that the palette may lack: up to four words at a text's beginning, with a capital; '' if none."""
        first = re.split(r"\s*[,;(]\s*", rest)[0].strip(" .")
        words = first.split()
        plain = 1 <= len(words) <= 4 and first[:1].isupper() and not re.search(r"\d", first)
        return (
            first
            if plain and not self.areas.find(first.lower()) and not technique_said(first.lower(), self.words)
            else ""
        )

    def _step(
        self,
        item: NoteLine,
        text: str,
        sentence: Sentence,
        used: list[int],
        roles: dict[int, Role],
        mentions: Sequence[Mention],
        parent: str,
        like: DraftStep | None = None,
    ) -> None:
        titled = _TITLED.fullmatch(text)
        title = titled["title"].strip(" *_") if titled and not self._pots(titled["title"]) else ""
        inside = self._parts_in(parent)
        groups = groups_of(sentence, used, self.words, self.areas, mentions) if used else [[]]
        for group, part in parts_of(sentence, groups, self.words):
            before = self._last
            step = self._new("")
            names = list(dict.fromkeys(self.finder.label(mentions[pot].pot) for pot in group))
            parts = parts_in(sentence.low, group, self.words)
            step.parts = {self.finder.label(mentions[pot].pot): value for pot, value in parts.items()}
            if like is not None:  # the same as the trousers, with a touch of another
                if names:
                    step.parts |= added_parts(sentence.low, like.paints, like.parts, names[-1], self.words)
                names = [*like.paints, *(name for name in names if name not in like.paints)]
            step.paints = names
            pots = [mentions[pot].pot for pot in group]
            here = part if len(groups) > 1 else sentence.low
            above = parent.lower() if usual_technique(pots, here) == "base coat" else ""
            tells = (technique_said(one, self.words, pots) for one in (title.lower(), here, above))
            said = next(filter(None, tells), like.technique if like else "")
            if not said and before is not None and fits(before.technique, pots):
                # One verb for all of a line, or what is said to be done likewise.
                also = group is not groups[0] and before.technique_said
                said = before.technique if also or self.words.says("same", "way", part) else ""
            step.technique, step.technique_said = said, bool(said)
            for pot in group:
                if not mentions[pot].sure:
                    label = self.finder.label(mentions[pot].pot)
                    step.doubts.append(f'written "{mentions[pot].heard}", line {item.line}: {label}')
                    self.draft.likely[mentions[pot].heard] = label
            if not group and titled and (name := self._unknown(titled["rest"])):
                self.put.put(step, Field("paint", 1, 1), name)
            step.title = self._title(title, parent, step)
            step.areas = self._parts_in(title) or inside or self._parts_in(sentence.low)
            self._details(item, text, replace(sentence, low=part), roles, mentions, step)
            settle(step, self.put, here, [one for one in self.draft.steps if one is not step])

    def _title(self, title: str, parent: str, step: DraftStep) -> str:
        used = {one.title for one in self.draft.steps if one is not step}
        for one in (f"{parent}: {title}" if parent and title else title or parent, title):
            plain = one.strip(" :*_#")[:150]
            if plain and plain not in used:
                return plain[:1].upper() + plain[1:]
        return ""

    def _more(
        self,
        item: NoteLine,
        text: str,
        sentence: Sentence,
        roles: dict[int, Role],
        mentions: Sequence[Mention],
    ) -> None:
        """A line that belongs to the step above."""
        step = self._last
        if step is None:
            return
        if _GOES_ON.match(text) and not re.match(r"[^:]*\?", text):
            for pot in sentence.pots:
                roles[pot] = Role.ALTERNATIVE if roles[pot] is Role.TAKEN else roles[pot]
        self._details(item, text, sentence, roles, mentions, step)

    def _details(
        self,
        item: NoteLine,
        text: str,
        sentence: Sentence,
        roles: dict[int, Role],
        mentions: Sequence[Mention],
        step: DraftStep,
    ) -> None:
        words, low = self.words, sentence.low
        for pot, role in roles.items():
            name = self.finder.label(mentions[pot].pot)
            if (
                role is Role.ALTERNATIVE
                and name not in step.paints
                and name not in (one for one, _ in step.instead)
            ):
                step.instead.append((name, ""))
        clock = _CLOCK.search(text)
        if clock and (
            re.search(r"(?:@|\bat|film|video|ab|bei|\()\s*$", text[: clock.start()].lower()) or clock[1]
        ):
            step.at = ((int(clock[1] or 0) * 60 + int(clock[2])) * 60 + int(clock[3])) * 1000
        dry, _, _ = drying_in(low, words)
        hands = hands_on(low, words) and times_over(low) < 2
        times = times_in(low, words)
        if dry is None and times and not hands and not words.says("dry", "no_drying", low):
            dry = times[-1][0]
        if dry is None and (
            bare := re.search(
                rf"(?:dry|dries|drying|trocknen|trocken|trockenzeit) ?:? ?(\d{{1,3}})$"
                rf"|(?:^|(?<=[ ,(]))(\d{{1,3}}) (?:{words.text('dry', 'between')})(?= |$)",
                low,
            )
        ):
            dry = int(bare[1] or bare[2]) * MINUTE
        if hands and times:
            step.each = times[0][0]
            dry = times[1][0] if len(times) > 1 else None
        step.dry = dry if dry is not None else step.dry
        step.coats = max(step.coats, coats_in(low, words), times_over(low))
        step.brush = step.brush or brush_in(low, words)
        step.thin = step.thin or thin_in(low, words)
        if words.says("told", "optional", low) or "optional" in low:
            step.optional = True
        if Role.ALTERNATIVE in roles.values() and _GOES_ON.match(text):
            return
        for key, kept in (("if_wrong", step.if_wrong), ("look_for", step.look_for), ("mind", step.mind)):
            if words.says("told", key, low):
                kept.append(item.text)
                return
        if len(text.split()) > 2 and not words.says("told", "habits", low):
            tells = len(text.split()) > 6 and text.rstrip().endswith((".", "!"))
            (step.said if tells else step.beside).append(" ".join(text.split()))

    def _parts_in(self, text: str) -> list[str]:
        return [area for area in self.areas.find(text.lower()) if area != ALL]

    def _names_any(self, line: str) -> bool:
        return any(one.sure for one in self._pots(line))

    def _pots(self, text: str) -> list[Mention]:
        """The pots that a text names, thinners aside."""
        found = self.finder.find(tokens_of([Cue(_GLUED.sub(" ", text), 1)]))
        return [mention for mention in found if kind_of(mention.pot) not in THINNERS]

    def _heard(self, item: NoteLine, text: str) -> tuple[list[Mention], Sentence]:
        mentions, sentences = heard([Cue(text, item.line)], self.finder, whole=True)
        sentence = sentences[0] if sentences else Sentence(text="", low="", line=item.line)
        sentence.text = text
        return mentions, sentence
