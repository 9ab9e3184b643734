"""What cautions and labels say, in the language of the site."""

from __future__ import annotations

from guidegen.computing.guide.cautions import Caution
from guidegen.computing.guide.hazards import HAZARDS, Statement
from guidegen.words.language import Language


def statement_words(statement: Statement, language: Language) -> str:
    """The official words of a label's code."""
    if statement.substance:
        return language.t(f"hazard.{statement.code}.of", substance=statement.substance)
    return language.t(f"hazard.{statement.code}")


def statement_source(statement: Statement, language: Language) -> str:
    """Where those words are published."""
    return language.t(f"hazard.source.{HAZARDS[statement.code]}")


def caution_words(caution: Caution, language: Language) -> str:
    """What to beware of, in whole sentences; an author's own words as they are."""
    if caution.label is not None:
        return statement_words(caution.label, language)
    return language.t(f"care.{caution.key}.text") if caution.key else caution.text


def caution_subject(caution: Caution, language: Language) -> str:
    """What a caution is about, in a word or two."""
    if caution.label is not None:
        return language.t("care.label")
    return language.t(f"care.{caution.key}.subject") if caution.key else caution.subject


def caution_source(caution: Caution, language: Language) -> str:
    """Where a caution comes from: its published source, or that it is the author's."""
    if caution.label is not None:
        return statement_source(caution.label, language)
    return language.t(f"care.{caution.key}.source") if caution.key else language.t("care.by-author")
