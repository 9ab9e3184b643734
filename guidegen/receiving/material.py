"""A member's material as files with paths, whatever it came as; what is left out, and why."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.base.paths import folded_path, is_litter, is_unsafe_to_show

# Three hundred guides with their photos make ten thousand files and some gigabytes; more came by mistake or worse.
MOST_FILES = 10_000
LARGEST_FILE = 60_000_000
LARGEST_WHOLE = 2_000_000_000
DEEPEST = 20
LONGEST = 400
# In bytes: ext4 and NTFS allow 255, and a number may be added.
LONGEST_NAME = 240

GUIDE_ENDINGS = (".md", ".md.txt", ".txt", ".markdown")
LITTER = "was left there by a file manager"
HIDDEN = "is hidden"
NO_USE = "is no guide, list, palette or photo"
# What of a member's site is nobody else's, by its folder.
THEIRS = {
    "plans": "is a plan, and plans stay with whoever paints by them",
    "cards": "is a card, and cards stay with whoever printed them",
    "pages": "is a page of the member's own site",
    "templates": "is a template, and the archive has its own look",
    "as-is": "is a file of the member's own site",
}
_NO_GUIDES = frozenset({LITTER, HIDDEN, NO_USE, *THEIRS.values()})


@dataclass(frozen=True, slots=True, kw_only=True)
class NotTaken:
    """A file that is not taken in, by the path it came under, and why, as what follows its name in a sentence."""

    file: str
    reason: str

    @property
    def may_be_a_guide(self) -> bool:
        """Whether a guide may have stayed out with it."""
        return self.reason not in _NO_GUIDES and self.file.casefold().endswith(GUIDE_ENDINGS)


@dataclass(slots=True, kw_only=True)
class Unpacked:
    """What came, laid down under names of our own: `files` leads from each path as it came to where it lies now.

    `name` is what the whole came under.
    """

    name: str
    files: dict[str, Path] = field(default_factory=dict)
    not_taken: list[NotTaken] = field(default_factory=list)

    def leave(self, file: str, reason: str) -> None:
        """Leave a file out, and remember why."""
        self.not_taken.append(NotTaken(file=file, reason=reason))


class Unpacker:
    """Lays files down one by one within the bounds; what is over them is left out."""

    def __init__(self, name: str, folder: Path) -> None:
        """`folder` is one of our own, and empty."""
        self.unpacked = Unpacked(name=name)
        self._folder = folder
        self._seen: dict[str, str] = {}
        self._total = 0

    def takes(self, path: str) -> bool:
        """Whether a file of that path will be laid down; why not is remembered."""
        reason = why_not(path) or self._why_not_now(path)
        if reason is not None:
            self.unpacked.leave(path, reason)
        return reason is None

    def lay_down(self, path: str, chunks: Iterator[bytes]) -> None:
        """Write a file that `takes` was asked about, or leave it out where it turns out to be too large."""
        place = self._folder / f"{len(self._seen):06}"
        size = 0
        with place.open("xb") as file:
            for chunk in chunks:
                size += len(chunk)
                if size > LARGEST_FILE or self._total + size > LARGEST_WHOLE:
                    break
                file.write(chunk)
        if size > LARGEST_FILE:
            self.unpacked.leave(path, f"is larger than {LARGEST_FILE // 1_000_000} MB")
        elif self._total + size > LARGEST_WHOLE:
            self.unpacked.leave(path, f"would make more than {LARGEST_WHOLE // 1_000_000_000} GB of it all")
        else:
            self._total += size
            self.unpacked.files[path] = place
            return
        place.unlink()

    def _why_not_now(self, path: str) -> str | None:
        first = self._seen.setdefault(folded_path(path), path)
        if first is not path:
            return "is there twice" if first == path else f"has the same name as {first} on many machines"
        return f"is one of more than {MOST_FILES:,} files" if len(self._seen) > MOST_FILES else None


def why_not(path: str) -> str | None:
    """Why no file of that path is taken, as what follows its name in a sentence; None if one may be."""
    if path.startswith("/") or path[1:2] == ":":
        return "has an absolute path"
    parts = path.split("/")
    if ".." in parts:
        return "would lie outside of its folder"
    if any(part == "__MACOSX" or is_litter(part) for part in parts):
        return LITTER
    if any(part.startswith(".") for part in parts):
        return HIDDEN
    if len(parts) > DEEPEST:
        return f"lies more than {DEEPEST} folders deep"
    names = [len(part.encode("utf-8", "surrogatepass")) for part in parts]
    if len(path) > LONGEST or max(names) > LONGEST_NAME or not names[-1]:
        return "has a name that is too long"
    if any(is_unsafe_to_show(character) for character in path):
        return "has signs in its name that cannot be shown"
    return None


def tidy(path: str) -> str:
    """A path with forward slashes, accents in composed form (NFC), and without empty and `.` parts."""
    path = unicodedata.normalize("NFC", path.replace("\\", "/"))
    lead = "/" if path.startswith("/") else ""
    return lead + "/".join(part for part in path.split("/") if part not in {"", "."})
