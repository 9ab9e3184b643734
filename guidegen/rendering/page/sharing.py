"""What a page's head tells those who link to it: its one address, the feed, a title, a sentence and a picture."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import HEIGHT, WIDTH, SocialPicture
from guidegen.rendering.page.urls import FEED, relative

# Where a language names no territory, the one where most speak it: Unicode CLDR, likely subtags (from memory).
_TERRITORIES = {
    "cs": "CZ", "cy": "GB", "da": "DK", "de": "DE", "en": "US", "es": "ES", "fi": "FI", "fr": "FR", "ga": "IE",
    "it": "IT", "ja": "JP", "nb": "NO", "nl": "NL", "pl": "PL", "pt": "BR", "sv": "SE",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """`feed` is relative to the page. `meta` are properties of the Open Graph protocol (https://ogp.me) in order."""

    canonical: str
    feed: str
    meta: tuple[tuple[str, str], ...]


def share_of(
    context: SiteContext,
    page: str,
    title: str,
    description: str,
    *,
    canonical: str = "",
    social: SocialPicture | None = None,
    language: str = "",
) -> Share | None:
    """What the head of a page tells, None where the site's address is not known.

    `canonical` is the path of the page that holds all that this one holds, '' for itself (RFC 6596). A page with a
    picture of its own, `social`, is about one guide. `language` is its author's, '' for the site's.
    """
    site = context.site.url
    if site is None:
        return None
    address = site.file(canonical or page)
    meta = [
        ("og:title", title),
        ("og:description", description),
        ("og:type", "article" if social else "website"),
        ("og:url", address),
        ("og:site_name", context.site.title),
        ("og:locale", locale_of(language or context.site.language)),
    ]
    if social is None and context.socials is not None:
        social = context.socials.of_site(context.site.title, context.language)
    if social is not None:
        meta += _image(site.file(social.path), social)
    return Share(
        canonical=address,
        feed=relative(FEED, page),
        meta=tuple((name, value) for name, value in meta if value),
    )


def _image(address: str, social: SocialPicture) -> list[tuple[str, str]]:
    return [
        ("og:image", address),
        ("og:image:type", "image/jpeg"),
        ("og:image:width", str(WIDTH)),
        ("og:image:height", str(HEIGHT)),
        ("og:image:alt", social.alt),
    ]


def locale_of(tag: str) -> str:
    """A language tag as the Open Graph protocol wants it, `de_CH`; '' where nobody knows the territory."""
    language, *rest = tag.split("-")
    territory = next((part.upper() for part in rest if len(part) == 2 and part.isalpha()), "")
    territory = territory or _TERRITORIES.get(language.lower(), "")
    return f"{language.lower()}_{territory}" if territory else ""
