"""A scheme in one look: areas by techniques, and how each area builds up, with the lightness of what is laid on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup, escape

from guidegen.base.suggest import folded
from guidegen.computing.colour.spaces import lab_of
from guidegen.computing.guide.area_states import AreaState
from guidegen.computing.guide.colour_families import Family, family_of
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.contrast import Rung, lightness_ladder
from guidegen.computing.guide.scheme import WHOLE, SchemeStep
from guidegen.model.technique import is_known
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.chips import Chip, ReliefView
from guidegen.words.language import Language

# A ladder's own units: L* along, and a row high enough for a dot and its rim.
LADDER_WIDTH = 100
LADDER_HEIGHT = 10
DOT = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class DaubView:
    """An area after a step."""

    relief: ReliefView
    step: Link
    technique: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DaubRow:
    """How one area builds up."""

    area: str
    daubs: tuple[DaubView, ...]
    ladder: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class CellUse:
    """A step in a cell of what goes where."""

    n: int
    step: Link
    chips: tuple[Chip, ...]
    names: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixRow:
    """An area, what goes on it by each technique, and how it ends up, if that is known; `says` tells that in words."""

    area: str
    cells: tuple[tuple[CellUse, ...], ...]
    ends: ReliefView | None
    says: str
    left: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Matrix:
    """What goes where: areas by techniques."""

    techniques: tuple[str, ...]
    rows: tuple[MatrixRow, ...]


def technique_label(row: SchemeStep, language: Language) -> str:
    """What the site's language calls a technique, the author's own word where the table has none."""
    typed = row.step.technique
    if not typed and not row.brushed:
        return language.t("technique.by-hand")
    return language.t(f"technique.name.{row.technique.name}") if is_known(typed) else typed


def area_label(area: str, language: Language) -> str:
    """An area's name; a guide that names no area has the whole figure."""
    return language.t("area.whole") if area == WHOLE else area


def relief_of(state: AreaState) -> ReliefView | None:
    """An area as it stands, None unless all three of its colours are known."""
    relief = state.relief
    if relief.edges is None or relief.flats is None or relief.recesses is None:
        return None
    return ReliefView(
        edges=relief.edges,
        flats=relief.flats,
        recesses=relief.recesses,
        edges_shine=state.metal_edges,
        shine=state.metal,
    )


# Above and below this L* a colour is called light or dark: common practice, no source.
LIGHT, DARK = 72.0, 32.0


def colour_words(colour: str, language: Language, *, metal: bool = False) -> str:
    """A colour in the words of the site's language, by lightness and family: `dark ochre`."""
    light, family = _light_and_family(colour)
    family = Family.METALS if metal else family
    name = language.t(f"colour.{family}")
    if family in (Family.BLACKS, Family.WHITES) or DARK <= light <= LIGHT:
        return name
    return language.t("colour.light" if light > LIGHT else "colour.dark", colour=name)


@lru_cache(maxsize=4096)
def _light_and_family(colour: str) -> tuple[float, Family]:
    light, a, b = lab_of([colour]).tolist()[0]
    return light, family_of(light, a, b)


def relief_words(area: ReliefView, language: Language) -> str:
    """An area's raised parts, middle and recesses in words."""
    return language.t(
        "daubs.short",
        edges=colour_words(area.edges, language, metal=area.edges_shine),
        flats=colour_words(area.flats, language, metal=area.shine),
        recesses=colour_words(area.recesses, language, metal=area.shine),
    )


def matrix(computed: ComputedGuide, context: SiteContext, links: Mapping[int, Link]) -> Matrix:
    """Areas in the order first named, techniques in the order first used."""
    scheme = computed.scheme
    techniques: dict[str, str] = {}
    columns: dict[int, str] = {}
    for row in scheme.steps:
        label = technique_label(row, context.language)
        columns[row.n] = folded(label)
        techniques.setdefault(columns[row.n], label)
    left = {folded(area.text) for area in scheme.guide.leave}
    rows = []
    for area in scheme.areas:
        cells: dict[str, list[CellUse]] = {key: [] for key in techniques}
        for row in scheme.steps:
            if area in row.areas:
                cells[columns[row.n]].append(_use(row, area, context, links[row.n]))
        states = computed.states.get(area, ())
        ends = relief_of(states[-1]) if states else None
        rows.append(
            MatrixRow(
                area=area_label(area, context.language),
                cells=tuple(tuple(uses) for uses in cells.values()),
                ends=ends,
                says=relief_words(ends, context.language) if ends else "",
                left=folded(area) in left,
            )
        )
    return Matrix(techniques=tuple(techniques.values()), rows=tuple(rows))


def _use(row: SchemeStep, area: str, context: SiteContext, link: Link) -> CellUse:
    laid = row.laid.get(area)
    blends = row.brushed if laid is None or laid not in row.brushed else (laid,)
    if laid is not None and not row.brushed:
        blends = (laid,)
    names = [part.pot.name for blend in blends for part in blend.parts]
    return CellUse(
        n=row.n,
        step=link,
        chips=tuple(context.chips.of(blend) for blend in blends),
        names=", ".join(dict.fromkeys(names)) or context.language.t("paint.none"),
    )


def daub_rows(
    computed: ComputedGuide, context: SiteContext, links: Mapping[int, Link]
) -> tuple[DaubRow, ...]:
    """Each area's states that differ from the one before in what can be seen."""
    techniques = {row.n: technique_label(row, context.language) for row in computed.scheme.steps}
    rows = []
    for area in computed.scheme.areas:
        daubs: list[DaubView] = []
        states = computed.states.get(area, ())
        for state in states:
            view = relief_of(state)
            if view is None or (daubs and daubs[-1].relief == view):
                continue
            daubs.append(DaubView(relief=view, step=links[state.n], technique=techniques[state.n]))
        if daubs:
            rungs = lightness_ladder(states, context.palette_tools.mixer)
            label = context.language.t("daubs.ladder", steps=in_words(rungs))
            row = DaubRow(
                area=area_label(area, context.language), daubs=tuple(daubs), ladder=ladder(rungs, label)
            )
            rows.append(row)
    return tuple(rows)


def ladder(rungs: Sequence[Rung], label: str) -> Markup:
    """A small picture with a dot a rung, `label` read out for it; empty where fewer than two colours are known."""
    if len(rungs) < 2:
        return Markup()
    edge = DOT + 0.5
    places = [edge + rung.lightness * (LADDER_WIDTH - 2 * edge) / 100 for rung in rungs]
    line = f'<path d="M0 {LADDER_HEIGHT / 2:g}H{LADDER_WIDTH}"/>'
    dots = "".join(
        f'<circle cx="{place:.1f}" cy="{LADDER_HEIGHT / 2:g}" r="{DOT}" fill="{rung.colour}"/>'
        for place, rung in zip(places, rungs, strict=True)
    )
    # The rest is made of numbers and colours of ours.
    return Markup(  # noqa: S704
        f'<svg class="ladder" viewBox="0 0 {LADDER_WIDTH} {LADDER_HEIGHT}" role="img" '
        f'aria-label="{escape(label)}">{line}{dots}</svg>'
    )


def in_words(rungs: Sequence[Rung]) -> str:
    """The steps of lightness as numbers: `26, 45, 60`."""
    return ", ".join(f"{rung.lightness:.0f}" for rung in rungs)
