"""One guide from content to a single file: what concerns it, its photos, its page with everything inside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic, has_errors, in_order, with_excerpts
from guidegen.base.paths import slug
from guidegen.building.check import Checked
from guidegen.building.memory import Memory
from guidegen.building.photos import develop_photos, originals_of
from guidegen.checking.photos import photos_of
from guidegen.imaging.dense import dense
from guidegen.model.guide import Guide
from guidegen.reading.content.discover import discover
from guidegen.reading.editing.own_files import files_of
from guidegen.rendering.guide.variants import Choice, variants
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.standalone.own_source import OwnSource
from guidegen.rendering.standalone.sent_page import file_stem, mark_of, sent_page
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.broken_templates import bad_template
from guidegen.rendering.theme.template_process import BrokenTemplateError
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import language_of
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
    """The diagnostics of a guide, of the lists that it inserts, and of files that are no guide's, list's or plan's."""
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
        developed = develop_photos(
            photos_of(guide), discover(checked.content), store, Memory(), 0, partial(progress, "photos")
        )
        told += with_excerpts(developed.diagnostics, checked.archive.sources)
        if has_errors(told):
            return Wrapped(diagnostics=in_order(told))
        originals, pictures = originals_of(photos_of(guide), checked.content), developed.pictures
        photos = dense([(originals[name], picture) for name, picture in pictures.items()], store)
        own = OwnSource(texts=files_of(guide, checked.archive), photos=pictures)
        # No other guide, list or plan is known to the page, so that it names none.
        archive = replace(checked.archive, guides=(), shared=(), plans=())
        authors = checked.content / "templates" if archive.templates else None
        templates = Templates(language_of(archive.site.language), authors)
        assets, files = site_assets(templates, archive.site.tokens)
        context = SiteContext.of(archive, checked.palette_tools, assets, pictures)
        try:
            with busy_with(guide.file):
                data = sent_page(guide, path, context, templates, files, photos.items(), own)
        except BrokenTemplateError as broken:
            return Wrapped(diagnostics=in_order((*told, bad_template(broken))))
    parcel = Parcel(name=f"{file_stem(path)}.html", mark=mark_of(path), data=data, photos=len(photos))
    return Wrapped(diagnostics=in_order(told), parcel=parcel, note=store.note)
