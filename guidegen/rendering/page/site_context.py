"""What all pages of a site are made from: its settings, language, palette, assets, and the addresses of other pages."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.chart import Chart
from guidegen.model.names import Photo
from guidegen.model.site import Archive, Site, TextPage
from guidegen.rendering.page.chips import Chips
from guidegen.rendering.page.pictures import Pictures, PictureView
from guidegen.rendering.page.site_links import Links, SiteLinks
from guidegen.rendering.page.social_pictures import SocialPictures
from guidegen.rendering.page.urls import person_file, pot_pages, shared_file, text_page_file
from guidegen.rendering.theme.assets import Assets
from guidegen.words.language import Language, language_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLink:
    """A page of words as every page leads to it: from the menu, or from the foot."""

    path: str
    title: str
    menu: bool
    order: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteContext:
    """What is the same for every page of one build.

    `pots` has the pages of paints and house mixes by full name, `guides` the titles of the guides that get a page by
    slug, `shared` the pages of the shared lists by name, `charts` the figure charts by guide. `pages` are the pages of
    words in their order, `plans` is whether there is a page of plans, `socials` is None where no pictures for sharing
    are made.
    """

    site: Site
    palette_tools: PaletteTools
    language: Language
    pots: Mapping[str, str]
    chips: Chips
    assets: Assets
    pictures: Pictures = field(default_factory=dict)
    guides: Mapping[str, str] = field(default_factory=dict)
    shared: Mapping[str, str] = field(default_factory=dict)
    plans: bool = False
    pages: tuple[PageLink, ...] = ()
    charts: Mapping[str, Chart] = field(default_factory=dict)
    socials: SocialPictures | None = None
    links: Links = field(default_factory=SiteLinks)

    def picture(self, photo: Photo | None, page: str, *, alt: str = "") -> PictureView | None:
        """A photo as a page shows it, None where there is none to show. `alt` stands where the author gave none."""
        picture = self.pictures.get(photo.path) if photo is not None and photo.path else None
        if photo is None or picture is None:
            return None
        return self.links.picture(picture, page, alt=photo.alt or alt, caption=self._caption(photo))

    def _caption(self, photo: Photo) -> str:
        """What stands under a photo, with who took it and on what terms."""
        credit = self.language.t("photo.by", name=photo.by) if photo.by else ""
        licence = self.language.t("licence", licence=photo.licence) if photo.licence else ""
        return " · ".join(filter(None, (photo.caption, credit, licence)))

    def person_page(self, name: str) -> str:
        """The page of somebody by their name, '' for one who has none."""
        return next((person_file(one.key) for one in self.site.people if one.name == name), "")

    @classmethod
    def of(
        cls,
        archive: Archive,
        palette_tools: PaletteTools,
        assets: Assets,
        pictures: Pictures | None = None,
        socials: SocialPictures | None = None,
    ) -> SiteContext:
        """For an archive whose guides all get a page."""
        return cls(
            site=archive.site,
            palette_tools=palette_tools,
            language=language_of(archive.site.language),
            pots=pot_pages(palette_tools.palette),
            chips=Chips(palette_tools.mixer),
            assets=assets,
            pictures=pictures or {},
            guides={guide.slug: guide.title for guide in archive.guides},
            shared={one.name: shared_file(one.name) for one in archive.shared},
            plans=bool(archive.plans),
            pages=in_their_order(page_link(page) for page in archive.pages),
            charts=archive.charts,
            socials=socials,
        )


def page_link(page: TextPage) -> PageLink:
    """How every page leads to a page of words."""
    return PageLink(path=text_page_file(page.slug), title=page.title, menu=page.menu, order=page.order)


def in_their_order(pages: Iterable[PageLink]) -> tuple[PageLink, ...]:
    """Pages of words as they stand in the menu and the foot."""
    return tuple(sorted(pages, key=lambda page: (page.order, page.title.casefold(), page.path)))
