"""A member's guides as the archive will have them: text, photos, address."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from urllib.parse import unquote

from guidegen.base.paths import folded_path, slug, why_unsafe
from guidegen.base.source import Source
from guidegen.building.check import Checked
from guidegen.checking.photos import photos_of
from guidegen.imaging.kinds import ENDINGS, Kind, kind_of
from guidegen.model.guide import Guide
from guidegen.model.names import Name, Photo
from guidegen.model.site import Site
from guidegen.reading.editing.fixes import root_of
from guidegen.reading.editing.written import in_brackets, values_of
from guidegen.receiving.file_edits import Edits, rename_paints, rename_photo
from guidegen.receiving.pots import PotMerge
from guidegen.receiving.site_values import values_for_guides, write_site_values

# Guides that link to guides that link to guides, each at another address than it came with.
_ROUNDS = 5
_LINK = re.compile(r"\[(.*)\]\(.*\)", re.DOTALL)


@dataclass(slots=True, kw_only=True)
class Written:
    """A guide or list as it comes into the archive: `came` is its file in the member's content, `name` its address.

    `files` are what is to be written, by path, empty where the archive has it `already`; `notes` are for the terminal.
    """

    came: str
    name: str
    title: str = ""
    already: bool = False
    files: dict[str, bytes | Path] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Archived:
    """The club's archive and the member's content side by side.

    `folder` is the member's content, `files` what lies in it by path; `old_addresses` lead to the club's guides.
    """

    club: Checked
    member: Checked
    folder: Path
    old_addresses: Mapping[str, str]
    files: tuple[str, ...]

    @classmethod
    def of(cls, club: Checked, member: Checked, folder: Path) -> Archived:
        """`folder` is the member's content."""
        old = {slug(name.text): guide.slug for guide in club.archive.guides for name in guide.was}
        there = (path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
        return cls(club=club, member=member, folder=folder, old_addresses=old, files=tuple(sorted(there)))

    def own(self, file: str) -> Source:
        """The text of a file of the member's."""
        return self.member.archive.sources[file]

    def holds(self, path: str, data: bytes | Path) -> bool:
        """Whether the club has a file at that path with the same content; in texts other line ends make no difference."""
        there = self.club.content / path
        if isinstance(data, Path):
            return there.is_file() and there.read_bytes() == data.read_bytes()
        source = self.club.archive.sources.get(path)
        return source is not None and source.text == Source.from_bytes(path, data).text


class GuideWriter:
    """Writes one guide after the other; `lists` leads from the member's shared lists to their names in the archive."""

    def __init__(
        self,
        archived: Archived,
        merge: PotMerge,
        site: Site,
        by: str,
        author: str,
        lists: Mapping[str, str],
    ) -> None:
        """`by` is the member's name, `author` the same where somebody said it."""
        self.archived, self.merge, self.site, self.by, self.author, self.lists = (
            archived, merge, site, by, author, lists,
        )  # fmt: skip
        self.addresses: dict[str, str] = {}

    def all_of(self, guides: Iterable[Guide]) -> Iterator[Written]:
        """Every guide as it comes into the archive, at the address it gets there."""
        several = list(guides)
        self.addresses = {guide.slug: guide.slug for guide in several}
        # Where guides link to each other, an address that changes may make another's text the one that is there.
        for _ in range(_ROUNDS):
            before = dict(self.addresses)
            decided: dict[str, str] = {}
            for guide in several:
                decided[guide.slug] = self._address(guide, {*before.keys(), *decided.values()})
            if self.addresses == before:
                break
        for guide in several:
            address = self.addresses[guide.slug]
            files = self._files(guide, address)
            already = self._is_the_clubs(guide) or all(
                self.archived.holds(path, data) for path, data in files.items()
            )
            written = Written(came=guide.file, name=address, title=guide.title, already=already)
            if not already:
                written.files = files
                if address != guide.slug:
                    written.notes.append(
                        f"There is another guide at “{guide.slug}”, so “{guide.title}” comes to “{address}”."
                    )
            if lost := self._leading_nowhere(guide):
                written.notes.append(
                    f"“{guide.title}” leads to guides that are not here, and no longer does: {', '.join(lost)}."
                )
            if not (guide.author or self.site.author or self.author):
                written.notes.append(f"Nobody says who made “{guide.title}”; say it with --by.")
            yield written

    def _address(self, guide: Guide, others: set[str]) -> str:
        """The guide's own address, or one with the member's name: the first that is free or has this very guide."""
        if self._is_the_clubs(guide):
            return guide.slug
        archive = self.archived.club.archive
        numbered = (f"{slug(self.by)}-{guide.slug}-{number}" for number in count(2))
        first = (guide.slug, slug(f"{self.by} {guide.slug}"))
        for names in (first, numbered):
            for name in names:
                if name != guide.slug and name in others:
                    continue
                free = name not in archive.addresses and name not in self.archived.old_addresses
                self.addresses[guide.slug] = name
                if free or all(self.archived.holds(*one) for one in self._files(guide, name).items()):
                    return name
        raise AssertionError("numbers do not end")

    def _is_the_clubs(self, guide: Guide) -> bool:
        """Whether the archive has the guide letter for letter, and it says the same to both."""
        club = self.archived.club.archive.site
        files = self._files(guide, guide.slug)
        files[f"guides/{guide.slug}/guide.md"] = self.archived.own(guide.file).text.encode()
        names = (part.name.text for step in guide.steps if step.paint for part in step.paint.parts)
        return (
            values_for_guides(self.site) == values_for_guides(club)
            and all(self.archived.holds(path, data) for path, data in files.items())
            and all(self.merge.label(name) == name for name in names)
            and all(self.lists.get(name, name) == name for name in guide.inserts)
        )

    def _files(self, guide: Guide, address: str) -> dict[str, bytes | Path]:
        """All files of a guide at an address, by their paths in the archive."""
        photos = self._photos(guide)
        folder = f"guides/{address}"
        files: dict[str, bytes | Path] = {
            f"{folder}/{name}": self.archived.folder / path for path, name in photos.items()
        }
        if guide.chart is not None:
            files[f"{folder}/figure.svg"] = self.archived.own(guide.chart).text.encode()
        files[f"{folder}/guide.md"] = self._text(guide, address, photos).encode()
        return files

    def _photos(self, guide: Guide) -> dict[str, str]:
        """Every photo that the guide shows or that lies beside it, and the name it gets there."""
        folder = guide.file.rpartition("/")[0]
        shown = [photo.path for photo in photos_of(guide) if photo.path and photo.span.file == guide.file]
        beside = [
            path
            for path in self.archived.files
            if folder != "guides" and path.startswith(f"{folder}/") and path.casefold().endswith(ENDINGS)
        ]
        names: dict[str, str] = {}
        taken = {"guide.md", "figure.svg"}
        for path in dict.fromkeys((*shown, *beside)):
            inside = (
                path.removeprefix(f"{folder}/") if path.startswith(f"{folder}/") else posixpath.basename(path)
            )
            names[path] = safe_name(inside, self.archived.folder / path, taken)
            taken.add(folded_path(names[path]))
        return names

    def _text(self, guide: Guide, address: str, photos: Mapping[str, str]) -> str:
        source = self.archived.own(guide.file)
        edits = Edits(source=source, root=root_of(source))
        for step in guide.steps:
            if step.shared is None:
                rename_paints(edits, step, self.merge)
        for photo in photos_of(guide):
            if photo.path is not None and photo.path in photos and photo.span.file == guide.file:
                rename_photo(edits, photo, _typed(photo, photos[photo.path]))
        rename_inserts(edits, self.lists)
        self._lead_to_guides(edits, guide, address)
        source_of_site = self.archived.member.archive.sources.get("site.yaml")
        write_site_values(
            edits, guide, self.site, self.archived.club.archive.site, source_of_site, self.author
        )
        return edits.text()

    def _lead_to_guides(self, edits: Edits, guide: Guide, address: str) -> None:
        """Names of guides as the archive has them; those that lead to none are taken out."""
        known = {*self.archived.club.archive.addresses, *self.addresses.values()}
        values = values_of(edits.root)
        see = [self._now(name, known) for name in guide.see]
        if [name.text for name in guide.see] != see and "see" in values:
            _write_list(edits, "see", [name for name in see if name])
        old = self.archived.old_addresses
        was = [
            name.text
            for name in guide.was
            if slug(name.text) not in known and old.get(slug(name.text), address) == address
        ]
        if len(was) != len(guide.was) and "was" in values:
            _write_list(edits, "was", was)
        for passage in guide.body.passages:
            for link in passage.links:
                now = self._now(link, known)
                if now != link.text:
                    self._relink(edits, link, now)

    def _leading_nowhere(self, guide: Guide) -> list[str]:
        known = {*self.archived.club.archive.addresses, *self.addresses.values()}
        links = [link for passage in guide.body.passages for link in passage.links]
        return sorted({name.text for name in (*guide.see, *links) if not self._now(name, known)})

    def _now(self, name: Name, known: set[str]) -> str:
        """The address in the archive of a guide that is named, '' where it will have none."""
        now = self.addresses.get(name.text, name.text)
        return now if now in known else ""

    def _relink(self, edits: Edits, link: Name, now: str) -> None:
        source, span = edits.source, link.span
        start, end = source.offset(span.line, span.column), source.offset(span.end_line, span.end_column)
        found = _LINK.fullmatch(source.text[start:end])
        if found is not None:
            edits.put(span, f"[{found[1]}](../{now}/guide.md)" if now else found[1])


def rename_inserts(edits: Edits, lists: Mapping[str, str]) -> None:
    """Write the names of shared lists as the archive has them."""
    steps = values_of(edits.root).get("steps")
    for item in getattr(steps, "items", ()):
        node = values_of(item).get("insert")
        name = slug(getattr(node, "value", "")) if node is not None else ""
        if node is not None and lists.get(name, name) != name:
            edits.put(edits.source.span(node.start, node.end), lists[name])


def _write_list(edits: Edits, key: str, names: list[str]) -> None:
    """Write a list of names in the place of another."""
    node = values_of(edits.root)[key]
    edits.put(edits.source.span(node.start, node.end), in_brackets(names))


def _typed(photo: Photo, name: str) -> str:
    """What to write for a photo that gets this name: what is typed already if that means the same file, else the name."""
    typed = posixpath.normpath(photo.file.replace("\\", "/"))
    return photo.file if typed == name or unquote(typed) == name else name


def safe_name(inside: str, file: Path, taken: set[str]) -> str:
    """The name of a photo in its guide's folder: `inside` if that is safe everywhere and free, else one like it.

    `file` is the photo itself, `taken` are names in the form of `folded_path`.
    """
    stem, dot, ending = inside.rpartition(".")
    with file.open("rb") as opened:
        kind = kind_of(opened.read(4_096))
    if kind is Kind.WEBP and ending.casefold() != "webp":
        ending = "webp"
    name = f"{stem}{dot}{ending}"
    if why_unsafe(f"guides/{name}") is not None or any(sign in name for sign in "#?%&\"'`[]()"):
        name = "/".join(slug(part) for part in stem.split("/")) + f".{ending.casefold()}"
    bare, _, ending = name.rpartition(".")
    number = 2
    while folded_path(name) in taken:
        name = f"{bare}-{number}.{ending}"
        number += 1
    return name
