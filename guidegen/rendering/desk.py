"""What every page is made from and shares: the site, its language, its palette's chips, addresses, pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.computing.layers import Relief, film_over
from guidegen.computing.mixing import Mixer
from guidegen.computing.scheme import Blend, BlendPart
from guidegen.computing.workshop import Workshop
from guidegen.model.chart import Chart
from guidegen.model.paint import FILMS, Kind, Mix, Paint
from guidegen.model.site import Archive, Site
from guidegen.rendering.chips import CARD_GREY, CARD_WHITE, Chip, look_of
from guidegen.rendering.language import Language
from guidegen.rendering.pictures import Pictures
from guidegen.rendering.socials import Socials
from guidegen.rendering.strings import language_of
from guidegen.rendering.urls import pot_pages, shared_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Assets:
    """The site's own files by their paths in it; `icons` in pixels by their side."""

    style: str
    script: str
    icon: str
    plan: str = ""
    bench: str = ""
    keep: str = ""
    search: str = ""
    icons: tuple[tuple[int, str], ...] = ()


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
class Desk:
    """One build's shared things. `guides` has the titles of the guides that get a page, by slug.

    `shared` has the pages of the shared lists, by name; `plans` says whether there is a page of plans. `socials` is
    None where no pictures for sharing are made.
    """

    site: Site
    workshop: Workshop
    language: Language
    pots: Mapping[str, str]
    chips: Chips
    assets: Assets
    pictures: Pictures = field(default_factory=dict)
    guides: Mapping[str, str] = field(default_factory=dict)
    shared: Mapping[str, str] = field(default_factory=dict)
    plans: bool = False
    charts: Mapping[str, Chart] = field(default_factory=dict)
    socials: Socials | None = None

    @classmethod
    def of(
        cls,
        archive: Archive,
        workshop: Workshop,
        assets: Assets,
        pictures: Pictures | None = None,
        socials: Socials | None = None,
    ) -> Desk:
        """Lay everything out for an archive whose guides all get a page."""
        return cls(
            site=archive.site,
            workshop=workshop,
            language=language_of(archive.site.language),
            pots=pot_pages(workshop.palette),
            chips=Chips(workshop.mixer),
            assets=assets,
            pictures=pictures or {},
            guides={guide.slug: guide.title for guide in archive.guides},
            shared={one.name: shared_file(one.name) for one in archive.shared},
            plans=bool(archive.plans),
            charts=archive.charts,
            socials=socials,
        )
