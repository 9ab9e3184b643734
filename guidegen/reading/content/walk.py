"""Goes through a content folder once, and tells what in it cannot be read or could not lie in a site."""

from __future__ import annotations

import errno
import os
import stat
from contextlib import suppress
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import GuidegenError, MachineError
from guidegen.base.paths import clashes, is_control, is_litter, why_unsafe
from guidegen.base.source import Span
from guidegen.base.stamp import Stamp, kind_of
from guidegen.reading.content.file_kinds import YAML

# Three hundred guides with their photos make ten thousand; this many mean that another folder was meant.
MOST_FILES = 300_000
# Deeper than anybody sorts things, and a bound for what a hostile archive unpacks to.
DEEPEST_FOLDER = 40
# A film of some minutes. A file may say that it is larger than the disk and hold nothing (a sparse one), and it would
# be copied in full.
LARGEST_AS_IS = 1_000_000_000
# Twenty times our longest template, style or script.
LARGEST_TEMPLATE = 2_000_000

_AS_IS = "as-is/"
_TEMPLATES = "templates/"
# What is read wherever it lies, and folders of which everything is used; a photo is told where it is named.
_READ = (*YAML, ".md", ".svg")
_USED = (_AS_IS, _TEMPLATES)


class Walk:
    """Goes through the folders once, following no link to a folder.

    `links` leads from a linked folder to the folder of content that it shows; `outside` are links that leave content.
    """

    def __init__(self, root: str) -> None:
        """`root` has no link in it."""
        self.root = root
        self.files: dict[str, Stamp] = {}
        self.links: dict[str, str] = {}
        self.outside: set[str] = set()
        self.diagnostics: list[Diagnostic] = []

    def go(self) -> None:
        """Find everything. Raises GuidegenError for more files than a content folder has, and for a forbidden folder."""
        ahead = [("", 0)]
        while ahead:
            folder, depth = ahead.pop()
            for entry in self._entries(folder):
                path = f"{folder}/{entry.name}" if folder else entry.name
                if self._passed_over(path, entry.name):
                    continue
                if entry.is_symlink():
                    self._link(path, entry)
                elif not entry.is_dir(follow_symlinks=False):
                    # An editor may have taken it away since the folder was listed.
                    with suppress(FileNotFoundError):
                        self._file(path, entry.stat(follow_symlinks=False))
                elif depth < DEEPEST_FOLDER:
                    ahead.append((path, depth + 1))
                else:
                    self._tell(
                        path,
                        f"The folder {path} lies more than {DEEPEST_FOLDER} folders deep, so nobody looks into it.",
                        "Move it further up.",
                    )
        self._leave_out_of_the_site()
        self._tell_large_templates()

    def _entries(self, folder: str) -> list[os.DirEntry[str]]:
        try:
            with os.scandir(f"{self.root}{os.sep}{folder}") as entries:
                return sorted(entries, key=lambda entry: entry.name)
        except OSError as error:
            if error.errno == errno.ENAMETOOLONG and folder:
                self._tell(
                    folder,
                    f"The folder {folder[:60]}… has a path longer than this machine can follow.",
                    "Give the folders shorter names.",
                )
                return []
            raise MachineError(
                f"The folder {folder or self.root} cannot be opened: {error.strerror}.",
                "Look at who may read it.",
            ) from error

    def _passed_over(self, path: str, name: str) -> bool:
        if is_hidden(path, name):
            return True
        if name.isprintable() or not any(map(is_control, name)):
            return False
        shown = "".join("\N{REPLACEMENT CHARACTER}" if is_control(c) else c for c in path)
        self._tell(
            shown,
            f"The name of the file or folder {shown} has signs in it that cannot be shown.",
            "Give it another name; it is passed over.",
        )
        return True

    def _file(self, path: str, status: os.stat_result) -> None:
        if not stat.S_ISREG(status.st_mode):
            self._tell(
                path,
                f"{path} is no ordinary file but {kind_of(status.st_mode)}, so it is not opened.",
                "Put the file itself there, or take this away.",
            )
            return
        self.files[path] = Stamp.of(status)
        if len(self.files) > MOST_FILES:
            raise GuidegenError(
                f"The content folder has more than {MOST_FILES:,} files in it.",
                "Name the folder that holds the guides with --content.",
            )

    def _link(self, path: str, entry: os.DirEntry[str]) -> None:
        target = os.path.realpath(entry.path)
        if target != self.root and not target.startswith(self.root + os.sep):
            self.outside.add(path)
            if path.casefold().endswith(_READ) or path.startswith(_USED) or Path(target).is_dir():
                message = f"{path} is a link that leads out of the content folder, so it is not followed."
                self._tell(path, message, "Put what it leads to here, or take the link away.")
            return
        try:
            status = entry.stat()
        except OSError:
            if path.casefold().endswith(_READ) or path.startswith(_USED):
                message = f"{path} is a link that leads nowhere, or round in a circle."
                self._tell(path, message, "Put what it is meant to lead to here, or take the link away.")
            return
        if stat.S_ISDIR(status.st_mode):
            inside = os.path.relpath(target, self.root).replace(os.sep, "/")
            self.links[path] = "" if inside == "." else inside
        else:
            self._file(path, status)

    def _leave_out_of_the_site(self) -> None:
        """Tell which files of as-is/ cannot lie in a site, and forget them."""
        loose = {path.removeprefix(_AS_IS): path for path in self.files if path.startswith(_AS_IS)}
        refused: dict[str, tuple[str, str]] = {}
        for inside, path in loose.items():
            size = self.files[path].size
            reason = why_unsafe(inside)
            if reason is not None:
                refused[inside] = (f"{path} {reason}.", "Give it another name.")
            elif size > LARGEST_AS_IS:
                refused[inside] = (_too_large(path, size), "Put it elsewhere and link to it.")
        for first, second in clashes(inside for inside in loose if inside not in refused):
            refusal = (_side_by_side(loose[second], loose[first]), "Give one of them another name.")
            refused.setdefault(second, refusal)
        for inside, (message, help_line) in refused.items():
            del self.files[loose[inside]]
            self._tell(loose[inside], message, help_line)

    def _tell_large_templates(self) -> None:
        for path, stamp in self.files.items():
            if path.startswith(_TEMPLATES) and stamp.size > LARGEST_TEMPLATE:
                most = f"{LARGEST_TEMPLATE // 1_000_000} MB"
                message = f"{path} is larger than {most}, which is as large as a template can be."
                self._tell(path, message, "Put what readers fetch into as-is/, and link to it.")

    def _tell(self, path: str, message: str, help_line: str) -> None:
        code = "bad-template" if path.startswith(_TEMPLATES) else "bad-value"
        self.diagnostics.append(
            Diagnostic(code=code, message=message, span=Span.of_file(path), help=help_line)
        )


def _too_large(path: str, size: int) -> str:
    most = f"{LARGEST_AS_IS / 1e9:.0f} GB"
    return f"{path} takes up {size / 1e9:.1f} GB; a file of a site may have up to {most}."


def _side_by_side(second: str, first: str) -> str:
    why = "since case and the form of accents make no difference on some"
    return f"{second} and {first} cannot lie side by side on every machine, {why}."


def is_hidden(path: str, name: str) -> bool:
    """Whether a file or folder is none of the content: a dot-file outside of as-is/, or a file manager's own."""
    return is_litter(name) or (name.startswith(".") and not path.startswith(_AS_IS))
