"""Pots that are named in words: by their names, by a part of a name, and by what a bad microphone made of it."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import nlargest
from itertools import pairwise
from operator import itemgetter

from guidegen.base.name_sounds import distances, english_spelling, pairs_of, sound_of
from guidegen.base.suggest import folded
from guidegen.model.paint import COLOURLESS, Ambiguous, Mix, Paint, Palette
from guidegen.reading.drafts.sentences import Token
from guidegen.words.spoken_words import SpokenWords

Pot = Paint | Mix


@dataclass(frozen=True, slots=True)
class _Label:
    """A name under which a pot may be heard: its letters and its sound, ready to be compared.

    `pairs` has a bit set for each pair of neighbouring letters, or sounds, that is in it.
    """

    pot: Pot
    letters: str
    sounds: dict[str, str]
    digits: str
    pairs: int


# Names of more words than this are not looked for; none of a palette has as many.
_MOST_WORDS = 7
# A misheard name: from one word to five, of so many letters at least.
_MOST_HEARD = 5
_FEWEST_LETTERS = 6
# How far a misheard name may be from the pot's, half by its letters and half by its sound, as a share of its length;
# and by how much the next pot must be farther. Found on the recordings that it was tuned on.
_FARTHEST = 0.3
_FARTHEST_SHORT = 0.25
_FARTHEST_WORD = 0.2
_FARTHEST_MIXED = 0.42
# A name whose beginning was heard as a little word, as in “we draft”, is as near as this.
_SPLIT = 0.1
_SHORT_NAME = 9
_MOST_LETTERS_WRONG = 0.46
_MOST_WRONG_BUT_SOUNDS = 0.55
_CLEARLY = 0.08
# A word that is shorter than this share of a name is another word, however it sounds.
_SHORTEST = 0.7
# Names that share most pairs of letters and sounds with what was heard are compared, so many.
_MOST_COMPARED = 12
# Beyond so many words a text is read for whole names only.
_MOST_MISHEARD = 40_000


@dataclass(frozen=True, slots=True)
class Mention:
    """Words from `start` to `end` that name a pot; `sure` unless it was put right or is a part of a name."""

    start: int
    end: int
    pot: Pot
    sure: bool = True
    heard: str = ""


class PotFinder:
    """Finds the pots of one palette in words of one language."""

    def __init__(self, palette: Palette, words: SpokenWords) -> None:
        self.palette = palette
        self.words = words
        self._exact: dict[str, Pot] = {}
        self._heads: dict[str, list[Pot]] = defaultdict(list)
        self._bits: dict[str, int] = {}
        for pot in palette.pots:
            self._add(pot)
        self._labels = [
            self._label(key, pot)
            for key, pot in sorted(self._exact.items(), key=lambda one: len(one[0]))
            if len(key) >= _FEWEST_LETTERS
        ]
        self._lengths = [len(label.letters) for label in self._labels]
        self._found: dict[str, tuple[float, Pot] | None] = {}

    def _add(self, pot: Pot) -> None:
        labels = [pot.name, *pot.aliases]
        if isinstance(pot, Paint):
            if re.search(r"\d", pot.code) and re.search(r"[^\W\d]", pot.code):
                labels.append(pot.code)
            if pot.edition:
                labels += [f"{pot.name} {pot.edition}", f"{pot.edition} {pot.name}"]
            if pot.range:
                labels.append(f"{pot.range} {pot.name}")
        for label in labels:
            self._put(key_of(label), pot)
            words = [key_of(word) for word in label.split()]
            kinds = self.kind_words()
            if len(words) > 2 and words[-1] in kinds:
                self._put("".join(words[:-1]), pot)
        colourless = isinstance(pot, Paint) and pot.kind in COLOURLESS
        said_so = self.words.words("colours", "english") if self.words.code != "en" else frozenset()
        english = dict(pair.split("=")[::-1] for pair in said_so)
        name = {key_of(word) for word in pot.name.split()}
        for word in name | {key_of(english[word]) for word in name & english.keys()}:
            if len(word) >= 3 and not (colourless and word in self.words.words("colours")):
                self._heads[word].append(pot)

    def _label(self, key: str, pot: Pot) -> _Label:
        sounds = {code: sound_of(key, code) for code in ("en", self.words.code)}
        pairs = 0
        for pair in pairs_of(key, sounds[self.words.code]):
            pairs |= self._bits.setdefault(pair, 1 << len(self._bits))
        return _Label(pot, key, sounds, _digits(key), pairs)

    def _put(self, key: str, pot: Pot) -> None:
        there = self._exact.get(key)
        if key and (there is None or _better(pot, there)):
            self._exact[key] = pot

    def kind_words(self) -> frozenset[str]:
        """Words for kinds of pots, which names end with."""
        return frozenset(
            word
            for kind in ("wash", "glaze", "ink", "stain", "primer", "varnish", "paste", "medium")
            for word in self.words.text("kinds", kind).split("|")
        ) | {"paint", "farbe"}

    def label(self, pot: Pot) -> str:
        """The shortest name that finds this pot alone."""
        if self.palette.find(pot.name) is pot:
            return pot.name
        edition = f"{pot.name} ({pot.edition})" if isinstance(pot, Paint) and pot.edition else ""
        return edition if edition and self.palette.find(edition) is pot else pot.full_name

    def exact(self, text: str) -> Pot | None:
        """The pot of exactly this name, alias or code; of two that share it the one that is owned or sold."""
        found = self.palette.find(text)
        if isinstance(found, Ambiguous):
            return max(found.found, key=_worth)
        return found or self._exact.get(key_of(text))

    def near(self, text: str) -> Pot | None:
        """The pot whose name is clearly nearest to a text, if it is near enough."""
        best = self._nearest(key_of(text))
        return best[1] if best else None

    def short(self, text: str) -> Pot | None:
        """The only pot whose name has all words of a text in it, in any order."""
        keys = [key_of(word) for word in text.split()]
        sets = [{id(pot): pot for pot in self._heads.get(key, ())} for key in keys if len(key) >= 3]
        shared = set.intersection(*map(set, sets)) if sets and len(sets) == len(keys) else set()
        found = [sets[0][one] for one in shared]
        return found[0] if len({pot.name for pot in found}) == 1 else None

    def find(self, tokens: Sequence[Token], *, misheard: bool = True) -> list[Mention]:
        """Every place where a pot is named, in order."""
        keys = [key_of(token.low) for token in tokens]
        taken = [False] * len(tokens)
        found = list(self._whole(tokens, keys, taken))
        if misheard and len(tokens) <= _MOST_MISHEARD:
            found += self._misheard(tokens, keys, taken)
            found += self._mixed(tokens, keys, taken, found)
        found.sort(key=lambda mention: mention.start)
        found += self._short(tokens, keys, taken, found)
        return sorted(found, key=lambda mention: mention.start)

    def _whole(self, tokens: Sequence[Token], keys: list[str], taken: list[bool]) -> Iterator[Mention]:
        at = 0
        while at < len(tokens):
            for end in range(min(len(tokens), at + _MOST_WORDS), at, -1):
                if not tokens[end - 1].is_word or not all(t.is_word or t.low in "-/" for t in tokens[at:end]):
                    continue
                pot = self._exact.get("".join(keys[at:end]))
                if pot is not None and tokens[at].is_word:
                    taken[at:end] = [True] * (end - at)
                    yield Mention(at, end, pot)
                    at = end - 1
                    break
            at += 1

    def _misheard(self, tokens: Sequence[Token], keys: list[str], taken: list[bool]) -> list[Mention]:
        edges = self.words.words("determiners") | self.words.words("function") | self.words.words("open")
        edges |= self.words.words("persons")
        plain, kinds = self.words.words("plain") | self.words.words("colours"), self.kind_words()
        areas = self.words.words("areas") - self._heads.keys()
        tried: list[tuple[float, int, int, Pot]] = []
        for at in range(len(tokens)):
            for end in range(at + 1, min(len(tokens), at + _MOST_HEARD) + 1):
                if taken[end - 1] or not tokens[end - 1].is_word:
                    break
                little = tokens[at].low in edges
                if (little and end != at + 2) or tokens[end - 1].low in edges:
                    continue
                if at and tokens[at - 1].low in self.words.words("persons"):
                    break  # they look sick: a verb follows, no name
                # A black wash is any: what is plain, by itself or before what is in pots, is no name.
                named = tokens[at].low not in plain or (end > at + 1 and tokens[at + 1].low not in kinds)
                best = self._nearest("".join(keys[at:end])) if named else None
                # One word may be any word, and where a part of the figure stands first (the roof back) it is that.
                one = end == at + 1 and len(keys[at]) < _SHORT_NAME - 1 and not self._measured(tokens, at)
                alone = one or tokens[at].low in areas
                if best and best[0] > (_SPLIT if little else _FARTHEST_WORD if alone else 1):
                    best = None
                if best and not (little or self._alike_without_small_words(tokens[at:end], best[1])):
                    best = None
                if best:
                    tried.append((best[0], at, end, best[1]))
        found = []
        for _, at, end, pot in sorted(tried, key=lambda one: (one[0], one[1] - one[2], one[1])):
            if not any(taken[at:end]):
                taken[at:end] = [True] * (end - at)
                heard = " ".join(token.text for token in tokens[at:end])
                found.append(Mention(at, end, pot, sure=False, heard=heard))
        return found

    def _mixed(
        self, tokens: Sequence[Token], keys: list[str], taken: list[bool], named: Sequence[Mention]
    ) -> list[Mention]:
        """What is mixed with a pot in a ratio is one, heard ever so badly: Tidewrack and boulder iron two to one."""
        found = []
        joins, ratio = self.words.words("joins"), self.words.words("ratio")
        for at in (one.end + 1 for one in named if tokens[one.end : one.end + 1]):
            if tokens[at - 1].low not in joins:
                continue
            for end in range(at + 1, min(at + _MOST_HEARD, len(tokens) - 1)):
                if taken[end - 1] or not tokens[end - 1].is_word:
                    break
                if tokens[end].low in self.words.numbers and tokens[end + 1].low in ratio:
                    if best := self._looked_for("".join(keys[at:end]), _FARTHEST_MIXED):
                        taken[at:end] = [True] * (end - at)
                        said = " ".join(token.text for token in tokens[at:end])
                        found += [Mention(at, end, best[1], sure=False, heard=said)]
                    break
        return found

    def _measured(self, tokens: Sequence[Token], at: int) -> bool:
        """Whether an amount stands before a word, as before a pot's name: a bit of, two parts of."""
        before = [token.low for token in tokens[max(0, at - 2) : at]]
        return (
            len(before) == 2
            and before[1] in self.words.words("of")
            and before[0] in self.words.words("measured")
        )

    def _alike_without_small_words(self, tokens: Sequence[Token], pot: Pot) -> bool:
        """Whether more than little words are alike: “off the stick” is no “Dawn off the weir”."""
        from rapidfuzz.distance import Levenshtein

        small = self.words.words("function") | self.words.words("determiners")
        said = "".join(key_of(token.low) for token in tokens if token.low not in small)
        if len(said) == sum(len(key_of(token.low)) for token in tokens):
            return True
        name = "".join(key_of(word) for word in pot.name.split() if word.lower() not in small)
        return Levenshtein.normalized_distance(said, name) <= _MOST_WRONG_BUT_SOUNDS

    def _nearest(self, key: str) -> tuple[float, Pot] | None:
        """The pot that is clearly nearest to a name as heard, and how far away it is."""
        if key not in self._found:
            self._found[key] = self._looked_for(key)
        return self._found[key]

    def _looked_for(self, key: str, farthest: float = 0) -> tuple[float, Pot] | None:
        if len(key) < _FEWEST_LETTERS - 1:
            return None
        by_pot: dict[int, tuple[float, Pot]] = {}
        ways = [(key, self.words.code)]
        if self.words.code == "de" and (english := english_spelling(key)) != key:
            ways.append((english, "en"))
        for letters, code in ways:
            self._compare(letters, code, by_pot)
        ranked = sorted(by_pot.values(), key=lambda one: (one[0], one[1].full_name))
        farthest = farthest or (_FARTHEST if len(key) >= _SHORT_NAME else _FARTHEST_SHORT)
        near = [one for one in ranked if one[0] - ranked[0][0] < _CLEARLY]
        # A first letter is seldom misheard: built wash is nearer to Bilge Wash than to Silt Wash.
        begins = [one for one in near if key_of(one[1].name)[:1] == key[0]] or near
        clear = begins and begins[0][0] <= farthest and len({one[1].name for one in begins}) == 1
        return begins[0] if clear else None

    def _compare(self, key: str, code: str, by_pot: dict[int, tuple[float, Pot]]) -> None:
        """Note how far the pots are whose names share most with what was heard."""
        sound, digits = sound_of(key, code), _digits(key)
        pairs = sum(self._bits.get(pair, 0) for pair in pairs_of(key, sound))
        least = max(2, (len(key) + len(sound)) // 5)
        # Names of another length are too far away whatever their letters are.
        first = bisect_left(self._lengths, len(key) * (1 - _MOST_WRONG_BUT_SOUNDS))
        last = bisect_right(self._lengths, len(key) / _SHORTEST)
        alike = [
            (count, label)
            for label in self._labels[first:last]
            if (count := (pairs & label.pairs).bit_count()) >= least and label.digits == digits
        ]
        for _, label in nlargest(_MOST_COMPARED, alike, key=itemgetter(0)):
            away = _away(key, sound, label, code)
            if away < by_pot.get(id(label.pot), (1.0, label.pot))[0]:
                by_pot[id(label.pot)] = away, label.pot

    def _short(
        self, tokens: Sequence[Token], keys: list[str], taken: list[bool], named: Sequence[Mention]
    ) -> list[Mention]:
        """Names cut short: “the ochre”, where one pot alone can be meant, or one of those that were named."""
        colours = self.words.words("colours")
        function, before_it = self.words.words("function"), self.words.words("determiners")
        common = self.words.words("areas") | self.kind_words() | self.words.words("plain") | function
        common |= self.words.words("no_areas")
        articles = self.words.words("articles") | {"", ",", "."}
        stirred, placed, found = self.words.words("stirred"), self.words.words("placed"), []
        tails = {  # of what was misheard the last two words: the lie lack, behind wash day lie lack
            tuple(keys[one.end - 2 : one.end]): one.pot
            for one in named
            if not one.sure and one.end - one.start > 2
        }
        for at, token in enumerate(tokens):
            pots = self._heads.get(keys[at], [])
            two = tails.get(tuple(keys[at : at + 2])) or self._two_words(keys[at : at + 2])
            two = None if any(taken[at : at + 2]) else two
            if two is not None and not {keys[at], keys[at + 1]} & (function | before_it):
                taken[at : at + 2] = [True, True]
                found.append(Mention(at, at + 2, two))
                continue
            if taken[at] or not pots or not token.is_word:
                continue
            after = tokens[at + 1] if at + 1 < len(tokens) else None
            before = tokens[at - 1].low if at else ""
            ends = (
                after is None or not after.is_word or after.low in function or after.low in self.words.numbers
            )
            if not ends and after is not None and after.cue is token.cue:
                continue
            colour, amount = token.low in colours, self._measured(tokens, at)
            if not colour and at > 1 and tokens[at - 2].low in placed and not self._measured(tokens, at - 1):
                continue  # the rim of the bell
            if not colour and not amount and (token.low in common or before not in articles):
                continue
            copula = before in self.words.words("copula")  # the little one is red
            if colour and at and tokens[at - 1].is_word and (copula or before not in before_it | function):
                continue
            pot = self._meant(pots, at, named, colour=colour, added=before in stirred)
            if pot is not None:
                taken[at] = True
                found.append(Mention(at, at + 1, pot))
        return found

    def _two_words(self, keys: Sequence[str]) -> Pot | None:
        """The only pot in whose name two words follow each other: “bell rope”."""
        if len(keys) < 2 or min(map(len, keys)) < 3:
            return None
        found = [
            pot
            for pot in self._heads.get(keys[0], ())
            if any(list(keys) == list(pair) for pair in pairwise([key_of(word) for word in pot.name.split()]))
        ]
        return found[0] if len({pot.name for pot in found}) == 1 else None

    def _meant(
        self, pots: list[Pot], at: int, named: Sequence[Mention], *, colour: bool, added: bool
    ) -> Pot | None:
        """The pot of one of these names: the last that was named, else one named later, else the only one there is."""
        mine = [mention for mention in named if any(mention.pot is pot for pot in pots)]
        earlier = [mention for mention in mine if mention.start < at]
        if earlier:
            return earlier[-1].pot
        if colour and added and len({pot.name for pot in pots}) == 1:
            return max(pots, key=_worth)
        return mine[0].pot if mine and added and len({id(mention.pot) for mention in mine}) == 1 else None


def key_of(text: str) -> str:
    """Letters and digits alone, in small letters without marks; ß as ss."""
    return "".join(c for c in folded(text) if c.isalnum())


def _worth(pot: Pot) -> tuple[bool, bool]:
    """Whether it is still sold, and whether it is owned: the greater is meant of two pots of one name."""
    return (True, True) if isinstance(pot, Mix) else (not pot.discontinued, pot.owned > 0)


def _better(pot: Pot, there: Pot) -> bool:
    """Of two that share a name the one that is still sold, or owned."""
    return pot.name == there.name and _worth(pot) > _worth(there)


def _digits(word: str) -> str:
    return "".join(c for c in word if c.isdigit())


def _away(key: str, sound: str, other: _Label, code: str) -> float:
    """How far two names are apart: half by their letters, half by their sound, as shares of the longer."""
    if len(key) < _SHORTEST * len(other.letters):
        return 1.0
    letters, sounds = distances((other.letters, other.sounds[code]), (key, sound))
    if letters > (_MOST_LETTERS_WRONG if sounds else _MOST_WRONG_BUT_SOUNDS):
        return 1.0
    return 0.5 * letters + 0.5 * sounds
