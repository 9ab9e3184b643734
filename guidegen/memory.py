"""What a build remembers of the one before, so that nothing is done twice; only what is certain is taken from it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Generic, TypeVar

from guidegen.base.diagnostic import Diagnostic
from guidegen.computing.worked import Workshop
from guidegen.imaging.develop import Developed, Original
from guidegen.model.guide import Guide, Shared
from guidegen.model.paint import Palette
from guidegen.model.site import Archive
from guidegen.reading.discover import Found
from guidegen.reading.listing import Stamp
from guidegen.reading.memory import Memory as Reading
from guidegen.rendering.desk import Desk
from guidegen.rendering.summary import Summary
from guidegen.writing.kept import as_it_was_left, load_kept, program, save_kept
from guidegen.writing.remembered import TICK_NS, memory_file

V = TypeVar("V")


class Traced(Mapping[str, V], Generic[V]):
    """A mapping that notes what was asked of it, so that it can be seen later whether the answers are still the same."""

    def __init__(self, whole: Mapping[str, V]) -> None:
        """Over the mapping that answers."""
        self._whole = whole
        self.asked: dict[str, V | None] = {}
        self.everything: tuple[tuple[str, V], ...] | None = None

    def __getitem__(self, key: str) -> V:
        self.asked[key] = self._whole.get(key)
        return self._whole[key]

    def __iter__(self) -> Iterator[str]:
        self.everything = tuple(self._whole.items())
        return iter(self._whole)

    def __len__(self) -> int:
        self.everything = tuple(self._whole.items())
        return len(self._whole)


@dataclass(frozen=True, slots=True)
class Trace:
    """What was asked of the desk's tables, by the table's name, and what they answered."""

    asked: tuple[tuple[str, Mapping[str, Any], tuple[tuple[str, Any], ...] | None], ...]

    def holds(self, desk: Desk) -> bool:
        """Whether today's tables give the same answers."""
        for table, asked, everything in self.asked:
            today = getattr(desk, table)
            if any(today.get(key) != answer for key, answer in asked.items()):
                return False
            if everything is not None and tuple(today.items()) != everything:
                return False
        return True


def traced(desk: Desk) -> tuple[Desk, Callable[[], Trace]]:
    """The desk with its tables watched, and what was asked of them until the function is called.

    Watched are those that change with other guides and photos; all else changes with site and palette.
    """
    guides, pictures = Traced(desk.guides), Traced(desk.pictures)
    charts, shared = Traced(desk.charts), Traced(desk.shared)
    tables: dict[str, Traced[Any]] = {
        "guides": guides,
        "pictures": pictures,
        "charts": charts,
        "shared": shared,
    }
    watched = replace(desk, guides=guides, pictures=pictures, charts=charts, shared=shared)
    return watched, lambda: Trace(
        tuple((name, dict(table.asked), table.everything) for name, table in tables.items())
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPages:
    """Pages that were made: what of, and each file's path and key. `summary` for a guide's own."""

    made_of: tuple[object, ...]
    trace: Trace
    files: tuple[tuple[str, str], ...]
    summary: Summary | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A whole build that went well: with the same options, input and program it need not be done again."""

    asked: tuple[object, ...]
    looked_at: int
    found: Found
    diagnostics: tuple[Diagnostic, ...]
    pages: int
    files: int
    manifest: str

    def holds(self, asked: tuple[object, ...], found: Found, out: Path, looks: Path | None) -> bool:
        """Whether nothing has changed: no file in content, none in the site."""
        settled = self.looked_at - TICK_NS
        return (
            self.asked == asked
            and self.found == found
            and all(stamp.mtime_ns < settled for stamp in found.listing.files.values())
            and as_it_was_left(out, looks, self.manifest)
        )


@dataclass(slots=True, kw_only=True)
class Memory:
    """What the last build of a content folder read, checked, developed and made.

    A record of the content counts as the same only if it is the very object that was read then: two guides that
    compare equal may differ in where their keys stand.
    """

    common: tuple[object, ...] = ()
    looked_at: int = 0
    reading: Reading = field(default_factory=Reading)
    checked: dict[str, tuple[tuple[object, ...], tuple[Diagnostic, ...]]] = field(default_factory=dict)
    stamps: dict[str, Stamp] = field(default_factory=dict)
    developed: dict[str, Developed] = field(default_factory=dict)
    pages: dict[str, KeptPages] = field(default_factory=dict)
    workshop: Workshop | None = None
    answer: Answer | None = None

    def begin(self, archive: Archive, found: Found) -> None:
        """Forget what another palette or other settings made, and guides that are no longer there."""
        texts = tuple((file, archive.sources.get(file)) for file in (found.site or "", *found.palettes))
        common = (texts, archive.unread)
        self.checked = {
            guide.file: self.checked[guide.file] for guide in archive.guides if guide.file in self.checked
        }
        if common != self.common:
            self.common, self.workshop = common, None
            self.checked.clear()
            self.pages.clear()

    def workshop_over(self, palette: Palette) -> Workshop:
        """The workshop over the palette that `begin` was told of, set up once."""
        if self.workshop is None:
            self.workshop = Workshop.over(palette)
        return self.workshop

    def check(
        self, guide: Guide, made_of: tuple[object, ...], check: Callable[[], Sequence[Diagnostic]]
    ) -> tuple[Diagnostic, ...]:
        """What `check` tells of a guide, or told when all it was made of was the same."""
        made_of = (guide, *made_of)
        known = self.checked.get(guide.file)
        if known is not None and same(known[0], made_of):
            return known[1]
        told = tuple(check())
        self.checked[guide.file] = (made_of, told)
        return told

    def developed_before(self, path: str, original: Original, stamp: Stamp | None) -> Developed | None:
        """What became of a photo if its file is as it was and had settled when it was last looked at."""
        known = self.developed.get(path)
        if known is None or stamp is None or self.stamps.get(path) != stamp:
            return None
        if stamp.mtime_ns >= self.looked_at - TICK_NS or known.original != original:
            return None
        return known

    def keep_photos(self, done: Mapping[str, tuple[Stamp, Developed]], looked_at: int) -> None:
        """Keep what became of every photo, looked at no earlier than that time."""
        self.looked_at = looked_at
        self.stamps = {path: stamp for path, (stamp, _) in done.items()}
        self.developed = {path: developed for path, (_, developed) in done.items()}

    @staticmethod
    def holds(kept: KeptPages, made_of: tuple[object, ...], desk: Desk) -> bool:
        """Whether pages that were made once would come out the same today."""
        return same(kept.made_of, made_of) and kept.trace.holds(desk)


def same(then: tuple[object, ...], now: tuple[object, ...]) -> bool:
    """Whether two are made of the same: records by being the same object, all else by being equal."""
    return len(then) == len(now) and all(
        a is b or (a == b and not isinstance(a, Guide | Shared)) for a, b in zip(then, now, strict=True)
    )


def running() -> str:
    """Stands for the program as it is."""
    return program()


def memory_of(cache: Path, content: Path, made_with: str) -> Memory:
    """What is kept of a content folder, an empty memory where nothing is."""
    kept = load_kept(_file(cache, content, "content"), made_with)
    return kept if isinstance(kept, Memory) else Memory()


def keep_memory(cache: Path, content: Path, made_with: str, memory: Memory) -> None:
    """Keep it for the next build, but for what is quicker to set up again than to load."""
    save_kept(_file(cache, content, "content"), made_with, replace(memory, workshop=None, answer=None))


def answer_of(cache: Path, out: Path, made_with: str) -> Answer | None:
    """How the last build into an output folder ended, None where that is not known."""
    kept = load_kept(_file(cache, out, "answer"), made_with)
    return kept if isinstance(kept, Answer) else None


def keep_answer(cache: Path, out: Path, made_with: str, answer: Answer) -> None:
    """Keep it for the next build."""
    save_kept(_file(cache, out, "answer"), made_with, answer)


def _file(cache: Path, folder: Path, what: str) -> Path | None:
    file = memory_file(cache, folder, what)
    return file and file.with_suffix(".kept")
