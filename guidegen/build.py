"""From content to site: the stages by name, in order."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic, has_errors, in_order, with_excerpts
from guidegen.checking.case import case_of
from guidegen.checking.plans import PlanCase
from guidegen.checking.rules import check_guide, check_palette, check_plan
from guidegen.computing.worked import Workshop
from guidegen.model.site import Archive
from guidegen.publishing import develop_photos, placeholder_for, site_artefacts
from guidegen.reading.archive import read_archive
from guidegen.writing.cache import Cache, cache_folder
from guidegen.writing.place import check_place
from guidegen.writing.publish import publish
from guidegen.writing.remembered import memory_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """Content that was read and checked. `sound` has the guides and plans without errors."""

    content: Path
    archive: Archive
    sound: Archive
    workshop: Workshop
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to; the counts are None where errors stopped it."""

    diagnostics: tuple[Diagnostic, ...]
    counts: Counts | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """How much was done. `seconds` is by the clock, for people only."""

    pages: int
    photos_encoded: int
    written: int
    unchanged: int
    removed: int
    seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What a build is asked for. `cache` None is the user's own cache folder; `progress` hears (stage, done, of)."""

    content: Path
    out: Path
    cache: Path | None = None
    cache_bytes: int | None = None
    leave_out_faulty: bool = False
    drafts: bool = False
    progress: Callable[[str, int, int], None] = field(default=lambda _stage, _done, _of: None)


def check(content: Path) -> Checked:
    """Read and check everything, and write nothing."""
    archive, found = read_archive(content)
    workshop = Workshop.over(archive.palette)
    found += check_palette(archive.palette)
    addresses = frozenset(guide.slug for guide in archive.guides)
    for guide in archive.guides:
        found += check_guide(case_of(guide, workshop, addresses=addresses))
    guides = {guide.slug: guide for guide in archive.guides}
    for plan in archive.plans:
        case = PlanCase(plan=plan, palette=archive.palette, guides=guides, every_address=addresses)
        found += check_plan(case)
    diagnostics = in_order(with_excerpts(found, archive.sources))
    return Checked(
        content=content,
        archive=archive,
        sound=_sound(archive, diagnostics),
        workshop=workshop,
        diagnostics=diagnostics,
    )


def _sound(archive: Archive, diagnostics: Sequence[Diagnostic]) -> Archive:
    faulty = {diagnostic.span.file for diagnostic in diagnostics if has_errors([diagnostic])}
    guides = tuple(
        guide
        for guide in archive.guides
        if guide.file not in faulty and not {f"shared/{name}.yaml" for name in guide.inserts} & faulty
    )
    return replace(archive, guides=guides, plans=tuple(p for p in archive.plans if p.file not in faulty))


def build(order: Order) -> Built:
    """Check, then write; an error stops it before anything is written, unless faulty guides are to be left out."""
    started = time.monotonic()
    cache_at = order.cache or cache_folder()
    check_place(order.out, content=order.content, cache=cache_at, home=_home())
    checked = check(order.content)
    sound = checked.sound if order.drafts else _without_drafts(checked.sound)
    if _stopped(checked, order):
        return Built(diagnostics=checked.diagnostics, counts=None)
    with Cache.opened(cache_at, order.cache_bytes) as store:
        photos = develop_photos(sound.guides, order.content, store, _stage(order, "photos"))
        diagnostics = in_order(
            (*checked.diagnostics, *with_excerpts(photos.diagnostics, checked.archive.sources))
        )
        checked = replace(checked, diagnostics=diagnostics, sound=_sound(sound, diagnostics))
        if _stopped(checked, order):
            return Built(diagnostics=diagnostics, counts=None)
        artefacts, pages = site_artefacts(
            checked.sound, checked.workshop, photos, content=order.content, store=store
        )
        published = publish(
            artefacts,
            order.out,
            placeholder=placeholder_for(checked.sound.site),
            version=__version__,
            memory=memory_file(cache_at, order.out, "site"),
            progress=_stage(order, "pages"),
        )
    counts = Counts(
        pages=pages,
        photos_encoded=photos.encoded,
        written=published.written,
        unchanged=published.unchanged,
        removed=published.removed,
        seconds=round(time.monotonic() - started, 3),
    )
    return Built(diagnostics=diagnostics, counts=counts)


def _stage(order: Order, name: str) -> Callable[[int, int], None]:
    return lambda done, of: order.progress(name, done, of)


def _home() -> Path | None:
    try:
        return Path.home()
    except RuntimeError:
        return None


def _without_drafts(archive: Archive) -> Archive:
    return replace(archive, guides=tuple(guide for guide in archive.guides if not guide.draft))


def _stopped(checked: Checked, order: Order) -> bool:
    """Whether errors forbid writing: any, or with faulty guides left out those of palette and site."""
    if not order.leave_out_faulty:
        return has_errors(checked.diagnostics)
    return any(
        has_errors([diagnostic]) and not diagnostic.span.file.startswith(("guides/", "shared/", "plans/"))
        for diagnostic in checked.diagnostics
    )
