"""The page of all paints, and a page for each paint and house mix."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.computing.hazards import read_entry
from guidegen.computing.matching import Match, role_of
from guidegen.computing.scheme import Blend, BlendPart, blend_of, find_pot
from guidegen.model.paint import Mix, Paint, Palette, Range
from guidegen.rendering.archive_view import PaintsView, PotPage, Rack, Tile, Tray, UseView
from guidegen.rendering.area_view import Link
from guidegen.rendering.care import statement_source, statement_words
from guidegen.rendering.desk import Desk
from guidegen.rendering.guide_view import CautionView, Fact
from guidegen.rendering.pots import PotView, match_view, mixed_views, pot_view
from guidegen.rendering.summary import StepPlace, Summary
from guidegen.rendering.urls import PAINTS, PALETTE_CSV, PALETTE_GPL, anchors, guide_file, relative


@dataclass(frozen=True, slots=True, kw_only=True)
class Whereabouts:
    """Where each pot is found, by full name: guides in the order given, with their steps, and house mixes."""

    guides: Mapping[str, Sequence[tuple[Summary, tuple[StepPlace, ...]]]]
    mixes: Mapping[str, Sequence[Mix]]

    @classmethod
    def of(cls, summaries: Iterable[Summary], palette: Palette) -> Whereabouts:
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


def paints_view(found: Whereabouts, desk: Desk) -> PaintsView:
    """All pots by range and kind, in the order of the palette; house mixes last."""
    palette = desk.workshop.palette
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
            Rack(
                name=name,
                key=key,
                anchor=place,
                facts=_range_facts(described.get(name), desk),
                note=described[name].note if name in described else "",
                count=len(pots),
                trays=_trays(pots, found, desk),
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


def _range_facts(entry: Range | None, desk: Desk) -> tuple[Fact, ...]:
    if entry is None:
        return ()
    language = desk.language
    facts = []
    if entry.size is not None:
        facts.append(Fact(label="pot.size", text=language.t("pot.ml", n=entry.size)))
    if entry.price is not None:
        facts.append(Fact(label="pot.price", text=language.money(entry.price, desk.site.currency)))
    if entry.thinner:
        facts.append(Fact(label="pot.thinner", text=entry.thinner))
    return tuple(facts)


def _trays(pots: Sequence[Paint | Mix], found: Whereabouts, desk: Desk) -> tuple[Tray, ...]:
    trays: dict[str, list[Tile]] = {}
    for pot in pots:
        view = pot_view(pot, desk, PAINTS)
        tile = Tile(
            pot=view,
            code=pot.code if isinstance(pot, Paint) else "",
            owned=pot.owned if isinstance(pot, Paint) else 0,
            discontinued=isinstance(pot, Paint) and pot.discontinued,
            used=len(found.guides.get(pot.full_name, ())),
        )
        trays.setdefault(view.kind, []).append(tile)
    return tuple(Tray(kind=kind, tiles=tuple(tiles)) for kind, tiles in trays.items())


def pot_page(pot: Paint | Mix, found: Whereabouts, desk: Desk) -> PotPage:
    """The page of one paint or house mix."""
    page = desk.pots[pot.full_name]
    own = Details.of_paint(pot, desk, page) if isinstance(pot, Paint) else Details.of_mix(pot, desk, page)
    view = pot_view(pot, desk, page)
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
        closest=tuple(match_view(match, desk, page) for match in own.closest),
        closest_owned=tuple(match_view(match, desk, page) for match in own.closest_owned),
        mixes=tuple(pot_view(mix, desk, page) for mix in found.mixes.get(pot.full_name, ())),
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
    def of_paint(cls, paint: Paint, desk: Desk, page: str) -> Details:
        """From the pot's own entry."""
        matcher = desk.workshop.matcher
        twin = find_pot(desk.workshop.palette, paint.twin_of) if paint.twin_of else None
        return cls(
            facts=_paint_facts(paint, desk),
            closest=matcher.closest(paint),
            closest_owned=matcher.closest_owned(paint),
            twin=pot_view(twin, desk, page) if twin is not None else None,
            cautions=_label(paint, desk),
        )

    @classmethod
    def of_mix(cls, mix: Mix, desk: Desk, page: str) -> Details:
        """From what is in it."""
        blend = blend_of(mix.parts, desk.workshop.palette)
        colour = desk.workshop.mixer.of_pot(mix).colour
        role = role_of(desk.workshop.mixer.kind(Blend((BlendPart(mix, 1.0),))))
        matcher = desk.workshop.matcher
        return cls(
            facts=(),
            parts=mixed_views(blend, desk, page),
            closest=matcher.closest_to_colour(colour, role) if colour else (),
            closest_owned=matcher.closest_owned_to_colour(colour, role) if colour else (),
        )


def _paint_facts(paint: Paint, desk: Desk) -> tuple[Fact, ...]:
    t = desk.language.t
    facts = [
        ("pot.code", paint.code),
        ("pot.finish", t(f"finish.{paint.finish}") if paint.finish else ""),
        ("pot.covers", t(f"covers.{paint.covers}") if paint.covers else ""),
        ("pot.binder", t(f"binder.{paint.binder}") if paint.binder else ""),
        ("pot.comes-as", t(f"comes-as.{paint.comes_as}") if paint.comes_as else ""),
        ("pot.size", t("pot.ml", n=paint.size) if paint.size is not None else ""),
        (
            "pot.price",
            desk.language.money(paint.price, desk.site.currency) if paint.price is not None else "",
        ),
        ("pot.thinner", paint.thinner),
        ("pot.shelf", t("pot.owned", n=paint.owned) if paint.owned else t("pot.not-owned")),
        ("pot.also", ", ".join(paint.aliases)),
    ]
    return tuple(Fact(label=label, text=text) for label, text in facts if text)


def _label(paint: Paint, desk: Desk) -> tuple[CautionView, ...]:
    said = [statement for entry in paint.hazards for statement in read_entry(entry.text)]
    if not said:
        return ()
    return (
        CautionView(
            subject=desk.language.t("care.label"),
            statements=tuple(
                (statement.code, statement_words(statement, desk.language)) for statement in said
            ),
            source=statement_source(said[0], desk.language),
            paints=(),
        ),
    )
