"""The second half of a build: photos developed, pages made, everything put in place."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.computing.workshop import Workshop
from guidegen.imaging.develop import Original, Store, develop
from guidegen.memory import Memory
from guidegen.model.guide import Guide
from guidegen.model.site import Archive, Site
from guidegen.photos import Photos
from guidegen.press import Press
from guidegen.reading.discover import Found
from guidegen.rendering.assets import site_assets
from guidegen.rendering.desk import Desk
from guidegen.rendering.environment import Templates
from guidegen.rendering.frame import POLICY
from guidegen.rendering.strings import language_of
from guidegen.rendering.urls import HOME, relative
from guidegen.social import cover_file, social_artefacts, socials_over
from guidegen.writing.ahead import Ahead
from guidegen.writing.release import Artefact


def published(archive: Archive, *, drafts: bool) -> Archive:
    """The archive as it is shown: without drafts, unless they are asked for."""
    return archive if drafts else replace(archive, guides=tuple(g for g in archive.guides if not g.draft))


class Made(NamedTuple):
    """A site to publish, what it was made with, and how many pages it has."""

    press: Press
    artefacts: list[Artefact]
    pages: int


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

    def site(self, sound: Archive, workshop: Workshop) -> Made:
        """All files of the site of what is sound. Plans count with drafts, shown or not."""
        archive = published(sound, drafts=self.drafts)
        desk, templates, files = desk_for(archive, workshop, self.photos, self.memory, self.content)
        version = version_of(templates)
        press = Press(desk, workshop, templates, version, self.memory, self.progress, self.ahead)
        content, store = self.content, self.store
        artefacts, pages = site_artefacts(
            archive, sound.guides, press, self.photos, files, content=content, store=store
        )
        return Made(press, artefacts, pages)


def desk_for(
    archive: Archive, workshop: Workshop, photos: Photos, memory: Memory, content: Path
) -> tuple[Desk, Templates, dict[str, bytes]]:
    """What pages are made from and with, and the site's own files. Templates that are ready from last time serve."""
    authors = content / "templates"
    templates = Templates(language_of(archive.site.language), authors if archive.templates else None)
    hand = memory.at_hand
    if hand is not None and (hand.templates, hand.version) == (templates, version_of(templates)):
        templates = hand.templates
    assets, files = site_assets(templates, archive.site.tokens)
    socials = socials_over(archive.palette) if archive.site.url else None
    return Desk.of(archive, workshop, assets, photos, socials), templates, files


def version_of(templates: Templates) -> str:
    """Stands for the program and the templates."""
    return f"{__version__} {templates.digest()}"


def site_artefacts(
    archive: Archive,
    guides: Sequence[Guide],
    press: Press,
    photos: Photos,
    files: Mapping[str, bytes],
    *,
    content: Path,
    store: Store,
) -> tuple[list[Artefact], int]:
    """Every file of the site, and how many of them are pages.

    `archive` is as it is shown; plans count with all `guides`. `files` are the site's own.
    """
    artefacts = press.pages(archive, guides)
    pages = sum(artefact.page for artefact in artefacts)
    artefacts += [Artefact(path=path, key=path, data=data) for path, data in files.items()]

    def original_of(path: str) -> Original:
        return Original(path=content / path, name=path, span=archive.site.span)

    def cover(path: str) -> bytes:
        return _kept(store, cover_file(photos[path]), original_of(path))()

    artefacts += social_artefacts(press.summaries, press.desk, store, cover)
    seen: set[str] = set()
    for path, picture in photos.items():
        if picture.key in seen:
            continue
        seen.add(picture.key)
        original = original_of(path)
        artefacts += [
            Artefact(path=file, key=kept, data=_kept(store, kept, original)) for file, kept in picture.files
        ]
    ours = {artefact.path for artefact in artefacts}
    for file in archive.loose:
        path = file.removeprefix("as-is/")
        if path not in ours:
            artefacts.append(Artefact(path=path, key="", data=content / file))
    return artefacts, pages


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


def templates_told(archive: Archive, content: Path) -> tuple[Diagnostic, ...]:
    """What is wrong with the author's own templates, as far as reading them tells."""
    if not archive.templates:
        return ()
    from guidegen.rendering.broken import unreadable_templates

    templates = Templates(language_of(archive.site.language), content / "templates")
    return tuple(unreadable_templates(archive.templates, templates))


def tokens_told(archive: Archive, content: Path) -> tuple[Diagnostic, ...]:
    """What is wrong with the tokens of the style that the site changes."""
    if not archive.site.tokens:
        return ()
    from guidegen.rendering.tokens import tokens_of, wrong_tokens

    templates = Templates(
        language_of(archive.site.language), content / "templates" if archive.templates else None
    )
    return tuple(wrong_tokens(archive.site, tokens_of(templates)))


@contextmanager
def broken_templates_told(content: Path) -> Iterator[list[Diagnostic]]:
    """Makes a diagnostic of what one of the author's templates runs into; the list has it once the block is left."""
    from jinja2 import TemplateError

    from guidegen.rendering.broken import broken_template

    told: list[Diagnostic] = []
    try:
        yield told
    except (
        TemplateError,
        TypeError,
        ValueError,
        ArithmeticError,
        LookupError,
        AttributeError,
        RecursionError,
    ) as error:
        # A template can run into anything that Python can; what is not the author's goes on as ours.
        fault = broken_template(error, content / "templates")
        if fault is None:
            raise
        told.append(fault)


def placeholder_for(site: Site) -> Callable[[str], bytes]:
    """Makes the small whole page that stands at a new address until its own is there; it links only to the home page."""
    language = language_of(site.language)
    templates = Templates(language)

    def page(path: str) -> bytes:
        values = {"language": language.code, "policy": POLICY, "home": relative(HOME, path)}
        return templates.render("being-published.html", values)

    return page
