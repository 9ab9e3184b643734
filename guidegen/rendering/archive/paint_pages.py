"""The page of all paints, and a page for each paint and house mix."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.computing.colour.blend import Blend, BlendPart, blend_of, find_pot, is_by_eye
from guidegen.computing.colour.closest import Match, role_of
from guidegen.computing.guide.hazards import read_entry
from guidegen.model.paint import Mix, Paint, Palette, Range
from guidegen.rendering.archive.guide_links import UseView, use_views
from guidegen.rendering.guide.guide_view import CautionView, Fact
from guidegen.rendering.guide.summary import StepPlace, Summary
from guidegen.rendering.page.caution_words import statement_source, statement_words
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import MatchView, PotView, match_view, mixed_views, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PAINTS, PALETTE_CSV, PALETTE_GPL, anchors, relative
from guidegen.rendering.theme.chips import CLEAR
from guidegen.words.language import PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class PotTile:
    """A pot on the page of all paints; `code` as on the pot, `used` in how many guides."""

    pot: PotView
    code: str
    owned: int
    discontinued: bool
    used: int


@dataclass(frozen=True, slots=True, kw_only=True)
class KindView:
    """Pots of one kind in one range; `kind` is the key of its name."""

    kind: str
    tiles: tuple[PotTile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeView:
    """A range and its pots; `name` is '' for paints of none."""

    name: str
    key: str
    anchor: str
    facts: tuple[Fact, ...]
    note: str
    count: int
    kinds: tuple[KindView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintsView:
    """The page of all paints."""

    ranges: tuple[RangeView, ...]
    count: int
    owned: int
    exports: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PotPage:
    """The page of one paint or house mix. `parts` is what a mix is made of, `mixes` the mixes that a paint is in.

    `colour_from` is the key of where its colour is from; `by_eye` is whether some of what a mix is made of is only
    known by eye, so that its estimate is further off than others.
    """

    pot: PotView
    title: str
    colour: str
    colour_unknown: bool = False
    estimate: bool
    colour_from: PhraseKey | None = None
    by_eye: bool = False
    note: str
    uses: tuple[UseView, ...]
    mixes: tuple[PotView, ...]
    discontinued: bool = False
    facts: tuple[Fact, ...] = ()
    credit: str = ""
    parts: tuple[PotView, ...] = ()
    closest: tuple[MatchView, ...] = ()
    closest_owned: tuple[MatchView, ...] = ()
    twin: PotView | None = None
    cautions: tuple[CautionView, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PotUses:
    """Where each pot is found, by full name: guides in the order given, with their steps, and house mixes."""

    guides: Mapping[str, Sequence[tuple[Summary, tuple[StepPlace, ...]]]]
    mixes: Mapping[str, Sequence[Mix]]

    @classmethod
    def of(cls, summaries: Iterable[Summary], palette: Palette) -> PotUses:
        """Turn guides and mixes round, once for all pots."""
        guides: dict[str, list[tuple[Summary, tuple[StepPlace, ...]]]] = {}
        for guide in summaries:
            for name, steps in guide.pots:
                guides.setdefault(name, []).append((guide, steps))
        mixes: dict[str, list[Mix]] = {}
        for mix in palette.mixes:
            blend = blend_of(mix.parts, palette)
            for name in dict.fromkeys(part.pot.full_name for part in (blend.parts if blend else ())):
                mixes.setdefault(name, []).append(mix)
        return cls(guides=guides, mixes=mixes)


def paints_view(uses: PotUses, context: SiteContext) -> PaintsView:
    """All pots by range and kind, in the order of the palette; house mixes last."""
    palette = context.palette_tools.palette
    described = {entry.name: entry for entry in palette.ranges}
    names = list(dict.fromkeys([*described, *(paint.range or "" for paint in palette.paints)]))
    groups: dict[str, list[Paint | Mix]] = {name: [] for name in names}
    for paint in palette.paints:
        groups[paint.range or ""].append(paint)
    ranges = [(name, "" if name else "paints.no-range", pots) for name, pots in groups.items() if pots]
    if palette.mixes:
        ranges.append(("", "paints.mixes", list(palette.mixes)))
    places = anchors((name or key for name, key, _ in ranges), "range-")
    return PaintsView(
        ranges=tuple(
            RangeView(
                name=name,
                key=key,
                anchor=place,
                facts=_usual_facts(described[name], context) if name in described else (),
                note=described[name].note if name in described else "",
                count=len(pots),
                kinds=_by_kind(pots, uses, context),
            )
            for (name, key, pots), place in zip(ranges, places, strict=True)
        ),
        count=len(palette.paints) + len(palette.mixes),
        owned=sum(paint.owned > 0 for paint in palette.paints),
        exports=(
            Link(text="export.palette-csv", href=relative(PALETTE_CSV, PAINTS)),
            Link(text="export.palette-gpl", href=relative(PALETTE_GPL, PAINTS)),
        ),
    )


def _by_kind(pots: Sequence[Paint | Mix], uses: PotUses, context: SiteContext) -> tuple[KindView, ...]:
    kinds: dict[str, list[PotTile]] = {}
    for pot in pots:
        view = pot_view(pot, context, PAINTS)
        tile = PotTile(
            pot=view,
            code=pot.code if isinstance(pot, Paint) else "",
            owned=pot.owned,
            discontinued=isinstance(pot, Paint) and pot.discontinued,
            used=len(uses.guides.get(pot.full_name, ())),
        )
        kinds.setdefault(view.kind, []).append(tile)
    return tuple(KindView(kind=kind, tiles=tuple(tiles)) for kind, tiles in kinds.items())


def pot_page(pot: Paint | Mix, uses: PotUses, context: SiteContext) -> PotPage:
    """The page of one paint or house mix."""
    page, tools = context.pots[pot.full_name], context.palette_tools

    def views(matches: Iterable[Match]) -> tuple[MatchView, ...]:
        return tuple(match_view(match, context, page) for match in matches)

    shown = _of_any_pot(pot, uses, context)
    if isinstance(pot, Paint):
        twin = find_pot(tools.palette, pot.twin_of) if pot.twin_of else None
        return replace(
            shown,
            discontinued=pot.discontinued,
            colour_from=PhraseKey(f"colour-from.{pot.colour_from}") if pot.colour_from else None,
            facts=_paint_facts(pot, context),
            closest=views(tools.matcher.closest(pot)),
            closest_owned=views(tools.matcher.closest_owned(pot)),
            twin=pot_view(twin, context, page) if twin is not None else None,
            cautions=_label(pot, context),
        )
    colour = tools.mixer.of_pot(pot).colour
    blend = blend_of(pot.parts, tools.palette)
    role = role_of(tools.mixer.kind(Blend((BlendPart(pot, 1.0),))))
    return replace(
        shown,
        facts=_mix_facts(pot, context),
        credit=pot.credit,
        parts=mixed_views(blend, context, page),
        by_eye=blend is not None and is_by_eye(blend, tools.palette),
        closest=views(tools.matcher.closest_to_colour(colour, role)) if colour else (),
        closest_owned=views(tools.matcher.closest_owned_to_colour(colour, role)) if colour else (),
    )


def _of_any_pot(pot: Paint | Mix, uses: PotUses, context: SiteContext) -> PotPage:
    """What the page of a paint and that of a house mix both tell."""
    page = context.pots[pot.full_name]
    view = pot_view(pot, context, page)
    return PotPage(
        pot=view,
        title=view.name,
        colour=view.chip.fill or "",
        colour_unknown=not view.chip.fill and view.chip.look not in CLEAR,
        estimate=view.chip.estimate,
        note=pot.note,
        uses=use_views(uses.guides.get(pot.full_name, ()), page),
        mixes=tuple(pot_view(mix, context, page) for mix in uses.mixes.get(pot.full_name, ())),
    )


def _paint_facts(paint: Paint, context: SiteContext) -> tuple[Fact, ...]:
    t = context.language.t
    return (
        *_facts(
            ("pot.code", paint.code),
            ("pot.finish", t(f"finish.{paint.finish}") if paint.finish else ""),
            ("pot.covers", t(f"covers.{paint.covers}") if paint.covers else ""),
            ("pot.binder", t(f"binder.{paint.binder}") if paint.binder else ""),
            ("pot.comes-as", t(f"comes-as.{paint.comes_as}") if paint.comes_as else ""),
        ),
        *_usual_facts(paint, context),
        *_facts(
            ("pot.shelf", t("pot.owned", n=paint.owned) if paint.owned else t("pot.not-owned")),
            ("pot.also", ", ".join(paint.aliases)),
        ),
    )


def _mix_facts(mix: Mix, context: SiteContext) -> tuple[Fact, ...]:
    """What is known of a mix that stands bottled on the shelf, nothing for one that is mixed when it is wanted."""
    language = context.language
    return _facts(
        ("pot.shelf", language.t("pot.owned", n=mix.owned) if mix.owned else ""),
        ("pot.size", "" if mix.size is None else language.t("pot.ml", n=mix.size)),
        ("pot.bottled", "" if mix.mixed is None else language.on(mix.mixed)),
    )


def _usual_facts(of: Paint | Range, context: SiteContext) -> tuple[Fact, ...]:
    """What a range may say for all its paints."""
    language = context.language
    return _facts(
        ("pot.size", "" if of.size is None else language.t("pot.ml", n=of.size)),
        ("pot.price", "" if of.price is None else language.money(of.price, context.site.currency)),
        ("pot.thinner", of.thinner),
    )


def _facts(*facts: tuple[str, str]) -> tuple[Fact, ...]:
    return tuple(Fact(label=PhraseKey(label), text=text) for label, text in facts if text)


def _label(paint: Paint, context: SiteContext) -> tuple[CautionView, ...]:
    said = [statement for entry in paint.hazards for statement in read_entry(entry.text)]
    if not said:
        return ()
    return (
        CautionView(
            subject=context.language.t("care.label"),
            statements=tuple(
                (statement.code, statement_words(statement, context.language)) for statement in said
            ),
            source=statement_source(said[0], context.language),
            paints=(),
        ),
    )
