"""Addresses that guides had before: each can lead to one guide, and to none where another lives today."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.paths import slug
from guidegen.base.source import Span
from guidegen.model.guide import Guide
from guidegen.model.names import Name


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
