"""What a build remembers of the one before, so that nothing is done twice; only what is certain is taken from it."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.garbage import uncollected
from guidegen.base.stamp import Stamp
from guidegen.computing.colour.stand_in import StandIn
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.palette_use import PaletteUse
from guidegen.imaging.develop import Developed, Original
from guidegen.model.guide import Guide, Shared
from guidegen.model.paint import Paint, Palette
from guidegen.model.site import Archive
from guidegen.reading.content.discover import ContentFiles
from guidegen.reading.content.memory import ReadingMemory
from guidegen.writing.cache_file import load_kept, program, save_kept
from guidegen.writing.records import Records
from guidegen.writing.stat_cache import memory_file

if TYPE_CHECKING:
    from guidegen.building.tracing import Trace
    from guidegen.rendering.guide.summary import Summary
    from guidegen.rendering.page.site_context import SiteContext
    from guidegen.rendering.theme.templates import Templates

# The modules whose records may be in a memory that is kept in the cache.
RECORDS = Records(
    (
        "guidegen.base.diagnostic",
        "guidegen.base.source",
        "guidegen.base.stamp",
        "guidegen.computing.colour.blend",
        "guidegen.computing.colour.recipes",
        "guidegen.computing.colour.stand_in",
        "guidegen.computing.guide.colour_families",
        "guidegen.computing.guide.materials",
        "guidegen.computing.guide.scheme",
        "guidegen.imaging.develop",
        "guidegen.imaging.picture",
        "guidegen.building.memory",
        "guidegen.model.chart",
        "guidegen.model.guide",
        "guidegen.model.names",
        "guidegen.model.paint",
        "guidegen.model.plan",
        "guidegen.model.site",
        "guidegen.model.web_address",
        "guidegen.reading.content.discover",
        "guidegen.base.listing",
        "guidegen.reading.content.memory",
        "guidegen.reading.content.palette",
        "guidegen.reading.content.file_kinds",
        "guidegen.rendering.theme.assets",
        "guidegen.rendering.theme.chips",
        "guidegen.rendering.page.site_context",
        "guidegen.rendering.guide.summary",
        "guidegen.building.tracing",
    )
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPages:
    """Pages that were made together: what they were made of, and each file's path with the SHA-256 of its bytes.

    By path, `sizes` has how many bytes a page has, and `inputs` the key of a page that has one of its own. `summary` is
    set for the pages of one guide.
    """

    made_of: tuple[object, ...]
    trace: Trace
    files: tuple[tuple[str, str], ...]
    sizes: Mapping[str, int] = field(default_factory=dict)
    inputs: Mapping[str, str] = field(default_factory=dict)
    summary: Summary | None = None


@dataclass(slots=True, kw_only=True)
class Memory:
    """What the last build of a content folder read, checked, developed and made.

    A record of the content counts as the same only if it is the very object that was read then: two guides that
    compare equal may differ in where their keys stand. Times are those of the clock, in ns.
    """

    # What every page is made of, the texts of the palette, and by file what a guide or list takes from the palette.
    common: tuple[object, ...] = ()
    palettes: tuple[object, ...] = ()
    taken: dict[str, tuple[Guide | Shared, str]] = field(default_factory=dict)
    # What stands in for paints of that palette, by full name.
    advised: dict[str, StandIn] = field(default_factory=dict)
    # When content was listed for the photos in `developed`, and how each of their files looked.
    looked_at: int = 0
    reading: ReadingMemory = field(default_factory=ReadingMemory)
    checked: dict[str, tuple[tuple[object, ...], tuple[Diagnostic, ...]]] = field(default_factory=dict)
    stamps: dict[str, Stamp] = field(default_factory=dict)
    developed: dict[str, Developed] = field(default_factory=dict)
    # Photos that were only opened, not developed, and when content was listed for them.
    looked: dict[str, tuple[Stamp, Developed]] = field(default_factory=dict)
    looked_for: int = 0
    pages: dict[str, KeptPages] = field(default_factory=dict)
    # False where nobody will compare with it later: what serves only for that is not worked out.
    lasting: bool = True
    # For a caller that keeps its memory, as a preview does; templates with their version.
    palette_tools: PaletteTools | None = None
    use: PaletteUse | None = None
    templates: tuple[Templates, str] | None = None
    # How many things were checked, developed and made; and `work` as it was when this was loaded.
    done: int = 0
    saved: int = -1

    @property
    def work(self) -> int:
        """How many things were read, checked, developed and made since it began; it never goes down."""
        return self.reading.read + self.done

    def begin(self, archive: Archive, found: ContentFiles) -> None:
        """Forget what other settings or another palette made, and guides that are no longer there."""
        common = (archive.sources.get(found.site or ""), archive.unread)
        palettes = tuple((file, archive.sources.get(file)) for file in found.palettes)
        there = {guide.file for guide in archive.guides} | {one.file for one in archive.shared}
        self.checked = {file: self.checked[file] for file in self.checked.keys() & there}
        self.taken = {file: self.taken[file] for file in self.taken.keys() & there}
        if palettes != self.palettes:
            self.palettes, self.palette_tools, self.use = palettes, None, None
            self.taken.clear()
            self.advised.clear()
            # What guides take from it is compared for each; pages about all of them are looked at one by one.
            addresses = {guide.slug for guide in archive.guides}
            self.pages = {
                name: kept if name in addresses else replace(kept, made_of=())
                for name, kept in self.pages.items()
                if name in addresses or kept.inputs
            }
        if common != self.common:
            self.common = common
            self.checked.clear()
            self.pages.clear()

    def palette_tools_over(self, palette: Palette) -> PaletteTools:
        """The tools over the palette that `begin` was given, set up once."""
        if self.palette_tools is None:
            self.palette_tools = PaletteTools.over(palette)
            for name, advice in self.advised.items():
                self.palette_tools.stand_ins.keep(name, advice)
        return self.palette_tools

    def taken_by(self, guide: Guide | Shared, palette_tools: PaletteTools) -> str:
        """Stands for all that a guide or list takes from the palette that `begin` was told of."""
        if not self.lasting:
            return ""
        if not self._knows_taken(guide):
            self.done += 1
            self.taken[guide.file] = guide, self._use_of(palette_tools).of(guide)
        return self.taken[guide.file][1]

    def advice_wanted(self, guides: Iterable[Guide | Shared], palette_tools: PaletteTools) -> list[Paint]:
        """The paints whose stand-ins have to be worked out before it is known what these take from the palette."""
        new = [guide for guide in guides if self.lasting and not self._knows_taken(guide)]
        wanted = self._use_of(palette_tools).advice_wanted_by(new) if new else []
        return [paint for paint in wanted if paint.full_name not in self.advised]

    def _knows_taken(self, guide: Guide | Shared) -> bool:
        known = self.taken.get(guide.file)
        return known is not None and known[0] is guide

    def _use_of(self, palette_tools: PaletteTools) -> PaletteUse:
        if self.use is None:
            self.use = PaletteUse(palette_tools)
        return self.use

    def check(
        self, guide: Guide, made_of: tuple[object, ...], check: Callable[[], Sequence[Diagnostic]]
    ) -> tuple[Diagnostic, ...]:
        """What `check` tells of a guide, or told when all it was made of was the same."""
        told = self.checked_before(guide, made_of)
        if told is None:
            self.done += 1
            told = tuple(check())
            self.checked[guide.file] = ((guide, *made_of), told)
        return told

    def checked_before(self, guide: Guide, made_of: tuple[object, ...]) -> tuple[Diagnostic, ...] | None:
        """What was told of a guide when all it was made of was the same."""
        known = self.checked.get(guide.file)
        return known[1] if known is not None and same(known[0], (guide, *made_of)) else None

    def developed_before(self, path: str, original: Original, stamp: Stamp | None) -> Developed | None:
        """What became of a photo if its file is as it was and had settled when it was last looked at."""
        known = self.developed.get(path)
        if known is None or stamp is None or self.stamps.get(path) != stamp:
            return None
        if not stamp.settled(self.looked_at):
            return None
        return _as_named(known, original)

    def looked_before(self, path: str, original: Original, stamp: Stamp | None) -> Developed | None:
        """What there was to tell of a photo when it was last opened or developed, on the same terms."""
        developed = self.developed_before(path, original, stamp)
        known = self.looked.get(path)
        if developed is not None or known is None or stamp is None or known[0] != stamp:
            return developed
        if not stamp.settled(self.looked_for):
            return None
        return _as_named(known[1], original)

    def keep_photos(self, done: Mapping[str, tuple[Stamp, Developed]], looked_at: int) -> None:
        """Keep what became of every photo, looked at no earlier than that time."""
        self.done += 1
        self.looked_at = looked_at
        self.stamps = {path: stamp for path, (stamp, _) in done.items()}
        self.developed = {path: developed for path, (_, developed) in done.items()}

    def keep_looks(self, done: Mapping[str, tuple[Stamp | None, Developed]], looked_at: int) -> None:
        """Keep what there was to tell of every photo. Its picture is not kept, since its files may not be there."""
        self.done += 1
        self.looked_for = looked_at
        self.looked = {
            path: (stamp, replace(developed, picture=None))
            for path, (stamp, developed) in done.items()
            if stamp is not None
        }

    @staticmethod
    def holds(kept: KeptPages, made_of: tuple[object, ...], context: SiteContext) -> bool:
        """Whether pages that were made once would come out the same today."""
        return same(kept.made_of, made_of) and kept.trace.holds(context)


def _as_named(known: Developed, original: Original) -> Developed | None:
    """The same for a photo that is named elsewhere by now; None where there is something to tell of that place."""
    if known.original == original:
        return known
    if known.diagnostics or known.original.path != original.path:
        return None
    if known.original.credited != original.credited:
        return None
    return replace(known, original=original)


def same(then: tuple[object, ...], now: tuple[object, ...]) -> bool:
    """Whether two are made of the same: records by being the same object, all else by being equal."""
    return len(then) == len(now) and all(
        a is b or (a == b and not isinstance(a, Guide | Shared)) for a, b in zip(then, now, strict=True)
    )


def load_memory(cache: Path, content: Path) -> Memory:
    """What the last build of a content folder left in the cache, an empty memory where nothing is."""
    with uncollected():
        kept = load_kept(_file(cache, content), program(), RECORDS)
        # A collection right after it would take as long as the loading.
        gc.freeze()
    memory = kept if isinstance(kept, Memory) else Memory()
    memory.saved = memory.work
    return memory


def save_memory(cache: Path, content: Path, memory: Memory) -> OSError | None:
    """Keep it for the next build, if any work was done since it was loaded; what stood in the way, if anything did.

    What is quicker to set up again than to load is left out.
    """
    if memory.saved == memory.work:
        return None
    kept = replace(memory, palette_tools=None, use=None, templates=None)
    return save_kept(_file(cache, content), program(), kept, RECORDS)


def _file(cache: Path, content: Path) -> Path | None:
    file = memory_file(cache, content, "content")
    return file and file.with_suffix(".kept")
