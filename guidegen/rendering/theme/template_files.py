"""Which files of a folder of templates may be read, and how much of one."""

from __future__ import annotations

import os
from pathlib import Path

# The author's own, in content.
FOLDER = "templates"
# Twenty times our longest template, style or script.
LARGEST_TEMPLATE = 2_000_000


def lies_within(file: Path, folder: Path) -> bool:
    """Whether it is an ordinary file of bearable size, and no link that leads out of the folder, nowhere, or in a circle."""
    try:
        return (
            file.is_file()
            and file.stat().st_size <= LARGEST_TEMPLATE
            and Path(os.path.realpath(file)).is_relative_to(os.path.realpath(folder))
        )
    except OSError:  # a link to a name that is longer than names can be
        return False
