"""One guide from content to a single file: what concerns it, its photos, its page with everything inside."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic, has_errors, in_order, with_excerpts
from guidegen.base.paths import slug
from guidegen.building.check import Checked
from guidegen.building.photos import photos_of
from guidegen.imaging.dense import dense
from guidegen.imaging.develop import Original, Store, develop
from guidegen.imaging.picture import Picture
from guidegen.model.guide import Guide
from guidegen.rendering.guide.variants import Choice, variants
from guidegen.rendering.page.page import Export, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.site.pages import guide_pages
from guidegen.rendering.standalone.alone import Embedded
from guidegen.rendering.standalone.sent_page import file_stem, mark_of, sent_page
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.broken_templates import bad_template
from guidegen.rendering.theme.template_process import BrokenTemplateError
from guidegen.rendering.theme.templates import Templates
from guidegen.words.catalogue import language_of
from guidegen.writing.cache import Cache, cache_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class Parcel:
    """A guide as one file: the name it goes by, the mark that its bytes bear, and how many photos it brings."""

    name: str
    mark: str
    data: bytes
    photos: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrapped:
    """What became of a guide. There is no parcel where an error is among the diagnostics.

    `note` is a sentence on what the machine did not allow, if anything.
    """

    diagnostics: tuple[Diagnostic, ...]
    parcel: Parcel | None = None
    note: str | None = None


def concerning(checked: Checked, address: str) -> tuple[Diagnostic, ...]:
    """What was found in a guide, in the lists that it inserts, and in what belongs to no guide, list or plan."""
    guide = checked.archive.guide(address)
    inserts = guide.inserts if guide is not None else ()

    def concerns(file: str) -> bool:
        folder, _, rest = file.partition("/")
        if folder == "guides":
            return slug(rest.partition("/")[0].removesuffix(".md")) == address
        if folder == "shared":
            return slug(rest.removesuffix(".yaml")) in inserts
        return folder != "plans"

    return tuple(told for told in checked.diagnostics if concerns(told.span.file))


def page_for(guide: Guide, choice: Choice) -> str | None:
    """The guide's page for a choice, by its path in the site, None where that combination has none."""
    wanted = {**guide.default_choice, **choice}
    return next((path for path, chosen in variants(guide).items() if chosen == wanted), None)


def wrap(
    checked: Checked,
    guide: Guide,
    path: str,
    *,
    cache: Path | None = None,
    progress: Callable[[str, int, int], None] = lambda _stage, _done, _of: None,
) -> Wrapped:
    """Put one page of a guide together with all that it shows. `cache` None is the user's own cache folder."""
    told = concerning(checked, guide.slug)
    if has_errors(told):
        return Wrapped(diagnostics=told)
    with Cache.opened(cache or cache_folder()) as store:
        originals = {
            photo.path: Original(path=checked.content / photo.path, name=photo.file, span=photo.span)
            for photo in reversed([*photos_of(guide)])  # so that each is told of where it is named first
            if photo.path is not None
        }
        pictures: dict[str, Picture] = {}
        developed = develop(originals.values(), store)
        for name in originals:
            with busy_with(name):
                done = next(developed)
            told += with_excerpts(done.diagnostics, checked.archive.sources)
            if done.picture is not None:
                pictures[name] = done.picture
            progress("photos", len(pictures), len(originals))
        if has_errors(told):
            return Wrapped(diagnostics=in_order(told))
        inside = _inside(originals, pictures, store)
        try:
            with busy_with(guide.file):
                data = _page(checked, guide, path, pictures, inside)
        except BrokenTemplateError as broken:
            return Wrapped(diagnostics=in_order((*told, bad_template(broken))))
    parcel = Parcel(
        name=f"{file_stem(path)}.html",
        mark=mark_of(path),
        data=data,
        photos=len({picture.key for picture in pictures.values()}),
    )
    return Wrapped(diagnostics=in_order(told), parcel=parcel, note=store.note)


def _inside(
    originals: Mapping[str, Original], pictures: Mapping[str, Picture], store: Store
) -> dict[str, Embedded]:
    """What to put inside, by every path in the site that the page may know a photo by."""
    inside: dict[str, Embedded] = {}
    for name, picture in pictures.items():
        photo = Embedded(type="image/webp", data=dense(originals[name], picture, store))
        inside |= {path: photo for path, _ in picture.files}
    return inside


def _page(
    checked: Checked,
    guide: Guide,
    path: str,
    pictures: Mapping[str, Picture],
    photos: Mapping[str, Embedded],
) -> bytes:
    """The page as one file. No other guide is known to it, so that none is named by a link that leads nowhere."""
    archive = replace(checked.archive, guides=(guide,))
    authors = checked.content / "templates"
    templates = Templates(language_of(archive.site.language), authors if archive.templates else None)
    assets, files = site_assets(templates, archive.site.tokens)
    context = SiteContext.of(archive, checked.palette_tools, assets, pictures)
    made = {page.path: page for page in guide_pages(guide, context, checked.palette_tools)[1]}
    drawings = {
        path: Embedded(type="image/svg+xml", data=page.data)
        for path, page in made.items()
        if isinstance(page, Export) and path.endswith(".svg")
    }
    page = made[path]
    if not isinstance(page, Page):
        raise TypeError(path)
    return sent_page(page, context, templates, files, {**photos, **drawings})
