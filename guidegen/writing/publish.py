"""Puts a new site in place of an old one so that, whenever it is stopped, every page is whole and every link leads on.

An old page links to old files and a new page to new ones, so both sets are there while pages are exchanged:

1. every new file is written whole, beside the site (`prepare`, `staging`);
2. where files come or go, the manifest lists those of both, so that a build that is stopped leaves nothing that is
   not known to be ours; what each holds is seen by how it looks;
3. each page whose address is new is put in place as a small page that links only to the home page;
4. assets at new addresses; from here on the new pages can come, and up to here all is taken back if a step fails;
5. changed assets, then the pages themselves, the home page last;
6. pages that go are first replaced by the small page, since they may link to each other, and then removed;
7. other files that go, empty folders, and at last the manifest of the new site alone (`exchange`).

Where a file has to make room for a folder of its name, a folder for a file, or a name for one that differs only in
case, both sets cannot be there at once. Then every page becomes the small page before anything is removed.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.errors import OutputRefusedError
from guidegen.writing.artifact import Artifact, by_path, check_paths
from guidegen.writing.atomic import Disk
from guidegen.writing.install import Exchange
from guidegen.writing.left import Left, look_of
from guidegen.writing.lock import locked
from guidegen.writing.manifest import (
    MANIFEST,
    Manifest,
    manifest_bytes,
    read_manifest,
    recall,
    recalled_looks,
)
from guidegen.writing.prepare import Old, Prepared, prepare
from guidegen.writing.removing import refuse_to_remove_many
from guidegen.writing.site_folder import Found, look_through
from guidegen.writing.staging import Staging
from guidegen.writing.trouble import UNTOUCHED, told_plainly


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """How many files of the new site were written and how many were so already; how many old ones were removed.

    `exchanged` are the paths of those written; `left` is the site as it is now.
    """

    written: int
    unchanged: int
    removed: int
    exchanged: tuple[str, ...]
    left: Left


def publish(
    artifacts: Iterable[Artifact],
    out: Path,
    *,
    placeholder: Callable[[str], bytes],
    version: str,
    home: str = "index.html",
    memory: Path | None = None,
    progress: Callable[[int, int], None] | None = None,
    disk: Disk | None = None,
    remove_many: bool = True,
) -> Published:
    """Make the folder `out` hold exactly these files, and its manifest.

    `placeholder` makes the small whole page for a path; it links to nothing but `home`. `memory` is a file, apart from
    the site, that keeps how its files look (`remembered.memory_file`); without it unchanged files are hashed.
    `progress` is told how many of how many files are looked at. Without `remove_many` it takes few pages away, or none.

    Raises OutputRefusedError for a folder with files of others, RemovesManyError where too many pages would go, MachineError for a full disk, forbidden folders or
    another build at work, ValueError for a site that no build of ours should hand over. Whatever it raises, also from
    the functions it is given, every page that is in place is whole and nothing unfinished stays behind.
    """
    wanted = by_path(artifacts)
    disk = disk or Disk()
    with ExitStack() as held:
        with told_plainly(out, UNTOUCHED):
            for folder in [f for f in (*reversed(out.parents), out) if not f.exists()]:
                disk.make_folder(folder)
                held.callback(_remove_if_empty, folder, disk)
            held.enter_context(locked(out))
        with told_plainly(out, UNTOUCHED):
            manifest = read_manifest(out)
            # The same paths as last time were found to be right then.
            if wanted.keys() != manifest.files.keys():
                check_paths(wanted, home)
            found = look_through(out, manifest.files)
            if not remove_many:
                refuse_to_remove_many(out, found.files, wanted)
            staging = Staging(out, disk)
            staging.clear()
        old = Old(out=out, manifest=manifest, found=found, known=recalled_looks(memory, manifest))
        held.callback(_clear, staging)
        todo = prepare(
            wanted, old, staging, home=home, placeholder=placeholder, progress=progress or _say_nothing
        )
        left = _exchanged(old, todo, staging, disk=disk, home=home, version=version)
        _remember(memory, old, todo, left.manifest.digest)
        return Published(
            written=len(todo.final),
            unchanged=len(wanted) - len(todo.final),
            removed=len(todo.stale),
            exchanged=tuple(todo.final),
            left=left,
        )


def publish_again(
    artifacts: Iterable[Artifact],
    left: Left,
    *,
    placeholder: Callable[[str], bytes],
    home: str = "index.html",
    disk: Disk | None = None,
) -> Published | None:
    """Exchange some files of the site that the last build of this process left; all others stay as they are.

    None, with nothing done, where that does not go: a file would be new, or somebody has been there since. Only the
    files that are exchanged are looked at, and how they look is not kept: `publish` does both. Raises as it does.
    """
    wanted = by_path(artifacts)
    disk = disk or Disk()
    with ExitStack() as held:
        with told_plainly(left.out, UNTOUCHED):
            held.enter_context(locked(left.out))
        if not wanted.keys() <= left.found.files.keys() or not left.is_so_still():
            return None
        if any(look_of(left.out / path) != left.found.files[path] for path in wanted):
            return None
        looks = left.found.files
        known = {path: looks[path][1:] for path in wanted}
        old = Old(out=left.out, manifest=left.manifest, found=left.found, known=known)
        staging = Staging(left.out, disk)
        held.callback(_clear, staging)
        todo = prepare(
            wanted, old, staging, home=home, placeholder=placeholder, progress=_say_nothing, alone=False
        )
        now = _exchanged(old, todo, staging, disk=disk, home=home, version=left.manifest.version)
        return Published(
            written=len(todo.final),
            unchanged=len(looks) - len(todo.final),
            removed=0,
            exchanged=tuple(todo.final),
            left=now,
        )


def _exchanged(old: Old, todo: Prepared, staging: Staging, *, disk: Disk, home: str, version: str) -> Left:
    """Put in place what is prepared, if anything is, and say what the site is like then."""
    manifest = old.manifest
    if todo.final or todo.stale or (todo.entries, version) != (manifest.files, manifest.version):
        written = manifest_bytes(todo.entries, version)
        manifest = Manifest(todo.entries, version, hashlib.sha256(written).hexdigest())
        exchange = Exchange(old=old, todo=todo, staging=staging, disk=disk, home=home, version=version)
        exchange.run(written)
    found = Found(files=todo.looks, folders=old.found.folders, littered=old.found.littered)
    return Left(out=old.out, manifest=manifest, look=look_of(old.out / MANIFEST), found=found)


def _remember(memory: Path | None, old: Old, todo: Prepared, digest: str) -> None:
    looks = [todo.looks[path] for path in sorted(todo.looks)]
    if digest != old.manifest.digest or [look[1:] for look in looks] != list(old.known.values()):
        recall(memory, digest, looks)


def _clear(staging: Staging) -> None:
    # What cannot be removed now is removed by the next build.
    with suppress(OSError, OutputRefusedError):
        staging.clear()


def _remove_if_empty(folder: Path, disk: Disk) -> None:
    with suppress(OSError):
        disk.remove_folder(folder)


def _say_nothing(_done: int, _total: int) -> None:
    """Nobody watches."""
