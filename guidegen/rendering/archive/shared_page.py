"""A shared list's page: its steps as guides show them, and the guides and lists that insert it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from guidegen.base.paths import slug
from guidegen.computing.guide.computed_guide import ComputedGuide, compute_guide
from guidegen.model.guide import Guide, Insert, Shared, Step, Stop
from guidegen.rendering.archive.guide_links import UseView, use_views
from guidegen.rendering.guide.guide_view import CautionView, StepView, StopView
from guidegen.rendering.guide.step_views import StepContext, caution_views, flow, shared_title
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import relative


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertView:
    """Another shared list that is inserted here."""

    link: Link
    kind: str = "insert"


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedView:
    """The page of one shared list. `count` counts its own steps."""

    title: str
    count: int
    flow: tuple[StepView | StopView | InsertView, ...]
    cautions: tuple[CautionView, ...]
    guides: tuple[UseView, ...]
    lists: tuple[Link, ...]


class Inserting(Protocol):
    """A guide by its address, and the shared lists that it inserts."""

    @property
    def slug(self) -> str: ...
    @property
    def inserts(self) -> Sequence[str]: ...


def shared_view(
    one: Shared,
    every: Iterable[Shared],
    guides: Iterable[Inserting],
    summaries: Iterable[Summary],
    context: SiteContext,
) -> SharedView:
    """Everything on the page of one shared list. `guides` are those with a page, told of in `summaries`."""
    page = context.shared[one.name]
    computed = _alone(one, context)
    inserting = {guide.slug for guide in guides if one.name in guide.inserts}
    return SharedView(
        title=shared_title(one.name),
        count=len(computed.scheme.steps),
        flow=tuple(_flow(one, computed, context, page)),
        cautions=caution_views(
            (caution for caution in computed.cautions if not caution.steps), context.language
        ),
        guides=use_views(
            (
                (guide, [place for name, place in guide.inserted if name == one.name])
                for guide in summaries
                if guide.slug in inserting
            ),
            page,
        ),
        lists=tuple(
            _list_link(other.name, context, page)
            for other in every
            if other.name in context.shared and one.name in _inserts(other)
        ),
    )


def _alone(one: Shared, context: SiteContext) -> ComputedGuide:
    """The list's own steps computed as if they were a guide, those of all variants together."""
    entries = tuple(
        replace(entry, only={}, shared=None) if isinstance(entry, Step) else entry
        for entry in one.entries
        if not isinstance(entry, Insert)
    )
    guide = Guide(
        slug=one.name, file=one.span.file, title=shared_title(one.name), entries=entries, span=one.span
    )
    return compute_guide(guide, context.palette_tools)


def _flow(
    one: Shared, computed: ComputedGuide, context: SiteContext, page: str
) -> Iterable[StepView | StopView | InsertView]:
    unpainted: dict[int, tuple[str, ...]] = {row.n: () for row in computed.scheme.steps}
    own = iter(flow(StepContext.of(computed, context, page, figures=1, colours=unpainted)))
    for entry in one.entries:
        if isinstance(entry, Insert):
            yield InsertView(link=_list_link(slug(entry.name.text), context, page))
            continue
        view = next(own)
        if isinstance(entry, Stop) or isinstance(view, StopView):
            yield view
            continue
        only = [context.language.t("label.only", option=option.text) for option in entry.only.values()]
        yield replace(view, labels=(*(Link(text=text, href="") for text in only), *view.labels))


def _inserts(one: Shared) -> Sequence[str]:
    return [slug(entry.name.text) for entry in one.entries if isinstance(entry, Insert)]


def _list_link(name: str, context: SiteContext, page: str) -> Link:
    return Link(
        text=shared_title(name), href=relative(context.shared[name], page) if name in context.shared else ""
    )
