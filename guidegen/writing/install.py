"""Moves a prepared site into place, so that at every moment each page is whole and each of its links leads on."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.stamp import Stamp
from guidegen.writing.artifact import is_page
from guidegen.writing.atomic import Disk
from guidegen.writing.changes import named_first
from guidegen.writing.manifest import MANIFEST, PENDING, manifest_bytes
from guidegen.writing.prepare import Old, Prepared, folders_of, innermost_first
from guidegen.writing.staging import Staging
from guidegen.writing.trouble import HALF_WAY, UNTOUCHED, told_plainly


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """Steps 2 to 7 of `publication`, for a new site that was prepared beside the old one.

    `home` is the path of the home page, `version` that of the program, for the manifest.
    """

    old: Old
    todo: Prepared
    staging: Staging
    disk: Disk
    home: str
    version: str

    def run(self, manifest: bytes) -> None:
        """Put everything in place, and `manifest` last. Raises MachineError, and says what the site is like then."""
        moving = bool(self.todo.final or self.todo.stale)
        with told_plainly(self.old.out, UNTOUCHED):
            last = self.staging.put(manifest, durable=True).place
            # The old one will do where no file comes or goes: one that is no longer as it states looks otherwise.
            both = None
            if self.todo.entries.keys() != self.old.manifest.files.keys():
                both = self.staging.put(self._manifest_of_both(), durable=True).place
        if moving:
            self._begin(both)
        with told_plainly(self.old.out, HALF_WAY if moving else UNTOUCHED):
            final, old = self.todo.final, self.old.found.files
            self._put_all(named_first(path for path in final if path in old and not is_page(path)))
            self._put_all(sorted(filter(is_page, final), key=lambda path: (path == self.home, path)))
            self._remove_stale()
            self.disk.replace(last, self._at(MANIFEST))

    def _begin(self, manifest_of_both: Path | None) -> None:
        """Steps 2 to 4, taken back if one fails, unless room had to be made: nothing links to a new address yet."""
        making_room = self.todo.making_room
        with told_plainly(self.old.out, HALF_WAY if making_room else UNTOUCHED), ExitStack() as taken_back:
            if manifest_of_both is not None:
                self.disk.replace(manifest_of_both, self._at(MANIFEST))
            if not self.old.manifest.digest:
                taken_back.callback(self._take_back, MANIFEST)
            if making_room:
                taken_back.pop_all()
                self._make_room()
            self._put_new_addresses(taken_back)
            # From here on pages may link to what has come, so there is no way back, only on.
            taken_back.pop_all()

    def _at(self, path: str) -> Path:
        return self.old.out / path

    def _manifest_of_both(self) -> bytes:
        """Both sites' files; of those in motion no more than their paths, since they may be either."""
        todo = self.todo
        both = {*self.old.manifest.files, *todo.entries}
        return manifest_bytes(
            {path: PENDING if path in todo.final else todo.entries.get(path, PENDING) for path in both},
            self.version,
        )

    def _make_room(self) -> None:
        todo = self.todo
        for path in [path for path in todo.small if path in self.old.found.files or path == self.home]:
            self._put(todo.small.pop(path), path)
        for path in todo.in_the_way:
            self.disk.remove(self._at(path))
        for folder in todo.folders_in_the_way:
            self.disk.remove_folder(self._at(folder))
            self.old.found.folders.discard(folder)

    def _put_new_addresses(self, taken_back: ExitStack) -> None:
        """Steps 3 and 4: the small pages, and assets after what they name."""
        todo, old = self.todo, self.old.found.files
        pages = [path for path in todo.small if path not in old]
        for path in pages:
            self._put(todo.small[path], path, taken_back)
        for path in named_first(path for path in todo.final if path not in old and not is_page(path)):
            self._put(todo.final[path], path, taken_back)

    def _put_all(self, paths: Iterable[str]) -> None:
        for path in paths:
            self._put(self.todo.final[path], path)

    def _put(self, staged: Path, path: str, taken_back: ExitStack | None = None) -> None:
        folders = path.split("/")[:-1]
        for depth in range(1, len(folders) + 1):
            folder = "/".join(folders[:depth])
            if folder not in self.old.found.folders:
                self.disk.make_folder(self._at(folder))
                self.old.found.folders.add(folder)
                if taken_back is not None:
                    taken_back.callback(self._remove_if_empty, folder)
        self.disk.replace(staged, self._at(path))
        if taken_back is not None:
            taken_back.callback(self._take_back, path)
        if self.todo.final.get(path) is staged:
            self._look_again(path)

    def _look_again(self, path: str) -> None:
        """Keep in mind how a file looks that was just put in place: moving it was a change to it as well."""
        before, now = self.todo.looks[path], _look_of(self._at(path))
        # Was anything else done to it in that moment, it looks otherwise than it is said to, and is read next time.
        if now is not None and now._replace(ctime_ns=before.ctime_ns) == before:
            self.todo.looks[path] = now

    def _take_back(self, path: str) -> None:
        with suppress(OSError):
            self.disk.remove(self._at(path))

    def _remove_if_empty(self, folder: str) -> None:
        with suppress(OSError):
            self.disk.remove_folder(self._at(folder))
            self.old.found.folders.discard(folder)

    def _remove_stale(self) -> None:
        """Steps 6 and 7. Folders are found by the manifest, so those that a stopped build left go as well."""
        gone = set(self.todo.in_the_way)
        stale = [path for path in self.todo.stale if path not in gone]
        pages = list(filter(is_page, stale))
        if not self.todo.making_room:
            for path in pages:
                self._put(self.todo.small[path], path)
        others = named_first(path for path in stale if not is_page(path))
        for path in [*pages, *reversed(others)]:
            self.disk.remove(self._at(path))
        empty = folders_of(self.old.manifest.files.keys() - self.todo.entries.keys()) - folders_of(
            self.todo.entries
        )
        for folder in innermost_first(empty & self.old.found.folders):
            self._remove_if_empty(folder)


def _look_of(file: Path) -> Stamp | None:
    try:
        return Stamp.of(file.lstat())
    except OSError:
        return None
