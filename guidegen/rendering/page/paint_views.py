"""How a pot or a blend is shown: its chip, its name, its page, and its part of a mixture."""

from __future__ import annotations

from dataclasses import dataclass, replace

from guidegen.computing.colour.blend import Blend, blend_of
from guidegen.computing.colour.closest import Match
from guidegen.computing.colour.spaces import difference_phrase
from guidegen.model.paint import Mix, Paint
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.chips import CLEAR, Chip
from guidegen.words.language import PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class PotView:
    """One pot. `maker` is its range, '' for none and for house mixes; `amount` its parts, where it is in a mixture.

    `parts` are what a house mix on a brush is mixed from, empty elsewhere.
    """

    name: str
    maker: str
    href: str
    kind: str
    chip: Chip
    amount: str = ""
    parts: tuple[PotView, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendView:
    """What is on the brush. `pots` has one pot, or all that are mixed; `touch` the ends of what a touch may mean."""

    chip: Chip
    pots: tuple[PotView, ...]
    mixed: bool
    reason: str = ""
    touch: tuple[Chip, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchView:
    """A paint that comes close, how far off in CIEDE2000, and the key of the words for it."""

    pot: PotView
    de00: str
    words: PhraseKey
    owned: bool


def pot_view(pot: Paint | Mix, context: SiteContext, page: str, *, amount: str = "") -> PotView:
    """A pot as it is shown on a page."""
    paint = pot if isinstance(pot, Paint) else None
    return PotView(
        name=f"{pot.name} ({paint.edition})" if paint and paint.edition else pot.name,
        maker=paint.range or "" if paint else "",
        href=context.links.to(context.pots[pot.full_name], page),
        kind=f"kind.{paint.kind}" if paint else "kind.mix",
        chip=context.chips.of_pot(pot),
        amount=amount,
    )


def blend_view(blend: Blend, context: SiteContext, page: str) -> BlendView:
    """A blend as it is shown on a page."""
    found = context.palette_tools.mixer.predict(blend)
    chip = context.chips.of(blend)
    return BlendView(
        chip=chip,
        pots=mixed_views(blend, context, page)
        if blend.pot is None
        else (replace(pot_view(blend.pot, context, page), parts=_recipe(blend.pot, context, page)),),
        mixed=blend.pot is None,
        reason="" if found.colour or chip.look in CLEAR else "chip.no-colour",
        touch=tuple(replace(chip, fill=end) for end in (found.touch_low, found.touch_high) if end),
    )


def _recipe(pot: Paint | Mix, context: SiteContext, page: str) -> tuple[PotView, ...]:
    """What a house mix is mixed from, nothing for a paint."""
    if isinstance(pot, Paint):
        return ()
    return mixed_views(blend_of(pot.parts, context.palette_tools.palette), context, page)


def mixed_views(blend: Blend | None, context: SiteContext, page: str) -> tuple[PotView, ...]:
    """What goes into a mixture, each with its parts."""
    t = context.language.t
    return tuple(
        pot_view(
            part.pot, context, page, amount=t("parts.touch") if part.touch else t("parts", n=part.amount)
        )
        for part in (blend.parts if blend else ())
    )


def match_view(match: Match, context: SiteContext, page: str) -> MatchView:
    """A close paint as it is shown on a page."""
    return MatchView(
        pot=pot_view(match.paint, context, page),
        de00=context.language.number(match.de00, 1),
        words=difference_phrase(match.de00),
        owned=match.paint.owned > 0,
    )
