"""What the pages about the whole archive hold: home, schemes by colour, all paints, one pot, techniques, cautions."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.computing.guide.colour_families import Cover
from guidegen.rendering.guide.guide_view import CautionView, Fact, Length
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import MatchView, PotView
from guidegen.rendering.page.pictures import PictureView
from guidegen.rendering.theme.chips import Chip


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A guide on the home page."""

    title: str
    href: str
    summary: str
    picture: PictureView | None
    drawing: str
    strip: tuple[Chip, ...]
    figures: int
    timed: bool
    hands_on: Length
    total: Length
    tags: tuple[str, ...]
    draft: bool
    date: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideLine:
    """An older guide on the home page."""

    title: str
    href: str
    facts: str
    tags: tuple[str, ...]
    draft: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideYear:
    """The older guides of one year; `name` is '' for those without a date."""

    name: str
    lines: tuple[GuideLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinderView:
    """What guides are searched and sifted by, for the script alone: `index` is what it fetches, `words` what it says.

    `times` are minutes and their name; `shelf` is whether the pots at home leave some guides in and some out.
    """

    index: str
    tags: tuple[str, ...]
    times: tuple[tuple[int, str], ...]
    shelf: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeView:
    """The home page. `count` counts guides, `pots` paints and house mixes; `colours` leads to them by colour."""

    title: str
    cards: tuple[Card, ...]
    years: tuple[GuideYear, ...]
    count: int
    pots: int
    colours: str
    finder: FinderView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SchemeStrip:
    """A guide on the page of schemes by colour; `spread` is its colours by what they cover."""

    guide: Link
    spread: tuple[Cover, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyView:
    """A family of colours, `key` of its name, with its guides; `colours` are some of theirs, dark to light."""

    key: str
    anchor: str
    colours: tuple[Cover, ...]
    guides: tuple[SchemeStrip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ColoursView:
    """The page of schemes by colour; `plain` are guides without a colour that is known."""

    hues: tuple[FamilyView, ...]
    plain: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PotTile:
    """A pot on the page of all paints; `code` as on the pot, `used` in how many guides."""

    pot: PotView
    code: str
    owned: int
    discontinued: bool
    used: int


@dataclass(frozen=True, slots=True, kw_only=True)
class KindView:
    """Pots of one kind in one range; `kind` is the key of its name."""

    kind: str
    tiles: tuple[PotTile, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeView:
    """A range and its pots; `name` is '' for paints of none."""

    name: str
    key: str
    anchor: str
    facts: tuple[Fact, ...]
    note: str
    count: int
    trays: tuple[KindView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintsView:
    """The page of all paints."""

    racks: tuple[RangeView, ...]
    count: int
    owned: int
    exports: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UseView:
    """A guide that uses a pot, and its steps that do."""

    guide: Link
    steps: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PotPage:
    """The page of one paint or house mix. `parts` is what a mix is made of, `mixes` the mixes that a paint is in."""

    pot: PotView
    title: str
    colour: str
    estimate: bool
    discontinued: bool
    facts: tuple[Fact, ...]
    note: str
    credit: str
    parts: tuple[PotView, ...]
    uses: tuple[UseView, ...]
    closest: tuple[MatchView, ...]
    closest_owned: tuple[MatchView, ...]
    mixes: tuple[PotView, ...]
    twin: PotView | None
    cautions: tuple[CautionView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TechniqueView:
    """One technique in plain words, its usual figures, and guides that use it; `more` leads to all where there are more."""

    name: str
    anchor: str
    words: str
    facts: tuple[Fact, ...]
    guides: tuple[Link, ...]
    more: Link | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TechniquesView:
    """The page of techniques, by what they do to the colour; each group by the key of its name, then shared lists."""

    groups: tuple[tuple[str, tuple[TechniqueView, ...]], ...]
    shared: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionsView:
    """The page of cautions: always, by way of working, and the labels' statements with the pots that carry them."""

    always: CautionView
    practices: tuple[CautionView, ...]
    labels: tuple[tuple[CautionView, tuple[PotView, ...]], ...]
