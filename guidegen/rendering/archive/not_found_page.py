"""The 404 page. It may be served at any depth, so it has its style in itself and needs no other file."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import dataclass

from guidegen.model.site import Site
from guidegen.rendering.page.urls import HOME, home_from_anywhere
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class NotFoundView:
    """`policy` allows the one style by its hash; `home` is absolute where the site's address is known, and `address` is then
    that of its home page in the world: a copy of the site may lie elsewhere, where `home` leads nowhere. `unsure` is
    whether `home` leads home only where the page itself lies: then the page says how else to come there.
    """

    language: str
    direction: str
    site_title: str
    style: str
    policy: str
    home: str
    address: str
    unsure: bool


def not_found_view(site: Site, language: Language, templates: Templates) -> NotFoundView:
    """The values of the page."""
    style = re.sub(r"\s*\n\s*", "", templates.source("style/404.css"))
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return NotFoundView(
        language=language.code,
        direction=language.direction,
        site_title=site.title,
        style=style,
        policy=f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'",
        home=home_from_anywhere(site.url),
        address=site.url.file(HOME) if site.url else "",
        unsure=site.url is None,
    )
