"""Makes a site's pages, and only those anew whose guide, palette, settings or neighbours have changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import partial

from guidegen.computing.worked import Workshop
from guidegen.memory import KeptPages, Memory, traced
from guidegen.model.guide import Guide
from guidegen.model.site import Archive
from guidegen.rendering.desk import Desk
from guidegen.rendering.environment import Templates
from guidegen.rendering.pages import Export, Page, archive_pages, guide_pages
from guidegen.rendering.plan_pages import Later, plan_pages, shared_pages
from guidegen.rendering.summary import Summary
from guidegen.writing.release import Artefact

Made = Page | Export | Later


@dataclass(slots=True)
class Press:
    """One build's pages as files to publish. `version` stands for the templates and the program."""

    desk: Desk
    workshop: Workshop
    templates: Templates
    version: str
    memory: Memory
    # The last pages that were made after all: the files of one guide are asked for one after another.
    _latest: dict[str, dict[str, Made]] = field(default_factory=dict)

    def pages(self, archive: Archive, guides: Sequence[Guide]) -> list[Artefact]:
        """Every page and export. `guides` are all, those without a page among them, since plans count with them."""
        before, self.memory.pages = self.memory.pages, {}
        around = (self.version, self.desk.plans, self.desk.assets)
        artefacts: list[Artefact] = []
        summaries: list[Summary] = []
        for guide in archive.guides:
            kept = self._guide(before, guide, around, artefacts)
            if kept.summary is not None:
                summaries.append(kept.summary)
        self._group(
            before,
            "/archive",
            (*around, tuple(summaries)),
            lambda desk: (None, archive_pages(summaries, desk, self.templates)),
            artefacts,
        )
        artefacts += map(self._artefact, plan_pages(archive.plans, guides, self.desk))
        artefacts += map(self._artefact, shared_pages(archive.shared, archive.guides, summaries, self.desk))
        return artefacts

    def _guide(
        self,
        before: dict[str, KeptPages],
        guide: Guide,
        around: tuple[object, ...],
        artefacts: list[Artefact],
    ) -> KeptPages:
        def make(desk: Desk) -> tuple[Summary | None, Iterable[Made]]:
            return guide_pages(guide, desk, self.workshop)

        return self._group(before, guide.slug, (*around, guide), make, artefacts)

    def _group(
        self,
        before: dict[str, KeptPages],
        name: str,
        made_of: tuple[object, ...],
        make: Callable[[Desk], tuple[Summary | None, Iterable[Made]]],
        artefacts: list[Artefact],
    ) -> KeptPages:
        """Pages that are made together: taken from the last build if they would come out the same, else made."""
        kept = before.get(name)
        if kept is not None and self.memory.holds(kept, made_of, self.desk):
            artefacts += [
                Artefact(path=path, key=key, data=partial(self._again, name, path, make))
                for path, key in kept.files
            ]
        else:
            desk, trace = traced(self.desk)
            summary, pages = make(desk)
            fresh = [self._artefact(page) for page in pages]
            artefacts += fresh
            files = tuple((one.path, one.key) for one in fresh)
            kept = KeptPages(made_of=made_of, trace=trace(), files=files, summary=summary)
        self.memory.pages[name] = kept
        return kept

    def _again(
        self, name: str, path: str, make: Callable[[Desk], tuple[Summary | None, Iterable[Made]]]
    ) -> bytes:
        """A page that was made by an earlier build but no longer lies in the site as it was."""
        if name not in self._latest:
            self._latest.clear()
            self._latest[name] = {page.path: page for page in make(self.desk)[1]}
        return self._latest[name][path].render(self.templates)

    def _artefact(self, page: Made) -> Artefact:
        return Artefact(path=page.path, key=page.key(self.version), data=lambda: page.render(self.templates))
