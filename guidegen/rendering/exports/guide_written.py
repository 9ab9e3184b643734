"""What an author wrote of a guide beside its steps' times and paints, for `guide.json`: people, days, words, photos, batches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.measured_times import minutes
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.guide import PaintedBatch, Passage, Reference
from guidegen.model.names import Part, Photo
from guidegen.model.site import Site
from guidegen.rendering.guide.step_views import places_of
from guidegen.rendering.page.pictures import Pictures, picture_file
from guidegen.rendering.page.urls import guide_file, relative


def written_data(computed: ComputedGuide, pictures: Pictures, site: Site) -> dict[str, Any]:
    """The guide's own words, ready for JSON; what nobody said is null or empty. The site's author and licence stand in.

    Photos are those of the variant's page, each with the number of its step, null for one that stands elsewhere; `pots`
    are those of `paints`, in their order.
    """
    guide, places = computed.guide, places_of(computed)
    return {
        "summary": guide.summary or None,
        "authors": list(guide.authors) or ([site.author] if site.author else []),
        "credit": guide.credit or None,
        "licence": (guide.licence if "licence" in guide.places else site.licence) or None,
        "contact": site.contact or None,
        "kind": guide.kind.value,
        "language": guide.language or site.language,
        "date": _day(guide.date),
        "published": _day(guide.published),
        "updated": _day(guide.updated),
        "tags": list(guide.tags),
        "see": [name.text for name in guide.see],
        "was": [name.text for name in guide.was],
        "video": guide.video.text if guide.video is not None else None,
        "scale": guide.scale.text,
        "base_mm": guide.base,
        "surface_cm2": guide.surface,
        "choose": {name: list(options) for name, options in guide.choose.items()},
        "before": _words(guide.body.before),
        "after": _words(guide.body.after),
        "photos": list(_photos(computed, places, pictures)),
        "pots": [
            {
                "name": need.paint.name,
                "range": need.paint.range,
                "edition": need.paint.edition or None,
                "discontinued": need.paint.discontinued,
            }
            for need in computed.needs
        ],
        "reference": [_reference(one, guide.slug, pictures) for one in guide.reference],
        "made": [_batch(batch) for batch in guide.made],
        "words": [_step(row, guide.body.under.get(places[row.n])) for row in computed.scheme.steps],
    }


def _step(row: SchemeStep, under: Passage | None) -> dict[str, Any]:
    """What a step says besides what `steps` has of it, under the same number; `under` is the text below it."""
    step = row.step
    return {
        "n": row.n,
        "brush": step.brush or None,
        "thin": step.thin.text if step.thin is not None else None,
        "optional": step.optional,
        "rest": step.rest,
        "mind": step.mind or None,
        "look_for": step.look_for or None,
        "if_wrong": step.if_wrong or None,
        "spots": step.spots or None,
        "stray": [area.text for area in step.stray],
        "dry_warm_min": None if step.dry.warm is None else minutes(step.dry.warm),
        "holds_area": step.holds_area,
        "shared": step.shared,
        "at_s": None if step.at is None else step.at // 1_000,
        "instead": [{"parts": _amounts(one.parts), "note": one.note or None} for one in step.instead],
        "text": _words(under),
    }


def _amounts(parts: Sequence[Part]) -> dict[str, float]:
    """The parts of each name; those of one that stands there twice together."""
    amounts: dict[str, float] = {}
    for part in parts:
        amounts[part.name.text] = round(amounts.get(part.name.text, 0) + part.amount, 6)
    return amounts


def _words(passage: Passage | None) -> str | None:
    return (passage.plain or None) if passage is not None else None


def _day(day: object) -> str | None:
    return None if day is None else str(day)


def _photos(
    computed: ComputedGuide, places: Mapping[int, int], pictures: Pictures
) -> Iterator[dict[str, Any]]:
    guide = computed.guide
    shown: list[tuple[int | None, Photo]] = [(None, guide.cover)] if guide.cover is not None else []
    shown += [(None, photo) for photo in guide.body.before.photos]
    for row in computed.scheme.steps:
        under = guide.body.under.get(places[row.n])
        shown += [(row.n, photo) for photo in (*row.step.photos, *(under.photos if under else ()))]
    shown += [(None, one.photo) for one in guide.reference]
    shown += [(None, photo) for photo in guide.body.after.photos]
    for n, photo in shown:
        file = _file(photo, guide.slug, pictures)
        if file is not None:
            yield {
                "file": file,
                "alt": photo.alt or None,
                "caption": photo.caption or None,
                "by": photo.by or None,
                "licence": photo.licence or None,
                "step": n,
            }


def _file(photo: Photo, slug: str, pictures: Pictures) -> str | None:
    path = picture_file(photo, pictures)
    return None if path is None else relative(path, guide_file(slug, "guide.json"))


def _reference(one: Reference, slug: str, pictures: Pictures) -> dict[str, Any]:
    return {
        "file": _file(one.photo, slug, pictures),
        "alt": one.photo.alt or None,
        "source": one.source or None,
        "swatches": [{"name": swatch.name, "colour": swatch.colour} for swatch in one.swatches],
    }


def _batch(batch: PaintedBatch) -> dict[str, Any]:
    return {
        "date": str(batch.date),
        "figures": batch.figures,
        "minutes": {step: minutes(took) for step, took in batch.minutes.items()},
        "choose": {name: option.text for name, option in batch.choose.items()},
        "mixed": {name: dict(options) for name, options in batch.mixed.items()},
        "by": batch.by or None,
        "used": [
            {"paint": one.paint, "edition": one.edition or None, "colour": one.colour} for one in batch.used
        ],
        "note": batch.note or None,
    }
