"""The addresses of guides: by their titles, and by addresses that they had before.

An old address can lead to one guide, and to none where another lives today.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from html import escape, unescape

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.paths import slug
from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.model.guide import Body, Guide, Passage
from guidegen.model.names import Name
from guidegen.model.plan import Plan
from guidegen.model.site import TextPage
from guidegen.reading.markdown.body import LINK_HOLDER


@dataclass(frozen=True, slots=True)
class CurrentAddresses:
    """Puts the address that a guide has now wherever it is named by its title or an old address.

    `by_name` leads from titles and old addresses, folded, to current ones; `in_use` are all current ones.
    """

    by_name: Mapping[str, str]
    in_use: frozenset[str]

    @classmethod
    def of(cls, guides: Sequence[Guide], in_use: frozenset[str]) -> CurrentAddresses:
        """Titles that two guides have lead nowhere."""
        titled: dict[str, list[str]] = {}
        for guide in guides:
            titled.setdefault(folded(guide.title), []).append(guide.slug)
        old = {folded(slug(name.text)): guide.slug for guide in reversed(guides) for name in guide.was}
        return cls(old | {title: one[0] for title, one in titled.items() if len(one) == 1 and title}, in_use)

    def in_guide(self, guide: Guide) -> Guide:
        """A guide whose `see` and links have current addresses; the same guide where they have."""
        see, body = tuple(map(self._current, guide.see)), guide.body
        if any(passage.links for passage in body.passages):
            body = Body(
                before=self._linked(body.before),
                under={number: self._linked(passage) for number, passage in body.under.items()},
                after=self._linked(body.after),
            )
        return guide if (see, body) == (guide.see, guide.body) else replace(guide, see=see, body=body)

    def in_plan(self, plan: Plan) -> Plan:
        """A plan whose units have current addresses."""
        units = tuple(replace(unit, guide=self._current(unit.guide)) for unit in plan.units)
        return plan if units == plan.units else replace(plan, units=units)

    def in_page(self, page: TextPage) -> TextPage:
        """A page of words whose links have current addresses."""
        text = self._linked(page.text)
        return page if text == page.text else replace(page, text=text)

    def _current(self, name: Name) -> Name:
        address = self.by_name.get(folded(name.text))
        return name if address is None or folded(name.text) in self.in_use else replace(name, text=address)

    def _linked(self, passage: Passage) -> Passage:
        moved = {name.text: self._current(name) for name in passage.links}
        links = tuple(moved[name.text] for name in passage.links)
        if links == passage.links:
            return passage

        def holder(found: re.Match[str]) -> str:
            name = moved.get(unescape(found[2])) if found[1] == "guide" else None
            return found[0] if name is None else f'<a data-to="guide:{escape(name.text)}">'

        return replace(passage, html=LINK_HOLDER.sub(holder, passage.html), links=links)


def old_addresses(guides: Iterable[Guide], addresses: Mapping[str, str]) -> Iterator[Diagnostic]:
    """two-guides-one-address for old addresses that a guide has, or that two guides claim.

    `addresses` leads from the slug of every guide to its file.
    """
    claimed: dict[str, tuple[Guide, Name]] = {}
    for guide in guides:
        for name in guide.was:
            wanted = slug(name.text)
            if wanted in addresses:
                own = wanted == guide.slug
                has_it = Related(span=Span.of_file(addresses[wanted]), message="has this address.")
                yield _taken(
                    name,
                    "is this guide's address today, so it is no old one"
                    if own
                    else f"is the address of {addresses[wanted]}, so it cannot lead here as well",
                    None if own else has_it,
                )
                continue
            other, first = claimed.setdefault(wanted, (guide, name))
            if first is not name:
                yield _taken(
                    name,
                    "is in this list already"
                    if other is guide
                    else f"is an old address of {other.file} as well, and can lead to one guide only",
                    Related(span=first.span, message="claims it first."),
                )


def _taken(name: Name, words: str, related: Related | None) -> Diagnostic:
    return Diagnostic(
        code="two-guides-one-address",
        message=f"“{name.text}” {words}.",
        span=name.span,
        help="Take it out of was:" + (", or rename one of the guides." if related else "."),
        related=(related,) if related else (),
    )
