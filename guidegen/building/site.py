"""The second half of a build: photos developed, pages made, everything put in place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.base.paths import folded_path
from guidegen.base.source import Span
from guidegen.building.last_good import LastGood
from guidegen.building.memory import Memory
from guidegen.building.page_builder import Press
from guidegen.building.photos import Photos
from guidegen.building.social import cover_file, social_artefacts, socials_over
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.imaging.develop import Original, Store, develop
from guidegen.model.guide import Guide
from guidegen.model.site import Archive, Site
from guidegen.reading.content.discover import Found
from guidegen.rendering.page.frame import POLICY
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import HOME, relative
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.template_process import BrokenTemplateError
from guidegen.rendering.theme.templates import Templates
from guidegen.words.catalogue import language_of
from guidegen.writing.ahead import Ahead
from guidegen.writing.artifact import Artifact

# Files in this folder of the content are copied into the site untouched.
AS_IS = "as-is/"


def published(archive: Archive, *, drafts: bool) -> Archive:
    """The archive as it is shown: without drafts, unless they are asked for."""
    return archive if drafts else replace(archive, guides=tuple(g for g in archive.guides if not g.draft))


class Made(NamedTuple):
    """A site to publish, what it was made with, and how many pages it has.

    `told` are files to copy as they are that would lie where a file of the site's own lies; they are left out.
    """

    press: Press
    artifacts: list[Artifact]
    pages: int
    told: tuple[Diagnostic, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What a site is made with in one build. `progress` is told how many of how many guides are worked out."""

    content: Path
    drafts: bool
    memory: Memory
    store: Store
    photos: Photos
    ahead: Ahead
    progress: Callable[[int, int], None]

    def site(self, sound: Archive, palette_tools: PaletteTools, last: LastGood) -> Made:
        """All files of the site of what is sound, and those that stay. Plans count with drafts, shown or not."""
        archive = published(sound, drafts=self.drafts)
        context, templates, version, files = desk_for(
            archive, palette_tools, self.photos, self.memory, self.content
        )
        context = last.on_desk(context)
        press = Press(context, palette_tools, templates, version, self.memory, self.progress, self.ahead)
        content, store = self.content, self.store
        artifacts, pages = site_artefacts(
            archive, sound.guides, press, last, self.photos, files, content=content, store=store
        )
        copied = {file.removeprefix(AS_IS) for file in archive.loose}
        kept = last.own_files({artifact.path for artifact in artifacts} | copied)
        artifacts += kept
        told = tuple(_taken(archive.loose, {artifact.path for artifact in artifacts}))
        free = set(archive.loose) - {one.span.file for one in told}
        artifacts += [
            Artifact(path=file.removeprefix(AS_IS), key="", data=content / file) for file in sorted(free)
        ]
        needed = last.needed_files({artifact.path for artifact in artifacts}, press.gone)
        pages += sum(one.page for one in (*kept, *needed))
        return Made(press, artifacts + needed, pages, told)


def desk_for(
    archive: Archive, palette_tools: PaletteTools, photos: Photos, memory: Memory, content: Path
) -> tuple[SiteContext, Templates, str, dict[str, bytes]]:
    """What pages are made from and with, its version, and the site's own files."""
    templates, version = templates_for(archive, content, memory)
    assets, files = site_assets(templates, archive.site.tokens)
    socials = socials_over(archive.palette) if archive.site.url else None
    return SiteContext.of(archive, palette_tools, assets, photos, socials), templates, version, files


def templates_for(archive: Archive, content: Path, memory: Memory) -> tuple[Templates, str]:
    """What pages are made with, and what stands for that and the program. What is ready from last time serves."""
    authors = content / "templates" if archive.templates else None
    templates = Templates(language_of(archive.site.language), authors)
    ready = templates, f"{__version__} {templates.digest()}"
    if memory.templates != ready:
        memory.templates = ready
    return memory.templates


def site_artefacts(
    archive: Archive,
    guides: Sequence[Guide],
    press: Press,
    last: LastGood,
    photos: Photos,
    files: Mapping[str, bytes],
    *,
    content: Path,
    store: Store,
) -> tuple[list[Artifact], int]:
    """Every file of the site's own that is made, and how many of them are pages.

    `archive` is as it is shown; plans count with all `guides`. `files` are the site's own.
    """
    artifacts = press.pages(archive, guides, last)
    pages = sum(artifact.page for artifact in artifacts)
    artifacts += [Artifact(path=path, key=path, data=data) for path, data in files.items()]

    def original_of(path: str) -> Original:
        return Original(path=content / path, name=path, span=archive.site.span)

    def cover(path: str) -> bytes:
        return _kept(store, cover_file(photos[path]), original_of(path))()

    artifacts += social_artefacts(press.summaries, press.context, store, cover)
    seen: set[str] = set()
    for path, picture in photos.items():
        if picture.key in seen:
            continue
        seen.add(picture.key)
        original = original_of(path)
        artifacts += [
            Artifact(path=file, key=kept, data=_kept(store, kept, original)) for file, kept in picture.files
        ]
    return artifacts, pages


def _taken(loose: Iterable[str], ours: Collection[str]) -> Iterator[Diagnostic]:
    """bad-value for a file to copy where a file or a folder of the site's own lies, on this machine or another."""
    files: dict[str, str] = {}
    folders: dict[str, str] = {}
    for path in ours if loose else ():
        files[folded_path(path)] = path
        for folder in _around(path):
            folders.setdefault(folded_path(folder), path)
    for file in loose:
        path = file.removeprefix(AS_IS)
        places = [files.get(folded_path(one)) for one in (path, *_around(path))]
        own = next(filter(None, (*places, folders.get(folded_path(path)))), None)
        if own is not None:
            yield Diagnostic(
                code="bad-value",
                message=f"{file} would lie in the way of {own}, which is a file of the site's own.",
                span=Span.of_file(file),
                help="Give it another name, or put it into a folder of another name.",
            )


def _around(path: str) -> Iterator[str]:
    """The folders around a file, the innermost first."""
    while "/" in path:
        path = path.rpartition("/")[0]
        yield path


def _kept(store: Store, key: str, photo: Original) -> Callable[[], bytes]:
    def fetch() -> bytes:
        data = store.get(key)
        if data is None:
            # Another build with a smaller cache may have taken it away since; then the photo is developed once more.
            list(develop([photo], store))
            data = store.get(key)
        if data is None:
            raise MachineError(f"“{photo.path}” changed while the site was being built.", "Build again.")
        return data

    return fetch


def templates_of(found: Found) -> str:
    """Stands for every template that pages of this content are made with."""
    return Templates(language_of(""), found.root / "templates" if found.templates else None).digest()


def templates_told(archive: Archive, content: Path, memory: Memory) -> tuple[Diagnostic, ...]:
    """What is wrong with the author's own templates, as far as reading them tells."""
    if not archive.templates:
        return ()
    from guidegen.rendering.theme.broken_templates import unreadable_templates

    return tuple(unreadable_templates(archive.templates, templates_for(archive, content, memory)[0]))


def tokens_told(archive: Archive, content: Path) -> tuple[Diagnostic, ...]:
    """What is wrong with the tokens of the style that the site changes."""
    if not archive.site.tokens:
        return ()
    from guidegen.rendering.theme.tokens import tokens_of, wrong_tokens

    templates = Templates(
        language_of(archive.site.language), content / "templates" if archive.templates else None
    )
    return tuple(wrong_tokens(archive.site, tokens_of(templates)))


@contextmanager
def broken_templates_told() -> Iterator[list[Diagnostic]]:
    """Makes a diagnostic of what one of the author's templates runs into; the list has it once the block is left."""
    from guidegen.rendering.theme.broken_templates import bad_template

    told: list[Diagnostic] = []
    try:
        yield told
    except BrokenTemplateError as error:
        told.append(bad_template(error))


def placeholder_for(site: Site) -> Callable[[str], bytes]:
    """Makes the small whole page that stands at a new address until its own is there; it links only to the home page."""
    language = language_of(site.language)
    templates = Templates(language)

    def page(path: str) -> bytes:
        values = {"language": language.code, "policy": POLICY, "home": relative(HOME, path)}
        return templates.render("being-published.html", values)

    return page
