"""The bench: a guide one step at a time in big type, for wet hands and no network. It lies beside the guide's page."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.computing.colour.blend import blend_of
from guidegen.computing.guide.batch import as_data, passes_of
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.rendering.guide.bench_sheet import (
    HEIGHT,
    ROOMY,
    SheetView,
    foot_height,
    row_of,
    size_for,
    subjects_of,
)
from guidegen.rendering.guide.clock_data import store_key
from guidegen.rendering.guide.figures import FiguresView, bench_figures
from guidegen.rendering.guide.guide_view import GuideView, StepView, StopView
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.paint_views import PotView, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import plan_file, relative
from guidegen.words.language import Language


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStep:
    """One step of the bench.

    `dry` is its drying in ms, 0 for none, after each of its `coats`; `at_once` is whether the batch is done in one go.
    `back` and `on` are the places of the steps before and after, '' at the ends. `care` is what its cautions are about.
    `drawing` is its picture, empty without a chart, where the page shows another. `next` are the pots that the next step
    opens, `away` those of the step before that no later step needs. `stops` are what may be called done after it.
    """

    step: StepView
    dry: int
    dry_text: str
    coats: int
    at_once: bool
    back: str
    back_title: str
    on: str
    next_title: str
    care: tuple[str, ...]
    drawing: Markup
    next: tuple[PotView, ...]
    away: tuple[PotView, ...]
    thin: str
    brush: str
    stops: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """The bench of one variant of a guide. `home` is the guide's page, `variant` the options chosen, `shapes` what the
    drawings are made of, `finished` the drawing of the end, `data` what its script needs, as JSON. `inside` begins its
    places where it lies within the guide's own page, '' on a page of its own.
    """

    guide: GuideView
    home: str
    inside: str
    variant: str
    shapes: Markup
    finished: Markup
    leaves: tuple[BenchStep, ...]
    sheet: SheetView
    data: str


def variant_of(guide: GuideView) -> str:
    """The options of the page's variant in words, '' where there is nothing to choose."""
    return ", ".join(link.text for choice in guide.choices for link in choice.options if link.current)


# What begins the places of a bench that lies within its guide's page, which has places for the same steps.
INSIDE = "at-"


def bench_view(
    computed: ComputedGuide,
    guide: GuideView,
    figures: FiguresView,
    page: str,
    context: SiteContext,
    *,
    inside: bool = False,
) -> BenchView:
    """The bench from the page that it belongs to: both lie in one folder, or on one page, so every link is the same."""
    drawings = bench_figures(computed, context, figures, INSIDE if inside else "")
    leaves = _leaves(computed, guide, drawings, page, context)
    return BenchView(
        guide=guide,
        home="#main" if inside else posixpath.basename(page),
        inside=INSIDE if inside else "",
        variant=variant_of(guide),
        shapes=Markup() if inside else figures.shapes,
        finished=_picture(figures.file if figures.finished else ""),
        leaves=leaves,
        sheet=_sheet(guide, leaves, context.language),
        data=_script_data(computed, page, context),
    )


def _leaves(
    computed: ComputedGuide,
    guide: GuideView,
    drawings: Mapping[int, Markup],
    page: str,
    context: SiteContext,
) -> tuple[BenchStep, ...]:
    steps = [item for item in guide.flow if isinstance(item, StepView)]
    pots = [_pots(row, context.palette_tools.palette) for row in computed.scheme.steps]
    last = {name: at for at, those in enumerate(pots) for name in those}

    def shown(those: Iterable[Paint | Mix]) -> tuple[PotView, ...]:
        return tuple(pot_view(pot, context, page) for pot in those)

    leaves = []
    for at, (step, row) in enumerate(zip(steps, computed.scheme.steps, strict=True)):
        opened = pots[at + 1] if at + 1 < len(pots) else {}
        used = pots[at - 1] if at else {}
        dry = row.step.dry.air
        leaves.append(
            BenchStep(
                step=step,
                dry=dry,
                dry_text=context.language.duration(dry),
                coats=row.step.coats,
                at_once=not row.step.each,
                back=steps[at - 1].anchor if at else "",
                back_title=steps[at - 1].title if at else "",
                on=steps[at + 1].anchor if at + 1 < len(steps) else "",
                next_title=steps[at + 1].title if at + 1 < len(steps) else "",
                care=tuple(dict.fromkeys(caution.subject for caution in step.cautions)),
                drawing=drawings.get(step.n, Markup()),
                next=shown(pot for name, pot in opened.items() if name not in pots[at]),
                away=shown(pot for name, pot in used.items() if last[name] < at),
                thin=row.step.thin.text if row.step.thin else "",
                brush=row.step.brush,
                stops=_stops_after(guide, step),
            )
        )
    return tuple(leaves)


def _script_data(computed: ComputedGuide, page: str, context: SiteContext) -> str:
    """What the bench's script needs, as JSON."""
    language, choose = context.language, computed.guide.choose
    chosen = computed.scheme.choice.items()
    return script_json(
        {
            "store": store_key(computed.guide, context),
            "page": posixpath.basename(page).removesuffix(".html"),
            "plans": relative(plan_file("*"), page),
            "figures": computed.figures,
            "choice": {name: option for name, option in chosen if len(choose.get(name, ())) > 1},
            "passes": as_data(passes_of(computed.scheme)),
            "words": {key: language.phrases[key] for key in SCRIPT_WORDS},
            "signs": [language.decimal, language.group],
        }
    )


SCRIPT_WORDS = (
    "unit.d", "unit.h", "unit.min", "unit.s", "figures.n",
    "bench.figure", "bench.figure-coat", "bench.coat", "bench.all-done", "bench.done", "bench.dries", "bench.at-once",
    "bench.left", "bench.dry-now", "bench.start", "bench.again", "bench.stop", "bench.took", "bench.used", "bench.more",
    "bench.copied", "bench.resume", "bench.so-far", "bench.is-done", "bench.started", "bench.stopped",
    "bench.rings", "bench.heard", "bench.cleared", "bench.undone", "bench.figures-painted", "bench.coat-painted", "bench.coat-of", "bench.begin", "bench.end",
    "bench.awake", "bench.sleeps", "bench.all-painting", "bench.counted", "bench.not-counted",
)  # fmt: skip


def _sheet(guide: GuideView, leaves: Sequence[BenchStep], language: Language) -> SheetView:
    everywhere = language.t("on.whole")
    rows = [
        row_of(
            leaf.step,
            leaf.step.areas or everywhere,
            leaf.thin,
            leaf.brush,
            leaf.dry_text if leaf.dry else "",
            len(leaf.stops),
        )
        for leaf in leaves
    ]
    # The last of a guide's is the deference to labels that the sheet says by itself.
    cautions = [*guide.cautions[:-1], *(caution for leaf in leaves for caution in leaf.step.cautions)]
    # A mixture's words may take two lines of the foot.
    foot = foot_height(max(2 * len(guide.mixes), 2 * len(guide.stops) + 2))
    filled = size_for(rows, HEIGHT - foot) in ROOMY
    size = size_for(rows, HEIGHT - foot if filled else HEIGHT)
    return SheetView(
        size=size,
        filled=filled,
        facts=(
            *(fact.text for fact in guide.facts[:1]),
            *filter(None, (variant_of(guide),)),
            # The script puts in those of the reader's batch.
            _marked("say", "figures.n", language.t("figures.n", n=guide.figures)),
            _marked("show", "handsOn", guide.whole.hands_on.text, language.t("times.hands-on")),
            _marked("show", "total", guide.whole.total.text, language.t("times.total")),
        ),
        cautions=subjects_of(cautions),
    )


def _picture(file: str) -> Markup:
    return Markup('<img src="{}" alt="">').format(file) if file else Markup()


def _marked(what: str, name: str, text: str, label: str = "") -> Markup:
    return Markup('{} <span data-{}="{}">{}</span>').format(label, what, name, text)


def _pots(row: SchemeStep, palette: Palette) -> dict[str, Paint | Mix]:
    """Every pot that a step takes, by full name: a house mix is followed by what it is mixed from, however deep."""
    found: dict[str, Paint | Mix] = {}
    waiting = [part.pot for blend in reversed(row.brushed) for part in reversed(blend.parts)]
    while waiting:
        pot = waiting.pop()
        if pot.full_name in found:
            continue
        found[pot.full_name] = pot
        inner = blend_of(pot.parts, palette) if isinstance(pot, Mix) else None
        waiting += [part.pot for part in reversed(inner.parts)] if inner else []
    return found


def _stops_after(guide: GuideView, step: StepView) -> tuple[str, ...]:
    at = guide.flow.index(step)
    stops = []
    for item in guide.flow[at + 1 :]:
        if not isinstance(item, StopView):
            break
        stops.append(item.name)
    return tuple(stops)
