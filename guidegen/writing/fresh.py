"""New files of the author's own, to begin from: all of them or none, and never over anything that is there."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from guidegen.base.errors import GuidegenError
from guidegen.writing.atomic import part_of


def refuse_links(files: Iterable[Path], content: Path) -> None:
    """Raise GuidegenError where a link leads out of content, or nowhere: what lies behind it would not be built."""
    root = Path(os.path.realpath(content))
    for folder in dict.fromkeys(file.parent for file in files):
        inside = folder.relative_to(content)
        for at in (content / part for part in (*reversed(inside.parents), inside)):
            if at != content and at.is_symlink() and not (at.is_dir() and at.resolve().is_relative_to(root)):
                raise GuidegenError(
                    f"“{at}” is a link that leads out of the content folder or nowhere, so nothing is written there.",
                    "Take the link away, or put what it leads to in its place.",
                )


def put_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder with files in it, by their paths there. Raises OSError, FileExistsError for what is there already.

    A folder that is not there yet appears whole, whatever ends the program meanwhile. In one that is there, as with a
    version control system's files in it, whatever was put is taken back if not all can be.
    """
    if folder.exists():
        put_files({folder / path: data for path, data in files.items()})
        return
    made = _make_folders(folder.parent)
    beside = part_of(folder)
    try:
        for path, data in files.items():
            place = beside / path
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(data)
        beside.rename(folder)
    except BaseException:
        shutil.rmtree(beside, ignore_errors=True)
        _remove_folders(made)
        raise


def put_files(files: Mapping[Path, bytes | Path]) -> None:
    """Put new files in place, each whole, out of bytes or as a copy of a file.

    Raises OSError, FileExistsError for one that is there already; then none is left.
    """
    made: list[Path] = []
    beside: list[Path] = []
    put: list[Path] = []
    try:
        for place, data in files.items():
            made += _make_folders(place.parent)
            part = part_of(place)
            beside.append(part)
            if isinstance(data, Path):
                shutil.copyfile(data, part)
            else:
                part.write_bytes(data)
        for part, place in zip(beside, files, strict=True):
            _give_name(part, place, put)
    except BaseException:
        for place in put:
            with suppress(OSError):
                place.unlink()
        raise
    finally:
        for part in beside:
            with suppress(OSError):
                part.unlink()
        if len(put) < len(files):
            _remove_folders(made)


def _give_name(part: Path, place: Path, put: list[Path]) -> None:
    """Let a whole file have its name, unless something has it; noted first, since nothing may come in between."""
    if os.path.lexists(place):
        raise FileExistsError(17, "File exists", str(place))
    put.append(place)
    try:
        # A second name is given only where there is none yet, in one stroke.
        os.link(part, place)
    except FileExistsError:
        put.remove(place)
        raise
    except OSError:
        # Disks of cameras and sticks have no second names; what is there was looked for a moment ago.
        part.rename(place)


def _make_folders(folder: Path) -> list[Path]:
    """Make a folder and those above it that lack; those that were made, the uppermost first."""
    made: list[Path] = []
    for each in (*reversed(folder.parents), folder):
        with suppress(FileExistsError):
            each.mkdir()
            made.append(each)
    return made


def _remove_folders(folders: list[Path]) -> None:
    for folder in reversed(folders):
        with suppress(OSError):
            folder.rmdir()
