"""From content to site: the stages by name, in order."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path, PurePosixPath

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic, has_errors, in_order, with_excerpts
from guidegen.base.paths import slug
from guidegen.base.suggest import folded
from guidegen.checking.case import case_of
from guidegen.checking.plans import PlanCase
from guidegen.checking.rules import check_guide, check_list, check_palette, check_plan
from guidegen.computing.worked import Workshop
from guidegen.memory import Answer, Memory, answer_of, keep_answer, keep_memory, memory_of, running
from guidegen.model.guide import Guide
from guidegen.model.site import Archive
from guidegen.publishing import (
    broken_templates_told,
    develop_photos,
    look_at_photos,
    placeholder_for,
    published,
    site_artefacts,
    templates_of,
    templates_told,
)
from guidegen.reading.archive import read_found
from guidegen.reading.discover import Found, discover
from guidegen.writing.cache import Cache, cache_folder
from guidegen.writing.kept import left_as
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
    return check_found(content, discover(content), Memory())


def check_found(content: Path, files: Found, memory: Memory) -> Checked:
    """The same, of a folder that has been walked already; what the memory knows is neither read nor checked again."""
    archive, found = read_found(files, memory.reading)
    memory.begin(archive, files)
    workshop = memory.workshop_over(archive.palette)
    found += check_palette(archive.palette)
    addresses = archive.addresses
    for guide in archive.guides:
        chart = archive.charts.get(guide.slug)
        areas = frozenset(chart.areas) if chart is not None else None
        found += memory.check(
            guide, (addresses, areas), partial(_guide_told, guide, workshop, addresses, areas)
        )
    inserted = {name for guide in archive.guides for name in guide.inserts}
    for one in archive.shared:
        if one.name not in inserted:
            found += check_list(one, workshop)
    guides = {guide.slug: guide for guide in archive.guides}
    for plan in archive.plans:
        case = PlanCase(plan=plan, palette=archive.palette, guides=guides, every_address=addresses)
        found += check_plan(case)
    found += templates_told(archive, content)
    diagnostics = in_order(with_excerpts(found, archive.sources))
    return Checked(
        content=content,
        archive=archive,
        sound=_sound(archive, diagnostics),
        workshop=workshop,
        diagnostics=diagnostics,
    )


def _guide_told(
    guide: Guide, workshop: Workshop, addresses: frozenset[str], areas: frozenset[str] | None
) -> Sequence[Diagnostic]:
    return check_guide(case_of(guide, workshop, addresses=addresses, chart_areas=areas))


def check_with_photos(content: Path, cache: Path | None = None) -> Checked:
    """As `check`, with every photo opened that the cache does not know; nothing is written, not even to the cache."""
    checked = check(content)
    photos = look_at_photos(checked.archive.guides, content, Cache(cache or cache_folder()))
    diagnostics = in_order((*checked.diagnostics, *with_excerpts(photos, checked.archive.sources)))
    return replace(checked, diagnostics=diagnostics, sound=_sound(checked.sound, diagnostics))


def _sound(archive: Archive, diagnostics: Sequence[Diagnostic]) -> Archive:
    faulty = {diagnostic.span.file for diagnostic in diagnostics if has_errors([diagnostic])}
    lists = {slug(PurePosixPath(file).stem) for file in faulty if file.startswith("shared/")}
    guides = tuple(
        guide
        for guide in archive.guides
        if faulty.isdisjoint({guide.file, guide.chart}) and lists.isdisjoint(guide.inserts)
    )
    # Without one of its guides a plan would promise too much.
    there = {folded(guide.slug) for guide in guides}
    plans = tuple(
        plan
        for plan in archive.plans
        if plan.file not in faulty and all(folded(unit.guide.text) in there for unit in plan.units)
    )
    shared = tuple(one for one in archive.shared if one.name not in lists)
    return replace(archive, guides=guides, plans=plans, shared=shared)


def build(order: Order, memory: Memory | None = None) -> Built:
    """Check, then write; an error stops it before anything is written, unless faulty guides are to be left out.

    `memory` is one that the caller keeps from build to build; without it, what the cache kept of the last one serves.
    """
    started, looked_at = time.monotonic(), time.time_ns()
    cache_at = order.cache or cache_folder()
    check_place(order.out, content=order.content, cache=cache_at, home=_home())
    found = discover(order.content)
    looks = memory_file(cache_at, order.out, "site")
    made_with = running()
    asked = (found.root, order.cache_bytes, order.leave_out_faulty, order.drafts, templates_of(found))
    answer = answer_of(cache_at, order.out, made_with)
    if answer is not None and answer.holds(asked, found, order.out, looks):
        counts = _counts(started, pages=answer.pages, unchanged=answer.files)
        return Built(diagnostics=answer.diagnostics, counts=counts)
    kept = memory if memory is not None else memory_of(cache_at, order.content, made_with)
    checked = check_found(order.content, found, kept)
    if _stopped(checked, order):
        if memory is None:
            keep_memory(cache_at, order.content, made_with, kept)
        return Built(diagnostics=checked.diagnostics, counts=None)
    with Cache.opened(cache_at, order.cache_bytes) as store:
        shown = published(checked.sound, drafts=order.drafts).guides
        photos = develop_photos(shown, found, store, kept, looked_at, _stage(order, "photos"))
        diagnostics = in_order(
            (*checked.diagnostics, *with_excerpts(photos.diagnostics, checked.archive.sources))
        )
        checked = replace(checked, diagnostics=diagnostics, sound=_sound(checked.sound, diagnostics))
        if _stopped(checked, order):
            return Built(diagnostics=diagnostics, counts=None)
        with broken_templates_told(order.content) as broken:
            artefacts, pages = site_artefacts(
                checked.sound,
                checked.workshop,
                photos,
                kept,
                content=order.content,
                store=store,
                drafts=order.drafts,
            )
            put = publish(
                artefacts,
                order.out,
                placeholder=placeholder_for(checked.sound.site),
                version=__version__,
                memory=looks,
                progress=_stage(order, "pages"),
            )
        if broken:
            return Built(diagnostics=in_order((*diagnostics, *broken)), counts=None)
    if memory is None:
        keep_memory(cache_at, order.content, made_with, kept)
        answer = Answer(
            asked=asked,
            looked_at=looked_at,
            found=found,
            diagnostics=diagnostics,
            pages=pages,
            files=len(artefacts),
            manifest=left_as(order.out),
        )
        keep_answer(cache_at, order.out, made_with, answer)
    counts = _counts(
        started,
        pages=pages,
        photos_encoded=photos.encoded,
        written=put.written,
        unchanged=put.unchanged,
        removed=put.removed,
    )
    return Built(diagnostics=diagnostics, counts=counts)


def remembered(order: Order) -> Memory:
    """What the last build of this content left in the cache, for a caller that keeps it from build to build."""
    return memory_of(order.cache or cache_folder(), order.content, running())


def keep(order: Order, memory: Memory) -> None:
    """Leave it there for the next one to come."""
    keep_memory(order.cache or cache_folder(), order.content, running(), memory)


def _counts(
    started: float, *, pages: int, unchanged: int, photos_encoded: int = 0, written: int = 0, removed: int = 0
) -> Counts:
    return Counts(
        pages=pages,
        photos_encoded=photos_encoded,
        written=written,
        unchanged=unchanged,
        removed=removed,
        seconds=round(time.monotonic() - started, 3),
    )


def _stage(order: Order, name: str) -> Callable[[int, int], None]:
    return lambda done, of: order.progress(name, done, of)


def _home() -> Path | None:
    try:
        return Path.home()
    except RuntimeError:
        return None


def _stopped(checked: Checked, order: Order) -> bool:
    """Whether errors forbid writing: any, or with faulty guides left out those of palette and site."""
    if not order.leave_out_faulty:
        return has_errors(checked.diagnostics)
    return any(
        has_errors([diagnostic]) and not diagnostic.span.file.startswith(("guides/", "shared/", "plans/"))
        for diagnostic in checked.diagnostics
    )
