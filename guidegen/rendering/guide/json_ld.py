"""A guide as structured data in its page: schema.org's HowTo as JSON-LD, for search engines and other programs."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Mapping
from typing import Any

from guidegen.base.units import iso_duration
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.materials import PaintNeed, Supply
from guidegen.model.guide import Passage
from guidegen.model.web_address import WebAddress
from guidegen.rendering.guide.guide_view import GuideView, StepView
from guidegen.rendering.guide.step_views import places_of
from guidegen.rendering.page.pictures import picture_file
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture

# Signs that could end the element, begin another, or that HTML counts as errors (WHATWG HTML, section 13.2.3.5).
_UNSAFE = re.compile("[<>&\x7f-\x9f\u2028\u2029\ufdd0-\ufdef\ufffe\uffff]")
# UN/CEFACT Recommendation 20: the millilitre.
_MILLILITRE = "MLT"


def guide_json_ld(
    computed: ComputedGuide, view: GuideView, context: SiteContext, page: str, social: SocialPicture | None
) -> str:
    """The data block of a guide's page, '' where the site's address is not known.

    `totalTime` lasts until the last figure is dry, `performTime` is the time with a brush in hand. There is no
    `prepTime`, since guides do not say how long preparing takes. Stops divide the steps into sections.
    """
    site = context.site.url
    if site is None:
        return ""
    guide, whole = computed.guide, computed.times.whole
    address = site.file(page)
    author = guide.author or context.site.author
    data: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": guide.title,
        "description": guide.summary or context.language.t("about.guide", title=guide.title),
        "url": address,
        "inLanguage": guide.language or context.site.language,
        "image": _images(computed, context, site, social),
        "author": {"@type": "Person", "name": author} if author else None,
        "datePublished": first.isoformat() if (first := guide.published or guide.date) else None,
        "dateModified": guide.updated.isoformat() if guide.updated else None,
        "keywords": list(guide.tags),
        "totalTime": None if guide.handbook else iso_duration(whole.total),
        "performTime": None if guide.handbook else iso_duration(whole.hands_on),
        "yield": None if guide.handbook else context.language.t("figures.n", n=computed.figures),
        "estimatedCost": _cost(computed.needs, context.site.currency),
        "supply": [
            *map(_paint, computed.needs),
            *(_item("HowToSupply", item) for item in computed.materials),
        ],
        "tool": [_item("HowToTool", item) for item in computed.tools],
        "step": _parts(computed, view, context, site, page),
    }
    return data_block({key: value for key, value in data.items() if value})


def data_block(data: Mapping[str, Any]) -> str:
    """JSON that nothing in it can end: it may stand in a script element as it is."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return _UNSAFE.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)


def _images(
    computed: ComputedGuide, context: SiteContext, site: WebAddress, social: SocialPicture | None
) -> list[str]:
    """The cover as it is, then the picture for sharing."""
    found = picture_file(computed.guide.cover, context.pictures)
    paths = ([found] if found else []) + ([social.path] if social else [])
    return [site.file(path) for path in paths]


def _cost(needs: Iterable[PaintNeed], currency: str) -> dict[str, Any] | None:
    cost = round(math.fsum(need.cost for need in needs if need.cost), 2)
    return {"@type": "MonetaryAmount", "currency": currency, "value": cost} if cost else None


def _paint(need: PaintNeed) -> dict[str, Any]:
    supply: dict[str, Any] = {"@type": "HowToSupply", "name": need.paint.full_name}
    if need.ml:
        # Two figures are all that an estimate knows.
        amount = float(f"{need.ml:.2g}")
        supply["requiredQuantity"] = {
            "@type": "QuantitativeValue",
            "unitCode": _MILLILITRE,
            "value": int(amount) if amount.is_integer() else amount,
        }
    return supply


def _item(kind: str, item: Supply) -> dict[str, Any]:
    found = {"@type": kind, "name": item.name, "requiredQuantity": item.amount, "description": item.purpose}
    return {key: value for key, value in found.items() if value}


def _parts(
    computed: ComputedGuide, view: GuideView, context: SiteContext, site: WebAddress, page: str
) -> list[dict[str, Any]]:
    """The steps, in a section up to each stop where there are stops."""
    address = site.file(page)
    sections: list[dict[str, Any]] = []
    under = {n: computed.guide.body.under.get(place) for n, place in places_of(computed).items()}
    steps: list[dict[str, Any]] = []

    def end_section(name: str, place: str) -> None:
        sections.append(
            {
                "@type": "HowToSection",
                "name": name,
                "url": f"{address}#{place}",
                "itemListElement": steps.copy(),
                "position": len(sections) + 1,
            }
        )
        steps.clear()

    for item in view.flow:
        if isinstance(item, StepView):
            steps.append(_step(item, under[item.n], computed, context, site, page))
        elif steps:
            end_section(item.name, item.anchor)
    if sections and steps:
        end_section(context.language.t("ending.title"), "ending")
    return sections or steps


def _step(
    step: StepView,
    passage: Passage | None,
    computed: ComputedGuide,
    context: SiteContext,
    site: WebAddress,
    page: str,
) -> dict[str, Any]:
    row = computed.scheme.steps[step.n - 1]
    found = (picture_file(photo, context.pictures) for photo in row.step.photos)
    images = [site.file(one) for one in found if one]
    data = {
        "@type": "HowToStep",
        "position": step.n,
        "name": step.title,
        "url": site.file(f"{page}#{step.anchor}"),
        "image": images[0] if len(images) == 1 else images,
        "text": " ".join(_sentences(step, passage, context)),
    }
    return {key: value for key, value in data.items() if value}


def _sentences(step: StepView, passage: Passage | None, context: SiteContext) -> Iterable[str]:
    """What a reader of the step alone has to know, ending with the author's own words."""
    t = context.language.t
    where = t("on.areas", areas=step.areas) if step.areas else t("on.whole")
    yield f"{step.technique.text} {where}."
    if step.blends:
        yield f"{'; '.join(_blend(blend.pots) for blend in step.blends)}."
    told = (*step.facts, *step.notes)
    yield from (f"{t(fact.label)}: {fact.text.rstrip('.')}." for fact in told if fact.label != "fact.at")
    if passage is not None and passage.plain:
        yield " ".join(passage.plain.split())


def _blend(pots: Iterable[Any]) -> str:
    return " + ".join(f"{pot.name} ({pot.amount})" if pot.amount else pot.name for pot in pots)
