"""The data of a guide's script: passes, colours and words, for other numbers of figures and other weather."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidegen.base.paths import slug
from guidegen.computing.guide.batch import as_data, passes_of
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.spraying import COLDEST_READ, HOTTEST_READ, REASONS, SprayVerdict
from guidegen.model.guide import Guide
from guidegen.model.technique import AIRBORNE
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext
from guidegen.words.language import Language, Phrase


def store_key(guide: Guide, context: SiteContext, *, unit: str = "", batch: int = 1) -> str:
    """What a reader's browser keeps a batch of a guide under. A batch of a plan is told apart by its unit's place there,
    as `regatta.1`.

    It names the site, since Chromium keeps one store for all pages opened from files. A guide that was renamed keeps
    the name of its first address, so that nothing is lost by it.
    """
    first = next((slug(name.text) for name in guide.was), guide.slug)
    return f"guidegen:{context.site.title}:{first}:{unit}:{batch}"


def clock_data(
    computed: ComputedGuide, colours: Mapping[int, Sequence[str | None]], context: SiteContext
) -> str:
    """What the page's script needs to compute the times of another number of figures, as JSON."""
    language = context.language
    data = {
        "store": store_key(computed.guide, context),
        "figures": computed.figures,
        "passes": as_data(passes_of(computed.scheme)),
        "stops": [stop.after for stop in computed.times.stops],
        "colours": {str(n): list(those) for n, those in colours.items()},
        "titles": {str(row.n): row.step.title for row in computed.scheme.steps},
        "words": {key: language.phrases[key] for key in SCRIPT_WORDS} | _weather_words(computed, language),
        "signs": [language.decimal, language.group],
    }
    return script_json(data)


# The phrases that the page's script puts in for other batches.
SCRIPT_WORDS = (
    "unit.d", "unit.h", "unit.min", "unit.s", "clock.span", "clock.dry", "wait.for", "ending.dry",
    "amount.by-eye", "amount.trace", "amount.ml", "amount.pour", "amount.drops", "shelf.buy",
    "figures.n", "figures.status", "times.caption", "paints.estimate",
)  # fmt: skip


def _weather_words(computed: ComputedGuide, language: Language) -> dict[str, Phrase]:
    """What the script says of the weather, nothing where nothing is sprayed."""
    if not any(row.technique.name in AIRBORNE for row in computed.scheme.steps):
        return {}
    words = {f"spray.{key}": language.phrases[f"spray.{key}"] for key in (*SprayVerdict, "dew", "dew-above")}
    said = {
        f"spray.{reason}": language.t(
            f"spray.{reason}", limit=limit, coldest=COLDEST_READ, hottest=HOTTEST_READ
        )
        for reason, limit in REASONS.items()
    }
    return words | said
