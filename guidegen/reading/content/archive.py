"""All content, read: one call for everything; with a memory, only what changed is read again."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TypeVar

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic, in_order, with_excerpts
from guidegen.base.garbage import uncollected
from guidegen.base.paths import slug
from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.chart import Chart
from guidegen.model.guide import Guide, Shared
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan
from guidegen.model.site import FORMAT, Archive, Site, TextPage
from guidegen.reading.content.chart import read_chart
from guidegen.reading.content.chart_choice import chart_of
from guidegen.reading.content.discover import ContentFiles, discover, open_text, starter_chart, starter_charts
from guidegen.reading.content.file_kinds import Named
from guidegen.reading.content.guide import read_guide
from guidegen.reading.content.guide_addresses import CurrentAddresses, old_addresses
from guidegen.reading.content.memory import STARTER, ReadingMemory
from guidegen.reading.content.palette import PaletteFile, palette_of, read_palette_file
from guidegen.reading.content.plan import read_plan
from guidegen.reading.content.shared import check_inserts, read_shared
from guidegen.reading.content.site import read_site
from guidegen.reading.content.step_defaults import with_defaults
from guidegen.reading.content.text_pages import read_text_page
from guidegen.reading.content.written_mixes import steps_mixed
from guidegen.reading.yaml.merge_markers import merge_markers

T = TypeVar("T")

# What a guide must have in it to name a file outside of its own folder; signs may be written in percent.
_REACHES_OUT = re.compile(r"\.\.|as-is|pages/|%[0-9A-Fa-f]{2}")


def read_archive(
    content: Path, memory: ReadingMemory | None = None
) -> tuple[Archive, tuple[Diagnostic, ...]]:
    """Everything in a content folder, and all that reading has to tell, in order and with excerpts.

    With a memory from an earlier call, only files whose size, time or number changed are opened, and only what
    depends on a changed text is read anew. Raises GuidegenError where there is no content folder.
    """
    return read_found(discover(content), memory)


def read_found(
    found: ContentFiles, memory: ReadingMemory | None = None
) -> tuple[Archive, tuple[Diagnostic, ...]]:
    """The same, of a folder that has been walked already."""
    reader = _Reader(found, memory if memory is not None else ReadingMemory())
    with uncollected():
        archive = reader.archive()
    return archive, with_excerpts(in_order(reader.diagnostics), archive.sources)


def read_palette(content: Path) -> tuple[Palette, tuple[Diagnostic, ...]]:
    """The palette alone, whatever is the matter with guides, plans and the site, and what there is to tell about it."""
    found = discover(content)
    reader = _Reader(found, ReadingMemory())
    site = reader.site()
    reader.diagnostics = []
    palette = reader.palette(site)
    return palette, with_excerpts(in_order(reader.diagnostics), reader.sources)


def read_site_alone(content: Path) -> Site:
    """What site.yaml says, as far as it can be read."""
    return _Reader(discover(content), ReadingMemory()).site()


class _Reader:
    """One reading of one content folder.

    `unread` are files of which something could not be read, `people` the names of the site's people by folded key,
    `lists` the shared lists by name (None for one that could not be read), `inserts` their texts.
    """

    def __init__(self, found: ContentFiles, memory: ReadingMemory) -> None:
        self.found = found
        self.memory = memory
        self.sources: dict[str, Source] = {}
        self.unread: set[str] = set()
        self.people: dict[str, str] = {}
        self.lists: dict[str, Shared | None] = {}
        self.inserts: tuple[tuple[str, Source | None], ...] = ()
        self.diagnostics: list[Diagnostic] = list(found.diagnostics)
        stamps = found.listing.files.values()
        # No later than this moment by the disk's own clock, which may be another than the machine's.
        self.looked_at = max((stamp.mtime_ns for stamp in stamps), default=0)
        self.everything = tuple(found.listing.files)
        self.around = _by_guide(self.everything)

    def archive(self) -> Archive:
        found = self.found
        site = self.site()
        addresses = frozenset(named.slug for named in found.guides)
        if site.format > FORMAT:
            self.diagnostics = [one for one in self.diagnostics if one.span.file == found.site]
            return Archive(site=site, sources=self.sources, addresses=addresses)
        self.people = {folded(one.key): one.name for one in site.people}
        palette = self.palette(site)
        self.lists = {named.slug: self._shared(named) for named in found.shared}
        self.diagnostics += check_inserts(self.lists)
        self.inserts = tuple((named.slug, self.sources.get(named.path)) for named in found.shared)
        guides, charts, current = self._guides(site, palette, addresses)
        plans = [
            current.in_plan(plan) for named in found.plans if (plan := self._plan(named, site)) is not None
        ]
        pages = [current.in_page(page) for named in found.pages if (page := self._page(named)) is not None]
        for named in found.doubles:
            self._read_double(named, site)
        self.memory.forget_but(found.listing.files)
        there = addresses.union(slug(name.text) for guide in guides for name in guide.was)
        gone = {name: one for name, one in site.gone.items() if name not in there}
        archive = Archive(
            site=site if gone == site.gone else replace(site, gone=gone),
            palette=palette,
            guides=tuple(guides),
            shared=tuple(
                self._as_by_itself(one, site, palette) for one in self.lists.values() if one is not None
            ),
            plans=tuple(plans),
            pages=tuple(pages),
            loose=found.loose,
            templates=found.templates,
            charts=charts,
            sources=dict(sorted(self.sources.items())),
            addresses=addresses,
            unread=frozenset(self.unread),
        )
        self.diagnostics += old_addresses(archive.guides, {named.slug: named.path for named in found.guides})
        return archive

    def _guides(
        self, site: Site, palette: Palette, addresses: frozenset[str]
    ) -> tuple[list[Guide], dict[str, Chart], CurrentAddresses]:
        """The guides with their mixes in the palette and with today's addresses, their charts, and those addresses."""
        written = [guide for named in self.found.guides if (guide := self._guide(named, site)) is not None]
        guides = [self._with_mixes(guide, palette) for guide in written]
        charts = dict(self._charts(guides))
        current = CurrentAddresses.of(guides, addresses)
        guides = [
            self.memory.settled("settled guide", guide, guide.file, current.in_guide(mixed))
            for guide, mixed in zip(written, guides, strict=True)
        ]
        return guides, charts, current

    def _source(self, path: str, code: str = "bad-yaml") -> Source | None:
        """A file's text; None after telling why it cannot be read."""
        stamp = self.found.listing.files[path]
        text = self.memory.text(
            path,
            stamp,
            settled=stamp.settled(self.looked_at),
            read=lambda path: open_text(self.found.root, path),
        )
        if isinstance(text, Source):
            self.sources[path] = text
            unmerged = tuple(merge_markers(text))
            if not unmerged:
                return text
            self.diagnostics += unmerged
        else:
            self.diagnostics.append(replace(text, code=code))
        self.unread.add(path)
        return None

    def _outcome(
        self, kind: str, path: str, made_of: object, make: Callable[[], tuple[T, tuple[Diagnostic, ...]]]
    ) -> T:
        """What `make` gives, or the memory has of it if it is made of the same; its diagnostics are added to ours."""
        with busy_with(path):
            made, diagnostics = self.memory.outcome(kind, path, made_of, make)
        self.diagnostics += diagnostics
        if made is None or any(one.is_guess for one in diagnostics):
            self.unread.add(path)
        return made

    def _with_mixes(self, guide: Guide, palette: Palette) -> Guide:
        """A guide whose mixtures written as one text are taken apart, for which the palette has to be known."""
        entries = steps_mixed(guide.entries, palette.find, self.sources)
        return guide if _same(entries, guide.entries) else replace(guide, entries=entries)

    def _as_by_itself(self, shared: Shared, site: Site, palette: Palette) -> Shared:
        """A shared list with the site's defaults and its mixtures taken apart, as for its own page."""
        filled = with_defaults(shared.entries, site.defaults.steps)
        entries = steps_mixed(filled, palette.find, self.sources)
        alone = shared if _same(entries, shared.entries) else replace(shared, entries=entries)
        return self.memory.settled("settled shared", shared, shared.file, alone)

    def _charts(self, guides: Iterable[Guide]) -> Iterator[tuple[str, Chart]]:
        """The chart of each guide that has one, by the guide's slug."""
        starters: dict[str, Chart | None] = {}
        for guide in guides:
            own = self._source(guide.chart, "bad-chart") if guide.chart is not None else None
            chart = None
            if guide.chart is None and guide.figure is not None:
                name = slug(guide.figure.text)
                chart = starters[name] if name in starters else starters.setdefault(name, self._starter(name))
            if chart is None and (own or guide.figure):
                make = partial(chart_of, guide, {guide.chart: own}.get)
                with busy_with(guide.chart or guide.file):
                    chart, diagnostics = self.memory.outcome("chart", guide.file, (own, guide.figure), make)
                self.diagnostics += diagnostics
            if chart is not None:
                yield guide.slug, chart

    def _starter(self, name: str) -> Chart | None:
        """The starter chart of that name, read once for all guides; None if there is none."""
        source = starter_chart(name) if name in starter_charts() else None
        if not isinstance(source, Source):
            return None
        return self.memory.outcome(STARTER, name, source, lambda: read_chart(source))[0]

    def site(self) -> Site:
        path = self.found.site
        source = self._source(path) if path else None
        if path is None or source is None:
            return Site(places={})
        return self._outcome("site", path, source, lambda: read_site(source))

    def palette(self, site: Site) -> Palette:
        files = [self._palette_file(path) for path in self.found.palettes]
        # Where no paint is listed, that alone is told, and not each name that leads nowhere.
        some = any(file.paints or file.mixes for file in files)
        palette, diagnostics = palette_of(files, site.defaults.range, sources=self.sources, whole=some)
        self.diagnostics += diagnostics
        return palette

    def _palette_file(self, path: str) -> PaletteFile:
        source = self._source(path)
        if source is None:
            return PaletteFile(whole=False)
        file = self._outcome("palette", path, source, lambda: read_palette_file(source))
        if not file.whole:
            self.unread.add(path)
        return file

    def _named(
        self,
        kind: str,
        named: Named,
        made_of: tuple[object, ...],
        read: Callable[[Source], tuple[T | None, tuple[Diagnostic, ...]]],
    ) -> T | None:
        """What a file stands for, read of its text and `made_of`; None where the text cannot be read."""
        source = self._source(named.path)
        if source is None:
            return None
        return self._outcome(kind, named.path, (source, named, *made_of), lambda: read(source))

    def _shared(self, named: Named) -> Shared | None:
        return self._named(
            "shared",
            named,
            (self.everything, self.people),
            lambda source: read_shared(source, named.slug, self.found.listing, self.people),
        )

    def _guide(self, named: Named, site: Site) -> Guide | None:
        source = self._source(named.path)
        if named.chart is not None:
            self._source(named.chart, "bad-chart")
        if source is None:
            return None
        folder = named.path.rpartition("/")[0]
        reaches_out = _REACHES_OUT.search(source.text) or self.found.listing.links
        alone = folder in self.around and not reaches_out
        made_of = (
            source,
            named,
            site.defaults,
            self.around[folder] if alone else self.everything,
            self.inserts if "insert" in source.text else (),
            self.people,
        )
        return self._outcome(
            "guide",
            named.path,
            made_of,
            lambda: read_guide(
                source,
                slug=named.slug,
                listing=self.found.listing,
                defaults=site.defaults,
                shared=self.lists,
                chart=named.chart,
                people=self.people,
            ),
        )

    def _plan(self, named: Named, site: Site) -> Plan | None:
        return self._named(
            "plan",
            named,
            (site.cure, site.timezone),
            lambda source: read_plan(source, slug=named.slug, cure=site.cure, timezone=site.timezone),
        )

    def _page(self, named: Named) -> TextPage | None:
        return self._named(
            "page",
            named,
            (self.everything,),
            lambda source: read_text_page(source, named.slug, self.found.listing),
        )

    def _read_double(self, named: Named, site: Site) -> None:
        """Read a file whose address another has, for its mistakes only."""
        if named.path.startswith("guides/"):
            self._guide(named, site)
        elif named.path.startswith("plans/"):
            self._plan(named, site)
        elif named.path.startswith("pages/"):
            self._page(named)
        else:
            self._shared(named)


def _same(these: Sequence[object], those: Sequence[object]) -> bool:
    """Whether both have the very same objects."""
    return all(one is other for one, other in zip(these, those, strict=True))


def _by_guide(paths: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """The files below each guide's own folder."""
    folders: dict[str, list[str]] = {}
    for path in paths:
        parts = path.split("/", 2)
        if parts[0] == "guides" and len(parts) == 3:
            folders.setdefault(f"guides/{parts[1]}", []).append(path)
    return {folder: tuple(files) for folder, files in folders.items()}
