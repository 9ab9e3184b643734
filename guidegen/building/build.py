"""From content to site: the stages by name, in order."""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic, has_errors, in_order, with_excerpts
from guidegen.base.errors import RemovesManyError
from guidegen.building.check import Checked, check, check_found, check_with_photos
from guidegen.building.last_good import LastGood, last_good
from guidegen.building.memory import (
    Answer,
    AtHand,
    Memory,
    answer_of,
    keep_answer,
    keep_memory,
    memory_of,
    running,
)
from guidegen.building.photos import Photos
from guidegen.building.publishable import sound_of, stops
from guidegen.building.site import (
    Making,
    broken_templates_told,
    placeholder_for,
    published,
    templates_of,
)
from guidegen.reading.content.discover import Found, discover
from guidegen.writing.ahead import Ahead
from guidegen.writing.cache import Cache, cache_folder, unkept
from guidegen.writing.cache_file import left_as
from guidegen.writing.output_folder import check_place
from guidegen.writing.publish import publish
from guidegen.writing.stat_cache import memory_file

__all__ = [
    "Built",
    "Checked",
    "Counts",
    "Order",
    "build",
    "check",
    "check_found",
    "check_with_photos",
    "counts_of",
    "keep",
    "remembered",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build came to; the counts are None where errors stopped it.

    `exchanged` are the files that were written; `note` is a sentence on what the machine did not allow, if anything.
    `kept` are the addresses of what is faulty and stays as the last build left it, `left_out` of what has no such pages.
    `refused` is why nothing was written though no error stopped it.
    """

    diagnostics: tuple[Diagnostic, ...]
    counts: Counts | None
    exchanged: tuple[str, ...] = ()
    note: str | None = None
    kept: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    refused: RemovesManyError | None = None


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
    remove_many: bool = False
    drafts: bool = False
    progress: Callable[[str, int, int], None] = field(default=lambda _stage, _done, _of: None)


def build(order: Order, memory: Memory | None = None) -> Built:
    """Check, then write; an error stops it before anything is written, unless faulty guides are to be left out.

    Of those the last good pages stay. A build that would remove many pages is refused, unless that is asked for.

    `memory` is one that the caller keeps from build to build; without it, what the cache kept of the last one serves.
    """
    started, looked_at = time.monotonic(), time.time_ns()
    cache_at = order.cache or cache_folder()
    check_place(order.out, content=order.content, cache=cache_at, home=_home())
    found = discover(order.content)
    looks = memory_file(cache_at, order.out, "site")
    made_with = running() if memory is None else ""
    asked: tuple[object, ...] = ()
    if memory is None:
        asked = (found.root, order.cache_bytes, order.leave_out_faulty, order.drafts, templates_of(found))
        answer = answer_of(cache_at, order.out, made_with)
        if answer is not None and answer.holds(asked, found, order.out, looks):
            counts = counts_of(started, pages=answer.pages, unchanged=answer.files)
            return Built(
                diagnostics=answer.diagnostics, counts=counts, kept=answer.kept, left_out=answer.left_out
            )
    kept = memory if memory is not None else memory_of(cache_at, order.content, made_with)
    kept.look_again_at(found)
    checked = check_found(order.content, found, kept)
    if stops(checked.diagnostics, leave_out_faulty=order.leave_out_faulty):
        lost = keep_memory(cache_at, order.content, made_with, kept) if memory is None else None
        return Built(
            diagnostics=checked.diagnostics, counts=None, note=unkept(cache_at, lost) if lost else None
        )
    with ExitStack() as open_now:
        store = open_now.enter_context(Cache.opened(cache_at, order.cache_bytes))
        ahead = open_now.enter_context(Ahead(order.out, cache_at))
        placeholder = placeholder_for(checked.sound.site)
        shown = published(checked.sound, drafts=order.drafts).guides
        progress = _stage(order, "photos")
        photos = open_now.enter_context(Photos(shown, found, store, kept, looked_at, progress))
        making = Making(
            content=order.content,
            drafts=order.drafts,
            memory=kept,
            store=store,
            photos=photos,
            ahead=ahead,
            progress=_stage(order, "guides"),
        )
        with broken_templates_told() as broken:
            # Pages are made while photos are developed; should one turn out to be faulty, they are made without it.
            last = _last_good(order, found, checked, placeholder)
            made = making.site(checked.sound, checked.palette_tools, last)
            checked = _with_photos(checked, photos)
            told = in_order((*checked.diagnostics, *made.told))
            if stops(told, leave_out_faulty=order.leave_out_faulty):
                return Built(diagnostics=told, counts=None, note=store.note)
            if has_errors(photos.diagnostics):
                last = _last_good(order, found, checked, placeholder)
                made = making.site(checked.sound, checked.palette_tools, last)
            try:
                put = publish(
                    made.artifacts,
                    order.out,
                    placeholder=placeholder,
                    version=__version__,
                    memory=looks,
                    progress=_stage(order, "pages"),
                    remove_many=order.remove_many,
                )
            except RemovesManyError as refused:
                return Built(diagnostics=checked.diagnostics, counts=None, note=store.note, refused=refused)
        if broken:
            diagnostics = in_order((*_with_photos(checked, photos).diagnostics, *broken))
            return Built(diagnostics=diagnostics, counts=None, note=store.note)
    diagnostics, pages, artifacts = checked.diagnostics, made.pages, made.artifacts
    kept.at_hand = AtHand(
        found=found,
        told=photos.diagnostics,
        context=replace(made.press.context, pictures=dict(photos)),
        templates=made.press.templates,
        version=made.press.version,
        pages=pages,
        site=put.left,
    )
    note = store.note
    if memory is None:
        lost = keep_memory(cache_at, order.content, made_with, kept)
        answer = Answer(
            asked=asked,
            looked_at=looked_at,
            found=found,
            diagnostics=diagnostics,
            pages=pages,
            files=len(artifacts),
            manifest=left_as(order.out),
            kept=last.kept,
            left_out=last.left_out,
        )
        lost = keep_answer(cache_at, order.out, made_with, answer) or lost
        note = note or (unkept(cache_at, lost) if lost else None)
    counts = counts_of(
        started,
        pages=pages,
        photos_encoded=photos.encoded,
        written=put.written,
        unchanged=put.unchanged,
        removed=put.removed,
    )
    return Built(
        diagnostics=diagnostics,
        counts=counts,
        exchanged=put.exchanged,
        note=note,
        kept=last.kept,
        left_out=last.left_out,
    )


def _last_good(order: Order, found: Found, checked: Checked, placeholder: Callable[[str], bytes]) -> LastGood:
    """What stays of the site as it is."""
    return last_good(
        order.out,
        found,
        checked.archive,
        checked.sound,
        drafts=order.drafts,
        placeholder=placeholder,
    )


def _with_photos(checked: Checked, photos: Photos) -> Checked:
    """What was checked, with what there is to tell of its photos."""
    told = with_excerpts(photos.diagnostics, checked.archive.sources)
    diagnostics = in_order((*checked.diagnostics, *told))
    return replace(checked, diagnostics=diagnostics, sound=sound_of(checked.sound, diagnostics))


def remembered(order: Order) -> Memory:
    """What the last build of this content left in the cache, for a caller that keeps it from build to build."""
    return memory_of(order.cache or cache_folder(), order.content, running())


def keep(order: Order, memory: Memory) -> None:
    """Leave it there for the next one to come."""
    keep_memory(order.cache or cache_folder(), order.content, running(), memory)


def counts_of(
    started: float, *, pages: int, unchanged: int, photos_encoded: int = 0, written: int = 0, removed: int = 0
) -> Counts:
    """The counts of a build that began at that moment of the machine's clock."""
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
