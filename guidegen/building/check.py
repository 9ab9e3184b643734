"""Reads and checks content. Nothing that makes pages is imported here, so that `guidegen check` answers at once."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic, in_order, with_excerpts
from guidegen.base.workers import mapped
from guidegen.building.memory import Memory, load_memory, save_memory
from guidegen.building.photos import look_at_photos
from guidegen.building.publishable import sound_of
from guidegen.checking.archives import same_guides, tags_near
from guidegen.checking.bounds import too_much_of_a_guide
from guidegen.checking.cards import card_would_help
from guidegen.checking.case import case_of
from guidegen.checking.fixes import only_sure_fixes
from guidegen.checking.meant import all_without_meant
from guidegen.checking.palettes import lists_paints
from guidegen.checking.photos import all_photos, unused_photos
from guidegen.checking.plans import PlanCase
from guidegen.checking.rules import OF_THE_WHOLE_GUIDE, check_guide, check_list, check_palette, check_plan
from guidegen.checking.sense import links_of_a_page
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.imaging.ahead import PhotosAhead
from guidegen.model.guide import Guide, Shared
from guidegen.model.site import Archive
from guidegen.reading.content.archive import read_found
from guidegen.reading.content.discover import ContentFiles, discover
from guidegen.writing.cache import Cache, cache_folder, is_there


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """Content that was read and checked. `sound` has the guides and plans without errors.

    Where `drafts` are shown, their errors weigh as much as any.
    """

    content: Path
    archive: Archive
    sound: Archive
    palette_tools: PaletteTools
    diagnostics: tuple[Diagnostic, ...]
    drafts: bool = False


def check(content: Path, *, drafts: bool = False) -> Checked:
    """Read and check everything, and write nothing."""
    return check_content(discover(content), Memory(lasting=False), drafts=drafts)


def check_content(
    files: ContentFiles, memory: Memory, *, cores: int | None = None, drafts: bool = False
) -> Checked:
    """As `check`, for a folder whose files are listed; what the memory knows is neither read nor checked again."""
    content = files.root
    archive, found = read_found(files, memory.reading)
    memory.begin(archive, files)
    palette_tools = memory.palette_tools_over(archive.palette)
    found += check_palette(archive.palette)
    found += tuple(lists_paints(archive, files.palettes))
    found += tuple(card_would_help(archive))
    sought = {one.span.file for one in found if one.code == "missing-photo"}
    found += tuple(unused_photos(archive.guides, files.listing.files, archive.unread | sought))
    _work_out_stand_ins(memory, (*archive.guides, *archive.shared), palette_tools, cores)
    addresses, gone = archive.addresses, frozenset(archive.site.gone)
    found += (*same_guides(archive), *tags_near(archive.guides))
    found += _guides_told(archive, memory, palette_tools, cores)
    for page in archive.pages:
        found += tuple(links_of_a_page(page, addresses, gone))
    inserted = {name for guide in archive.guides for name in guide.inserts}
    for one in archive.shared:
        if one.name not in inserted:
            found += check_list(one, palette_tools)
    found += _plans_told(archive)
    if archive.templates or archive.site.tokens:
        from guidegen.building.templates import templates_told, tokens_told

        found += templates_told(archive, content, memory)
        found += tokens_told(archive, content)
    diagnostics = in_order(_as_shown(found, archive, drafts=drafts))
    return Checked(
        content=content,
        archive=archive,
        sound=sound_of(archive, diagnostics),
        palette_tools=palette_tools,
        diagnostics=diagnostics,
        drafts=drafts,
    )


def _guides_told(
    archive: Archive, memory: Memory, palette_tools: PaletteTools, cores: int | None
) -> tuple[Diagnostic, ...]:
    """What there is to tell of all guides; those that have changed are checked by all cores."""
    addresses, gone = archive.addresses, frozenset(archive.site.gone)
    each = [
        (guide, (addresses, gone, *_of_chart(archive, guide), memory.taken_by(guide, palette_tools)))
        for guide in archive.guides
    ]
    lacking = [
        number for number, (guide, what) in enumerate(each) if memory.checked_before(guide, what) is None
    ]
    work, named = partial(guide_told, archive, palette_tools), lambda number: archive.guides[number].file
    found: list[Diagnostic] = []
    with closing(mapped(work, lacking, named, cores=cores)) as answers:
        for guide, what in each:
            found += memory.check(guide, what, partial(next, answers))
    return tuple(found)


def _plans_told(archive: Archive) -> tuple[Diagnostic, ...]:
    guides = {guide.slug: guide for guide in archive.guides}
    found: list[Diagnostic] = []
    for plan in archive.plans:
        case = PlanCase(plan=plan, palette=archive.palette, guides=guides, every_address=archive.addresses)
        with busy_with(plan.file):
            found += check_plan(case)
    return tuple(found)


def _as_shown(found: Iterable[Diagnostic], archive: Archive, *, drafts: bool) -> Iterator[Diagnostic]:
    """Diagnostics with their excerpts and weight; those of a whole guide not where a name in it is only guessed at."""
    weighed = _weighed(all_without_meant(found, archive), archive, drafts=drafts)
    sure = tuple(only_sure_fixes(with_excerpts(weighed, archive.sources), archive))
    guessed = {one.span.file for one in sure if one.is_guess}
    return (one for one in sure if one.code not in OF_THE_WHOLE_GUIDE or one.span.file not in guessed)


def _work_out_stand_ins(
    memory: Memory, guides: Sequence[Guide | Shared], palette_tools: PaletteTools, cores: int | None
) -> None:
    """Ask all cores what stands in for paints: of many pots each is a search of its own."""
    paints, stand_ins = memory.advice_wanted(guides, palette_tools), palette_tools.stand_ins
    named, pots = lambda number: paints[number].full_name, palette_tools.palette.paints
    with closing(mapped(stand_ins.advised, paints, named, cores=cores, shared=pots)) as answers:
        for paint, advice in zip(paints, answers, strict=True):
            stand_ins.keep(paint.full_name, advice)
            memory.advised[paint.full_name] = advice


def _weighed(diagnostics: Iterable[Diagnostic], archive: Archive, *, drafts: bool) -> Iterator[Diagnostic]:
    """The diagnostics, with those of guides that are not shown marked as such."""
    hidden = set() if drafts else {guide.file for guide in archive.guides if guide.draft}
    for one in diagnostics:
        if one.span.file in hidden and one.is_fault:
            note = "The guide is a draft: the site is written without it."
            yield replace(one, of_draft=True, notes=(*one.notes, note))
        else:
            yield one


def _of_chart(archive: Archive, guide: Guide) -> tuple[frozenset[str] | None, int]:
    """The areas of a guide's chart, None without one, and the number of its pieces."""
    chart = archive.charts.get(guide.slug)
    return (frozenset(chart.areas), len(chart.pieces)) if chart is not None else (None, 0)


def guide_told(archive: Archive, palette_tools: PaletteTools, number: int) -> tuple[Diagnostic, ...]:
    """Check one guide, by its place in the archive; runs in a worker."""
    guide = archive.guides[number]
    areas, pieces = _of_chart(archive, guide)
    with busy_with(guide.file):
        too_much = tuple(too_much_of_a_guide(guide, pieces))
        if too_much:
            return too_much
        return tuple(
            check_guide(
                case_of(
                    guide,
                    palette_tools,
                    addresses=archive.addresses,
                    gone=frozenset(archive.site.gone),
                    chart_areas=areas,
                )
            )
        )


def check_with_photos(content: Path, cache: Path | None = None, ahead: PhotosAhead | None = None) -> Checked:
    """As `check`, and every photo is opened, but for those that have not changed and those that were opened `ahead`.

    Nothing is written, but that a cache which is there already keeps what was read and opened.
    """
    looked_at, cache_at = time.time_ns(), cache or cache_folder()
    keeping = is_there(cache_at)
    memory = load_memory(cache_at, content) if keeping else Memory(lasting=False)
    found = discover(content)
    checked = check_content(found, memory)
    photos = look_at_photos(
        all_photos(checked.archive), found, Cache(cache_at), memory, looked_at, ahead or PhotosAhead()
    )
    if keeping:
        save_memory(cache_at, content, memory)
    return with_photos(checked, photos)


def with_photos(checked: Checked, diagnostics: Sequence[Diagnostic]) -> Checked:
    """What was checked, with what there is to say of its photos."""
    told = _weighed(all_without_meant(diagnostics, checked.archive), checked.archive, drafts=checked.drafts)
    every = in_order((*checked.diagnostics, *with_excerpts(told, checked.archive.sources)))
    return replace(checked, diagnostics=every, sound=sound_of(checked.sound, every))
