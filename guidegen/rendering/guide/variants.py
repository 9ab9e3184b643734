"""The variants of a guide: a page for each, so that the reader's choice needs no script."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product

from guidegen.model.guide import MOST_VARIANTS, Guide
from guidegen.rendering.guide.guide_view import ChoiceView
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_links import Links
from guidegen.rendering.page.urls import HOME, anchors, guide_file

Choice = Mapping[str, str]


def variants(guide: Guide) -> dict[str, Choice]:
    """The choices that get a page, by its path in the site; the guide's own page has the first options."""
    names = list(guide.choose)
    first: Choice = guide.default_choice
    every: list[Choice] = [
        dict(zip(names, options, strict=True)) for options in product(*guide.choose.values())
    ]
    if len(every) > MOST_VARIANTS:
        every = [first, *({**first, name: option} for name in names for option in guide.choose[name][1:])]
    others: list[Choice] = [choice for choice in every if choice != first]
    words = (
        " ".join(option for name, option in choice.items() if option != first[name]) for choice in others
    )
    files = [f"{place}.html" for place in anchors(words, "with-")]
    return {guide_file(guide.slug, HOME): first} | {
        guide_file(guide.slug, file): choice for file, choice in zip(files, others, strict=True)
    }


def choice_views(
    guide: Guide, pages: Mapping[str, Choice], page: str, links: Links
) -> tuple[ChoiceView, ...]:
    """What the reader of one variant can choose, the other choices staying as they are where that has a page.

    Where no page leads to another, all that is offered is what the reader has.
    """
    here = pages[page]
    by_choice = {tuple(sorted(choice.items())): path for path, choice in pages.items()}

    def page_of(name: str, option: str) -> str:
        wanted = tuple(sorted({**here, name: option}.items()))
        alone = tuple(sorted((guide.default_choice | {name: option}).items()))
        return by_choice.get(wanted) or by_choice[alone]

    return tuple(
        ChoiceView(
            name=name,
            options=tuple(
                Link(text=option, href=href, current=here[name] == option)
                for option in options
                if (href := links.to(page_of(name, option), page)) or here[name] == option
            ),
        )
        for name, options in guide.choose.items()
        if len(options) > 1
    )
