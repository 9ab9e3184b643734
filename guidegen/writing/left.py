"""A site as the last build left it, for a process that builds again and has nobody else write there."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from guidegen.base.stamp import Stamp
from guidegen.writing.manifest import MANIFEST, Manifest
from guidegen.writing.site_folder import STAGING, Found


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """The manifest and how its file looked, and every file and folder of the site as it was left."""

    out: Path
    manifest: Manifest
    look: Stamp | None
    found: Found

    def is_so_still(self) -> bool:
        """Whether no other build has been there since, as far as the manifest and the staging folder tell."""
        return (
            self.look is not None
            and look_of(self.out / MANIFEST) == self.look
            and not (self.out / STAGING).exists()
        )


def look_of(file: Path) -> Stamp | None:
    """How a file looks; None where there is none that can be looked at."""
    try:
        return Stamp.of(file.lstat())
    except OSError:
        return None
