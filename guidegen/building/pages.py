"""Makes a site's pages and files, and anew only those whose guide, palette, settings or neighbours have changed."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import partial

from guidegen.base.activity import busy_with
from guidegen.building.memory import KeptPages, Memory
from guidegen.building.site import SitePlan
from guidegen.building.tracing import traced
from guidegen.model.guide import Guide
from guidegen.rendering.archive.search_index import search_index
from guidegen.rendering.archive.shared_page import Inserting
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.page import Export, LazyPage, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import INDEX
from guidegen.rendering.site.pages import archive_pages, gone_page, guide_pages, shared_pages
from guidegen.rendering.site.plan_pages import plan_pages
from guidegen.rendering.site.site_files import site_files
from guidegen.writing.artifact import Artifact

Made = Page | Export | LazyPage
Make = Callable[[SiteContext], tuple[Summary | None, Iterable[Made]]]

# Names of pages that are made together; no address of a guide has a slash in it.
ARCHIVE, PLANS = "/archive", "/plans"


@dataclass(slots=True)
class PageBuilder:
    """Makes the pages of a site that was planned, and hands each over as soon as it is made, so that none pile up.

    `files` are the paths of all that was handed over, with the SHA-256 of their bytes; `pages` counts the pages.
    """

    plan: SitePlan
    memory: Memory
    add: Callable[[Artifact], None]
    files: dict[str, str] = field(default_factory=dict)
    pages: int = 0
    _kept: dict[str, KeptPages] = field(default_factory=dict)
    # The last pages that were made after all: the files of one guide are asked for one after another.
    _latest: dict[str, dict[str, Made]] = field(default_factory=dict)

    def make(self, progress: Callable[[int, int], None]) -> list[Summary]:
        """Every page and file that is made of guides, palette and plans; the guides in short.

        `progress` is told how many of how many guides are done.
        """
        plan = self.plan
        archive, context, last = plan.archive, plan.context, plan.last
        summaries: list[Summary] = []
        for number, guide in enumerate(archive.guides, 1):
            summary = self._group(guide.slug, *self._made_of(guide)).summary
            if summary is not None:
                summaries.append(summary)
            progress(number, len(archive.guides))
        summaries = last.beside(summaries)
        self._group(
            ARCHIVE,
            (*self._around, tuple(summaries)),
            lambda context: (None, archive_pages(summaries, context, plan.templates)),
            piecewise=True,
        )
        inserting: list[Inserting] = [*archive.guides, *last.guides]
        pages: list[Made] = [
            *plan_pages(archive.plans, plan.guides, context, last.plans),
            *shared_pages(archive.shared, inserting, summaries, context, last.readable),
        ]
        self._group(PLANS, None, lambda _: (None, pages), piecewise=True)
        self._hand_over(Export(path=INDEX, data=search_index(summaries)))
        made = {**last.own, **self.files}
        for file in site_files(
            archive.guides, summaries, made, context, plan.templates, loose=archive.loose, kept=last.guides
        ):
            self._hand_over(file)
        # Only now, so that a build that fails half-way forgets nothing.
        self.memory.pages = self._kept
        return summaries

    def hand_over_all(self, artifacts: Iterable[Artifact]) -> None:
        """Files that are made already, or elsewhere."""
        for artifact in artifacts:
            self._note(artifact)

    def gone(self, path: str) -> Artifact:
        """What stands at an address whose page the author took away while kept pages lead there."""
        data = self._rendered(gone_page(path, self.plan.context, self.plan.templates))
        return Artifact(path=path, key=_hash(data), data=data)

    @property
    def _around(self) -> tuple[object, ...]:
        """What every page is made of."""
        return self.plan.version, self.plan.context.plans, self.plan.context.assets

    def _made_of(self, guide: Guide) -> tuple[tuple[object, ...], Make]:
        tools = self.plan.palette_tools
        taken = self.memory.taken_by(guide, tools)
        return (*self._around, taken, guide), lambda context: guide_pages(guide, context, tools)

    def _group(
        self, name: str, made_of: tuple[object, ...] | None, make: Make, *, piecewise: bool = False
    ) -> KeptPages:
        """Pages that are made together: taken from the last build if they would come out the same, else made.

        `piecewise` says that what each is made of is told apart, so that only those are rendered that differ. Without
        `made_of` each is looked at.
        """
        kept = self.memory.pages.get(name)
        if kept is not None and made_of is not None and self.memory.holds(kept, made_of, self.plan.context):
            for path, sha256 in kept.files:
                self._note(Artifact(path=path, key=sha256, data=partial(self._again, name, path, make)))
        else:
            kept = self._fresh(name, made_of or (), make, kept if piecewise else None, piecewise=piecewise)
        self._kept[name] = kept
        return kept

    def _fresh(
        self, name: str, made_of: tuple[object, ...], make: Make, before: KeptPages | None, *, piecewise: bool
    ) -> KeptPages:
        context, trace = traced(self.plan.context)
        known = dict(before.files) if before is not None else {}
        files: dict[str, str] = {}
        inputs: dict[str, str] = {}
        with busy_with(f"the pages of {name.removeprefix('/')}"):
            summary, pages = make(context)
            for page in pages:
                if piecewise:
                    inputs[page.path] = page.key(self.plan.version)
                same = before is not None and inputs.get(page.path) == before.inputs.get(page.path)
                self.memory.done += not same
                files[page.path] = self._hand_over(page, known.get(page.path) if same else None)
        return KeptPages(
            made_of=made_of, trace=trace(), files=tuple(files.items()), inputs=inputs, summary=summary
        )

    def _hand_over(self, page: Made, known: str | None = None) -> str:
        """The hash of a page's bytes. They are only made now if it is not known."""
        data = self._rendered(page) if known is None else partial(self._rendered, page)
        sha256 = known or _hash(data if isinstance(data, bytes) else data())
        self._note(Artifact(path=page.path, key=sha256, data=data))
        return sha256

    def _note(self, artifact: Artifact) -> None:
        self.add(artifact)
        self.files[artifact.path] = artifact.key
        self.pages += artifact.page

    def _again(self, name: str, path: str, make: Make) -> bytes:
        """A page that was made by an earlier build but no longer lies in the site as it was."""
        if name not in self._latest:
            self._latest.clear()
            self._latest[name] = {page.path: page for page in make(self.plan.context)[1]}
        return self._rendered(self._latest[name][path])

    def _rendered(self, page: Made) -> bytes:
        with busy_with(page.path):
            return page.render(self.plan.templates)


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
