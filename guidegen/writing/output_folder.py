"""Whether a folder may be the site at all, before any work is done."""

from __future__ import annotations

import os
from pathlib import Path

from guidegen.base.errors import OutputRefusedError
from guidegen.writing.lock import locked
from guidegen.writing.manifest import read_manifest
from guidegen.writing.site_folder import foreign, left_alone
from guidegen.writing.trouble import UNTOUCHED, told_plainly

_ELSEWHERE = "Name another folder with --out."


def check_place(out: Path, *, content: Path, cache: Path | None = None, home: Path | None = None) -> None:
    """Refuse a folder that no site should be written to.

    That is a link, a file, the root, the home folder or one around it, one that has the content or the cache in it or
    lies in them, one with files and no manifest, and one that another build is writing to. Raises OutputRefusedError,
    or MachineError for the last. What lies deeper in the folder is looked through when the site is published.
    """
    if out.is_symlink():
        raise OutputRefusedError(
            f"“{out}” is a link to another folder; a site is only written to a real one.", _ELSEWHERE
        )
    if out.exists() and not out.is_dir():
        raise OutputRefusedError(f"“{out}” is a file, and the site needs a folder.", _ELSEWHERE)
    around = _around(out)
    if len(around) == 1:
        raise OutputRefusedError(
            f"“{out}” is the root of the disk; a site needs a folder of its own.", _ELSEWHERE
        )
    if home is not None and _same_place(around[0], _around(home)):
        raise OutputRefusedError(
            f"“{out}” has your home folder in it; a site needs a folder of its own.", _ELSEWHERE
        )
    for folder, name in ((content, "the content"), (cache, "the cache")):
        if folder is None:
            continue
        if _same_place(around[0], _around(folder)):
            raise OutputRefusedError(
                f"“{out}” has {name} in it, “{folder}”; a site needs a folder of its own.", _ELSEWHERE
            )
        if _same_place(_around(folder)[0], around):
            raise OutputRefusedError(
                f"“{out}” lies inside {name}, “{folder}”; a site needs a folder of its own.", _ELSEWHERE
            )
    if out.exists():
        _check_folder(out)


def _check_folder(out: Path) -> None:
    with told_plainly(out, UNTOUCHED), locked(out):
        if not read_manifest(out).files:
            others = [found.name for found in out.iterdir() if not left_alone(found.name)]
            if others:
                raise foreign(out, sorted(others))


def _around(folder: Path) -> list[Path]:
    """The real folder and every one around it, the root last."""
    real = Path(os.path.realpath(folder))
    return [real, *real.parents]


def _same_place(folder: Path, others: list[Path]) -> bool:
    """Whether a folder is one of the others, by name or, on a disk that ignores case, by what it is."""
    for other in others:
        if folder == other:
            return True
        try:
            if folder.samefile(other):
                return True
        except OSError:
            continue
    return False
