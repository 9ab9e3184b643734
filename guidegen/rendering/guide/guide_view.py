"""The values that a guide's page shows: templates only lay them out."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.rendering.guide.scheme_views import DaubRow, Matrix
from guidegen.rendering.guide.timeline import TimelineRow
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.own_pots import OwnPots
from guidegen.rendering.page.paint_views import BlendView, PotView
from guidegen.rendering.page.pictures import PictureView
from guidegen.rendering.theme.chips import Chip, ReliefView
from guidegen.words.language import PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A duration for readers, and exactly, as ISO 8601."""

    text: str
    iso: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A label's key and what is said under it; `href` is where that leads, '' for nowhere.

    Where several things are said, each may lead somewhere by itself: `links` has them all. `short` is how much of the
    text a short row says, '' for all of it, and `aside` whether it leaves it for later.
    """

    label: PhraseKey
    text: str
    href: str = ""
    short: str = ""
    aside: bool = False
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TimesRow:
    """A line of the table of times: up to a stop, or the whole. `no_wait` is None where every batch waits."""

    name: str
    href: str
    key: str
    hands_on: Length
    waiting: Length
    last_stroke: Length
    total: Length
    no_wait: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchView:
    """Steps between two places where the work can lie, and from how many figures on nothing is waited for."""

    first: Link
    last: Link
    no_wait: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SubstituteView:
    """What may stand in for a paint: the author's own choice, or what comes close, `near` saying how close.

    `owned` is whether the author has it.
    """

    blend: BlendView
    note: str = ""
    by_author: bool = False
    near: str = ""
    owned: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintRow:
    """A paint on the guide's tray. `ml` and the rest of the numbers are for the reader's other batches; `shelf` is ''
    where nothing has to be bought.
    """

    pot: PotView
    amount: str
    shelf: str
    discontinued: bool
    first: int
    last: int
    steps: tuple[Link, ...]
    used: str
    substitutes: tuple[SubstituteView, ...]
    ml: str
    size: str
    owned: int
    drop: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MixRow:
    """A mixture that the guide uses, with what is in it.

    `by_eye` is set where its colour is an estimate from colours some of which are known by eye only.
    """

    name: str
    href: str
    blend: BlendView
    parts: tuple[PotView, ...]
    estimate: bool
    by_eye: bool
    steps: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyRow:
    """A material or a tool."""

    name: str
    purpose: str
    amount: str
    steps: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionView:
    """A caution: what it is about, and what is said, each with the label's code ('' for a way of working)."""

    subject: str
    statements: tuple[tuple[str, str], ...]
    source: str
    paints: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitView:
    """A gap before a step: how long, and what is drying."""

    length: Length
    dries: str
    pause: TimelineRow


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyView:
    """What a look of the chips on the page means."""

    chip: Chip
    words: PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmView:
    """What a film does to some areas: before and after."""

    areas: str
    before: ReliefView
    after: ReliefView


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """A step. `areas` is '' where it is on everything; `starts` and the rest are of the reader's batch."""

    n: int
    anchor: str
    title: str
    technique: Link
    areas: str
    labels: tuple[Link, ...]
    says: PhraseKey | None
    blends: tuple[BlendView, ...]
    facts: tuple[Fact, ...]
    starts: str
    clock: str
    wait: WaitView | None
    row: TimelineRow
    care_run: Markup
    notes: tuple[Fact, ...]
    cautions: tuple[CautionView, ...]
    films: tuple[FilmView, ...]
    photos: tuple[PictureView, ...]
    html: Markup
    substitutes: tuple[SubstituteView, ...]
    spray: bool
    kind: str = "step"


@dataclass(frozen=True, slots=True, kw_only=True)
class StopView:
    """A place to call it done."""

    name: str
    anchor: str
    key: str
    clock: str
    hands_on: Length
    total: Length
    run: Markup
    kind: str = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReferenceView:
    """A picture that the scheme follows, and colours read off it."""

    picture: PictureView | None
    source: str
    swatches: tuple[tuple[str, Chip], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceView:
    """A choice of variants."""

    name: str
    options: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideView:
    """A guide's page, for one choice of variants. `long_word`: a word of the title is too long for the largest type.

    `ends_at_stop` is whether the last stop comes after the last step, so that its row of times is the whole's.
    A handbook's page has no figures: no times, no `evening`, no bench. `measured` says whether times are estimates.
    `own_language` stands at what the author wrote, `own_direction` at all of the guide: attributes, empty where the
    site's are the same. `photographed` is whether there is a photo to open large. `own` is None where nothing is painted.
    """

    title: str
    long_word: bool
    own_language: Markup
    own_direction: Markup
    photographed: bool
    handbook: bool
    summary: str
    facts: tuple[Fact, ...]
    tags: tuple[str, ...]
    scale_assumed: bool
    draft: bool
    video: str
    choices: tuple[ChoiceView, ...]
    cover: PictureView | None
    strip: tuple[Chip, ...]
    figures: int
    count: int
    whole: TimesRow
    stops: tuple[TimesRow, ...]
    ends_at_stop: bool
    stretches: tuple[StretchView, ...]
    measured: str
    evening: Markup
    key: tuple[KeyView, ...]
    paints: tuple[PaintRow, ...]
    cost: str
    mixes: tuple[MixRow, ...]
    matrix: Matrix
    daubs: tuple[DaubRow, ...]
    materials: tuple[SupplyRow, ...]
    tools: tuple[SupplyRow, ...]
    cautions: tuple[CautionView, ...]
    before: Markup
    flow: tuple[StepView | StopView, ...]
    ending: TimelineRow
    last_stroke: str
    dry: str
    after: Markup
    references: tuple[ReferenceView, ...]
    made: tuple[tuple[str, str, str, tuple[str, ...]], ...]
    see: tuple[Link, ...]
    credit: str
    licence: str
    exports: tuple[Link, ...]
    bench: str
    clock: str
    own: OwnPots | None
