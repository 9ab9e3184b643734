"""Amounts of paint in a reader's words: two figures at most, for that is all that an estimate knows."""

from __future__ import annotations

import math

from guidegen.computing.materials import LEAST_POUR, MOST_IN_DROPS, PaintNeed
from guidegen.model.paint import Kind
from guidegen.rendering.language import Language


def amount_text(need: PaintNeed, language: Language) -> str:
    """`about 1.5 ml, 30 drops`, as `templates/scripts/guide.js` writes it for other batches."""
    if need.ml is None:
        return language.t("amount.by-eye")
    if need.ml < 0.005:
        return language.t("amount.trace")
    ml = language.t("amount.ml", amount=two_figures(need.ml, language))
    if need.drops is None or need.ml > MOST_IN_DROPS or need.paint.comes_as == "can":
        return ml
    if need.drops < LEAST_POUR and need.paint.kind is not Kind.PIGMENT:
        return language.t("amount.pour", ml=ml)
    return language.t("amount.drops", ml=ml, drops=two_figures(round(need.drops), language))


def two_figures(value: float, language: Language) -> str:
    """A positive number to two significant figures."""
    digits = 1 - math.floor(math.log10(value))
    return language.number(round(value, digits), max(digits, 0))


def shelf_text(need: PaintNeed, language: Language) -> str:
    """Whether the pot is on the shelf, and how many to buy."""
    if need.buy:
        return language.t("shelf.buy", n=need.buy)
    return language.t("shelf.owned")
