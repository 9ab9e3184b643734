"""What the home page searches by: a script that hands over every guide's words, the newest guide first.

It is a script because a page from the disk may load nothing else. What is in it is data alone, and the page shows it
as text alone. Each guide's part is written once, when its pages are; the index strings them together.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace

from guidegen.base.units import MINUTE
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.guide.shelf import on_shelf
from guidegen.model.guide import Guide, Step
from guidegen.model.paint import Paint
from guidegen.rendering.archive.home_page import facts_of, newest_first
from guidegen.rendering.guide.figures import FILE
from guidegen.rendering.guide.scheme_views import area_label, technique_label
from guidegen.rendering.guide.summary import Summary, step_anchors
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import guide_file
from guidegen.words.language import Language

# A card's strip of colours: what covers less than this, in thousandths, would be too thin to see.
THINNEST = 15

_BEFORE, _AFTER = "guidegenIndex([\n", "\n]);\n"


def with_entry(summary: Summary, computed: ComputedGuide, context: SiteContext) -> Summary:
    """The guide in short, its part of the index with it."""
    return replace(summary, entry=script_json(_entry(summary, computed, context)))


def search_index(summaries: Iterable[Summary], pages: Iterable[str] = ()) -> bytes:
    """The whole index; `pages` are the parts of the pages of words."""
    entries = ",\n".join((*(guide.entry for guide in newest_first(summaries)), *pages))
    return f"{_BEFORE}{entries}{_AFTER}".encode(errors="replace")


def indexed(text: str) -> dict[str, str]:
    """The parts of an index of ours, by the guide's slug or the page's path; empty for what is none."""
    found: dict[str, str] = {}
    for line in text.removeprefix(_BEFORE).removesuffix(_AFTER).split("\n"):
        entry = line.removesuffix(",")
        try:
            data = json.loads(entry)
            found[str(data.get("page") or data["slug"])] = entry
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            continue
    return found


def _entry(summary: Summary, computed: ComputedGuide, context: SiteContext) -> dict[str, object]:
    """One guide. Its `steps` are those of its own page, each with its place there; `text` is all else it says."""
    guide, language = computed.guide, context.language
    shown = {id(row.step) for row in computed.scheme.steps}
    entry: dict[str, object] = {
        "slug": summary.slug,
        "title": summary.title,
        "summary": summary.summary,
        "tags": summary.tags,
        "by": summary.authors,
        "pots": _pots(summary),
        "areas": [area_label(area, language) for area in computed.scheme.areas],
        "facts": facts_of(summary, language),
        "minutes": round(summary.hands_on / MINUTE) if summary.total > 0 and not summary.handbook else None,
        "lacks": len(on_shelf(summary, summary.needs).missing) if summary.needs else None,
        "strip": [(one.colour, one.part) for one in summary.covers if one.part >= THINNEST],
        "picture": _picture(summary, context),
        "steps": [
            (row.step.title, anchor, _head(row, language), _prose(row.step, guide))
            for row, anchor in zip(computed.scheme.steps, step_anchors(computed), strict=True)
        ],
        "text": _spaced(
            (*_text(guide), *(_other(step, guide) for step in guide.steps if id(step) not in shown))
        ),
    }
    if guide.language and guide.language != language.code:
        entry["lang"] = guide.language
    if summary.draft:
        entry["draft"] = True
    return {key: value for key, value in entry.items() if value not in ("", [], ())}


def _pots(summary: Summary) -> list[str]:
    """Every name that the guide's paints and mixes go by, the range among them."""
    paints = {need.paint.full_name: need.paint for need in summary.needs}
    return [_names(name, paints.get(name)) for name, _ in summary.pots]


def _names(name: str, paint: Paint | None) -> str:
    also = [*paint.aliases, paint.code] if paint is not None else []
    also = [other for other in also if other]
    return f"{name} ({', '.join(also)})" if also else name


def _picture(summary: Summary, context: SiteContext) -> str:
    """The smallest picture that stands for the guide, from the home page."""
    photo = summary.cover
    picture = context.pictures.get(photo.path) if photo is not None and photo.path else None
    if picture is not None:
        return picture.path(picture.sizes[0][0], "webp")
    return guide_file(summary.slug, FILE) if summary.drawn else ""


def _head(row: SchemeStep, language: Language) -> str:
    """Where, how and with what."""
    areas = [] if row.whole else [area_label(area, language) for area in row.areas]
    pots = dict.fromkeys(part.pot.name for blend in row.brushed for part in blend.parts)
    return " · ".join(filter(None, (", ".join(areas), technique_label(row, language), ", ".join(pots))))


def _prose(step: Step, guide: Guide) -> str:
    """All sentences of a step."""
    at = next((at for at, other in enumerate(guide.steps) if other is step), -1)
    under = guide.body.under.get(at)
    thin = step.thin.text if step.thin is not None else ""
    items = " ".join(item.name for item in (*step.materials, *step.tools))
    captions = " ".join(photo.caption for photo in step.photos)
    said = (step.mind, step.look_for, step.if_wrong, step.spots, thin, items, captions)
    return _spaced((*said, under.plain if under is not None else ""))


def _other(step: Step, guide: Guide) -> str:
    """A step of another variant, which the guide's first page does not show."""
    parts = step.paint.parts if step.paint is not None else ()
    names = (*(area.text for area in step.areas), step.technique, *(part.name.text for part in parts))
    return _spaced((step.title, *names, _prose(step, guide)))


def _text(guide: Guide) -> tuple[str, ...]:
    items = (f"{item.name} {item.purpose}".strip() for item in (*guide.materials, *guide.tools))
    stops = (entry.name for entry in guide.entries if not isinstance(entry, Step))
    # The year that the home page lists it under.
    year = str(guide.date.year) if guide.date else ""
    return (guide.body.before.plain, guide.body.after.plain, guide.author, *items, *stops, year)


def _spaced(parts: Iterable[str]) -> str:
    return " ".join(" ".join(part.split()) for part in parts if part)
