"""What a site is made of: its plan, its files besides pages, and what is wrong with templates and tokens."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache, partial
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.base.paths import folded_path
from guidegen.base.source import Span
from guidegen.building.check import Checked
from guidegen.building.last_good import LastGood
from guidegen.building.memory import Memory
from guidegen.building.photos import DevelopedPhotos
from guidegen.building.social import cover_file, social_artifacts, socials_over
from guidegen.building.templates import templates_for
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.imaging.develop import Original, Store, develop
from guidegen.model.guide import Guide
from guidegen.model.site import Archive, Site
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.frame import POLICY
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import HOME, relative
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import language_of
from guidegen.writing.artifact import Artifact

# Files in this folder of the content are copied into the site untouched.
AS_IS = "as-is/"


def shown(archive: Archive, *, drafts: bool) -> Archive:
    """The archive as it is shown: without drafts, unless they are asked for."""
    return archive if drafts else replace(archive, guides=tuple(g for g in archive.guides if not g.draft))


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePlan:
    """What a site is made of and with.

    `archive` is what is shown, `guides` all that plans count with, drafts too; `version` stands for the templates and
    the program, `assets` are the site's own files, `last` what stays of the last build.
    """

    archive: Archive
    guides: tuple[Guide, ...]
    context: SiteContext
    palette_tools: PaletteTools
    templates: Templates
    version: str
    assets: Mapping[str, bytes]
    photos: DevelopedPhotos
    last: LastGood

    @property
    def shown_bytes(self) -> int:
        """Bytes of all photos, styles and scripts that a reader keeps who keeps every guide for use without a network."""
        own = self.context.assets
        shown = (own.style, own.bench_style, own.script, own.bench, own.keep, own.search, own.ask, own.icon)
        photos = self.last.photos | {one.key: one.weight for one in self.photos.pictures.values()}
        return sum(photos.values()) + sum(len(self.assets[path]) for path in shown)


def plan_site(
    checked: Checked, photos: DevelopedPhotos, last: LastGood, memory: Memory, *, drafts: bool
) -> SitePlan:
    """Lay out the site of what is publishable."""
    archive = shown(checked.sound, drafts=drafts)
    templates, version = templates_for(archive, checked.content, memory)
    assets, files = site_assets(templates, archive.site.tokens)
    socials = socials_over(archive.palette) if archive.site.url else None
    context = SiteContext.of(archive, checked.palette_tools, assets, photos.pictures, socials)
    return SitePlan(
        archive=archive,
        guides=checked.sound.guides,
        context=last.linking_to_all(context),
        palette_tools=checked.palette_tools,
        templates=templates,
        version=version,
        assets=files,
        photos=photos,
        last=last,
    )


def other_files(
    plan: SitePlan, summaries: Iterable[Summary], content: Path, store: Store
) -> Iterator[Artifact]:
    """What a site has besides what is made of guides: its own files, pictures for sharing, photos."""
    for path, data in plan.assets.items():
        yield Artifact(path=path, key=path, data=data)
    pictures = plan.photos.pictures

    def original_of(path: str) -> Original:
        return Original(path=content / path, name=path, span=plan.archive.site.span)

    def cover(path: str) -> bytes:
        return _stored(store, cover_file(pictures[path]), original_of(path))

    yield from social_artifacts(summaries, plan.context, store, cover)
    first = {picture.key: path for path, picture in reversed([*pictures.items()])}
    for path in sorted(first.values()):
        for file, kept in pictures[path].files:
            yield Artifact(path=file, key=kept, data=partial(_stored, store, kept, original_of(path)))


def copied_paths(loose: Iterable[str]) -> set[str]:
    """The paths in the site of the files of `as-is/`."""
    return {file.removeprefix(AS_IS) for file in loose}


def copied_files(loose: Iterable[str], content: Path) -> Iterator[Artifact]:
    """The files of `as-is/`, each to be copied as it is."""
    for file in sorted(loose):
        yield Artifact(path=file.removeprefix(AS_IS), key="", data=content / file)


def in_the_way(loose: Iterable[str], ours: Collection[str]) -> Iterator[Diagnostic]:
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


def _stored(store: Store, key: str, photo: Original) -> bytes:
    data = store.get(key)
    if data is None:
        # Another build with a smaller cache may have taken it away since; then the photo is developed once more.
        list(develop([photo], store))
        data = store.get(key)
    if data is None:
        raise MachineError(f"“{photo.path}” changed while the site was being built.", "Build again.")
    return data


def placeholder_for(site: Site) -> Callable[[str], bytes]:
    """Makes the small whole page that stands at a new address until its own is there; it links only to the home page."""
    return partial(_being_published, language_of(site.language).code)


def _being_published(language: str, path: str) -> bytes:
    return _leading_to(language, relative(HOME, path))


@cache
def _leading_to(language: str, home: str) -> bytes:
    values = {"language": language, "policy": POLICY, "home": home}
    return Templates(language_of(language)).render("being-published.html", values)
