"""What is faulty keeps the pages that the last build made of it: which those are, and what they need beside them."""

from __future__ import annotations

import json
from collections import ChainMap
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import cast

from guidegen.base.paths import clashes
from guidegen.imaging.picture import FOLDER, file_name, kept_width, key_and_width
from guidegen.model.guide import Shared
from guidegen.model.site import Archive
from guidegen.reading.content.discover import ContentFiles
from guidegen.rendering.archive.search_index import indexed
from guidegen.rendering.guide.figures import FILE
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.pictures import Picture
from guidegen.rendering.page.site_context import PageLink, SiteContext, in_their_order
from guidegen.rendering.page.urls import (
    FEED,
    INDEX,
    PLANS,
    SUMMARY,
    guide_file,
    plan_file,
    relative,
    shared_file,
    text_page_file,
)
from guidegen.rendering.site.feed import entries_of
from guidegen.rendering.site.summary_file import KeptGuide, KeptPlan, kept_guide, kept_plan
from guidegen.writing.artifact import Artifact, is_page
from guidegen.writing.last_site import LastSite

# Of the pages that this build does not make and that a kept page leads to, these are shown as they were. Whatever else
# is gone was taken away by the author.
_SHOWN_AS_THEY_WERE = ("paints/", "shared/")
# A guide and a plan have these; an old address, or one that was taken away, has a page alone.
_DATA, _CALENDAR = "guide.json", "plan.ics"


@dataclass(frozen=True, slots=True, kw_only=True)
class LastGood:
    """Faulty guides, plans, shared lists and pages that stay as the last build left them; empty where nothing is faulty.

    `page_entries` are the parts of the search index of the pages of words, by slug; `left_out` are the addresses of those
    without such pages. `readable` are those of the lists that could be read, and `own` has the files of all that stays, with
    their keys.
    """

    site: LastSite | None = None
    guides: tuple[KeptGuide, ...] = ()
    plans: tuple[KeptPlan, ...] = ()
    lists: tuple[str, ...] = ()
    pages: tuple[PageLink, ...] = ()
    page_entries: Mapping[str, str] = field(default_factory=dict)
    readable: tuple[Shared, ...] = ()
    left_out: tuple[str, ...] = ()
    own: Mapping[str, str] = field(default_factory=dict)

    @property
    def kept(self) -> tuple[str, ...]:
        """The addresses of all that stay."""
        return (
            *(f"guides/{guide.slug}" for guide in self.guides),
            *(f"plans/{plan.slug}" for plan in self.plans),
            *(f"shared/{name}" for name in self.lists),
            *(f"pages/{name}" for name in self.page_entries),
        )

    @property
    def sizes(self) -> dict[str, int]:
        """The bytes of the pages that stay, by path."""
        if self.site is None:
            return {}
        return {path: (self.site.out / path).stat().st_size for path in self.own if is_page(path)}

    @property
    def photos(self) -> dict[str, int]:
        """Photos on the pages that stay, by key, with the bytes of what is kept of each for where there is no network."""
        if self.site is None:
            return {}
        shown = {ref for path in self.own if is_page(path) for ref in self.site.references(path)}
        widths: dict[str, list[int]] = {}
        for key, width in filter(None, map(key_and_width, shown)):
            widths.setdefault(key, []).append(width)
        names = {key: file_name(key, kept_width(sorted(there)), "webp") for key, there in widths.items()}
        return {
            key: (self.site.out / FOLDER / name).stat().st_size
            for key, name in names.items()
            if self.site.holds(f"{FOLDER}/{name}")
        }

    def beside(self, summaries: Iterable[Summary]) -> list[Summary]:
        """The guides that are made, in short, and those that stay, by address as ever."""
        return sorted([*summaries, *(guide.summary for guide in self.guides)], key=lambda short: short.slug)

    def linking_to_all(self, context: SiteContext) -> SiteContext:
        """What pages share, with what stays among the pages they may link to."""
        if not self.own:
            return context
        titles = {guide.slug: guide.summary.title for guide in self.guides}
        covers: dict[str, Picture] = {
            guide.summary.cover.path: guide.picture
            for guide in self.guides
            if guide.picture is not None and guide.summary.cover is not None and guide.summary.cover.path
        }
        return replace(
            context,
            guides=dict(sorted({**context.guides, **titles}.items())),
            shared=dict(
                sorted({**context.shared, **{name: shared_file(name) for name in self.lists}}.items())
            ),
            plans=context.plans or bool(self.plans),
            pages=in_their_order((*context.pages, *self.pages)),
            # Nobody writes to it, and photos that are still being developed are not waited for.
            pictures=ChainMap(covers, cast("dict[str, Picture]", context.pictures)),
        )

    def own_files(self, made: Collection[str]) -> list[Artifact]:
        """The files of all that stay, but for addresses that are something else's today."""
        if self.site is None:
            return []
        return [self.site.artifact(path) for path in self.own if path not in made]

    def needed_files(self, made: Collection[str], gone: Callable[[str], Artifact]) -> list[Artifact]:
        """What kept pages refer to and what the new site would lack otherwise, so that each of their links leads on.

        `made` are the paths of the new site, the kept pages among them. `gone` makes the page for an address where the
        author took a page away.
        """
        if self.site is None:
            return []
        there, needed = set(made), dict[str, Artifact]()
        waiting = [path for path in self.own if _refers(path)]
        while waiting:
            for path in self.site.references(waiting.pop()):
                if path in there or not self.site.holds(path):
                    continue
                there.add(path)
                if is_page(path) and not path.startswith(_SHOWN_AS_THEY_WERE):
                    needed[path] = gone(path)
                    continue
                needed[path] = self.site.artifact(path)
                if _refers(path):
                    waiting.append(path)
        for pair in clashes([*made, *needed]):
            for path in pair:
                needed.pop(path, None)
        return list(needed.values())


def last_good(
    out: Path,
    found: ContentFiles,
    archive: Archive,
    sound: Archive,
    *,
    drafts: bool,
    placeholder: Callable[[str], bytes],
) -> LastGood:
    """What stays of the site in `out`: of all that is in content and not among what is sound.

    A guide that the author has made a draft goes, faulty or not, unless drafts are shown.
    """
    faulty = _faulty(found, archive, sound, drafts=drafts)
    if not any(faulty.values()):
        return LastGood()
    site = LastSite.of(out, placeholder)
    with_pages = {one for one in faulty["guides"] if _has_pages(site, one)}
    index = indexed(site.text(INDEX)) if with_pages or faulty["pages"] else {}
    guides = _guides(sorted(with_pages), site, archive, index)
    plans = _plans(sorted(faulty["plans"]), site)
    lists = {one for one in faulty["shared"] if site.holds_page(shared_file(one))}
    entries = _entries(sorted(faulty["pages"]), site, index)
    made_plans = {plan.slug for plan in plans}
    kept = {"guides": with_pages, "plans": made_plans, "shared": lists, "pages": {*entries}}
    moved = {old for guide in guides for old in guide.was} - {one.slug for one in found.guides}
    return LastGood(
        site=site,
        guides=guides,
        plans=plans,
        lists=tuple(sorted(lists)),
        pages=tuple(_page(one, entry, site, archive) for one, entry in entries.items()),
        page_entries=entries,
        readable=tuple(one for one in archive.shared if one.name in lists),
        left_out=tuple(_addresses({kind: those - kept[kind] for kind, those in faulty.items()})),
        own=_own(site, kept, moved),
    )


def _faulty(found: ContentFiles, archive: Archive, sound: Archive, *, drafts: bool) -> dict[str, set[str]]:
    """What is in content and not among what is sound, by the folders of its addresses."""
    hidden = set() if drafts else {guide.slug for guide in archive.guides if guide.draft}
    return {
        "guides": {one.slug for one in found.guides} - {guide.slug for guide in sound.guides} - hidden,
        "plans": {one.slug for one in found.plans} - {plan.slug for plan in sound.plans},
        "shared": {one.slug for one in found.shared} - {one.name for one in sound.shared},
        "pages": {one.slug for one in found.pages} - {page.slug for page in sound.pages},
    }


def _addresses(names: Mapping[str, AbstractSet[str]]) -> Iterator[str]:
    for kind, those in names.items():
        yield from (f"{kind}/{one}" for one in sorted(those))


def _guides(
    addresses: Sequence[str], site: LastSite, archive: Archive, index: Mapping[str, str]
) -> tuple[KeptGuide, ...]:
    feed = entries_of(site.text(FEED), addresses, archive.site.url)
    return tuple(
        replace(_guide(one, site, archive, index.get(one, "")), feed_entry=feed.get(one, ""))
        for one in addresses
    )


def _entries(pages: Sequence[str], site: LastSite, index: Mapping[str, str]) -> dict[str, str]:
    """The entries in the last search index of the pages of words that the last site has, by slug."""
    entries = {one: index.get(text_page_file(one), "") for one in pages}
    return {one: entry for one, entry in entries.items() if entry and site.holds_page(text_page_file(one))}


def _plans(addresses: Sequence[str], site: LastSite) -> tuple[KeptPlan, ...]:
    return tuple(
        kept_plan(one, site.text(plan_file(one, SUMMARY)), relative(plan_file(one), PLANS))
        for one in addresses
        if site.holds_page(plan_file(one)) and site.holds(plan_file(one, _CALENDAR))
    )


def _own(site: LastSite, kept: Mapping[str, AbstractSet[str]], moved: AbstractSet[str]) -> dict[str, str]:
    """The files of all that stays, with their keys; `moved` are addresses that its guides had before."""
    folders = {f"guides/{one}" for one in kept["guides"] | moved} | {f"plans/{one}" for one in kept["plans"]}
    single = {*map(shared_file, kept["shared"]), *map(text_page_file, kept["pages"])}
    return {
        path: entry.key
        for path, entry in site.manifest.files.items()
        if (path in single or "/".join(path.split("/", 2)[:2]) in folders) and site.holds(path)
    }


def _page(name: str, entry: str, site: LastSite, archive: Archive) -> PageLink:
    """The link to a page of words that stays: its title from its entry in the search index.

    Whether it was in the menu is seen by the menu of the page itself, which marks the page that is open.
    """
    path = text_page_file(name)
    order = next((page.order for page in archive.pages if page.slug == name), 0)
    menu = 'aria-current="page"' in site.text(path).partition("<main")[0]
    return PageLink(path=path, title=str(json.loads(entry)["title"]), menu=menu, order=order)


def _guide(address: str, site: LastSite, archive: Archive, entry: str) -> KeptGuide:
    """What the last build noted of a guide, without a picture that is no longer there."""
    guide = kept_guide(
        address,
        site.text(guide_file(address, SUMMARY)),
        archive.palette,
        title=_title(site.text(guide_file(address, _DATA)), address),
        entry=entry,
    )
    if guide.summary.drawn and not site.holds(guide_file(address, FILE)):
        guide = replace(guide, summary=replace(guide.summary, drawn=False))
    if guide.picture is not None and not all(map(site.holds, guide.picture.files.values())):
        return replace(guide, picture=None, summary=replace(guide.summary, cover=None))
    return guide


def _has_pages(site: LastSite, address: str) -> bool:
    """Whether a guide has its page and its data at an address, and none that was renamed since."""
    if not (site.holds_page(guide_file(address)) and site.holds(guide_file(address, _DATA))):
        return False
    try:
        return bool(json.loads(site.text(guide_file(address, _DATA)))["slug"] == address)
    except (ValueError, KeyError, TypeError, RecursionError):
        return True  # spoilt, and its own as far as anybody knows


def _title(data: str, address: str) -> str:
    """A guide's title by its data, for what a version wrote that noted nothing else."""
    try:
        return str(json.loads(data)["title"])
    except (ValueError, TypeError, KeyError, RecursionError):
        return address


def _refers(path: str) -> bool:
    return is_page(path) or path.endswith(".css")
