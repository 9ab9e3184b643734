"""What every page is made from and shares: the site, its language, its palette's chips, addresses, pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.colour.layers import Relief, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.chart import Chart
from guidegen.model.paint import FILMS, Kind, Mix, Paint
from guidegen.model.site import Archive, Site
from guidegen.rendering.page.pictures import Pictures
from guidegen.rendering.page.social_pictures import SocialPictures
from guidegen.rendering.page.urls import pot_pages, shared_file
from guidegen.rendering.theme.assets import Assets
from guidegen.rendering.theme.chips import CARD_GREY, CARD_WHITE, Chip, look_of
from guidegen.words.catalogue import language_of
from guidegen.words.language import Language


class Chips:
    """Chips of pots and blends, each worked out once."""

    def __init__(self, mixer: Mixer) -> None:
        """Nothing is worked out before it is asked for."""
        self._mixer = mixer
        self._known: dict[Blend, Chip] = {}

    def of_pot(self, pot: Paint | Mix) -> Chip:
        """The chip of one pot."""
        return self.of(Blend((BlendPart(pot, 1.0),)))

    def of(self, blend: Blend) -> Chip:
        """The chip of what is on the brush."""
        chip = self._known.get(blend)
        if chip is None:
            chip = self._known[blend] = self._made(blend)
        return chip

    def _made(self, blend: Blend) -> Chip:
        found = self._mixer.predict(blend)
        kind = self._mixer.kind(blend)
        film = None
        if kind in FILMS and found.colour:
            film = self._film(found.colour, kind, self._mixer.film_strength(blend))
        return Chip(look=look_of(kind), fill=found.colour, film=film, estimate=found.estimate)

    @staticmethod
    def _film(colour: str, kind: Kind, strength: float) -> tuple[str, str]:
        white, grey = (
            film_over(Relief.of_one(card), colour, strength=strength, technique=kind.value).flats or colour
            for card in (CARD_WHITE, CARD_GREY)
        )
        return white, grey


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteContext:
    """One build's shared things. `guides` has the titles of the guides that get a page, by slug.

    `shared` has the pages of the shared lists, by name; `plans` says whether there is a page of plans. `socials` is
    None where no pictures for sharing are made.
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
    charts: Mapping[str, Chart] = field(default_factory=dict)
    socials: SocialPictures | None = None

    @classmethod
    def of(
        cls,
        archive: Archive,
        palette_tools: PaletteTools,
        assets: Assets,
        pictures: Pictures | None = None,
        socials: SocialPictures | None = None,
    ) -> SiteContext:
        """Lay everything out for an archive whose guides all get a page."""
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
            charts=archive.charts,
            socials=socials,
        )
