"""What a build changed in a site, in an order in which it can be carried elsewhere file by file without a dead link."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.writing.artifact import is_page

# Files that name others, and so come after them.
_NAMING = (".css", ".js", ".json", ".svg", ".webmanifest", ".xml")


def named_first(paths: Iterable[str]) -> list[str]:
    """Files sorted, those that name others behind the rest."""
    return sorted(paths, key=lambda path: (path.endswith(_NAMING), path))


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """The paths of files that were not there before, that were there otherwise, and that are there no more."""

    new: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()

    @property
    def written(self) -> tuple[str, ...]:
        """The paths of the files that were written."""
        return tuple(sorted((*self.new, *self.changed)))

    def in_order(self) -> Iterator[tuple[str, str]]:
        """What is done and to which file: `new`, `changed` or `removed`, and its path.

        First what pages show, then new pages, to which nothing leads yet, changed pages, pages and files about all of
        the site, the home page last of them, and at the end what goes: pages before what they show.
        """
        beside = [("new", path) for path in self.new if not is_page(path) and not _is_about_all(path)]
        beside += [
            ("changed", path) for path in self.changed if not is_page(path) and not _is_about_all(path)
        ]
        place = {path: at for at, path in enumerate(named_first(path for _, path in beside))}
        yield from sorted(beside, key=lambda one: place[one[1]])
        yield from (("new", path) for path in sorted(self.new) if is_page(path) and not _is_about_all(path))
        changed = (path for path in sorted(self.changed) if is_page(path) and not _is_about_all(path))
        yield from (("changed", path) for path in changed)
        about_all = [(word, path) for word in ("new", "changed") for path in getattr(self, word)]
        about_all = [one for one in about_all if _is_about_all(one[1])]
        # The worker keeps pages as they are when it comes, so it comes after them.
        yield from sorted(about_all, key=lambda one: (one[0] == "changed", _turn(one[1]), one[1]))
        pages = [path for path in sorted(self.removed) if is_page(path)]
        others = named_first(path for path in self.removed if not is_page(path))
        yield from (("removed", path) for path in [*pages, *reversed(others)])

    def lines(self) -> str:
        """The same as text, a line for each file."""
        return "".join(f"{word} {path}\n" for word, path in self.in_order())


def _is_about_all(path: str) -> bool:
    """Whether a file lies at the site's top, or is the first page of one of its parts."""
    return "/" not in path or (path.count("/") == 1 and path.endswith("/index.html"))


def _turn(path: str) -> int:
    return 2 if path == "index.html" else 1 if not is_page(path) else 0
