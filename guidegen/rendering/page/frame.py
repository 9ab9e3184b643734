"""What stands around every page: its head, the way to the other pages, the foot."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from urllib.parse import quote

from guidegen.model.web_address import WebAddress
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.offline import Offline, offline_of
from guidegen.rendering.page.sharing import Share, share_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture
from guidegen.rendering.page.urls import (
    CAUTIONS,
    COLOURS,
    HOME,
    MY_POTS,
    PAINTS,
    PLANS,
    SHELF,
    TECHNIQUES,
    TRYING,
)

# Nothing but the site's own files: no inline style or script. Works from file:// too, where Chromium takes 'self' for
# the file scheme. `connect-src` is for what the site itself asks of its own files.
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"
)

# The pages that every page leads to, that of plans only where there are any; a phone has the rest under one word.
PLACES = (
    (HOME, "nav.guides"),
    (PAINTS, "nav.paints"),
    (PLANS, "nav.plans"),
    (MY_POTS, "nav.mine"),
)
MORE_PLACES = (
    (TRYING, "nav.try"),
    (COLOURS, "nav.colours"),
    (SHELF, "nav.shelf"),
    (TECHNIQUES, "nav.techniques"),
    (CAUTIONS, "nav.cautions"),
)

# Near enough to an address of mail to be made a link; whether anybody reads there, no pattern tells.
_MAIL = re.compile(r"[^\s@<>\"]+@[^\s@<>\"]+\.[^\s@<>\"]+")

# Letters that just fit the largest type on a phone.
LONG_WORD = 13


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What stands around a page. Links are relative to it, and '' where they would lead nowhere.

    `nav` leads to the site's own pages, the first `often` of them always in view, `menu` and `foot` to its pages of
    words. `script` is '' on pages that need none, `share` None where the site's address is not known, `data` a block of
    JSON-LD about the page, '' for none, `offline` None on pages that are not kept for use without a network.
    """

    title: str
    description: str
    language: str
    direction: str
    site_title: str
    author: str
    home: str
    style: str
    script: str
    icon: str
    policy: str
    nav: tuple[Link, ...]
    often: int
    menu: tuple[Link, ...] = ()
    foot: tuple[Link, ...] = ()
    licence: str = ""
    contact: Link | None = None
    share: Share | None = None
    data: str = ""
    offline: Offline | None = None


def frame_of(
    context: SiteContext,
    page: str,
    kind: str,
    *,
    title: str = "",
    description: str = "",
    script: str = "",
    style: str = "",
    canonical: str = "",
    social: SocialPicture | None = None,
    language: str = "",
    data: str = "",
    kept_with: str = "",
) -> Frame:
    """The frame of a page of the site; a page without a title of its own has the site's.

    `kind` names the sentence that describes the page where it has no `description` of its own. `script` is the asset that
    the page runs, '' for none, `style` its stylesheet, '' for the site's. For `canonical`, `social` and `language` see
    `share_of`. A page that is kept for use without a network is kept together with the page `kept_with`, '' for none.
    """
    site, to = context.site.title, context.links.to
    about = description or context.language.t(f"about.{kind}", title=title)
    share = share_of(
        context, page, title or site, about, canonical=canonical, social=social, language=language
    )
    return replace(
        _of_every_page(context, page),
        title=f"{title} · {site}" if title else site,
        description=about,
        style=to(style or context.assets.style, page),
        script=to(script, page) if script else "",
        share=share,
        data=data,
        offline=offline_of(context, page, kept_with) if kept_with else None,
    )


def _of_every_page(context: SiteContext, page: str) -> Frame:
    """What all pages of the site have around them; of its own a page has a title, and more."""
    site, language, to = context.site, context.language, context.links.to
    often = _nav(PLACES, context, page)
    return Frame(
        title=site.title,
        description="",
        language=language.code,
        direction=language.direction,
        site_title=site.title,
        author=site.author,
        home=to(HOME, page),
        style="",
        script="",
        icon=to(context.assets.icon, page),
        policy=POLICY,
        nav=(*often, *_nav(MORE_PLACES, context, page)),
        often=len(often),
        menu=_pages(context, page, menu=True),
        foot=_pages(context, page, menu=False),
        licence=site.licence,
        contact=_contact(site.contact),
    )


def _nav(places: Iterable[tuple[str, str]], context: SiteContext, page: str) -> tuple[Link, ...]:
    return tuple(
        Link(text=key, href=href, current=path == page)
        for path, key in places
        if (path != PLANS or context.plans) and (href := context.links.to(path, page))
    )


def _pages(context: SiteContext, page: str, *, menu: bool) -> tuple[Link, ...]:
    links = ((one, context.links.to(one.path, page)) for one in context.pages if one.menu == menu)
    return tuple(Link(text=one.title, href=to, current=one.path == page) for one, to in links if to)


def _contact(said: str) -> Link | None:
    """Whom to write to: a link where it is an address, else the words; None where nobody says."""
    if not said:
        return None
    address = WebAddress.parse(said)
    mail = f"mailto:{quote(said, safe='@')}" if _MAIL.fullmatch(said) else ""
    return Link(text=said, href=said if address is not None else mail)


def is_long(title: str) -> bool:
    """Whether a word of a title is too long for the largest type."""
    return max((len(word) for word in title.split()), default=0) > LONG_WORD
