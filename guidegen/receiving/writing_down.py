"""New files put into the archive: never over one that is there, and all of them or none."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from guidegen.base.errors import MachineError
from guidegen.writing.atomic import Disk


def write_down(content: Path, files: Mapping[str, bytes | Path]) -> None:
    """Write the files, guides after what they show. Raises MachineError, and then has written none."""
    done: list[Path] = []
    folders: list[Path] = []
    disk = Disk()
    try:
        for path in sorted(files, key=lambda one: (one.endswith(".md"), one)):
            target = content / path
            for folder in reversed([target.parent, *target.parent.parents]):
                if not folder.exists():
                    folder.mkdir()
                    folders.append(folder)
            data = files[path]
            chunks = (data,) if isinstance(data, bytes) else (data.read_bytes(),)
            done.append(target)
            disk.write(target, chunks, durable=True)
    except BaseException as error:
        if isinstance(error, FileExistsError):
            done.pop()  # somebody else's
        for file in done:
            with suppress(OSError):
                file.unlink()
        for folder in reversed(folders):
            with suppress(OSError):
                folder.rmdir()
        if not isinstance(error, OSError):
            raise
        raise MachineError(
            f"“{os.fspath(content)}” cannot be written to: {error.strerror}.", "Nothing was taken in."
        ) from error
