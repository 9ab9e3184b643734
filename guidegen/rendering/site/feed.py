"""The newest guides as an Atom feed (RFC 4287), for readers that ask from time to time what is new."""

from __future__ import annotations

import datetime as dt
import posixpath
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from html import escape, unescape

from guidegen.base.paths import slug
from guidegen.model.guide import Guide
from guidegen.model.site import Site
from guidegen.model.web_address import WebAddress
from guidegen.rendering.guide.step_views import length
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.escaping import xml_text
from guidegen.rendering.page.passages import Passages
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import FEED, HOME, guide_file

MOST_ENTRIES = 30

# A feed has to say when it last changed, and there is no clock here: without a dated guide it says this.
_BEFORE_ANY = dt.date(1970, 1, 1)

# A tag says when its host was one's own; no site of ours is older.
_YEAR = 2026
_IDENTITY = re.compile("<id>([^<]*)</id>")

_SCHEME = re.compile("[A-Za-z][A-Za-z0-9+.-]*:")
_ADDRESS = re.compile(r'\b(href|src)="([^"]*)"')
# Sizes to choose from are for pages: feeds are read in a column.
_ENTRY = re.compile(r"<entry\b.*?</entry>", re.DOTALL)
_CHOICE = re.compile(r'<source [^>]*>|</?picture>| (?:srcset|sizes|loading|decoding)="[^"]*"')


def feed(
    guides: Mapping[str, Guide],
    newest: Iterable[Summary],
    context: SiteContext,
    url: WebAddress,
    kept: Mapping[str, str] | None = None,
) -> bytes:
    """The feed of the dated guides, drafts left out. `newest` are all in short, the newest first; `guides` by slug.
    `url` is the site's own address.

    `kept` has the entries of guides that are told of as they were in an earlier feed.
    A guide's day counts from midnight UTC; the latest of its days is when it changed. An entry's id is a tag (RFC 4151)
    with the guide's address, or the first that it had.
    """
    kept = kept or {}
    dated = [guide for guide in newest if guide.latest is not None and not guide.draft]
    dated.sort(key=lambda guide: guide.latest or _BEFORE_ANY, reverse=True)
    shown = [guide for guide in dated if guide.slug in guides or guide.slug in kept][:MOST_ENTRIES]
    site = context.site
    identity = feed_identity(site)
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="{xml_text(site.language)}">',
        f"<id>{xml_text(identity)}</id>",
        f'<title type="text">{xml_text(site.title)}</title>',
        f"<updated>{_moment(_changed(shown, site))}</updated>",
        f"<author><name>{xml_text(site.author or site.title)}</name></author>",
        _link("self", "application/atom+xml", url.file(FEED)),
        _link("alternate", "text/html", url.file(HOME)),
        f"<icon>{xml_text(url.file(context.assets.icon))}</icon>",
        "<generator>guidegen</generator>",
    ]
    ids = _ids([guide.slug for guide in shown if guide.slug in guides], guides, identity)
    for guide in shown:
        if guide.slug in guides:
            lines += _entry(guide, guides[guide.slug], ids[guide.slug], context, url)
        else:
            lines.append(kept[guide.slug])
    return ("\n".join([*lines, "</feed>"]) + "\n").encode()


def _changed(shown: Iterable[Summary], site: Site) -> dt.date:
    """The feed's own day. A guide that goes changes it too: else it would go back to that of the newest which is left."""
    days = *(guide.latest for guide in shown), *(one.date for one in site.gone.values())
    return max((day for day in days if day is not None), default=_BEFORE_ANY)


def entries_of(text: str, guides: Collection[str], url: WebAddress | None) -> dict[str, str]:
    """The entries that a feed of ours has for some guides, by slug. `url` is the site's address."""
    if url is None:
        return {}
    links = {_link("alternate", "text/html", url.file(guide_file(one))): one for one in guides}
    found: dict[str, str] = {}
    for entry in _ENTRY.findall(text):
        found.update((links[line], entry) for line in entry.splitlines() if line in links)
    return found


def _entry(
    short: Summary, guide: Guide, identity: str, context: SiteContext, url: WebAddress
) -> Iterable[str]:
    latest = short.latest or _BEFORE_ANY
    first = short.published or short.date or latest
    language = f' xml:lang="{xml_text(guide.language)}"' if guide.language else ""
    yield f"<entry{language}>"
    yield f"<id>{xml_text(identity)}</id>"
    yield f'<title type="text">{xml_text(short.title)}</title>'
    yield _link("alternate", "text/html", url.file(guide_file(short.slug)))
    yield f"<published>{_moment(first)}</published>"
    yield f"<updated>{_moment(latest)}</updated>"
    if guide.author:
        yield f"<author><name>{xml_text(guide.author)}</name></author>"
    yield from (f'<category term="{xml_text(tag)}"/>' for tag in short.tags)
    if guide.licence:
        yield f'<rights type="text">{xml_text(guide.licence)}</rights>'
    if short.summary:
        yield f'<summary type="text">{xml_text(short.summary)}</summary>'
    yield f'<content type="html">{xml_text(_content(short, guide, context, url))}</content>'
    yield "</entry>"


def _content(short: Summary, guide: Guide, context: SiteContext, url: WebAddress) -> str:
    """What a feed reader shows: photo, summary, the author's words before the steps, times, paints."""
    page = guide_file(short.slug)
    t = context.language.t
    parts = []
    picture = context.picture(short.cover, page, alt=short.title)
    if picture is not None:
        sizes = f'width="{picture.width}" height="{picture.height}"'
        parts.append(f'<p><img src="{picture.large}" {sizes} alt="{escape(picture.alt)}"></p>')
    if short.summary:
        parts.append(f"<p>{escape(short.summary)}</p>")
    # Steps have no place here to be led to.
    parts.append(_CHOICE.sub("", str(Passages(context=context, page=page).html(guide.body.before))))
    if short.total and not short.handbook:
        hands, clock = (length(time, context.language).text for time in (short.hands_on, short.total))
        told = t("figures.status", figures=t("figures.n", n=short.figures), hands=hands, clock=clock)
        parts.append(f"<p>{escape(told)}</p>")
    if short.needs:
        names = ", ".join(need.paint.full_name for need in short.needs)
        parts.append(f"<p>{escape(t('feed.paints', paints=names))}</p>")
    parts.append(f'<p><a href="#steps">{escape(t("feed.on"))}</a></p>')
    return _ADDRESS.sub(
        lambda found: f'{found[1]}="{escape(_whole(unescape(found[2]), page, url))}"',
        "\n".join(filter(None, parts)),
    )


def _whole(link: str, page: str, url: WebAddress) -> str:
    """A link of a page as it can be followed from anywhere. One with a scheme is whole and stays as it was read."""
    if _SCHEME.match(link):
        return link
    path, mark, place = link.partition("#")
    inside = posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) if path else page
    # It may lead above the site's own folder, to another page of the same host.
    whole = (
        url.origin + posixpath.normpath(url.folder + inside) if inside.startswith("..") else url.file(inside)
    )
    return whole + mark + place


def feed_identity(site: Site) -> str:
    """The feed's id, which those of its entries begin with: as the site says, else made of its address."""
    if site.feed_id or site.url is None:
        return site.feed_id
    host = site.url.origin.partition("://")[2]
    # An address of numbers is no name that a tag may have.
    return (
        f"tag:{host.partition(':')[0]},{_YEAR}:{site.url.folder}" if host[0] != "[" else site.url.file(HOME)
    )


def identity_in(text: str) -> str:
    """The id of a feed of ours, '' where it has none."""
    found = _IDENTITY.search(text)
    return unescape(found[1]) if found is not None else ""


def _ids(shown: Sequence[str], guides: Mapping[str, Guide], identity: str) -> dict[str, str]:
    """An id for each guide that stays when it is renamed: the first address it had, unless that is another's too."""
    first = {
        guide.slug: next((slug(name.text) for name in guide.was), guide.slug) for guide in guides.values()
    }
    taken = [*first.values(), *(one for one, old in first.items() if one != old)]
    ids = {one: first[one] if taken.count(first[one]) == 1 else one for one in shown}
    between = "" if identity.endswith(("/", ":")) else "/"
    return {one: f"{identity}{between}{guide_file(address, '')}" for one, address in ids.items()}


def _link(relation: str, media: str, address: str) -> str:
    return f'<link rel="{relation}" type="{media}" href="{xml_text(address)}"/>'


def _moment(day: dt.date) -> str:
    """RFC 3339, as RFC 4287 wants it: with seconds and a zone."""
    return f"{day.isoformat()}T00:00:00Z"
