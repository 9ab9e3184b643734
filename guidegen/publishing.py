"""The second half of a build: photos developed, pages made, everything put in place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.computing.worked import Workshop
from guidegen.imaging.develop import Developed, Original, Store, develop, look_at
from guidegen.imaging.picture import Picture
from guidegen.memory import Memory
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.model.site import Archive, Site
from guidegen.press import Press
from guidegen.reading.discover import Found
from guidegen.reading.listing import Stamp
from guidegen.rendering.assets import site_assets
from guidegen.rendering.desk import Desk
from guidegen.rendering.environment import Templates
from guidegen.rendering.frame import POLICY
from guidegen.rendering.strings import language_of
from guidegen.rendering.urls import HOME, relative
from guidegen.writing.release import Artefact


@dataclass(frozen=True, slots=True, kw_only=True)
class Photos:
    """All photos of the sound guides, developed, by their path in content."""

    pictures: dict[str, Picture]
    diagnostics: tuple[Diagnostic, ...]
    encoded: int


def photos_of(guide: Guide) -> Iterator[Photo]:
    """Every photo that a guide shows, its cover first."""
    if guide.cover is not None:
        yield guide.cover
    for step in guide.steps:
        yield from step.photos
    for reference in guide.reference:
        yield reference.photo
    for passage in (guide.body.before, *guide.body.under.values(), guide.body.after):
        yield from passage.photos


def develop_photos(
    guides: Iterable[Guide],
    found: Found,
    store: Store,
    memory: Memory,
    looked_at: int,
    progress: Callable[[int, int], None],
) -> Photos:
    """Develop each photo once, however many guides show it; what is wrong with one is told where it is first named.

    One that the memory knows is not even opened. `looked_at` is the time before the content's files were listed.
    """
    first = _originals(guides, found.root)
    stamps = {path: found.listing.files.get(path) for path in first}
    before = {path: memory.developed_before(path, photo, stamps[path]) for path, photo in first.items()}
    opened = develop((photo for path, photo in first.items() if before[path] is None), store)
    pictures: dict[str, Picture] = {}
    diagnostics: list[Diagnostic] = []
    encoded = 0
    kept: dict[str, tuple[Stamp, Developed]] = {}
    for path, known in before.items():
        done = known or next(opened)
        diagnostics += done.diagnostics
        encoded += done.encoded
        if done.picture is not None:
            pictures[path] = done.picture
        if (stamp := stamps[path]) is not None:
            kept[path] = (stamp, replace(done, encoded=False))
        progress(len(pictures), len(first))
    memory.keep_photos(kept, looked_at)
    return Photos(pictures=pictures, diagnostics=tuple(diagnostics), encoded=encoded)


def look_at_photos(guides: Iterable[Guide], content: Path, store: Store) -> list[Diagnostic]:
    """What `develop_photos` would tell, with nothing encoded and nothing kept."""
    looked = look_at(_originals(guides, content).values(), store)
    return [told for photo in looked for told in photo.diagnostics]


def _originals(guides: Iterable[Guide], content: Path) -> dict[str, Original]:
    """The photos of some guides, each once, by their path in content, as they are first named."""
    first: dict[str, Original] = {}
    for guide in guides:
        for photo in photos_of(guide):
            if photo.path is not None and photo.path not in first:
                first[photo.path] = Original(path=content / photo.path, name=photo.file, span=photo.span)
    return first


def published(archive: Archive, *, drafts: bool) -> Archive:
    """The archive as it is shown: without drafts, unless they are asked for."""
    return archive if drafts else replace(archive, guides=tuple(g for g in archive.guides if not g.draft))


def site_artefacts(
    whole: Archive,
    workshop: Workshop,
    photos: Photos,
    memory: Memory,
    *,
    content: Path,
    store: Store,
    drafts: bool = False,
) -> tuple[list[Artefact], int]:
    """Every file of the site, and how many of them are pages. Plans count with drafts, shown or not."""
    archive = published(whole, drafts=drafts)
    authors = content / "templates"
    templates = Templates(language_of(archive.site.language), authors if archive.templates else None)
    assets, files = site_assets(templates, archive.site.tokens)
    version = f"{__version__} {templates.digest()}"
    desk = Desk.of(archive, workshop, assets, photos.pictures)
    press = Press(desk, workshop, templates, version, memory)
    artefacts = press.pages(archive, whole.guides)
    pages = sum(artefact.page for artefact in artefacts)
    artefacts += [Artefact(path=path, key=path, data=data) for path, data in files.items()]
    seen: set[str] = set()
    for path, picture in photos.pictures.items():
        if picture.key in seen:
            continue
        seen.add(picture.key)
        original = Original(path=content / path, name=path, span=archive.site.span)
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


@contextmanager
def broken_templates_told(content: Path) -> Iterator[list[Diagnostic]]:
    """Makes a diagnostic of what one of the author's templates runs into; the list has it once the block is left."""
    from jinja2 import TemplateError

    from guidegen.rendering.broken import broken_template

    told: list[Diagnostic] = []
    try:
        yield told
    except (TemplateError, TypeError, ValueError, ArithmeticError, LookupError, AttributeError) as error:
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
