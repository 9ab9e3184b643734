"""The page of somebody who paints or writes: their guides, and what they painted by whose guides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.model.site import Person
from guidegen.rendering.archive.home_page import facts_of
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import guide_file, person_file, relative


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonView:
    """Somebody. `counts` says how many guides, figures and hours; `guides` are theirs, each with a line of facts."""

    name: str
    link: str
    counts: str
    guides: tuple[tuple[Link, str], ...]
    painted: tuple[tuple[Link, str], ...]


def person_view(person: Person, ordered: Sequence[Summary], context: SiteContext) -> PersonView:
    """The page of one person, guides in the order given."""
    page, t = person_file(person.key), context.language.t
    own = [guide for guide in ordered if person.name in guide.authors]
    batches = {guide.slug: [one for one in guide.painted if person.name in one.by] for guide in ordered}
    figures = sum(one.figures for several in batches.values() for one in several)
    hands_on = sum(one.hands_on for several in batches.values() for one in several)
    counts = [t("person.guides", n=len(own))]
    if figures:
        counts += [t("figures.n", n=figures), t("person.hours", time=context.language.duration(hands_on))]

    def link(guide: Summary) -> Link:
        return Link(text=guide.title, href=relative(guide_file(guide.slug), page))

    return PersonView(
        name=person.name,
        link=person.link.text if person.link is not None else "",
        counts=" · ".join(counts),
        guides=tuple((link(guide), facts_of(guide, context.language)) for guide in own),
        painted=tuple(
            (link(guide), t("figures.n", n=sum(one.figures for one in batches[guide.slug])))
            for guide in ordered
            if batches[guide.slug]
        ),
    )
