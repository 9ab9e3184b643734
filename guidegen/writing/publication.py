"""Puts a new site in place of an old one so that, whenever it is stopped, every page is whole and every link leads on.

An old page links to old files and a new page to new ones, so both sets are there while pages are exchanged:

1. every new file is written whole, beside the site (`prepare`, `staging`);
2. where files come or go, the manifest lists those of both, so that a build that is stopped leaves nothing that is
   not known to be ours; what each holds is seen by how it looks;
3. each page whose address is new is put in place as a small page that links only to the home page;
4. assets at new addresses; from here on the new pages can come, and up to here all is taken back if a step fails;
5. changed assets, then the pages themselves, the home page last;
6. pages that go are first replaced by the small page, since they may link to each other, and then removed;
7. other files that go, empty folders, and at last the manifest of the new site alone (`install`).

Where a file has to make room for a folder of its name, a folder for a file, or a name for one that differs only in
case, both sets cannot be there at once. Then every page becomes the small page before anything is removed.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.errors import OutputRefusedError
from guidegen.writing.artifact import Artifact
from guidegen.writing.atomic import Disk
from guidegen.writing.changes import Changes
from guidegen.writing.install import Installation
from guidegen.writing.lock import locked
from guidegen.writing.manifest import load_looks, manifest_bytes, read_manifest, save_looks
from guidegen.writing.prepare import Old, Prepared, prepare_to_install, stage
from guidegen.writing.removing import refuse_to_remove_many
from guidegen.writing.site_folder import look_through
from guidegen.writing.staging import Staging
from guidegen.writing.trouble import UNTOUCHED, told_plainly


@dataclass(frozen=True, slots=True, kw_only=True)
class Installed:
    """What came of a publication: what was written and removed, and how many files were so already."""

    changes: Changes
    unchanged: int

    @property
    def removed(self) -> int:
        """How many old files went."""
        return len(self.changes.removed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Publication:
    """A new site whose files are added one by one, each written beside the old site where it differs, then installed."""

    old: Old
    staging: Staging
    disk: Disk
    todo: Prepared

    def add(self, artifact: Artifact) -> None:
        """The next file. Raises ValueError if it is there already, MachineError where it cannot be read or written."""
        stage(artifact, self.old, self.staging, self.todo)

    def install(
        self,
        *,
        placeholder: Callable[[str], bytes],
        version: str,
        home: str = "index.html",
        memory: Path | None = None,
        remove_many: bool = True,
    ) -> Installed:
        """Make the folder hold exactly the files that were added, and its manifest.

        `placeholder` makes the small whole page for a path; it links to nothing but `home`. `memory` is a file, apart
        from the site, that keeps how its files look (`stat_cache.memory_file`); without it unchanged files are hashed.

        Raises RemovesManyError where many pages would go and `remove_many` does not allow it, MachineError for a full
        disk, ValueError for paths that no build of ours should hand over. Whatever it raises, every page that is in
        place is whole.
        """
        old, todo = self.old, self.todo
        prepare_to_install(todo, old, self.staging, home=home, placeholder=placeholder)
        if not remove_many:
            refuse_to_remove_many(old.out, old.found.files, todo.entries)
        digest = old.manifest.digest
        if todo.final or todo.stale or (todo.entries, version) != (old.manifest.files, old.manifest.version):
            manifest = manifest_bytes(todo.entries, version)
            Installation(
                old=old, todo=todo, staging=self.staging, disk=self.disk, home=home, version=version
            ).run(manifest)
            digest = hashlib.sha256(manifest).hexdigest()
        looks = [todo.looks[path] for path in sorted(todo.looks)]
        if digest != old.manifest.digest or [look[1:] for look in looks] != list(old.known.values()):
            save_looks(memory, digest, looks)
        there = old.found.files.keys()
        changes = Changes(
            new=tuple(sorted(path for path in todo.final if path not in there)),
            changed=tuple(sorted(path for path in todo.final if path in there)),
            removed=tuple(todo.stale),
        )
        return Installed(changes=changes, unchanged=len(todo.entries) - len(todo.final))


@contextmanager
def publication(out: Path, *, memory: Path | None = None, disk: Disk | None = None) -> Iterator[Publication]:
    """Begin to publish into a folder, which nobody else can meanwhile.

    However the block ends, nothing unfinished stays behind. Raises OutputRefusedError for a folder with files of others,
    MachineError for forbidden folders or another build at work.
    """
    disk = disk or Disk()
    with ExitStack() as held:
        with told_plainly(out, UNTOUCHED):
            for folder in [f for f in (*reversed(out.parents), out) if not f.exists()]:
                disk.make_folder(folder)
                held.callback(_remove_if_empty, folder, disk)
            held.enter_context(locked(out))
            manifest = read_manifest(out)
            found = look_through(out, manifest.files)
            staging = Staging(out, disk)
            staging.clear()
        held.callback(_clear, staging)
        old = Old(out=out, manifest=manifest, found=found, known=load_looks(memory, manifest))
        yield Publication(old=old, staging=staging, disk=disk, todo=Prepared())


def _clear(staging: Staging) -> None:
    # What cannot be removed now is removed by the next build.
    with suppress(OSError, OutputRefusedError):
        staging.clear()


def _remove_if_empty(folder: Path, disk: Disk) -> None:
    with suppress(OSError):
        disk.remove_folder(folder)
