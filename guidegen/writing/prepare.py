"""Finds what a new site changes in the old one, and writes that beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.base.paths import folded_path
from guidegen.base.stamp import Stamp
from guidegen.writing.artifact import Artifact, check_paths, is_page
from guidegen.writing.manifest import Entry, Manifest
from guidegen.writing.site_folder import Found, foreign
from guidegen.writing.staging import Staging, size_and_hash
from guidegen.writing.stat_cache import file_hash
from guidegen.writing.trouble import UNTOUCHED, told_plainly


@dataclass(frozen=True, slots=True, kw_only=True)
class Old:
    """The site as it is: its manifest, its files, and how they looked when that was written."""

    out: Path
    manifest: Manifest
    found: Found
    known: dict[str, tuple[int, int, int]]

    def hash_of(self, path: str, look: Stamp) -> str | None:
        """SHA-256 of the file, read again only if it looks different; None if it cannot be read."""
        before = self.manifest.files.get(path)
        if before is not None and look.size == before.size and self.known.get(path) == look[1:]:
            return before.sha256
        try:
            return file_hash(self.out / path)
        except OSError:
            return None


@dataclass(slots=True, kw_only=True)
class Prepared:
    """What is to be done, all of it written beside the site: nothing below has to be made any more.

    `final` and `small` say where the file waits that goes to a path: as it is to be, and the small page that stands
    there meanwhile, the home page first. `entries` and `looks` describe every file of the new site. `stale` are the
    old files that go; `in_the_way` those of them that have to go before new ones can come, with the folders that
    have to, innermost first. If there are any, `making_room` says that every page has to be the small one meanwhile.
    """

    final: dict[str, Path] = field(default_factory=dict)
    small: dict[str, Path] = field(default_factory=dict)
    entries: dict[str, Entry] = field(default_factory=dict)
    looks: dict[str, Stamp] = field(default_factory=dict)
    stale: list[str] = field(default_factory=list)
    in_the_way: list[str] = field(default_factory=list)
    folders_in_the_way: list[str] = field(default_factory=list)
    making_room: bool = False


def stage(artifact: Artifact, old: Old, staging: Staging, todo: Prepared) -> None:
    """Compare a file with what lies in its place, and stage it if it differs. Raises ValueError for one added twice."""
    if artifact.path in todo.entries:
        raise ValueError(f"{artifact.path!r} is written twice")
    look = old.found.files.get(artifact.path)
    if look is None or not _kept(artifact, look, old, todo):
        _make(artifact, look, old, staging, todo)


def prepare_to_install(
    todo: Prepared, old: Old, staging: Staging, *, home: str, placeholder: Callable[[str], bytes]
) -> None:
    """Find what else is to be done once every file is staged, and stage the small pages.

    Raises ValueError for paths that no build of ours should hand over.
    """
    # The same paths as last time were found to be right then.
    if todo.entries.keys() != old.manifest.files.keys():
        check_paths(todo.entries, home)
    todo.stale = sorted(old.found.files.keys() - todo.entries.keys())
    _find_what_is_in_the_way(todo, old)
    if todo.making_room:
        _stage_every_page(todo, old, staging)
    meanwhile = old.found.files if todo.making_room else todo.stale
    pages = {path for path in meanwhile if is_page(path)}
    pages |= {path for path in todo.final if is_page(path) and path not in old.found.files}
    for path in sorted(pages, key=lambda path: (path != home, path)):
        page = placeholder(path)
        with told_plainly(old.out, UNTOUCHED):
            todo.small[path] = staging.put(page).place


def _stage_every_page(todo: Prepared, old: Old, staging: Staging) -> None:
    """Those that stay as they are too, since meanwhile the small page stands in their place."""
    for path in filter(is_page, todo.entries.keys() - todo.final.keys()):
        with told_plainly(old.out, UNTOUCHED):
            staged = staging.put(old.out / path)
        todo.looks[path], todo.final[path] = staged.look, staged.place


def _kept(artifact: Artifact, look: Stamp, old: Old, todo: Prepared) -> bool:
    """Whether the file is as it was left, and made from what it would be made from now."""
    path = artifact.path
    before = old.manifest.files.get(path)
    if (
        before is None
        or not artifact.key
        or before.key != artifact.key
        or before.size != look.size
        or old.hash_of(path, look) != before.sha256
    ):
        return False
    todo.entries[path], todo.looks[path] = before, look
    return True


def _make(artifact: Artifact, look: Stamp | None, old: Old, staging: Staging, todo: Prepared) -> None:
    path = artifact.path
    data = artifact.data() if callable(artifact.data) else artifact.data
    if look is not None:
        size, sha256 = size_and_hash(data)
        if size == look.size and old.hash_of(path, look) == sha256:
            todo.entries[path], todo.looks[path] = Entry(artifact.key, sha256, size), look
            return
    with told_plainly(old.out, UNTOUCHED):
        staged = staging.put(data)
    todo.entries[path] = Entry(artifact.key, staged.sha256, staged.look.size)
    todo.looks[path], todo.final[path] = staged.look, staged.place


def _find_what_is_in_the_way(todo: Prepared, old: Old) -> None:
    """A file where a folder has to be, a folder where a file has to be, a name that differs only in case.

    Such names are only met among the files that an author has copied into the site as they are.
    """
    wanted = todo.entries.keys()
    if not todo.stale and not (old.found.folders & wanted):
        return
    files = {folded_path(path) for path in wanted}
    taken = files | {folded_path(folder) for folder in folders_of(wanted)}

    def inside(path: str) -> bool:
        return any(folded_path(folder) in files for folder in folders_of([path]))

    todo.in_the_way = [path for path in todo.stale if folded_path(path) in taken or inside(path)]
    folders = [folder for folder in old.found.folders if folded_path(folder) in files or inside(folder)]
    todo.folders_in_the_way = innermost_first(folders)
    todo.making_room = bool(todo.in_the_way or todo.folders_in_the_way)
    kept = [f"{folder}/" for folder in todo.folders_in_the_way if folder in old.found.littered]
    if kept:
        raise foreign(old.out, kept)


def folders_of(paths: Iterable[str]) -> set[str]:
    """Every folder around the paths."""
    folders: set[str] = set()
    for path in paths:
        folder = path.rpartition("/")[0]
        while folder and folder not in folders:
            folders.add(folder)
            folder = folder.rpartition("/")[0]
    return folders


def innermost_first(folders: Iterable[str]) -> list[str]:
    """Folders in the order in which they can be removed."""
    return sorted(folders, key=lambda folder: (-folder.count("/"), folder))
