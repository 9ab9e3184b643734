"""A guide as structured data in its page: schema.org's HowTo as JSON-LD, for search engines and other programs."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Mapping
from typing import Any

from guidegen.base.units import iso_duration
from guidegen.computing.materials import PaintNeed, Supply
from guidegen.computing.worked import Worked
from guidegen.model.web_address import WebAddress
from guidegen.rendering.desk import Desk
from guidegen.rendering.guide_view import GuideView, StepView, StopView
from guidegen.rendering.pictures import picture_file
from guidegen.rendering.socials import Social
from guidegen.rendering.step_views import places_of

# Signs that could end the element, begin another, or that HTML counts as errors (WHATWG HTML, section 13.2.3.5).
_UNSAFE = re.compile("[<>&\x7f-\x9f\u2028\u2029\ufdd0-\ufdef\ufffe\uffff]")
# UN/CEFACT Recommendation 20: the millilitre.
_MILLILITRE = "MLT"


def how_to(worked: Worked, view: GuideView, desk: Desk, page: str, social: Social | None) -> str:
    """The data block of a guide's page, '' where the site's address is not known.

    `totalTime` runs until the last figure is dry, `performTime` is with a brush in hand; nothing is known of the time
    to prepare, so none is told. Stops divide the steps into sections.
    """
    site = desk.site.url
    if site is None:
        return ""
    guide, whole = worked.guide, worked.times.whole
    address = site.file(page)
    author = guide.author or desk.site.author
    cost = round(math.fsum(need.cost for need in worked.needs if need.cost), 2)
    data: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": guide.title,
        "description": guide.summary or desk.language.t("about.guide", title=guide.title),
        "url": address,
        "inLanguage": guide.language or desk.site.language,
        "image": _images(worked, desk, site, social),
        "author": {"@type": "Person", "name": author} if author else None,
        "datePublished": guide.date.isoformat() if guide.date else None,
        "keywords": list(guide.tags),
        "totalTime": iso_duration(whole.total),
        "performTime": iso_duration(whole.hands_on),
        "yield": desk.language.t("figures.n", n=worked.figures),
        "estimatedCost": {
            "@type": "MonetaryAmount",
            "currency": desk.site.currency,
            "value": cost,
        }
        if cost
        else None,
        "supply": [*map(_paint, worked.needs), *(_item("HowToSupply", item) for item in worked.materials)],
        "tool": [_item("HowToTool", item) for item in worked.tools],
        "step": _parts(worked, view, desk, site, page),
    }
    return data_block({key: value for key, value in data.items() if value})


def data_block(data: Mapping[str, Any]) -> str:
    """JSON that nothing in it can end: it may stand in a script element as it is."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return _UNSAFE.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)


def _images(worked: Worked, desk: Desk, site: WebAddress, social: Social | None) -> list[str]:
    """The cover as it is, then the picture for sharing."""
    found = picture_file(worked.guide.cover, desk.pictures)
    paths = ([found] if found else []) + ([social.path] if social else [])
    return [site.file(path) for path in paths]


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


def _parts(worked: Worked, view: GuideView, desk: Desk, site: WebAddress, page: str) -> list[dict[str, Any]]:
    """The steps, in a section up to each stop where there are stops."""
    address = site.file(page)
    sections: list[dict[str, Any]] = []
    steps: list[dict[str, Any]] = []
    for item in view.flow:
        if isinstance(item, StepView):
            steps.append(_step(item, worked, desk, site, page))
        elif steps:
            sections.append(_section(item, steps, address))
            steps = []
    if not sections:
        return steps
    if steps:
        ending = {
            "@type": "HowToSection",
            "name": desk.language.t("ending.title"),
            "url": f"{address}#ending",
        }
        sections.append({**ending, "itemListElement": steps})
    return [{**section, "position": at} for at, section in enumerate(sections, 1)]


def _section(stop: StopView, steps: list[dict[str, Any]], address: str) -> dict[str, Any]:
    return {
        "@type": "HowToSection",
        "name": stop.name,
        "url": f"{address}#{stop.anchor}",
        "itemListElement": steps,
    }


def _step(step: StepView, worked: Worked, desk: Desk, site: WebAddress, page: str) -> dict[str, Any]:
    row = worked.scheme.steps[step.n - 1]
    found = (picture_file(photo, desk.pictures) for photo in row.step.photos)
    images = [site.file(one) for one in found if one]
    data = {
        "@type": "HowToStep",
        "position": step.n,
        "name": step.title,
        "url": site.file(f"{page}#{step.anchor}"),
        "image": images[0] if len(images) == 1 else images,
        "text": " ".join(_sentences(step, worked, desk)),
    }
    return {key: value for key, value in data.items() if value}


def _sentences(step: StepView, worked: Worked, desk: Desk) -> Iterable[str]:
    """What a reader of the step alone has to know, ending with the author's own words."""
    t = desk.language.t
    where = t("on.areas", areas=step.areas) if step.areas else t("on.whole")
    yield f"{step.technique.text} {where}."
    if step.blends:
        yield f"{'; '.join(_blend(blend.pots) for blend in step.blends)}."
    told = (*step.facts, *step.notes)
    yield from (f"{t(fact.label)}: {fact.text.rstrip('.')}." for fact in told if fact.label != "fact.at")
    passage = worked.guide.body.under.get(places_of(worked)[step.n])
    if passage is not None and passage.plain:
        yield " ".join(passage.plain.split())


def _blend(pots: Iterable[Any]) -> str:
    return " + ".join(f"{pot.name} ({pot.amount})" if pot.amount else pot.name for pot in pots)
