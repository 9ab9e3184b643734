"""A shared list's page: its steps as guides show them, and the guides and lists that insert it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from guidegen.base.paths import slug
from guidegen.computing.batch import passes_of, timeline
from guidegen.computing.worked import Worked, work_out
from guidegen.model.guide import Guide, Insert, Shared, Step, Stop
from guidegen.rendering.archive_view import UseView
from guidegen.rendering.area_view import Link
from guidegen.rendering.desk import Desk
from guidegen.rendering.guide_view import CautionView, StepView, StopView
from guidegen.rendering.passages import Passages
from guidegen.rendering.step_views import Bench, caution_views, flow
from guidegen.rendering.summary import Summary, step_anchors
from guidegen.rendering.urls import guide_file, relative
from guidegen.rendering.wet_line import wet_line


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


def shared_title(name: str) -> str:
    """A shared list's file name as words: it has no other title."""
    words = name.replace("-", " ")
    return words[:1].upper() + words[1:]


def shared_view(
    one: Shared,
    every: Iterable[Shared],
    guides: Iterable[Inserting],
    summaries: Iterable[Summary],
    desk: Desk,
) -> SharedView:
    """Everything on the page of one shared list. `guides` are those with a page, told of in `summaries`."""
    page = desk.shared[one.name]
    worked = _alone(one, desk)
    inserting = {guide.slug for guide in guides if one.name in guide.inserts}
    return SharedView(
        title=shared_title(one.name),
        count=len(worked.scheme.steps),
        flow=tuple(_flow(one, worked, desk, page)),
        cautions=caution_views((caution for caution in worked.cautions if not caution.steps), desk.language),
        guides=tuple(_use(summary, one, desk, page) for summary in summaries if summary.slug in inserting),
        lists=tuple(
            _list_link(other.name, desk, page)
            for other in every
            if other.name in desk.shared and one.name in _inserts(other)
        ),
    )


def _alone(one: Shared, desk: Desk) -> Worked:
    """The list's own steps worked out as if they were a guide, those of all variants together."""
    entries = tuple(
        replace(entry, only={}, shared=None) if isinstance(entry, Step) else entry
        for entry in one.entries
        if not isinstance(entry, Insert)
    )
    guide = Guide(
        slug=one.name, file=one.span.file, title=shared_title(one.name), entries=entries, span=one.span
    )
    return work_out(guide, desk.workshop)


def _flow(one: Shared, worked: Worked, desk: Desk, page: str) -> Iterable[StepView | StopView | InsertView]:
    links = {
        row.n: Link(text=row.step.title, href=f"#{place}")
        for row, place in zip(worked.scheme.steps, step_anchors(worked), strict=True)
    }
    line = wet_line(timeline(passes_of(worked.scheme), 1), {row.n: () for row in worked.scheme.steps})
    passages = Passages(desk=desk, page=page)
    bench = Bench(worked=worked, desk=desk, page=page, links=links, line=line, passages=passages)
    own = iter(flow(bench))
    for entry in one.entries:
        if isinstance(entry, Insert):
            yield InsertView(link=_list_link(slug(entry.name.text), desk, page))
            continue
        view = next(own)
        if isinstance(entry, Stop) or isinstance(view, StopView):
            yield view
            continue
        only = [desk.language.t("label.only", option=option.text) for option in entry.only.values()]
        yield replace(view, labels=(*(Link(text=text, href="") for text in only), *view.labels))


def _inserts(one: Shared) -> Sequence[str]:
    return [slug(entry.name.text) for entry in one.entries if isinstance(entry, Insert)]


def _list_link(name: str, desk: Desk, page: str) -> Link:
    return Link(
        text=shared_title(name), href=relative(desk.shared[name], page) if name in desk.shared else ""
    )


def _use(summary: Summary, one: Shared, desk: Desk, page: str) -> UseView:
    path = guide_file(summary.slug)
    return UseView(
        guide=Link(text=desk.guides[summary.slug], href=relative(path, page)),
        steps=tuple(
            Link(text=str(place.n), href=relative(f"{path}#{place.anchor}", page))
            for name, place in summary.inserted
            if name == one.name
        ),
    )
