"""Techniques that guidegen does not know, and the one that is meant by each, in whichever language it was written."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.slips import only_meant
from guidegen.base.source import Span
from guidegen.base.suggest import folded, nearest
from guidegen.checking.case import GuideCase, called, span_of
from guidegen.model.guide import Step
from guidegen.model.names import Name
from guidegen.model.technique import KNOWN_WORDS, TECHNIQUES, is_known
from guidegen.reading.drafts.techniques import technique_said
from guidegen.reading.yaml.quoting import fix_of
from guidegen.words.language import PhraseKey, language_of, languages
from guidegen.words.spoken_words import spoken_languages, spoken_words

# Words that begin alike by so many letters are one word spelt by ear: highlite.
_SAME_BEGINNING = 5

# Shorter words stand in too many names, and nobody chooses among more techniques than this by their names.
_SHORTEST_WORD, _MOST_OFFERED = 4, 2


def known_techniques(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-technique, with the nearest known one; that of defaults once for all steps that take it."""
    odd: dict[Span, list[Step]] = {}
    for step in case.guide.steps:
        if not is_known(step.technique):
            odd.setdefault(span_of(step, "technique"), []).append(step)
    for span, (step, *others) in odd.items():
        meant = technique_meant(step.technique)
        begin = "The defaults name" if others else f"{called(case, step)} has"
        yield Diagnostic(
            code="unknown-technique",
            message=f"{begin} the technique “{step.technique}”, which guidegen does not know, "
            "so it takes a base coat's figures.",
            span=span,
            help=f"Write {meant}." if meant else "Nothing has to be done if those will do.",
            fix=fix_of(Name(text=step.technique, span=span), only_meant(step.technique, KNOWN_WORDS)),
        )


def technique_meant(word: str) -> str | None:
    """The technique that a word calls to mind, or two: spelt wrongly, in another language, or as painters talk of it."""
    names = _translated()
    key = folded(word)
    if key in names:
        return names[key]
    near = nearest(word, KNOWN_WORDS)
    if near:
        return near
    translated = nearest(word, names)
    if translated:
        return names[translated]
    text = " ".join(word.casefold().split())
    said = (
        technique_said(sentence, spoken_words(code))
        for sentence in (text, f"{text} it")
        for code in spoken_languages()
    )
    return next((name for name in said if name), None) or _begins_alike(key) or _with_a_word_of(text)


@cache
def _translated() -> dict[str, str]:
    """The techniques by what the pages of each language call them, folded."""
    return {
        folded(language_of(code).t(PhraseKey(f"technique.name.{name}"))): name
        for code in languages()
        for name in TECHNIQUES
    }


def _begins_alike(key: str) -> str | None:
    """The technique whose name begins as this folded word does, or that this word begins with, if it is one alone."""
    begin = key[:_SAME_BEGINNING]
    alike = {
        name
        for name in TECHNIQUES
        if key.startswith(folded(name)) or (len(begin) == _SAME_BEGINNING and folded(name).startswith(begin))
    }
    return alike.pop() if len(alike) == 1 else None


def _with_a_word_of(text: str) -> str | None:
    """The one or two techniques that have a word of these in their names: matt varnish or gloss varnish."""
    words = {folded(word) for word in text.split() if len(word) >= _SHORTEST_WORD}
    found = [name for name in TECHNIQUES if words & {folded(word) for word in name.split()}] or [
        name for label, name in _translated().items() if any(word in label for word in words)
    ]
    return " or ".join(found) if 0 < len(found) <= _MOST_OFFERED else None
