"""What came, put where a content folder has it: guides found wherever they lie, their palette and site beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from guidegen.base.paths import slug
from guidegen.imaging.kinds import ENDINGS, Other, kind_of
from guidegen.reading.content.file_kinds import YAML
from guidegen.receiving.material import GUIDE_ENDINGS, NO_USE, THEIRS, Unpacked

_GUIDE = "guide.md"
# Under which names a guide arrives whose file was saved by something that knows better.
_GUIDE_NAMES = frozenset({_GUIDE, "guide.md.txt", "guide.txt", "guide.markdown"})
_MARKS = re.compile(r"(?:site|palette)\.ya?ml|(?:palette|guides|shared)/.+", re.IGNORECASE)
_CHART = "figure.svg"
_LOOKED_AT = 4_096
_FRONT = re.compile(rb"(?:\xef\xbb\xbf)?\s*---[ \t]*\r?\n")


def lay_out(unpacked: Unpacked, content: Path) -> dict[str, str]:
    """Move what can be of use into a content folder; where each file of it came from, by path there."""
    return _Layout(unpacked).into(content)


class _Layout:
    def __init__(self, unpacked: Unpacked) -> None:
        self.unpacked = unpacked
        self.files = unpacked.files
        self.root = self._root()
        self.guides = self._guide_folders()
        self.placed: dict[str, str] = {}
        self._folders: dict[str, str] = {}

    def into(self, content: Path) -> dict[str, str]:
        for path in sorted(self.files):
            place = self._place(path)
            if place is None:
                continue
            above = [folder.as_posix() for folder in PurePosixPath(place).parents]
            other = self._folders.get(place) or next(
                filter(None, map(self.placed.get, (place, *above))), None
            )
            if other is not None:
                self.unpacked.leave(path, f"would lie where {other} does")
                continue
            self.placed[place] = path
            self._folders |= dict.fromkeys(above, path)
            target = content / place
            target.parent.mkdir(parents=True, exist_ok=True)
            self.files[path].rename(target)
        return self.placed

    def _root(self) -> str:
        """The folder that is the content, by what lies in it: the one furthest up."""
        found = set()
        for path in self.files:
            parts = path.split("/")
            for depth in range(len(parts)):
                rest = "/".join(parts[depth:])
                if _MARKS.fullmatch(rest) or (len(parts) - depth == 1 and rest.casefold() in _GUIDE_NAMES):
                    found.add("/".join(parts[:depth]))
        return min(found, key=lambda folder: (folder.count("/") + bool(folder), folder), default="")

    def _guide_folders(self) -> dict[str, str]:
        """Where each guide's folder goes, by where it lies."""
        taken: set[str] = set()
        found = {}
        for path in sorted(self.files, key=lambda one: (one.count("/"), one)):
            folder, _, name = path.rpartition("/")
            if folder in found or not self._is_guide(path, name):
                continue
            last = folder.rpartition("/")[2] or self.unpacked.name
            last = last if PurePosixPath(last).name == last and not last.startswith(".") else slug(last)
            last = next(one for one in _numbered(last) if slug(one) not in taken)
            taken.add(slug(last))
            found[folder] = f"guides/{last}"
        return found

    def _is_guide(self, path: str, name: str) -> bool:
        plain = name.casefold() == _GUIDE
        return plain or (name.casefold() in _GUIDE_NAMES and _FRONT.match(self._start(path)) is not None)

    def _place(self, path: str) -> str | None:
        """Where a file goes in content; None for one that is left out, which is told."""
        inside = path.removeprefix(f"{self.root}/") if self.root else path
        top, _, rest = inside.partition("/")
        folder = self._guide_around(path)
        name = path.rpartition("/")[2].casefold()
        if folder is not None and name.endswith(ENDINGS):
            return self._picture(path, f"{self.guides[folder]}/{path[len(folder) :].lstrip('/')}")
        if folder is not None and (own := self._place_in_guide(path, folder, name)):
            return own
        if self.root and inside == path:
            return self._left(path, "lies outside of the content folder")
        if top in THEIRS and (top != "as-is" or not name.endswith(ENDINGS)):
            return self._left(path, THEIRS[top])
        stem, ending = inside.rpartition(".")[0], f".{inside.rpartition('.')[2]}".casefold()
        if ending in YAML and (inside.count("/") == 0 and stem in {"site", "palette"}):
            return f"{stem}.yaml"
        if ending in YAML and top in {"palette", "shared"} and rest.count("/") == 0:
            return f"{top}/{rest}"
        short = next((one for one in GUIDE_ENDINGS if name.endswith(one)), "")
        if short and self._is_short_guide(path, top, rest):
            return f"guides/{(rest or inside)[: -len(short)]}.md"
        if name.endswith(ENDINGS):
            beside = not self.guides and top not in {"guides", "shared", "as-is"}
            return self._picture(path, f"guides/{inside}" if beside else inside)
        return self._left(path, NO_USE)

    def _place_in_guide(self, path: str, folder: str, name: str) -> str | None:
        rest = path[len(folder) + 1 :] if folder else path
        target = self.guides[folder]
        if "/" not in rest and name in _GUIDE_NAMES:
            first = f"{target}/{_GUIDE}"
            return first if name == _GUIDE or first not in self._named(target) else None
        if rest.casefold() == _CHART:
            return f"{target}/{_CHART}"
        stem, dot, ending = name.rpartition(".")
        if "/" not in rest and dot + ending in YAML and stem in {"site", "palette"} and folder != self.root:
            return f"palette/{slug(target)}.yaml" if stem == "palette" else None
        return None

    def _named(self, target: str) -> list[str]:
        return [place for place in self.placed if place.startswith(f"{target}/")]

    def _picture(self, path: str, place: str) -> str | None:
        found = kind_of(self._start(path))
        if isinstance(found, Other):
            return self._left(
                path, f"is {found.called}" if found.called else "is no photo, whatever its name says"
            )
        return place

    def _guide_around(self, path: str) -> str | None:
        """The innermost folder of a guide that a file lies in."""
        folder = path.rpartition("/")[0]
        while folder and folder not in self.guides:
            folder = folder.rpartition("/")[0]
        return folder if folder in self.guides else None

    def _is_short_guide(self, path: str, top: str, rest: str) -> bool:
        lies_well = (top == "guides" and rest.count("/") == 0 and rest) or (not rest and not self.guides)
        return bool(lies_well) and _FRONT.match(self._start(path)) is not None

    def _start(self, path: str) -> bytes:
        with self.files[path].open("rb") as file:
            return file.read(_LOOKED_AT)

    def _left(self, path: str, reason: str) -> str | None:
        self.unpacked.leave(path, reason)
        return None


def _numbered(name: str) -> Iterator[str]:
    yield name
    number = 2
    while True:
        yield f"{name}-{number}"
        number += 1
