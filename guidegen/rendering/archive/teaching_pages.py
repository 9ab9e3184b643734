"""The pages that teach: techniques in plain words, and cautions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode

from guidegen.base.units import MINUTE
from guidegen.computing.guide.cautions import ALWAYS, PRACTICE, Caution
from guidegen.computing.guide.hazards import Statement, read_entry
from guidegen.model.paint import Paint
from guidegen.model.technique import TECHNIQUES, Role, Technique
from guidegen.rendering.archive.guide_links import guide_link
from guidegen.rendering.guide.guide_view import CautionView, Fact
from guidegen.rendering.guide.step_views import caution_views, shared_title
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.caution_words import statement_source, statement_words
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import PotView, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import CAUTIONS, HOME, relative, technique_place
from guidegen.rendering.page.urls import TECHNIQUES as PAGE
from guidegen.words.language import Language, PhraseKey

# Past this a list of guides is no help on this page any more, and the home page's search takes over.
MOST_GUIDES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class TechniqueView:
    """One technique in plain words, its usual figures, and guides that use it; `more` leads to all where there are more."""

    name: str
    anchor: str
    words: str
    facts: tuple[Fact, ...]
    guides: tuple[Link, ...]
    more: Link | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TechniquesView:
    """The page of techniques, by what they do to the colour; each group by the key of its name, then shared lists."""

    groups: tuple[tuple[str, tuple[TechniqueView, ...]], ...]
    shared: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionsView:
    """The page of cautions: always, by way of working, and the labels' statements with the pots that carry them."""

    always: CautionView
    practices: tuple[CautionView, ...]
    labels: tuple[tuple[CautionView, tuple[PotView, ...]], ...]


def techniques_view(summaries: Iterable[Summary], context: SiteContext) -> TechniquesView:
    """Every technique of the table, by what it does to the colour of an area."""
    guides: dict[str, list[Link]] = {}
    for guide in summaries:
        for name in guide.techniques:
            guides.setdefault(name, []).append(guide_link(guide, PAGE))
    return TechniquesView(
        groups=tuple(
            (
                f"role.{role}",
                tuple(
                    _technique(row, guides.get(row.name, []), context.language)
                    for row in TECHNIQUES.values()
                    if row.role is role
                ),
            )
            for role in Role
        ),
        shared=tuple(
            Link(text=shared_title(name), href=relative(path, PAGE)) for name, path in context.shared.items()
        ),
    )


def _technique(row: Technique, guides: list[Link], language: Language) -> TechniqueView:
    facts = []
    if row.brush:
        facts.append(Fact(label=PhraseKey("fact.brush"), text=language.t(f"brush.{row.brush}")))
    if row.dry is not None:
        facts.append(
            Fact(label=PhraseKey("technique.dries"), text=language.duration(round(row.dry * MINUTE)))
        )
    name = language.t(f"technique.name.{row.name}")
    more = None
    if len(guides) > MOST_GUIDES:
        # Where scripts are off this leads to the list of all guides.
        search = f"{relative(HOME, PAGE)}#{urlencode({'q': name})}"
        more = Link(text=language.t("technique.all", n=len(guides)), href=search)
    return TechniqueView(
        name=name,
        anchor=technique_place(row.name).partition("#")[2],
        words=language.t(f"technique.words.{row.name}"),
        facts=tuple(facts),
        guides=tuple(guides[:MOST_GUIDES]),
        more=more,
    )


def cautions_view(context: SiteContext) -> CautionsView:
    """What to beware of at the bench, and what the labels of this palette say."""
    language = context.language
    carriers: dict[Statement, list[Paint]] = {}
    for paint in context.palette_tools.palette.paints:
        for entry in paint.hazards:
            for found in read_entry(entry.text):
                carriers.setdefault(found, []).append(paint)
    return CautionsView(
        always=_practice(ALWAYS, language),
        practices=tuple(_practice(key, language) for key in PRACTICE),
        labels=tuple(
            (
                CautionView(
                    subject=found.code,
                    statements=((found.code, statement_words(found, language)),),
                    source=statement_source(found, language),
                    paints=(),
                ),
                tuple(pot_view(paint, context, CAUTIONS) for paint in paints),
            )
            for found, paints in sorted(carriers.items(), key=lambda item: (item[0].code, item[0].substance))
        ),
    )


def _practice(key: str, language: Language) -> CautionView:
    (view,) = caution_views([Caution(key=key, steps=())], language)
    return view
