"""Links from pages about all guides to a guide and to its steps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.computing.guide.shelf import Work
from guidegen.rendering.guide.summary import StepPlace
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.urls import guide_file, relative


@dataclass(frozen=True, slots=True, kw_only=True)
class UseView:
    """A guide that uses a pot or a shared list, and its steps that do."""

    guide: Link
    steps: tuple[Link, ...]


def guide_link(guide: Work, page: str) -> Link:
    """A guide by its title."""
    return Link(text=guide.title, href=relative(guide_file(guide.slug), page))


def use_view(guide: Work, steps: Iterable[StepPlace], page: str) -> UseView:
    """A guide and some of its steps by their numbers."""
    path = guide_file(guide.slug)
    return UseView(
        guide=guide_link(guide, page),
        steps=tuple(Link(text=str(step.n), href=relative(f"{path}#{step.anchor}", page)) for step in steps),
    )
