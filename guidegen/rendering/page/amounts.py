"""Amounts of paint in a reader's words: two figures at most, for that is all that an estimate knows."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal

from guidegen.computing.guide.materials import LEAST_POUR, MOST_IN_DROPS, PaintNeed, comes_in_drops
from guidegen.words.language import Language

# Less than this, in ml, is not worth a figure.
LEAST_TOLD = 0.005


def amount_text(need: PaintNeed, language: Language) -> str:
    """`about 1.5 ml, 30 drops`, as `templates/scripts/guide.js` writes it for other batches."""
    ml = volume_text(need.ml, language)
    if need.ml is None or need.drops is None or not comes_in_drops(need.paint):
        return ml
    if need.ml < LEAST_TOLD or need.ml > MOST_IN_DROPS:
        return ml
    if need.drops < LEAST_POUR:
        return language.t("amount.pour", ml=ml)
    drops = math.floor(need.drops + 0.5)
    return language.t("amount.drops", n=drops, ml=ml, drops=two_figures(max(drops, 1), language))


def volume_text(ml: float | None, language: Language) -> str:
    """`about 1.5 ml`; `by eye` where nothing says how much a step lays on."""
    if ml is None:
        return language.t("amount.by-eye")
    if ml < LEAST_TOLD:
        return language.t("amount.trace")
    return language.t("amount.ml", amount=two_figures(ml, language))


def two_figures(value: float, language: Language) -> str:
    """A positive number to two significant figures, halves away from nought as browsers round them."""
    digits = 1 - math.floor(math.log10(value))
    rounded = Decimal(value).quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)
    return language.number(float(rounded), max(digits, 0))


def shelf_text(need: PaintNeed, language: Language) -> str:
    """Whether the pot is on the shelf, and how many to buy."""
    if need.buy:
        return language.t("shelf.buy", n=need.buy)
    return language.t("shelf.owned")
