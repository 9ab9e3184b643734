"""The page of all paints, and a page for each paint and house mix."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.computing.colour.blend import Blend, BlendPart, blend_of, find_pot
from guidegen.computing.colour.closest import Match, role_of
from guidegen.computing.guide.hazards import read_entry
from guidegen.model.paint import Mix, Paint, Palette, Range
from guidegen.rendering.archive.archive_view import KindView, PaintsView, PotPage, PotTile, RangeView, UseView
from guidegen.rendering.guide.guide_view import CautionView, Fact
from guidegen.rendering.guide.summary import StepPlace, Summary
from guidegen.rendering.page.caution_words import statement_source, statement_words
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import PotView, match_view, mixed_views, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PAINTS, PALETTE_CSV, PALETTE_GPL, anchors, guide_file, relative


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


def paints_view(found: PotUses, context: SiteContext) -> PaintsView:
    """All pots by range and kind, in the order of the palette; house mixes last."""
    palette = context.palette_tools.palette
    described = {entry.name: entry for entry in palette.ranges}
    names = list(dict.fromkeys([*described, *(paint.range or "" for paint in palette.paints)]))
    groups: dict[str, list[Paint | Mix]] = {name: [] for name in names}
    for paint in palette.paints:
        groups[paint.range or ""].append(paint)
    racks = [(name, "" if name else "paints.no-range", pots) for name, pots in groups.items() if pots]
    if palette.mixes:
        racks.append(("", "paints.mixes", list(palette.mixes)))
    places = anchors((name or key for name, key, _ in racks), "range-")
    return PaintsView(
        racks=tuple(
            RangeView(
                name=name,
                key=key,
                anchor=place,
                facts=_range_facts(described.get(name), context),
                note=described[name].note if name in described else "",
                count=len(pots),
                trays=_trays(pots, found, context),
            )
            for (name, key, pots), place in zip(racks, places, strict=True)
        ),
        count=len(palette.paints) + len(palette.mixes),
        owned=sum(paint.owned > 0 for paint in palette.paints),
        exports=(
            Link(text="export.palette-csv", href=relative(PALETTE_CSV, PAINTS)),
            Link(text="export.palette-gpl", href=relative(PALETTE_GPL, PAINTS)),
        ),
    )


def _range_facts(entry: Range | None, context: SiteContext) -> tuple[Fact, ...]:
    if entry is None:
        return ()
    language = context.language
    facts = []
    if entry.size is not None:
        facts.append(Fact(label="pot.size", text=language.t("pot.ml", n=entry.size)))
    if entry.price is not None:
        facts.append(Fact(label="pot.price", text=language.money(entry.price, context.site.currency)))
    if entry.thinner:
        facts.append(Fact(label="pot.thinner", text=entry.thinner))
    return tuple(facts)


def _trays(pots: Sequence[Paint | Mix], found: PotUses, context: SiteContext) -> tuple[KindView, ...]:
    trays: dict[str, list[PotTile]] = {}
    for pot in pots:
        view = pot_view(pot, context, PAINTS)
        tile = PotTile(
            pot=view,
            code=pot.code if isinstance(pot, Paint) else "",
            owned=pot.owned if isinstance(pot, Paint) else 0,
            discontinued=isinstance(pot, Paint) and pot.discontinued,
            used=len(found.guides.get(pot.full_name, ())),
        )
        trays.setdefault(view.kind, []).append(tile)
    return tuple(KindView(kind=kind, tiles=tuple(tiles)) for kind, tiles in trays.items())


def pot_page(pot: Paint | Mix, found: PotUses, context: SiteContext) -> PotPage:
    """The page of one paint or house mix."""
    page = context.pots[pot.full_name]
    own = (
        Details.of_paint(pot, context, page) if isinstance(pot, Paint) else Details.of_mix(pot, context, page)
    )
    view = pot_view(pot, context, page)
    return PotPage(
        pot=view,
        title=view.name,
        colour=view.chip.fill or "",
        estimate=view.chip.estimate,
        discontinued=isinstance(pot, Paint) and pot.discontinued,
        facts=own.facts,
        note=pot.note,
        credit=pot.credit if isinstance(pot, Mix) else "",
        parts=own.parts,
        uses=tuple(
            UseView(
                guide=Link(text=guide.title, href=relative(guide_file(guide.slug), page)),
                steps=tuple(
                    Link(text=str(step.n), href=relative(f"{guide_file(guide.slug)}#{step.anchor}", page))
                    for step in steps
                ),
            )
            for guide, steps in found.guides.get(pot.full_name, ())
        ),
        closest=tuple(match_view(match, context, page) for match in own.closest),
        closest_owned=tuple(match_view(match, context, page) for match in own.closest_owned),
        mixes=tuple(pot_view(mix, context, page) for mix in found.mixes.get(pot.full_name, ())),
        twin=own.twin,
        cautions=own.cautions,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Details:
    """What a paint and a house mix tell in different ways."""

    facts: tuple[Fact, ...]
    parts: tuple[PotView, ...] = ()
    closest: tuple[Match, ...] = ()
    closest_owned: tuple[Match, ...] = ()
    twin: PotView | None = None
    cautions: tuple[CautionView, ...] = ()

    @classmethod
    def of_paint(cls, paint: Paint, context: SiteContext, page: str) -> Details:
        """From the pot's own entry."""
        matcher = context.palette_tools.matcher
        twin = find_pot(context.palette_tools.palette, paint.twin_of) if paint.twin_of else None
        return cls(
            facts=_paint_facts(paint, context),
            closest=matcher.closest(paint),
            closest_owned=matcher.closest_owned(paint),
            twin=pot_view(twin, context, page) if twin is not None else None,
            cautions=_label(paint, context),
        )

    @classmethod
    def of_mix(cls, mix: Mix, context: SiteContext, page: str) -> Details:
        """From what is in it."""
        blend = blend_of(mix.parts, context.palette_tools.palette)
        colour = context.palette_tools.mixer.of_pot(mix).colour
        role = role_of(context.palette_tools.mixer.kind(Blend((BlendPart(mix, 1.0),))))
        matcher = context.palette_tools.matcher
        return cls(
            facts=(),
            parts=mixed_views(blend, context, page),
            closest=matcher.closest_to_colour(colour, role) if colour else (),
            closest_owned=matcher.closest_owned_to_colour(colour, role) if colour else (),
        )


def _paint_facts(paint: Paint, context: SiteContext) -> tuple[Fact, ...]:
    t = context.language.t
    facts = [
        ("pot.code", paint.code),
        ("pot.finish", t(f"finish.{paint.finish}") if paint.finish else ""),
        ("pot.covers", t(f"covers.{paint.covers}") if paint.covers else ""),
        ("pot.binder", t(f"binder.{paint.binder}") if paint.binder else ""),
        ("pot.comes-as", t(f"comes-as.{paint.comes_as}") if paint.comes_as else ""),
        ("pot.size", t("pot.ml", n=paint.size) if paint.size is not None else ""),
        (
            "pot.price",
            context.language.money(paint.price, context.site.currency) if paint.price is not None else "",
        ),
        ("pot.thinner", paint.thinner),
        ("pot.shelf", t("pot.owned", n=paint.owned) if paint.owned else t("pot.not-owned")),
        ("pot.also", ", ".join(paint.aliases)),
    ]
    return tuple(Fact(label=label, text=text) for label, text in facts if text)


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
