"""Makes a site's pages, and only those anew whose guide, palette, settings or neighbours have changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial

from guidegen.base.activity import busy_with
from guidegen.building.last_good import LastGood
from guidegen.building.memory import KeptPages, Memory
from guidegen.building.tracing import traced
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide
from guidegen.model.site import Archive
from guidegen.rendering.archive.search_index import search_index
from guidegen.rendering.archive.shared_page import Inserting
from guidegen.rendering.guide.summary import Summary, social_of
from guidegen.rendering.page.page import Export, LazyPage, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import INDEX
from guidegen.rendering.site.pages import archive_pages, gone_page, guide_pages, shared_pages
from guidegen.rendering.site.plan_pages import plan_pages
from guidegen.rendering.site.site_files import site_files
from guidegen.rendering.theme.templates import Templates
from guidegen.writing.ahead import Ahead
from guidegen.writing.artifact import Artifact

Made = Page | Export | LazyPage
Make = Callable[[SiteContext], tuple[Summary | None, Iterable[Made]]]

# The pages about all guides; no address of a guide has a slash in it.
ARCHIVE = "/archive"


@dataclass(slots=True)
class Press:
    """One build's pages as files to publish. `version` stands for the templates and the program.

    `progress` is told how many of how many guides are worked out. With `ahead`, pages that the site lacks are rendered
    at once, so that what they are made from can go.
    """

    context: SiteContext
    palette_tools: PaletteTools
    templates: Templates
    version: str
    memory: Memory
    progress: Callable[[int, int], None] = field(default=lambda _done, _of: None)
    ahead: Ahead | None = None
    # The last pages that were made after all: the files of one guide are asked for one after another.
    _latest: dict[str, dict[str, Made]] = field(default_factory=dict)

    def pages(self, archive: Archive, guides: Sequence[Guide], last: LastGood) -> list[Artifact]:
        """Every page and export. `guides` are all, those without a page among them, since plans count with them.

        `last` has what stays as it was: it is told of beside what is made.
        """
        artifacts: list[Artifact] = []
        summaries: list[Summary] = []
        for number, guide in enumerate(archive.guides, 1):
            kept = self._group(guide.slug, *self._made_of(guide), artifacts)
            if kept.summary is not None:
                summaries.append(kept.summary)
            self.progress(number, len(archive.guides))
        summaries = last.beside(summaries)
        self._group(
            ARCHIVE,
            (*self._around, tuple(summaries)),
            lambda context: (None, self._one_by_one(archive_pages(summaries, context, self.templates))),
            artifacts,
        )
        # Only now, so that a build that is left off half-way forgets nothing.
        there = (*(guide.slug for guide in archive.guides), ARCHIVE)
        self.memory.pages = {name: self.memory.pages[name] for name in there}
        artifacts += map(self._artefact, plan_pages(archive.plans, guides, self.context, last.plans))
        inserting: list[Inserting] = [*archive.guides, *last.guides]
        artifacts += map(
            self._artefact, shared_pages(archive.shared, inserting, summaries, self.context, last.readable)
        )
        artifacts.append(self._index(summaries))
        made = {**last.own, **{artifact.path: artifact.key for artifact in artifacts}}
        files = site_files(
            archive.guides,
            summaries,
            made,
            self.context,
            self.templates,
            loose=archive.loose,
            kept=last.guides,
        )
        return artifacts + [self._artefact(file) for file in files]

    def pages_of_guides(self, archive: Archive) -> list[Artifact] | None:
        """The pages of those guides alone that would not come out as they did, and the index that has their words; None
        where a file comes or goes.
        """
        kept = self.memory.pages
        if kept.keys() != {ARCHIVE, *(guide.slug for guide in archive.guides)}:
            return None
        artifacts: list[Artifact] = []
        for guide in archive.guides:
            before = kept[guide.slug]
            made_of, make = self._made_of(guide)
            if not self.memory.holds(before, made_of, self.context):
                now = self._fresh(guide.slug, made_of, make, artifacts)
                same_files = dict(now.files).keys() == dict(before.files).keys()
                if not same_files or self._social(now) != self._social(before):
                    return None
        return [*artifacts, self._index(self.summaries)]

    def gone(self, path: str) -> Artifact:
        """What stands at an address whose page the author took away while kept pages lead there."""
        return self._artefact(gone_page(path, self.context, self.templates))

    def _index(self, summaries: Iterable[Summary]) -> Artifact:
        return self._artefact(Export(path=INDEX, data=search_index(summaries)))

    def _one_by_one(self, pages: Iterable[Made]) -> Iterator[Made]:
        for page in pages:
            yield page
            self.progress(1, 1)

    @property
    def summaries(self) -> list[Summary]:
        """Every guide with a page in short, once `pages` has made them."""
        return [kept.summary for kept in self.memory.pages.values() if kept.summary is not None]

    def _social(self, kept: KeptPages) -> str:
        """Where the picture for sharing lies that the pages name."""
        social = social_of(kept.summary, self.context) if kept.summary is not None else None
        return social.path if social is not None else ""

    @property
    def _around(self) -> tuple[object, ...]:
        """What every page is made of."""
        return self.version, self.context.plans, self.context.assets

    def _made_of(self, guide: Guide) -> tuple[tuple[object, ...], Make]:
        taken = self.memory.taken_by(guide, self.palette_tools)
        return (*self._around, taken, guide), lambda context: guide_pages(guide, context, self.palette_tools)

    def _group(
        self, name: str, made_of: tuple[object, ...], make: Make, artifacts: list[Artifact]
    ) -> KeptPages:
        """Pages that are made together: taken from the last build if they would come out the same, else made."""
        kept = self.memory.pages.get(name)
        if kept is None or not self.memory.holds(kept, made_of, self.context):
            return self._fresh(name, made_of, make, artifacts)
        artifacts += [
            Artifact(path=path, key=key, data=partial(self._again, name, path, make))
            for path, key in kept.files
        ]
        return kept

    def _fresh(
        self, name: str, made_of: tuple[object, ...], make: Make, artifacts: list[Artifact]
    ) -> KeptPages:
        context, trace = traced(self.context)
        with busy_with(f"the pages of {name.removeprefix('/')}"):
            summary, pages = make(context)
            fresh = [self._artefact(page) for page in pages]
        artifacts += fresh
        files = tuple((one.path, one.key) for one in fresh)
        kept = KeptPages(made_of=made_of, trace=trace(), files=files, summary=summary)
        self.memory.pages[name] = kept
        return kept

    def _again(self, name: str, path: str, make: Make) -> bytes:
        """A page that was made by an earlier build but no longer lies in the site as it was."""
        if name not in self._latest:
            self._latest.clear()
            self._latest[name] = {page.path: page for page in make(self.context)[1]}
        return self._rendered(self._latest[name][path])

    def _artefact(self, page: Made) -> Artifact:
        key = page.key(self.version)
        if self.ahead is not None and self.ahead.lacks(page.path, key):
            return Artifact(path=page.path, key=key, data=self.ahead.keep(self._rendered(page)))
        return Artifact(path=page.path, key=key, data=lambda: self._rendered(page))

    def _rendered(self, page: Made) -> bytes:
        with busy_with(page.path):
            return page.render(self.templates)
