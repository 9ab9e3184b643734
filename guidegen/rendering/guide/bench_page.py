"""The bench: a guide one step at a time in big type, for wet hands and no network. It lies beside the guide's page."""

from __future__ import annotations

import posixpath
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.rendering.guide.bench_sheet import (
    HEIGHT,
    ROOMY,
    SheetView,
    foot_height,
    row_of,
    size_for,
    subjects_of,
)
from guidegen.rendering.guide.guide_view import GuideView, StepView, StopView
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.paint_views import PotView
from guidegen.words.language import Language

# What a bench keeps in reach at once; what is left over stands on the guide's page.
MOST_POTS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStep:
    """One step of the bench. `dry` is its drying in ms, 0 for none; `back` and `on` are places on the page, '' at the
    ends. `hand`, `next` and `away` are the pots in hand, to open next, and to put away; `how` is thinning and brush for
    what is in hand; `stops` what may be called done after it.
    """

    step: StepView
    dry: int
    dry_text: str
    back: str
    on: str
    hand: tuple[PotView, ...]
    next: tuple[PotView, ...]
    away: tuple[PotView, ...]
    thin: str
    brush: str
    how: str
    stops: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """The bench of one variant of a guide. `home` is the guide's page, `words` what its script says, as JSON."""

    guide: GuideView
    home: str
    leaves: tuple[BenchStep, ...]
    sheet: SheetView
    words: str


def bench_view(computed: ComputedGuide, guide: GuideView, page: str, language: Language) -> BenchView:
    """The bench from the page that it belongs to: both lie in one folder, so every link is the same."""
    steps = [item for item in guide.flow if isinstance(item, StepView)]
    pots = [_pots(step) for step in steps]
    leaves = []
    for at, (step, row) in enumerate(zip(steps, computed.scheme.steps, strict=True)):
        hand = pots[at]
        later = {pot.href for those in pots[at:] for pot in those}
        before = [pot for those in pots[:at] for pot in those]
        dry = row.step.dry.air
        thin = row.step.thin.text if row.step.thin else ""
        brush = row.step.brush
        how = (
            thin and language.t("bench.thin", thin=thin),
            brush and language.t("bench.with", brush=brush),
        )
        leaves.append(
            BenchStep(
                step=step,
                dry=dry,
                dry_text=language.duration(dry),
                back=steps[at - 1].anchor if at else "",
                on=steps[at + 1].anchor if at + 1 < len(steps) else "",
                hand=hand[:MOST_POTS],
                next=_others(pots[at + 1] if at + 1 < len(pots) else (), hand),
                away=_others([pot for pot in _last_used(before) if pot.href not in later], hand),
                thin=thin,
                brush=brush,
                how=", ".join(filter(None, how)) if hand else "",
                stops=_stops_after(guide, step),
            )
        )
    return BenchView(
        guide=guide,
        home=posixpath.basename(page),
        leaves=tuple(leaves),
        sheet=_sheet(guide, leaves, language),
        words=script_json({key: language.phrases[key] for key in SCRIPT_WORDS}),
    )


SCRIPT_WORDS = (
    "bench.figure", "bench.left", "bench.dry-now", "bench.start", "bench.stop", "bench.took", "bench.used",
    "bench.copied", "bench.resume", "bench.so-far", "bench.is-done", "bench.not-done", "bench.started", "bench.stopped",
    "bench.rings", "bench.heard", "bench.cleared", "bench.undone", "bench.figures-painted",
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
            language.t("figures.n", n=guide.figures),
            f"{language.t('times.hands-on')} {guide.whole.hands_on.text}",
            f"{language.t('times.total')} {guide.whole.total.text}",
        ),
        cautions=subjects_of(cautions),
    )


def _pots(step: StepView) -> tuple[PotView, ...]:
    return tuple({pot.href: pot for blend in step.blends for pot in blend.pots}.values())


def _others(pots: Sequence[PotView], hand: Sequence[PotView]) -> tuple[PotView, ...]:
    held = {pot.href for pot in hand}
    return tuple(pot for pot in pots if pot.href not in held)[:MOST_POTS]


def _last_used(pots: Sequence[PotView]) -> tuple[PotView, ...]:
    """Each pot once, the one used last first."""
    return tuple({pot.href: pot for pot in reversed(pots)}.values())


def _stops_after(guide: GuideView, step: StepView) -> tuple[str, ...]:
    at = guide.flow.index(step)
    stops = []
    for item in guide.flow[at + 1 :]:
        if not isinstance(item, StopView):
            break
        stops.append(item.name)
    return tuple(stops)
