"""Makes a site's pages and files, and anew only those whose guide, palette, settings or neighbours have changed."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field, replace
from functools import partial

from guidegen.base.activity import busy_with
from guidegen.base.workers import mapped
from guidegen.building.memory import KeptPages, Memory
from guidegen.building.site import SitePlan
from guidegen.building.tracing import traced
from guidegen.computing.guide.palette_tools import PaletteTools
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
from guidegen.rendering.site.text_pages import text_page_entry, text_pages
from guidegen.writing.artifact import Artifact, is_page

Made = Page | Export | LazyPage
Make = Callable[[SiteContext], tuple[Summary | None, Iterable[Made]]]

# Names of pages that are made together; no address of a guide has a slash in it.
ARCHIVE, SHARED, PLANS = "/archive", "/shared", "/plans"


@dataclass(slots=True)
class PageBuilder:
    """Makes the pages of a site that was planned, and hands each over as soon as it is made, so that none pile up.

    `cores` bounds the processes that guides are made in. `files` has the SHA-256 of every file that was handed over, by
    path; `sizes` has the bytes of pages, and `pages` counts them.
    """

    plan: SitePlan
    memory: Memory
    add: Callable[[Artifact], None]
    cores: int | None = None
    files: dict[str, str] = field(default_factory=dict)
    sizes: dict[str, int] = field(default_factory=dict)
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
        summaries = last.beside(self._summaries(progress))
        self._group(
            ARCHIVE,
            (*self._around, tuple(summaries)),
            lambda context: (None, archive_pages(summaries, context, plan.templates)),
        )
        self._make_shared(summaries)
        pages: list[Made] = [
            *plan_pages(archive.plans, plan.guides, context, last.plans),
            *text_pages(archive.pages, context),
        ]
        self._group(PLANS, None, lambda _: (None, pages))
        self._hand_over(Export(path=INDEX, data=search_index(summaries, self._page_entries)))
        for file in site_files(
            archive.guides,
            summaries,
            {**last.own, **self.files},
            context,
            plan.templates,
            sizes={**last.sizes, **self.sizes},
            shown=plan.shown_bytes,
            loose=archive.loose,
            kept=last.guides,
        ):
            self._hand_over(file)
        # Only now, so that a build that fails half-way forgets nothing.
        self.memory.pages = self._kept
        return summaries

    def _make_shared(self, summaries: Sequence[Summary]) -> None:
        """The pages of shared lists, which name the guides that insert them."""
        archive, last = self.plan.archive, self.plan.last
        inserting: list[Inserting] = [*archive.guides, *last.guides]
        taken = [self.memory.taken_by(one, self.plan.palette_tools) for one in archive.shared]
        inserts = tuple((guide.slug, tuple(guide.inserts)) for guide in inserting)
        self._group(
            SHARED,
            (*self._around, tuple(summaries), inserts, *taken, *archive.shared, *last.readable),
            lambda context: (
                None,
                shared_pages(archive.shared, inserting, summaries, context, last.readable),
            ),
        )

    def hand_over_all(self, artifacts: Iterable[Artifact]) -> None:
        """Hand over files that are made already, or elsewhere."""
        for artifact in artifacts:
            self._note(artifact)

    def gone(self, path: str) -> Artifact:
        """What stands at an address whose page the author took away while kept pages lead there."""
        data = self._rendered(gone_page(path, self.plan.context, self.plan.templates))
        return Artifact(path=path, key=_hash(data), data=data)

    def _summaries(self, progress: Callable[[int, int], None]) -> Iterator[Summary]:
        """The guides in short, while their own pages are made: those of many in worker processes."""
        plan, guides = self.plan, self.plan.archive.guides
        made_of = {guide.slug: self._made_of(guide) for guide in guides}
        known = {slug: self._known(slug, what) for slug, what in made_of.items()}
        lacking = [number for number, guide in enumerate(guides) if known[guide.slug] is None]
        palette = plan.palette_tools.palette
        # An author's templates have a process of their own already, and one bound on what they may cost.
        cores = 1 if plan.templates.authors is not None else self.cores
        work, named = partial(guide_made, plan), lambda number: guides[number].file
        with closing(mapped(work, lacking, named, cores=cores, shared=palette.pots)) as making:
            for number, guide in enumerate(guides, 1):
                kept = known[guide.slug]
                if kept is not None:
                    self._hand_over_again(guide.slug, kept, partial(_pages_of, guide, plan.palette_tools))
                else:
                    made, artifacts = next(making)
                    kept = replace(
                        made, made_of=made_of[guide.slug], trace=made.trace.asked_again(plan.context)
                    )
                    self.memory.done += len(artifacts)
                    self.hand_over_all(artifacts)
                    self.sizes |= kept.sizes
                self._kept[guide.slug] = kept
                progress(number, len(guides))
                if kept.summary is not None:
                    yield kept.summary

    @property
    def _page_entries(self) -> list[str]:
        """What the search has of pages of words, those that stay as the last build made them among them."""
        plan = self.plan
        made = {page.slug: text_page_entry(page, plan.context) for page in plan.archive.pages}
        return [entry for _, entry in sorted({**plan.last.page_entries, **made}.items())]

    @property
    def _around(self) -> tuple[object, ...]:
        """What every page is made of, besides its own guide or plan."""
        context = self.plan.context
        return self.plan.version, context.plans, context.pages, context.assets

    def _made_of(self, guide: Guide) -> tuple[object, ...]:
        return *self._around, self.memory.taken_by(guide, self.plan.palette_tools), guide

    def _group(self, name: str, made_of: tuple[object, ...] | None, make: Make) -> None:
        """Pages about many guides: taken from the last build if they would come out the same, else looked at one by one.

        Without `made_of` each is looked at. Only those are rendered that differ.
        """
        kept = self._known(name, made_of)
        if kept is not None:
            self._hand_over_again(name, kept, make)
        else:
            kept = self.fresh(name, made_of or (), make, self.memory.pages.get(name), piecewise=True)
        self._kept[name] = kept

    def _known(self, name: str, made_of: tuple[object, ...] | None) -> KeptPages | None:
        """The pages of that name if they would come out as the last build made them."""
        kept = self.memory.pages.get(name)
        if kept is None or made_of is None or not self.memory.holds(kept, made_of, self.plan.context):
            return None
        return kept

    def _hand_over_again(self, name: str, kept: KeptPages, make: Make) -> None:
        self.sizes |= kept.sizes
        for path, sha256 in kept.files:
            self._note(Artifact(path=path, key=sha256, data=partial(self._again, name, path, make)))

    def fresh(
        self,
        name: str,
        made_of: tuple[object, ...],
        make: Make,
        before: KeptPages | None = None,
        *,
        piecewise: bool = False,
    ) -> KeptPages:
        """Make pages together. `piecewise` tells apart what each is made of: one that is as `before` is not rendered."""
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
                if before is not None and page.path in before.sizes:
                    self.sizes.setdefault(page.path, before.sizes[page.path])
        return KeptPages(
            made_of=made_of,
            trace=trace(),
            files=tuple(files.items()),
            sizes={path: self.sizes[path] for path in files if path in self.sizes},
            inputs=inputs,
            summary=summary,
        )

    def _hand_over(self, page: Made, known: str | None = None) -> str:
        """The hash of a page's bytes. They are only made now if it is not known."""
        data = self._rendered(page) if known is None else partial(self._rendered, page)
        if isinstance(data, bytes) and is_page(page.path):
            self.sizes[page.path] = len(data)
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


def guide_made(plan: SitePlan, number: int) -> tuple[KeptPages, list[Artifact]]:
    """A guide's own pages and files, for a worker: all that a build keeps of them but what they were made of."""
    guide = plan.archive.guides[number]
    artifacts: list[Artifact] = []
    builder = PageBuilder(plan, Memory(), artifacts.append)
    return builder.fresh(guide.slug, (), partial(_pages_of, guide, plan.palette_tools)), artifacts


def _pages_of(
    guide: Guide, palette_tools: PaletteTools, context: SiteContext
) -> tuple[Summary | None, Iterable[Made]]:
    return guide_pages(guide, context, palette_tools)


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
