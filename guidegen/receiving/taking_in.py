"""A member's material as new files of the archive: worked out whole, and checked beside what is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen.base.codes import Severity
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listed import list_of_words, some_of
from guidegen.base.paths import slug
from guidegen.base.suggest import MOST_SLIPS, folded
from guidegen.building.check import Checked, check
from guidegen.building.memory import Memory
from guidegen.building.photos import look_at_photos
from guidegen.checking.photos import all_photos, photos_of
from guidegen.imaging.ahead import PhotosAhead
from guidegen.model.guide import Guide, Shared, Step
from guidegen.model.site import Site
from guidegen.reading.content.discover import discover
from guidegen.receiving.guide_texts import Archived, GuideWriter, Written
from guidegen.receiving.layout import lay_out
from guidegen.receiving.list_texts import lists_written
from guidegen.receiving.material import NotTaken, Unpacked
from guidegen.receiving.palette_text import palette_text
from guidegen.receiving.pots import PotMerge, PotTaken
from guidegen.writing.cache import Cache

_CHART = "/figure.svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A guide or a list: where it came from, its address in the archive, and whether that has it already."""

    file: str
    name: str
    title: str = ""
    already: bool = False


@dataclass(slots=True, kw_only=True)
class Receipt:
    """What becomes of a member's material. `files` are the new files by path in content, as bytes or as a file to copy."""

    by: str
    guides: list[Taken] = field(default_factory=list)
    lists: list[Taken] = field(default_factory=list)
    paints: list[PotTaken] = field(default_factory=list)
    files: dict[str, bytes | Path] = field(default_factory=dict)
    not_taken: list[NotTaken] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def take_in(unpacked: Unpacked, content: Path, scratch: Path, by: str) -> Receipt:
    """Work out what one piece of material comes to. `by` is the member's name, '' where nobody said; nothing is written."""
    own = scratch / "content"
    own.mkdir(parents=True)
    placed = lay_out(unpacked, own)
    if not any(path.startswith(("guides/", "palette", "shared/")) and not _is_photo(path) for path in placed):
        for came in placed.values():
            unpacked.leave(came, "belongs to no guide, since there is none here")
        return Receipt(by=by, not_taken=_sorted(unpacked.not_taken))
    club = check(content, drafts=True)
    borrowed = not any(path.startswith("palette") for path in placed)
    if borrowed:
        _lend_palette(club, own)
    member = check(own, drafts=True)
    charts = {
        one.span.file: one for one in member.diagnostics if one.is_fault and one.span.file.endswith(_CHART)
    }
    for chart, told in charts.items():
        # A guide is as good without its drawing.
        unpacked.leave(placed.pop(chart), _reason(told))
        (own / chart).unlink()
    if charts:
        member = check(own, drafts=True)
    return _Taker(club, member, placed, unpacked, scratch, by, borrowed=borrowed).receipt()


class _Taker:
    """Takes one piece of material in. `placed` leads from paths in the member's content to those it came under.

    `borrowed` is whether the palette is the club's, `makers` who made all of it where nobody says whose it is, `unsaid`
    whether nobody did; `out` collects files that stay out, with the reason.
    """

    def __init__(
        self,
        club: Checked,
        member: Checked,
        placed: Mapping[str, str],
        unpacked: Unpacked,
        scratch: Path,
        by: str,
        *,
        borrowed: bool,
    ) -> None:
        self.club, self.member, self.placed, self.unpacked = club, member, placed, unpacked
        self.scratch, self.borrowed = scratch, borrowed
        self.site = (
            _with_range_of(club.archive.site, member.archive.site) if borrowed else member.archive.site
        )
        people = {folded(one.key): one.name for one in club.archive.site.people}
        self.author = people.get(folded(by), by)
        said = self.author or self.site.author
        makers = () if said else tuple(_makers(member.archive.guides))
        self.makers = tuple(people.get(folded(name), name) for name in makers)
        self.by = people.get(folded(said), said) or next(iter(self.makers), unpacked.name)
        self.unsaid = not (said or makers)
        self.out: dict[str, str] = {}

    def receipt(self) -> Receipt:
        """The receipt once nothing that is new has an error, nor makes one in what is there."""
        self._leave_unreadable()
        self._leave_with_broken_photos()
        for attempt in range(len(self.member.archive.guides) + 2):
            receipt = self._attempt()
            wrong = self._wrong(receipt, attempt)
            if not wrong:
                break
            self.out |= wrong
        for file, reason in self.out.items():
            self.unpacked.leave(self.placed.get(file, file), reason)
        self._account(receipt)
        return receipt

    def _leave_unreadable(self) -> None:
        """Guides and lists of which nothing could be read."""
        known = {guide.file for guide in self.member.archive.guides}
        known |= {one.span.file for one in self.member.archive.shared}
        for told in self.member.diagnostics:
            file = told.span.file
            if told.is_fault and file in self.placed and file not in known and _is_text(file):
                self.out.setdefault(file, _reason(told))

    def _leave_with_broken_photos(self) -> None:
        """Guides and lists that show a file that is no photo: whoever has the photo mends that."""
        archive, folder = self.member.archive, self.member.content
        found, store = discover(folder), Cache(self.scratch / "cache")
        for told in look_at_photos(all_photos(archive), found, store, Memory(), 0, PhotosAhead()):
            if told.severity is Severity.ERROR:
                self.out.setdefault(told.span.file, _reason(told))

    def _attempt(self) -> Receipt:
        """The receipt for all that is not out yet, before it is checked beside the archive."""
        archive = self.member.archive
        guides = [guide for guide in archive.guides if guide.file not in self.out]
        shared = [one for one in archive.shared if one.span.file not in self.out]
        merge = PotMerge(self.club.archive.palette, archive.palette, self.by)
        if not self.borrowed and not guides and not shared:
            for pot in archive.palette.pots:
                merge.use(pot.full_name)
        several: list[Guide | Shared] = [*guides, *shared]
        for step in (entry for one in several for entry in one.entries if isinstance(entry, Step)):
            for part in step.named_parts:
                merge.use(part.name.text)
        receipt = Receipt(by=self.by, paints=sorted(merge.taken.values(), key=lambda one: one.name))
        prices = self.site.currency == self.club.archive.site.currency
        palettes = {path: source for path, source in archive.sources.items() if path.startswith("palette")}
        text = palette_text(merge, self.club.archive.palette, palettes, prices=prices)
        if text is not None:
            receipt.files[self._free("palette", self.by, ".yaml")] = text.encode()
        receipt.notes += self._nearly(merge)
        if not prices and merge.new:
            receipt.notes.append("Prices in another currency are left out.")
        archived = Archived.of(self.club, self.member, self.scratch / "content")
        lists = lists_written(shared, archived, merge, self.by)
        for one in lists.values():
            receipt.lists.append(Taken(file=self.placed[one.came], name=one.name, already=one.already))
            receipt.files |= one.files
        names = {name: one.name for name, one in lists.items()}
        writer = GuideWriter(archived, merge, self.site, self.by, self.author, names)
        for written in writer.all_of(guides):
            self._add(written, receipt)
        if merge.new or any(not one.already for one in receipt.lists):
            receipt.notes += self._under_whom(guides)
        return receipt

    def _under_whom(self, guides: Sequence[Guide]) -> Iterator[str]:
        """That somebody's name was taken for what is new, where it was not said whose material it is."""
        if len(self.makers) > 1:
            several = list_of_words(self.makers, "and")
            yield f"{several} made this, and what is new comes under {self.by}; --by says another."
        elif self.unsaid and any(guide.authors for guide in guides):
            yield f"Since several people made this, what is new comes under “{self.by}”; --by says whose it is."

    def _nearly(self, merge: PotMerge) -> Iterator[str]:
        """New pots whose names are a slip of the pen away from one that the archive has."""
        palette = self.club.archive.palette
        for new, own in merge.new[:MOST_SLIPS]:
            name = own.name if own is not None else new.name
            near = palette.nearest(name) if palette.find(name) is None else None
            if near is not None:
                yield f"“{name}” is nearly “{near.full_name}” of the archive; write it so if it is the same."

    def _add(self, written: Written, receipt: Receipt) -> None:
        receipt.guides.append(
            Taken(
                file=self.placed[written.came],
                name=written.name,
                title=written.title,
                already=written.already,
            )
        )
        receipt.files |= written.files
        receipt.notes += written.notes

    def _wrong(self, receipt: Receipt, attempt: int) -> dict[str, str]:
        """Which of the member's files cannot come in, and why."""
        if not receipt.files:
            return {}
        there = self.scratch / f"together-{attempt}"
        _beside(self.club, receipt, there)
        before = {_said(one) for one in self.club.diagnostics if one.severity is Severity.ERROR}
        wrong = [one for one in check(there, drafts=True).diagnostics if one.severity is Severity.ERROR]
        came = {f"guides/{one.name}/guide.md": one for one in receipt.guides}
        came |= {f"shared/{one.name}.yaml": one for one in receipt.lists}
        origin = {came_from: place for place, came_from in self.placed.items()}
        found: dict[str, str] = {}
        others = [one for one in wrong if one.span.file not in came and _said(one) not in before]
        for one in wrong:
            if one.span.file in came:
                place = origin[came[one.span.file].file]
                own = next(self._same_of_the_members(one, place), None)
                found.setdefault(place, _reason(own) if own else f"would have an error here: {one.message}")
        if others and not found:
            for taken in came.values():
                found[origin[taken.file]] = (
                    f"would bring an error into {others[0].span.file}: {others[0].message}"
                )
        return found

    def _same_of_the_members(self, wrong: Diagnostic, file: str) -> Iterator[Diagnostic]:
        """The same error as it stands in the member's own file."""
        for one in self.member.diagnostics:
            if (one.span.file, one.code, one.message) == (file, wrong.code, wrong.message):
                yield one

    def _free(self, folder: str, name: str, ending: str) -> str:
        files = self.club.archive.sources
        number = 1
        while True:
            path = f"{folder}/{slug(name)}{'' if number == 1 else f'-{number}'}{ending}"
            if path not in files and not (self.club.content / path).exists():
                return path
            number += 1

    def _account(self, receipt: Receipt) -> None:
        """Say of every file that came and is not taken why that is so, and of pots that nothing uses."""
        archive = self.member.archive
        used = {place for one in receipt.guides for place in self._photos_with(one)}
        for place, came in sorted(self.placed.items()):
            if (
                _is_photo(place)
                and place not in used
                and not any(one.file == came for one in self.unpacked.not_taken)
            ):
                self.unpacked.leave(came, "is shown by no guide that is taken in")
        pots = () if self.borrowed else archive.palette.pots
        taken = {one.name for one in receipt.paints}
        left = [pot.full_name for pot in pots if pot.full_name not in taken]
        if left:
            receipt.notes.append(
                f"In the member’s palette and in no guide that is taken in, so left out: {some_of(left, 10)}."
            )
        receipt.not_taken = _sorted(self.unpacked.not_taken)

    def _photos_with(self, taken: Taken) -> Iterable[str]:
        """What goes along with a guide, by its place in the member's content."""
        file = next(place for place, came in self.placed.items() if came == taken.file)
        guide = next(one for one in self.member.archive.guides if one.file == file)
        yield from (photo.path for photo in photos_of(guide) if photo.path is not None)
        folder = file.rpartition("/")[0]
        if folder != "guides":
            yield from (place for place in self.placed if place.startswith(f"{folder}/"))


def _makers(guides: Sequence[Guide]) -> Iterator[str]:
    """Who had a hand in every guide that says who made it, in the order in which the first names them."""
    named = [guide.authors for guide in guides if guide.authors]
    yield from (one for one in (named[0] if named else ()) if all(one in others for others in named))


def _with_range_of(club: Site, own: Site) -> Site:
    """The member's site for material without a palette: paints that name no range are in the club's default one."""
    return replace(own, defaults=replace(own.defaults, range=club.defaults.range))


def _lend_palette(club: Checked, own: Path) -> None:
    """Put the club's palette beside material that has none, since its names are the club's."""
    number = 0
    for path, source in club.archive.sources.items():
        if path.startswith("palette"):
            (own / "palette").mkdir(exist_ok=True)
            (own / "palette" / f"{number:03}.yaml").write_text(source.text, encoding="utf-8")
            number += 1


def _beside(club: Checked, receipt: Receipt, there: Path) -> None:
    """The archive's texts and the new ones in one folder, photos as empty files of their names."""
    there.mkdir()
    for path, source in club.archive.sources.items():
        _write(there / path, source.text.encode())
    for folder in ("guides", "shared", "pages", "as-is"):
        top = club.content / folder
        for file in top.rglob("*") if top.is_dir() else ():
            target = there / file.relative_to(club.content)
            if file.is_file() and not target.exists():
                _write(target, b"")
    for path, data in receipt.files.items():
        _write(there / path, data if isinstance(data, bytes) and _is_text(path) else b"")


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def _is_text(path: str) -> bool:
    return path.endswith((".md", ".yaml", ".yml", ".svg"))


def _is_photo(path: str) -> bool:
    return not _is_text(path)


def _said(one: Diagnostic) -> tuple[str, str, str]:
    return one.code, one.span.file, one.message


def _reason(told: Diagnostic) -> str:
    return f"has an error in line {told.span.line}: {told.message}"


def _sorted(several: Iterable[NotTaken]) -> list[NotTaken]:
    return sorted(several, key=lambda one: one.file)
