"""From content to site: one stage after another, each taking values and giving values and diagnostics."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic, in_order
from guidegen.base.errors import RemovesManyError
from guidegen.building.check import Checked, check_content, with_photos
from guidegen.building.last_good import last_good
from guidegen.building.memory import Memory, load_memory, save_memory
from guidegen.building.pages import PageBuilder
from guidegen.building.photos import develop_photos
from guidegen.building.publishable import stops
from guidegen.building.site import (
    SitePlan,
    copied_files,
    copied_paths,
    in_the_way,
    other_files,
    placeholder_for,
    plan_site,
    shown,
)
from guidegen.checking.photos import all_photos
from guidegen.model.site import Site
from guidegen.model.web_address import WebAddress
from guidegen.reading.content.discover import ContentFiles, discover
from guidegen.rendering.page.urls import FEED
from guidegen.rendering.site.feed import feed_identity, identity_in
from guidegen.rendering.theme.broken_templates import bad_template
from guidegen.rendering.theme.template_process import BrokenTemplateError
from guidegen.writing.cache import Cache, cache_folder, unkept
from guidegen.writing.changes import Changes
from guidegen.writing.output_folder import check_place
from guidegen.writing.plain import read_plain
from guidegen.writing.publication import publication
from guidegen.writing.stat_cache import memory_file


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What a build is asked for. `cache` None is the user's own cache folder; `progress` hears (stage, done, of).

    `cores` bounds the worker processes, None to as many as there are cores; the site is the same.
    """

    content: Path
    out: Path
    cache: Path | None = None
    cache_bytes: int | None = None
    leave_out_faulty: bool = False
    remove_many: bool = False
    drafts: bool = False
    cores: int | None = None
    progress: Callable[[str, int, int], None] = field(default=lambda _stage, _done, _of: None)


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
class Built:
    """What a build came to.

    `counts` is None where nothing was written, because of an error or as `refused` says. `changes` are the files that
    were written or removed, `note` is a sentence on what the machine did not allow, `url` the site's own address.
    `kept` are the addresses of faulty guides, plans, lists and pages that stay as the last build left them, `left_out`
    those of which the last build has no good pages.
    """

    diagnostics: tuple[Diagnostic, ...]
    counts: Counts | None = None
    changes: Changes = field(default_factory=Changes)
    note: str | None = None
    kept: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    url: WebAddress | None = None
    refused: RemovesManyError | None = None


def build(order: Order, memory: Memory | None = None) -> Built:
    """Check, then write; an error stops it before anything is written, unless faulty guides are to be left out.

    Of those the last good pages stay. A build that would remove many pages is refused, unless that is asked for.
    `memory` is one that the caller keeps from build to build; without it, what the cache kept of the last one serves.
    """
    started, looked_at = time.monotonic(), time.time_ns()
    cache_at = order.cache or cache_folder()
    check_place(order.out, content=order.content, cache=cache_at, home=_home())
    content = discover(order.content)
    remembered = memory if memory is not None else load_memory(cache_at, order.content)
    checked = check_content(content, remembered, cores=order.cores, drafts=order.drafts)
    built = Built(diagnostics=checked.diagnostics)
    if not stops(checked.diagnostics, leave_out_faulty=order.leave_out_faulty):
        with Cache.opened(cache_at, order.cache_bytes) as store:
            built = _write(order, content, checked, remembered, store, started, looked_at)
            built = replace(built, note=store.note or built.note)
    lost = save_memory(cache_at, order.content, remembered) if memory is None else None
    url = checked.archive.site.url
    return replace(built, url=url, note=built.note or (unkept(cache_at, lost) if lost else None))


def _write(
    order: Order,
    content: ContentFiles,
    checked: Checked,
    memory: Memory,
    store: Cache,
    started: float,
    looked_at: int,
) -> Built:
    """The second half: photos, what stays of the last build, the plan of the site, its pages in their place."""
    shown_photos = all_photos(shown(checked.sound, drafts=order.drafts))
    progress = partial(order.progress, "photos")
    photos = develop_photos(shown_photos, content, store, memory, looked_at, progress, order.cores)
    checked = with_photos(checked, photos.diagnostics)
    if stops(checked.diagnostics, leave_out_faulty=order.leave_out_faulty):
        return Built(diagnostics=checked.diagnostics)
    archive, placeholder = checked.archive, placeholder_for(checked.archive.site)
    last = last_good(order.out, content, archive, checked.sound, drafts=order.drafts, placeholder=placeholder)
    note = _new_identity(order.out, archive.site)
    plan = plan_site(checked, photos, last, memory, drafts=order.drafts)
    try:
        built = _publish(order, checked, plan, memory, store, started)
    except BrokenTemplateError as broken:
        return Built(diagnostics=in_order((*checked.diagnostics, bad_template(broken))))
    except RemovesManyError as refused:
        return Built(diagnostics=checked.diagnostics, refused=refused)
    return replace(built, note=note) if built.counts is not None else built


def _publish(
    order: Order, checked: Checked, plan: SitePlan, memory: Memory, store: Cache, started: float
) -> Built:
    """Make the pages and put them in place; a file of the author's that lies in their way can stop it."""
    last, loose, looks = plan.last, plan.archive.loose, memory_file(store.folder, order.out, "site")
    with publication(order.out, memory=looks) as site:
        builder = PageBuilder(plan, memory, site.add, order.cores)
        summaries = builder.make(partial(order.progress, "guides"))
        builder.hand_over_all(other_files(plan, summaries, checked.content, store))
        builder.hand_over_all(last.own_files({*builder.files, *copied_paths(loose)}))
        diagnostics = in_order((*checked.diagnostics, *in_the_way(loose, builder.files)))
        if stops(diagnostics, leave_out_faulty=order.leave_out_faulty):
            return Built(diagnostics=diagnostics)
        free = set(loose) - {one.span.file for one in diagnostics}
        for file in copied_files(free, checked.content):
            site.add(file)
        builder.hand_over_all(last.needed_files({*builder.files, *copied_paths(free)}, builder.gone))
        placeholder = placeholder_for(plan.archive.site)
        installed = site.install(
            placeholder=placeholder, version=__version__, memory=looks, remove_many=order.remove_many
        )
    counts = Counts(
        pages=builder.pages,
        photos_encoded=plan.photos.encoded,
        written=len(installed.changes.written),
        unchanged=installed.unchanged,
        removed=installed.removed,
        seconds=round(time.monotonic() - started, 3),
    )
    return Built(
        diagnostics=diagnostics,
        counts=counts,
        changes=installed.changes,
        kept=last.kept,
        left_out=last.left_out,
    )


def _new_identity(out: Path, site: Site) -> str | None:
    """A sentence where the feed in a site has another id than its next, so that all of it would be new to readers."""
    identity = feed_identity(site)
    try:
        before = identity_in(read_plain(out / FEED).decode(errors="replace")) if identity else ""
    except OSError:
        return None
    if not before or before == identity:
        return None
    keep = f"To keep the old one write feed_id: {before} in site.yaml." if before.startswith("tag:") else ""
    return f"The feed has a new id, so readers will see every entry as new. {keep}".rstrip()


def _home() -> Path | None:
    try:
        return Path.home()
    except RuntimeError:
        return None
