"""What a column of a table of steps, or a line such as “Brush: size 2”, says of a step."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from guidegen.base.suggest import folded
from guidegen.base.units import HOUR, LONGEST, MINUTE
from guidegen.model.paint import Kind
from guidegen.reading.drafts.amounts import TOUCH, coats_in, drying_in, parts_in, thin_in
from guidegen.reading.drafts.pot_marks import heard
from guidegen.reading.drafts.pot_roles import Around, Role, role_of
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.records import Cue, DraftStep
from guidegen.reading.drafts.sentences import tokens_of
from guidegen.reading.drafts.techniques import kind_of, technique_said
from guidegen.reading.types.mix_words import read_mix
from guidegen.reading.types.time_words import read_time
from guidegen.words.spoken_words import SpokenWords

# Compared without case, accents, spaces and signs; English, then German.
HEADINGS: dict[str, tuple[str, ...]] = {
    "step": (
        "step", "steps", "title", "what", "what i did", "what was done", "job", "task", "stage", "work", "name", "step name", "what to do",
        "schritt", "schritte", "titel", "arbeitsschritt", "arbeitsgang", "was", "was ich gemacht habe", "aufgabe", "bezeichnung",
    ),
    "technique": ("technique", "method", "how", "type", "application", "approach", "applied", "technik", "methode", "arbeitsweise", "auftrag", "vorgehen", "vorgehensweise", "wie", "art", "verfahren"),
    "area": ("area", "areas", "part", "part of figure", "where", "region", "bereich", "bereiche", "teil", "stelle der figur", "wo", "fläche", "flächen", "partie"),
    "paint": (
        "paint", "paints", "colour", "color", "colours", "colors", "pot", "pots", "mix", "mixture", "recipe", "paint or mix", "with", "product", "products",
        "farbe", "farben", "topf", "töpfe", "mischung", "rezept", "farbton", "farbtöne", "womit", "produkt", "farbname",
    ),
    "parts": ("parts", "how much", "wie viel", "wieviel", "ratio", "mixed", "amount", "amounts", "share", "mix ratio", "proportion", "proportions", "mixing ratio", "teile", "anteile", "anteil", "menge", "verhältnis", "mischungsverhältnis", "mischverhältnis"),
    "brush": ("brush", "tool", "brush size", "pinsel", "werkzeug", "pinselgröße"),
    "thin": ("thin", "thinning", "thinned", "dilution", "water", "thinner", "verdünnung", "verdünnt", "wasser", "verdünnen"),
    "dry": (
        "dry", "drying", "drying time", "dry time", "wait", "dries", "time to dry", "waiting", "then", "afterwards",
        "trocknen", "trockenzeit", "trocknung", "trocknungszeit", "warten", "trocken", "wartezeit", "trocknet", "danach",
    ),
    "each": ("each", "per figure", "time", "time each", "duration", "hands on", "minutes each", "time per figure", "pro figur", "dauer", "je figur", "zeit", "zeit pro figur", "arbeitszeit"),
    "coats": ("coats", "layers", "passes", "no of coats", "schichten", "durchgänge", "anzahl schichten", "lagen"),
    "instead": (
        "instead", "could also be", "can also be", "also", "also works", "auch",  "alternative", "alternatives", "substitute", "substitutes", "or", "or use", "else", "swap", "alt",
        "alternativ", "alternativen", "ersatz", "ersatzweise", "statt", "stattdessen", "sonst", "oder", "notfalls", "alternativfarbe", "ersatzfarbe",
    ),
    "at": ("at", "film", "video", "in film", "in the film", "timecode", "time in film", "film time", "clip", "im film", "im video", "filmzeit", "zeitmarke", "videozeit", "ab"),
    "mind": ("mind", "note", "notes", "remark", "remarks", "careful", "tip", "tips", "caution", "comment", "comments", "hinweis", "hinweise", "achtung", "vorsicht", "bemerkung", "bemerkungen", "notiz", "notizen", "tipp", "anmerkung", "sonst noch", "sonstiges"),
    "look_for": ("look for", "looks like", "should look", "result", "ergebnis", "aussehen", "ziel", "so soll es aussehen"),
    "if_wrong": ("if wrong", "repair", "fix", "if it goes wrong", "reparatur", "wenn es schiefgeht", "rettung", "falls es schiefgeht"),
    "stop": ("stop", "stop here", "end", "end here", "can stop", "finished here", "ende", "schluss", "milestone", "break", "halt", "stopp", "haltepunkt", "fertig für", "done for", "pause", "reicht für"),
    "only": ("only", "only for", "for whom", "nur", "nur für", "für wen"),
    "optional": ("optional", "can skip", "skip", "freiwillig", "kann weg"),
}  # fmt: skip
_FIELD = {re.sub(r"\W", "", folded(word)): key for key, words in HEADINGS.items() for word in words}
_LACKING = re.compile(
    r"\b(?:if|wenn|falls)\b.*\b(?:have|got|lack|missing|empty|out of|nicht|fehlt|leer|keine?)\b"
)
# Words of several meanings, which in a longer heading say nothing of its column.
_WEAK = frozenset(
    {
        "or", "with", "what", "at", "was", "wo", "wie", "ab", "oder", "art", "name", "figure", "no", "water", "each", "alt", "part", "parts",
    }
)  # fmt: skip
# How a paint is laid, which is no technique by itself.
CANS = frozenset({"can", "dose", "spray", "sprühen", "brush", "pinsel", "by hand"})
NOTHING = frozenset({"", "-", "–", "—", "none", "no", "keine", "nichts", "n/a", "nein", "x", "keiner", "0"})
_OR = re.compile(
    r"\s+(?:or|oder|od\.|alternatively|alternativ|ersatzweise|notfalls)\s+|\s*\((?:or|oder|alternativ|alt\.?|else|sonst):?\s+([^()]*)\)",
    re.IGNORECASE,
)
_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)(?:[.,]\d+)?")


_HOURS = re.compile(r"(?:^|[\s(\[/,])(?:h|hrs?|hours?|std\.?|stunden)[)\]]?$", re.IGNORECASE)


# “Two coats”, “with medium 1:1”: a remark so short is told when it stands where it belongs.
_FEW_WORDS = 4


class Field(NamedTuple):
    """What a heading stands for: its key, which of several (`paint 2`), and the unit of bare numbers in ms."""

    key: str
    number: int
    unit: int


def field_of(heading: str, *, column: bool = False) -> Field | None:
    """What a heading says that stands under it, None if it is none of ours; of a `column` one word of several will do."""
    bare = folded(heading)
    unit = HOUR if _HOURS.search(heading.strip()) else MINUTE
    bare = re.sub(
        r"[(\[](?:min\.?|mins|minutes|minuten|h|hrs?|hours?|std\.?|stunden|mm:ss|m:ss)[)\]]|(?:[,/]|in)?(?:min|mins|minuten|minutes|std\.?|stunden|hours|hrs)$|[,/]h$|inh$",
        "",
        bare,
    )
    if re.fullmatch(r"\s*a\s*[:/+]\s*b\s*", bare):
        return Field("parts", 1, unit)
    letter = re.search(r"(?<=\w )\(?([A-C])\)?$", heading.strip())  # paint B, paint (B)
    bare = re.sub(r"\(?[abc]\)?$", str(" ABC".index(letter[1])), bare) if letter else bare
    number = re.search(r"(?<=\D)(\d)$", bare)
    key = _FIELD.get(re.sub(r"\W", "", bare[: number.start()] if number else bare))
    if key is None and column and _LACKING.search(heading.lower()):
        key = "instead"
    if key is None and column:  # one word of several that is one of ours: which paint, wait after it
        known = {
            _FIELD[word]
            for word in re.findall(r"[^\W\d_]+", heading.lower())
            if word in _FIELD and word not in _WEAK
        }
        known -= {"instead"} if "mind" in known else set()  # substitutes and remarks in one column
        key = known.pop() if len(known) == 1 and len(bare) <= 40 else None
    if key == "step" and re.search(r"\b(?:no|nr|number|nummer)\b|#", heading.lower()):
        return None
    return Field(key, int(number[1]) if number else 1, unit) if key else None


class StepFields:
    """Puts written values into steps, each key by the method `_key`, with the palette at hand.

    `likely` are misspelt names with the pots they were taken for, `unknown` names that no pot has.
    """

    def __init__(self, finder: PotFinder, words: SpokenWords) -> None:
        self.finder = finder
        self.words = words
        self.likely: dict[str, str] = {}
        self.unknown: list[str] = []
        self._either: list[str] = []
        self._field = Field("step", 1, MINUTE)

    def put(self, step: DraftStep, field: Field, value: str) -> None:
        """Put a value where it belongs; what makes no sense stays as a comment."""
        value = " ".join(value.split())
        if value.casefold() in NOTHING and field.key != "paint":
            return
        self._field = field
        setter: Callable[[DraftStep, str], None] = getattr(self, f"_{field.key}")
        setter(step, value)

    def _step(self, step: DraftStep, value: str) -> None:
        step.title = re.sub(r"^\d{1,3}[.)]\s+", "", value)[:200]

    def _technique(self, step: DraftStep, value: str) -> None:
        self._details(step, value)
        if value.lower() in CANS:
            return
        said = technique_said(value.lower(), self.words)
        plain = value.lower() if value.lower() in {"wash", "layer", "stain", "glaze"} else ""
        technique = said or plain
        if technique:
            step.technique, step.technique_said = technique, True
        else:
            step.doubts.append(f"technique as written: {value}")

    def _area(self, step: DraftStep, value: str) -> None:
        low = value.lower()
        if self.words.says("areas", "all", low) or low in {"all", "alle", "ganz"}:
            return
        step.areas = [
            area.strip() for area in re.split(r"\s*[,;/+&]\s*|\s+(?:and|und)\s+", low) if area.strip()
        ][:12]

    def _paint(self, step: DraftStep, value: str) -> None:
        self._either = []
        if value.casefold() in NOTHING:
            return
        if value.casefold() in {"as before", "wie vorher", "wie zuvor", "wie oben"}:
            step.as_before = True
            return
        pieces = [piece for piece in _OR.split(value) if piece and piece.strip()]
        if not pieces:
            return
        main, *others = pieces
        either = [piece.strip() for piece in main.split("/")] if self.finder.exact(main) is None else []
        if len(either) > 1 and all(self._knows(piece) or self.finder.near(piece) for piece in either):
            main, others, self._either = either[0], [*either[1:], *others], either
        for other in others:
            self._instead(step, other)
        mixture = self._mixture(main)
        if len(mixture) == 1 and self._told(step, main):
            return
        for name, amount, said in mixture:
            self._add(step, name, amount if said else "")

    def _told(self, step: DraftStep, value: str) -> bool:
        """Whether a cell says more than a name, which is then read as a sentence: “Calm Matt, by brush”."""
        if self._knows(value) or self.finder.near(value) or self.finder.short(value):
            return False
        mentions, sentences = heard([Cue(value, 1)], self.finder, misheard=False, whole=True)
        named = {pot: role_of(pot, one, self.words, Around()) for one in sentences for pot in one.pots}
        taken = [pot for pot, role in named.items() if role in (Role.TAKEN, Role.ADDED)]
        if not taken:
            return False
        parts = parts_in(sentences[0].low, taken, self.words)
        for pot in taken:
            self._add(step, self.finder.label(mentions[pot].pot), parts.get(pot, ""))
        self._details(step, value)
        return True

    def _add(self, step: DraftStep, name: str, amount: str) -> None:
        label, kind = self.name(name, step)
        if kind in (Kind.MEDIUM, Kind.THINNER) or folded(name) in {"water", "wasser"}:
            if step.paints:
                first = step.parts.get(step.paints[0], "1")
                step.thin = step.thin or thin_in(
                    f"{first} : {amount or '1'} {'medium' if kind is Kind.MEDIUM else 'water'}", self.words
                )
            return
        if label not in step.paints:
            step.paints.append(label)
        if amount:
            step.parts[label] = amount

    def _mixture(self, text: str) -> list[tuple[str, str, bool]]:
        """Names with their amounts; a name by itself where it is no mixture."""
        if self.finder.exact(text) is not None:
            return [(text, "", False)]
        parts = read_mix(text, self._knows)
        if parts is None:
            pieces = [
                piece.strip()
                for piece in re.split(r"\s*[+&,]\s*|\s+(?:and|und|mit|with)\s+", text)
                if piece.strip()
            ]
            known = len(pieces) > 1 and all(self._knows(piece) or self.finder.near(piece) for piece in pieces)
            return [(piece, "", False) for piece in pieces] if known else [(text, "", False)]
        amount = [TOUCH if part.measure.touch else f"{part.measure.number:g}" for part in parts]
        return [(part.name, value, True) for part, value in zip(parts, amount, strict=True)]

    def _knows(self, name: str) -> bool:
        return self.finder.exact(name) is not None or folded(name) in {"water", "wasser", "medium"}

    def name(self, text: str, step: DraftStep) -> tuple[str, Kind | None]:
        """A pot's name as a guide writes it, and its kind; as typed where the palette has none."""
        pot = self.finder.exact(text)
        if pot is None and (pot := self.finder.near(text)) is not None:
            label = self.finder.label(pot)
            step.doubts.append(f'written "{text}": {label}')
            self.likely[text] = label
        if pot is None:
            pot = self.finder.short(text)
        if pot is None:
            if folded(text) not in {"water", "wasser", "medium"}:
                self.unknown.append(text)
                step.doubts.append(f"“{text}” is not in the palette")
            return text[:200], None
        return self.finder.label(pot), kind_of(pot)

    def _parts(self, step: DraftStep, value: str) -> None:
        numbers = re.findall(r"\d+(?:[.,]\d+)?", value)
        if (
            len(numbers) == len(self._either) > 1 and step.instead
        ):  # A / B, 3:1: a mixture, since it has parts
            step.paints += [label for label, _ in step.instead]
            step.instead = []
        if self._field.number <= len(step.paints) and len(numbers) == 1:
            step.parts[step.paints[self._field.number - 1]] = numbers[0].replace(",", ".")
        elif len(numbers) == len(step.paints) > 1:
            step.parts = dict(zip(step.paints, (number.replace(",", ".") for number in numbers), strict=True))
        elif len(numbers) == 2 and len(step.paints) == 1:
            self._thin(step, value)

    def _brush(self, step: DraftStep, value: str) -> None:
        if value.lower() in CANS:
            return
        step.brush = f"size {value}" if re.fullmatch(r"\d{1,3}", value) else value[:120]

    def _thin(self, step: DraftStep, value: str) -> None:
        ratio = re.search(r"(\d+(?:[.,]\d+)?)\s*:\s*(\d+(?:[.,]\d+)?)", value)
        thinner = "medium" if "medium" in value.lower() else "water"
        spoken = thin_in(f"{ratio[1]} : {ratio[2]} {thinner}", self.words) if ratio else ""
        if self.words.code == "de":
            spoken = spoken.replace("Water", "Wasser")
        step.thin = spoken or value[:120]

    def time(self, value: str, unit: int) -> int | None:
        """A time in ms; a bare number is in the heading's unit."""
        low = value.lower().strip(" .~")
        if re.fullmatch(r"[0-9]{1,9}(?:[.,][0-9]{1,9})?", low):
            time = round(float(low.replace(",", ".")) * unit)
            return time if time <= LONGEST else None
        read = (
            read_time(low)
            or read_time(re.sub(r"(?<=\d),(?=\d)", ".", low))
            or read_time(re.sub(r"[()]", "", low))
        )
        return read.most if read else drying_in(low, self.words, waited=True)[0]

    def _dry(self, step: DraftStep, value: str) -> None:
        found = self.time(value, self._field.unit)
        if found:
            step.dry = found
        else:
            step.doubts.append(f"drying as written: {value}")

    def _each(self, step: DraftStep, value: str) -> None:
        if _CLOCK.fullmatch(value):
            self._at(step, value)
        else:
            step.each = self.time(value, self._field.unit)

    def _coats(self, step: DraftStep, value: str) -> None:
        number = re.search(self.words.number, value.lower())
        step.coats = max(1, min(20, round(self.words.value(number[0])))) if number else 1

    def _instead(self, step: DraftStep, value: str) -> None:
        for piece in re.split(r"\s*[;/]\s*|,\s+|\s+(?:or|oder)\s+", value):
            name, _, note = piece.partition(" (")
            if name.strip():
                inside = (
                    []
                    if self.finder.exact(name) or "+" in piece
                    else self.finder.find(tokens_of([Cue(piece, 1)]), misheard=False)
                )
                pot = inside or self.finder.exact(name) or self.finder.near(name) or self.finder.short(name)
                if pot is None and name[:1].islower():  # outdoors!
                    step.mind.append(piece)
                    continue
                for label in [self.finder.label(one.pot) for one in inside] or [
                    self.name(name.strip(" ."), step)[0]
                ]:
                    if label not in (one for one, _ in step.instead):
                        step.instead.append((label, note.rstrip(") ")))

    def _at(self, step: DraftStep, value: str) -> None:
        clock = _CLOCK.search(value)
        if clock:
            step.at = ((int(clock[1] or 0) * 60 + int(clock[2])) * 60 + int(clock[3])) * 1000

    def _mind(self, step: DraftStep, value: str) -> None:
        if self.finder.exact(value) is not None:
            self._instead(step, value)
            return
        before = step.coats, step.dry, step.thin, len(step.instead)
        self._details(step, value)
        told = before != (step.coats, step.dry, step.thin, len(step.instead))
        if not told or len(value.split()) > _FEW_WORDS:
            step.mind.append(value)

    def _details(self, step: DraftStep, value: str) -> None:
        """What a remark says that has a key of its own."""
        mentions, sentences = heard([Cue(value, 1)], self.finder, misheard=False, whole=True)
        for sentence in sentences:
            for pot in sentence.pots:
                label = self.finder.label(mentions[pot].pot)
                other = role_of(pot, sentence, self.words, Around()) is Role.ALTERNATIVE
                if other and label not in (*step.paints, *(one for one, _ in step.instead)):
                    step.instead.append((label, ""))
            step.coats = max(step.coats, coats_in(sentence.low, self.words))
            step.dry = step.dry or drying_in(sentence.low, self.words)[0]
            step.thin = step.thin or thin_in(sentence.low, self.words)

    def _look_for(self, step: DraftStep, value: str) -> None:
        step.look_for.append(value)

    def _if_wrong(self, step: DraftStep, value: str) -> None:
        step.if_wrong.append(value)

    def _stop(self, step: DraftStep, value: str) -> None:
        """Made by whoever reads the rows, since it stands after the step."""

    def _only(self, step: DraftStep, value: str) -> None:
        step.only = value[:60]

    def _optional(self, step: DraftStep, value: str) -> None:
        step.optional = value.casefold() not in NOTHING - {"x"}
