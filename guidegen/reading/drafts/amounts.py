"""Amounts in a sentence: parts of a mixture, how a paint is thinned, times, coats, brushes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from guidegen.base.units import HOUR, MINUTE
from guidegen.reading.types.time_words import OVERNIGHT, read_time
from guidegen.words.spoken_words import SpokenWords

TOUCH = "a touch"

# “While the kettle boils”: how long it takes, and the tea after it. Common practice, no source.
KETTLE = 10 * MINUTE

_UNITS = (
    r"(?:min(?:ute)?s?|minuten|h|hours?|hrs?|stunden?|std|viertelstunden?|dreiviertelstunden?|days?|tage?n?"
    r"|s|sec(?:ond)?s?|sekunden?)"
)
_PRAISE = r"(?:good|full|solid|whole|short|further|gute[nr]?|gut|volle|knappe|ganze|weitere|another|maybe|about|around|roughly|etwa|ungefähr|ca|circa)"
_SAID = (
    r"(?:(?:an? |one |eine[nr]? |for )*(?:{praise} )*(?:half(?: an| a)? hour|halbe[nr]? stunde|quarter of an hour|quarter hour"
    r"|three quarters of an hour|hour and a half|hour's|viertelstunde|dreiviertelstunde|anderthalb stunden|hour|stunde|day|tag)"
    r"|{n}(?: (?:to|or|bis|oder|-) {n})?(?: more| good| gute| weitere)? ?{units}(?: (?:and |und )?{n} ?{units})?)"
)


def parts_in(text: str, pots: Sequence[int], words: SpokenWords) -> dict[int, str]:
    """How much of each pot is in a mixture, by what stands around them; nothing where it was not said."""
    if len(pots) < 2:
        return {}
    in_order = re.search(words.text("add", "in_order").replace("{n}", f"({words.number})"), text)
    if in_order and len(pots) == 2:
        amounts = filter(None, in_order.groups())
        return {pot: _plain(words.value(said)) for pot, said in zip(pots, amounts, strict=True)}
    for said, share in words.pairs("add", "fraction") if len(pots) == 2 else ():
        if re.search(rf"(?:^|(?<= ))(?:{said}) (?:of |von |vom )?§{pots[1]}(?!\d)", text):
            return {pots[0]: str(share), pots[1]: "1"}
    numbers = _one_by_one(text, pots, words)
    ratio = _last_ratio(text, words)
    # A little of something is told by a word, and then counted: what was counted is meant.
    if numbers and not (TOUCH in numbers.values() and ratio and len(ratio) == len(pots)):
        return numbers
    if ratio and len(ratio) == len(pots):
        order = list(pots)
        turned = re.search(rf"the ({words.number}) is (?:the )?§(\d+)", text)
        if turned and len(pots) == 2 and words.value(turned[1]) == ratio[0] and int(turned[2]) == pots[1]:
            order.reverse()
        return {pot: _plain(value) for pot, value in zip(order, ratio, strict=True)}
    return dict.fromkeys(pots, "1") if is_equal(text, words) else {}


def is_equal(text: str, words: SpokenWords) -> bool:
    """Whether as much of each is taken: “half and half”."""
    equal = words.text("add", "equal").replace("{gap}", "(?:[^ ]+ ){0,4}")
    return re.search(rf"(?:^|(?<= ))(?:{equal})(?=$| )", text) is not None


def added_parts(
    text: str, paints: Sequence[str], parts: Mapping[str, str], name: str, words: SpokenWords
) -> dict[str, str]:
    """Parts where one paint is stirred into what is there: “about half and half”, “two to one”, a touch of it."""
    ratio = _last_ratio(text, words)
    if len(paints) == 1 and (ratio or is_equal(text, words)):
        left, right = (ratio[0], ratio[1]) if ratio else (1.0, 1.0)
        return {paints[0]: _plain(left), name: _plain(right)}
    touch = words.says("add", "touch", text)
    return dict.fromkeys(paints, "1") | dict(parts) | {name: TOUCH} if touch else {}


def _one_by_one(text: str, pots: Sequence[int], words: SpokenWords) -> dict[int, str]:
    """The amount that stands before or behind each pot; where some have one that counts, the others are one part."""
    joined = "|".join(
        sorted(map(re.escape, words.words("connectives") - words.numbers.keys()), key=len, reverse=True)
    )
    unit = r"(?:parts?|drops?|lots?|scoops?|dollops?|brushfuls?|portion(?:s|en)?|anteile?n?|kleckse?|löffel|teile?n?|tropfen|measures?|blobs?|x|×|%)"
    number = re.compile(rf"(?:^|(?<= ))({words.number}) ?((?:(?:{unit}|{joined}) )*)$")
    touch = re.compile(
        rf"(?:^|(?<= ))(?:{words.text('add', 'touch')}) (?:(?:of|the|von|vom|der|dem|with|mit|{words.text('add', 'shifted')}) )*$"
    )
    behind = re.compile(
        rf"^ (?:: |\(|, (?=[^ ]+ {unit} ))?({words.number})(?: {unit}|(?= ?[,;.)+/→-]| §| : §| and | und |$))"
    )
    stated = {pot: _behind(text, pot, behind) for pot in pots}
    if all(stated.values()) and number.search(text[: max(0, text.find("§"))]) is None:
        return {pot: _plain(words.value(amount)) for pot, amount in stated.items()}
    found: dict[int, str] = {}
    counted, start = False, 0
    for pot in pots:
        place = re.search(rf"§{pot}(?!\d)", text)
        if place is None:
            return {}
        before, after = text[start : place.start()], text[place.end() :]
        several = number.search(before)
        if several is not None and words.value(several[1]) > 1:
            found[pot] = _plain(words.value(several[1]))
            counted = counted or bool(re.search(unit, several[2])) or " of " in f" {several[2]}"
        elif (little := touch.search(before)) is not None:
            found[pot] = "1" if counted and re.search(r"drop|tropfen", little[0]) else TOUCH
        elif re.search(rf"(?:{words.text('add', 'twice_before')}) $", before):
            found[pot], counted = "2", True
        elif (said := number.search(before)) is not None:
            found[pot] = _plain(words.value(said[1]))
            counted = counted or bool(re.search(unit, said[2])) or " of " in f" {said[2]}"
        elif (said := behind.search(after)) is not None:
            found[pot] = _plain(words.value(said[1]))
        start = place.end()
    whole = len(found) == len(pots)
    if whole and all(value in {"0.5", TOUCH} for value in found.values()) and TOUCH not in found.values():
        return dict.fromkeys(pots, "1")
    if whole and set(found.values()) != {TOUCH}:
        return found
    if found and (TOUCH in found.values() or counted):
        return {pot: found.get(pot, "1") for pot in pots}
    return {}


def _behind(text: str, pot: int, behind: re.Pattern[str]) -> str:
    """The amount that stands behind a pot: “Deckhand three parts and Kiln Row one”."""
    place = re.search(rf"§{pot}(?!\d)", text)
    said = behind.search(text[place.end() :]) if place else None
    return said[1] if said else ""


def _last_ratio(text: str, words: SpokenWords) -> list[float] | None:
    """The numbers of the last ratio that is not one of paint to water: who corrects a ratio says it last."""
    water = re.compile(rf"^ (?:[^ ]+ ){{0,4}}(?:{words.text('thin', 'water')})(?=$| )")
    between = r" (?:parts? |teile? )?(?:(?:of |von )?(?:the |that |der |dem |die )?(?!min|hour|sec|stund|coat|layer)[^ ,.;:]+ )?(?:to|zu|auf|:|/|\+) "
    ratio = re.compile(rf"(?:^|(?<= ))({words.number})((?:{between}{words.number})+)(?=$| )")
    found = [
        one
        for one in ratio.finditer(text)
        if not (water.match(text[one.end() :]) or re.search(rf" (?:{words.text('thin', 'water')}) ", one[0]))
    ]
    if not found:
        return None
    pieces = re.split(between, found[-1][0])
    return [words.value(piece) for piece in pieces]


def has_ratio(text: str, words: SpokenWords) -> bool:
    """Whether a ratio stands in the sentence."""
    return _last_ratio(text, words) is not None


def thin_in(text: str, words: SpokenWords) -> str:
    """How the paint is thinned, as a guide writes it: parts of paint to thinner, or words; '' if not said."""
    number, water = words.number, rf"(?P<w>{words.text('thin', 'water')})"
    paint = r"(?:paint|colou?r|farbe|§\d+|pot)"
    unit = r"(?:(?:parts?|drops?|teile?n?|tropfen|of|the|von|vom|some|clear) )*"
    forms = (
        rf"(?P<p>{number}) {unit}{paint} ?(?:,|and|to|zu|und|:|with|mit)? ?(?:and |und )?(?P<t>{number}) {unit}{water}",
        rf"(?P<p>{number}) (?:parts? |teile? )?(?:to|zu|:|/) (?P<t>{number})(?: [^ ]+){{0,4}}? {water}",
        rf"(?P<p>{number}) (?:to|zu|:|/) (?P<t>{number}) , (?:and |und )?(?:the|die) {number} (?:is|ist|sind) (?:the |das )?{water}",
        rf"{water} (?P<p>{number}) (?:to|zu|:|/) (?P<t>{number})",
        rf"(?:thin\w*|verdünn\w*|dilut\w*)(?: [^ ]+){{0,3}} (?P<p>{number}) (?:to|zu|:|/) (?P<t>{number})",
        rf"(?P<p>{number}) (?:to|zu|:|/) (?P<t>{number})(?: [^ ]+)? (?:thin\w*|verdünn\w*|dilut\w*)",
    )
    for form in forms:
        found = re.search(rf"(?:^|(?<= )){form}(?=$| )", text)
        if not found:
            continue
        left, right = words.value(found["p"]), words.value(found["t"])
        turned = re.search(
            rf"(?:the|die) ({number}) (?:is|ist|sind) (?:the |das |der )?(?:water|medium|thinner|wasser|verdünner)",
            text,
        )
        if turned and words.value(turned[1]) == left != right:
            left, right = right, left
        if left < 1 and left == right:
            left = right = 1
        thinner = found.groupdict().get("w") or ("Wasser" if words.code == "de" else "water")
        if words.code == "de":
            return f"{_plain(left)} Farbe : {_plain(right)} {thinner[:1].upper() + thinner[1:]}"
        return f"{_plain(left)} paint : {_plain(right)} {thinner}"
    if words.says("thin", "neat", text):
        return "none"
    said = words.says("thin", "said", text)
    if said is None:
        return ""
    clause = next((one for one in re.split(r" ?[,;.:?!] ?", text) if said[0].strip() in one), said[0])
    return "" if "§" in clause or len(clause.split()) > 14 else clause.strip()


def times_in(text: str, words: SpokenWords) -> list[tuple[int, int]]:
    """The times that are told, with where each stands in the sentence; in ms, of a range the longer."""
    pattern = _SAID.replace("{praise}", _PRAISE).replace("{units}", _UNITS).replace("{n}", words.number)
    text, found = text.replace("viertel stunde", "viertelstunde"), []
    for one in re.finditer(rf"(?:^|(?<= )){pattern}(?=$| )", text):
        plain = re.sub(rf"\b(?:{_PRAISE}|for|more)\b|(?<=hour)'s", "", one[0])
        for words_of in (word for word in words.numbers if " " in word):
            plain = plain.replace(words_of, f"{words.numbers[words_of]:g}")
        plain = " ".join(plain.split())
        read = read_time(plain) or read_time(
            re.sub(r"^(?:an? |one |eine[nr]? )+(?=half|quarter|anderthalb)", "", plain)
        )
        read = (
            read
            or read_time(re.sub(r"^(?:half )?hour$", lambda said: said[0].replace("hour", "an hour"), plain))
            or (read_time(f"eine {plain}") if plain.endswith("stunde") else None)
        )
        if read is not None and read.most > 0:
            found.append((read.most, one.start()))
    return found


def drying_in(text: str, words: SpokenWords, *, waited: bool = False) -> tuple[int | None, int, str]:
    """How long something dries in ms (None if not said), where in the sentence that stands, and a remark.

    `waited` is whether the sentence before spoke of drying.
    """
    if words.says("dry", "no_drying", text):
        return None, 0, "not left to dry"
    dries = words.says("dry", "drying", text) is not None or waited
    hands = hands_on(text, words)
    times = times_in(text, words)
    # A time is one of drying unless it is said to be one of work, of telling, or of long ago.
    dries = dries or (bool(times) and words.says("dry", "busy", text) is None)
    if dries and not hands and times:
        return times[-1][0], times[-1][1], ""
    if (night := words.says("dry", "overnight", text)) is not None:
        return OVERNIGHT, night.start(), "said: overnight"
    if (bare := words.says("dry", "bare", text)) is not None:
        number = re.search(words.number, bare[0][4:])
        value = words.value(number[0]) if number else 0
        if 2 <= value <= 240:
            return round(value * MINUTE), bare.start(), f"said: {bare[0].strip()}"
    if (tea := words.says("dry", "tea", text)) is not None:
        return KETTLE, tea.start(), "as long as a kettle takes, about 10 min"
    return None, 0, ""


def warm_in(text: str, words: SpokenWords) -> tuple[str, int | None] | None:
    """The sentence without its hair dryer, and the ms under that (None if not said); None without a hair dryer."""
    dryer = words.says("dry", "warm", text)
    if dryer is None:
        return None
    clause = next(one for one in re.finditer(r"[^,.;:]+", text) if dryer.start() < one.end())
    piece = next(
        (one for one in re.split(r" (?:or|oder|otherwise|sonst) ", clause[0]) if dryer[0] in one), clause[0]
    )
    times = times_in(piece, words)
    return text.replace(piece, " "), times[0][0] if times else None


def hands_on(text: str, words: SpokenWords) -> bool:
    """Whether a time is one of work on each figure; “two coats, ten minutes each” is none: the coats dry."""
    said = words.says("dry", "hands", text)
    return said is not None and (" " in said[0] or coats_in(text, words) < 2)


def coats_in(text: str, words: SpokenWords) -> int:
    """How many coats, 1 where nothing says more."""
    said = words.says("coats", "said", text)
    if said is not None:
        word = said.groupdict().get("n") or ""
        return int(words.value(word)) if word else 2
    if words.says("coats", "third", text):
        return 3
    return 2 if words.says("coats", "second", text) else 1


def times_over(text: str) -> int:
    """How many coats a short note tells: “Kiln Row x2”."""
    found = re.search(r"(?:^| )(?:x ([2-6])|([2-6]) x)(?= ?[,;)]|$)", text)
    return int(found[1] or found[2]) if found else 1


def brush_in(text: str, words: SpokenWords) -> str:
    """The brush that a sentence names, as it was said; '' if none."""
    said = words.says("brush", "said", text)
    if said is None:
        return ""
    brush = next((value for value in said.groupdict().values() if value), "")
    for word, value in words.numbers.items():
        brush = re.sub(rf"(?<= ){re.escape(word)}$|(?<= ){re.escape(word)}(?= )", f"{value:g}", brush)
    return re.sub(r"^(?:a|the) ", "", brush)


def written_time(milliseconds: int) -> str:
    """A time as a draft writes it: minutes, and hours where they are many and whole."""
    if milliseconds >= 3 * HOUR and milliseconds % HOUR == 0:
        return f"{milliseconds // HOUR} h"
    if milliseconds < MINUTE:
        return f"{milliseconds // 1000} s"
    return f"{milliseconds / MINUTE:g} min"


def _plain(value: float) -> str:
    """A number as it is typed: 2, 0.5."""
    return f"{value:g}"
