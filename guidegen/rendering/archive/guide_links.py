"""Links from pages about all guides to a guide and to its steps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.computing.guide.shelf import Work
from guidegen.rendering.guide.summary import StepPlace
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.urls import guide_file, relative

# An undercoat is used by every guide of an archive: a page that leads to all of their steps would hardly load.
MOST_WITH_STEPS = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class UseView:
    """A guide that uses a pot or a shared list, and its steps that do."""

    guide: Link
    steps: tuple[Link, ...]


def guide_link(guide: Work, page: str) -> Link:
    """A guide by its title."""
    return Link(text=guide.title, href=relative(guide_file(guide.slug), page))


def use_views(uses: Iterable[tuple[Work, Iterable[StepPlace]]], page: str) -> tuple[UseView, ...]:
    """Guides with links to the steps that use something; past MOST_WITH_STEPS guides their names alone."""
    return tuple(
        UseView(
            guide=guide_link(guide, page),
            steps=tuple(_step_link(guide, step, page) for step in steps) if at < MOST_WITH_STEPS else (),
        )
        for at, (guide, steps) in enumerate(uses)
    )


def _step_link(guide: Work, step: StepPlace, page: str) -> Link:
    return Link(text=str(step.n), href=relative(f"{guide_file(guide.slug)}#{step.anchor}", page))
