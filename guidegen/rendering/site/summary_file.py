"""The summary of a guide or a plan as a file of the site, `summary.json` beside its page.

A build that finds mistakes in a guide keeps the last good pages of it, and shows it on the pages about all guides by what
stands here. The file lies in the site, so that no cache is needed.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from guidegen.base.paths import slug
from guidegen.base.source import Span
from guidegen.computing.guide.colour_families import Cover, Family, MainFamily
from guidegen.computing.guide.materials import PaintNeed
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.model.paint import Palette
from guidegen.rendering.guide.summary import Painted, StepPlace, Summary
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.plan.plan_view import PlanCard
from guidegen.rendering.theme.chips import Chip


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPicture:
    """A photo of the last site: its sizes, and the file of each by width and ending."""

    sizes: tuple[tuple[int, int], ...]
    files: Mapping[tuple[int, str], str]

    def path(self, width: int, ending: str) -> str:
        """Where one of its files lies."""
        return self.files[width, ending]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptGuide:
    """A guide whose last good pages stay. `was` has the addresses it had before, `inserts` the shared lists in it.

    `picture` is its cover's, by the path that the summary's cover names; `feed_entry` its part of the feed.
    """

    summary: Summary
    was: tuple[str, ...] = ()
    inserts: tuple[str, ...] = ()
    picture: KeptPicture | None = None
    feed_entry: str = ""

    @property
    def slug(self) -> str:
        """Its address."""
        return self.summary.slug


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPlan:
    """A plan whose last good pages stay: its day of start and its card."""

    slug: str
    start: str = ""
    card: PlanCard


def guide_summary_file(summary: Summary, guide: Guide, context: SiteContext) -> bytes:
    """The file of a guide."""
    record = {
        "title": summary.title,
        "handbook": summary.handbook,
        "summary": summary.summary,
        "tags": summary.tags,
        "date": summary.date.isoformat() if summary.date else None,
        "published": summary.published.isoformat() if summary.published else None,
        "updated": summary.updated.isoformat() if summary.updated else None,
        "draft": summary.draft,
        "figures": summary.figures,
        "hands_on_ms": summary.hands_on,
        "total_ms": summary.total,
        "cover": _cover(summary.cover, context),
        "strip": [(chip.look, chip.fill, chip.film, chip.estimate) for chip in summary.strip],
        "pots": [(name, [_place(place) for place in places]) for name, places in summary.pots],
        "techniques": summary.techniques,
        "needs": [(need.paint.full_name, need.buy, need.spared) for need in summary.needs],
        "inserted": [(name, _place(place)) for name, place in summary.inserted],
        "drawn": summary.drawn,
        "covers": [(one.colour, one.metal, one.part) for one in summary.covers],
        "families": [(str(one.family), one.colour, one.part, one.lightness) for one in summary.families],
        "authors": summary.authors,
        "painted": [(one.by, one.year, one.figures, one.hands_on) for one in summary.painted],
        "sets": json.loads(summary.sets or "null"),
        "was": [slug(name.text) for name in guide.was],
        "inserts": guide.inserts,
    }
    return _written(record)


def plan_summary_file(card: PlanCard, start: dt.date) -> bytes:
    """The file of a plan."""
    return _written({"title": card.title, "start": start.isoformat(), **asdict(card)})


def kept_guide(address: str, text: str, palette: Palette, *, title: str, entry: str) -> KeptGuide:
    """A guide from its file's text; of one that cannot be read no more than the title is known.

    `entry` is its part of the last index to search by, '' where it had none.
    """
    entry = entry or script_json({"slug": address, "title": title})
    try:
        guide = _guide(address, json.loads(text), palette)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        guide = KeptGuide(summary=Summary(slug=address, title=title))
    return replace(guide, summary=replace(guide.summary, entry=entry))


def kept_plan(address: str, text: str, href: str) -> KeptPlan:
    """A plan from its file's text; of one that cannot be read no more than the address is known."""
    try:
        record = json.loads(text)
        card = PlanCard(
            title=str(record["title"]),
            href=href,
            good=bool(record["good"]),
            answer=str(record["answer"]),
            dates=str(record["dates"]),
            figures=int(record["figures"]),
            sittings=int(record["sittings"]),
        )
        return KeptPlan(slug=address, start=str(record["start"]), card=card)
    except (ValueError, TypeError, KeyError, RecursionError):
        return KeptPlan(slug=address, card=PlanCard(title=address, href=href))


def _guide(address: str, record: Mapping[str, Any], palette: Palette) -> KeptGuide:
    cover, picture = _read_cover(record["cover"])
    summary = Summary(
        slug=address,
        title=str(record["title"]),
        handbook=bool(record["handbook"]),
        summary=str(record["summary"]),
        tags=_texts(record["tags"]),
        date=_read_day(record["date"]),
        published=_read_day(record["published"]),
        updated=_read_day(record["updated"]),
        draft=bool(record["draft"]),
        figures=int(record["figures"]),
        hands_on=int(record["hands_on_ms"]),
        total=int(record["total_ms"]),
        cover=cover,
        strip=tuple(map(_read_chip, record["strip"])),
        pots=tuple((name, tuple(map(_read_place, places))) for name, places in record["pots"]),
        techniques=_texts(record["techniques"]),
        needs=tuple(_read_needs(record["needs"], palette)),
        inserted=tuple((name, _read_place(place)) for name, place in record["inserted"]),
        drawn=bool(record["drawn"]),
        covers=tuple(
            Cover(colour=colour, metal=metal, part=part) for colour, metal, part in record["covers"]
        ),
        families=tuple(
            MainFamily(family=Family(family), colour=colour, part=part, lightness=lightness)
            for family, colour, part, lightness in record["families"]
        ),
        authors=_texts(record["authors"]),
        painted=tuple(
            Painted(by=_texts(by), year=int(year), figures=int(figures), hands_on=int(hands_on))
            for by, year, figures, hands_on in record["painted"]
        ),
        sets=script_json(record["sets"]) if record.get("sets") else "",
    )
    return KeptGuide(
        summary=summary, was=_texts(record["was"]), inserts=_texts(record["inserts"]), picture=picture
    )


def _read_day(text: str | None) -> dt.date | None:
    return dt.date.fromisoformat(text) if text else None


def _read_chip(record: Sequence[Any]) -> Chip:
    look, fill, film, estimate = record
    return Chip(look=look, fill=fill, film=(film[0], film[1]) if film else None, estimate=estimate)


def _read_needs(records: Sequence[Sequence[Any]], palette: Palette) -> Iterator[PaintNeed]:
    """What is no longer in the palette has no place on the shelf."""
    paints = {paint.full_name: paint for paint in palette.paints}
    for name, buy, spared in records:
        if (paint := paints.get(name)) is not None:
            yield PaintNeed(
                paint=paint,
                steps=(),
                ml=None,
                drops=None,
                owned=paint.owned,
                buy=int(buy),
                cost=None,
                spared=bool(spared),
            )


def _texts(values: Sequence[object]) -> tuple[str, ...]:
    return tuple(map(str, values))


def _place(place: StepPlace) -> tuple[int, str, str]:
    return place.n, place.title, place.anchor


def _read_place(place: Sequence[Any]) -> StepPlace:
    n, title, anchor = place
    return StepPlace(n=int(n), title=str(title), anchor=str(anchor))


def _cover(photo: Photo | None, context: SiteContext) -> dict[str, object] | None:
    picture = context.pictures.get(photo.path) if photo is not None and photo.path else None
    if photo is None or picture is None:
        return None
    sizes = [(w, h, picture.path(w, "jpg"), picture.path(w, "webp")) for w, h in picture.sizes]
    return {"alt": photo.alt, "caption": photo.caption, "sizes": sizes}


def _read_cover(record: Mapping[str, Any] | None) -> tuple[Photo | None, KeptPicture | None]:
    """The photo by a path that no file of content has: that of its largest file in the site."""
    if record is None:
        return None, None
    files: dict[tuple[int, str], str] = {}
    for width, _, jpeg, webp in record["sizes"]:
        files[width, "jpg"], files[width, "webp"] = jpeg, webp
    picture = KeptPicture(sizes=tuple((int(w), int(h)) for w, h, *_ in record["sizes"]), files=files)
    path = picture.path(picture.sizes[-1][0], "jpg")
    photo = Photo(file=path, path=path, alt=record["alt"], caption=record["caption"], span=Span.of_file(path))
    return photo, picture


def _written(record: Mapping[str, object]) -> bytes:
    text = json.dumps(record, ensure_ascii=False, separators=(",", ":"))
    return f"{text}\n".encode(errors="replace")
