"""The whole content folder read: every file's records and diagnostics, and what only shows between files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic, Related, has_errors, in_order, with_excerpts
from guidegen.base.paths import slug, why_unsafe
from guidegen.base.source import Source, Span
from guidegen.model.guide import Guide, Shared
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan
from guidegen.model.site import Archive, Site
from guidegen.reading.discover import Found, discover, source_of
from guidegen.reading.guide import read_guide
from guidegen.reading.palette import PaletteFile, palette_of, read_palette_file
from guidegen.reading.plan import read_plan
from guidegen.reading.shared import SharedLists, check_inserts, read_shared
from guidegen.reading.site import read_site


class Texts:
    """Opens files as they are asked for, and keeps their texts and what is wrong with them."""

    def __init__(self, found: Found) -> None:
        """Nothing is opened yet."""
        self.found = found
        self.sources: dict[str, Source] = {}
        self.diagnostics: list[Diagnostic] = []

    def source(self, path: str) -> Source | None:
        """A file's text, None where it cannot be had, which is told."""
        source = source_of(self.found, path)
        if isinstance(source, Diagnostic):
            self.diagnostics.append(source)
            return None
        self.sources[path] = source
        return source

    def told(self, diagnostics: Iterable[Diagnostic]) -> None:
        """Keep what a reader had to say."""
        self.diagnostics.extend(diagnostics)


def read_archive(content: Path) -> tuple[Archive, tuple[Diagnostic, ...]]:
    """Read everything in a content folder. Raises MachineError where there is no such folder."""
    texts = Texts(discover(content))
    site = read_settings(texts)
    palette = read_pots(texts, site)
    lists = read_lists(texts)
    guides = read_guides(texts, site, lists)
    plans = read_plans(texts, site)
    texts.told(_unsafe_files(texts.found))
    archive = Archive(
        site=site,
        palette=palette,
        guides=guides,
        shared=tuple(one for one in lists.values() if one is not None),
        plans=plans,
        loose=texts.found.loose,
        templates=texts.found.templates,
        sources=texts.sources,
    )
    return archive, tuple(texts.diagnostics)


def read_palette(content: Path) -> tuple[Palette, tuple[Diagnostic, ...]]:
    """The palette alone, for commands that need nothing else: whatever is the matter with guides."""
    texts = Texts(discover(content))
    site = read_settings(texts)
    palette = read_pots(texts, site)
    return palette, in_order(with_excerpts(texts.diagnostics, texts.sources))


def read_settings(texts: Texts) -> Site:
    """site.yaml, or the settings that stand without it."""
    source = texts.source(texts.found.site) if texts.found.site else None
    if source is None:
        return Site()
    site, diagnostics = read_site(source)
    texts.told(diagnostics)
    return site


def read_pots(texts: Texts, site: Site) -> Palette:
    """Every palette file, put together."""
    files: list[PaletteFile] = []
    whole = True
    for path in texts.found.palette:
        source = texts.source(path)
        if source is None:
            whole = False
            continue
        file, diagnostics = read_palette_file(source)
        files.append(file)
        texts.told(diagnostics)
    palette, diagnostics = palette_of(files, site.defaults.range, whole=whole)
    texts.told(diagnostics)
    return palette


def read_lists(texts: Texts) -> SharedLists:
    """The shared lists by the name that guides insert them by."""
    lists: dict[str, Shared | None] = {}
    for path in texts.found.shared:
        name = slug(Path(path).stem)
        source = texts.source(path)
        shared = None
        if source is not None:
            shared, diagnostics = read_shared(source, name, texts.found.listing)
            texts.told(diagnostics)
        lists[name] = shared
    texts.told(check_inserts(lists))
    return lists


@dataclass(frozen=True, slots=True)
class Address:
    """A guide's slug and its file."""

    slug: str
    file: str


def addresses_of(found: Found) -> tuple[tuple[Address, ...], tuple[Diagnostic, ...]]:
    """The guides' addresses; of two files with one address only the first is read."""
    kept: dict[str, Address] = {}
    told = []
    # The folder form goes first, so that the short form beside it is the one that is told.
    for path in sorted(found.guides, key=lambda path: (path.count("/") < 2, path)):
        name = path.split("/")[1]
        address = Address(slug(name.removesuffix(".md") if path.count("/") == 1 else name), path)
        first = kept.setdefault(address.slug, address)
        if first is not address:
            told.append(
                _same_address(address.slug, Span.of_file(path), Span.of_file(first.file), "has it too.")
            )
    return tuple(kept[key] for key in sorted(kept)), tuple(told)


def read_guides(texts: Texts, site: Site, lists: SharedLists) -> tuple[Guide, ...]:
    """Every guide that could be read, by address."""
    addresses, told = addresses_of(texts.found)
    texts.told(told)
    guides: list[Guide] = []
    for address in addresses:
        source = texts.source(address.file)
        if source is None:
            continue
        guide, diagnostics = read_guide(
            source,
            slug=address.slug,
            listing=texts.found.listing,
            defaults=site.defaults,
            shared=lists,
            chart=texts.found.chart_beside(address.file),
        )
        texts.told(diagnostics)
        if guide is not None:
            guides.append(guide)
    texts.told(_old_addresses(guides, addresses))
    return tuple(guides)


def read_plans(texts: Texts, site: Site) -> tuple[Plan, ...]:
    """Every plan that could be read without an error: evenings are worked out of nothing less."""
    plans: dict[str, Plan] = {}
    for path in texts.found.plans:
        source = texts.source(path)
        if source is None:
            continue
        plan, diagnostics = read_plan(source, slug=slug(Path(path).stem), defaults=site.defaults)
        texts.told(diagnostics)
        if plan is not None and not has_errors(diagnostics):
            plans.setdefault(plan.slug, plan)
    return tuple(plans[key] for key in sorted(plans))


def _old_addresses(guides: list[Guide], addresses: tuple[Address, ...]) -> Iterator[Diagnostic]:
    """two-guides-one-address between a guide and an old address, or two old addresses."""
    taken = {address.slug: Span.of_file(address.file) for address in addresses}
    own = set(taken)
    for guide in guides:
        for old in guide.was:
            key = slug(old.text)
            if key == guide.slug:
                continue
            first = taken.setdefault(key, old.span)
            if first is not old.span:
                words = "has this address." if key in own else "says that it was there too."
                yield _same_address(key, old.span, first, words)


def _same_address(address: str, span: Span, first: Span, words: str) -> Diagnostic:
    return Diagnostic(
        code="two-guides-one-address",
        message=f"Two guides would be at the address guides/{address}.",
        span=span,
        help="Rename one of them.",
        related=(Related(span=first, message=words),),
    )


def _unsafe_files(found: Found) -> Iterator[Diagnostic]:
    for path in found.loose:
        reason = why_unsafe(path.removeprefix("as-is/"))
        if reason:
            yield Diagnostic(
                code="bad-value",
                message=f"The file “{path}” {reason}, so it cannot be copied into the site.",
                span=Span.of_file(path),
                help="Rename it.",
            )
