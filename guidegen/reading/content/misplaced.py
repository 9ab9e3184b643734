"""Files that look as if they were meant for guidegen, and lie or are called so that nobody reads them."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import PurePosixPath

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import distance
from guidegen.reading.content.file_kinds import YAML

# What is read in each folder, by its ending; other folders of content have files of any kind.
_READ = {"guides": ".md", "plans": ".yaml", "shared": ".yaml", "palette": ".yaml", "pages": ".md"}
_ELSEWHERE = frozenset({"as-is", "templates", "cards"})
# Endings that such a file is given by mistake.
_ENDINGS = (".md", ".txt", ".markdown", *YAML)
# Those of word processors, which keep more than text.
_WRITTEN = (".docx", ".doc", ".odt", ".rtf")
# Texts about the content that nobody expects on the site.
_ABOUT = ("readme", "licence", "license", "changelog", "contributing", "todo", "notes")
_ROOT = {
    "paints": "palette",
    "paint": "palette",
    "colours": "palette",
    "colors": "palette",
    "settings": "site",
}
_NEAR = 2
_LONG = 6  # in a longer word two slips leave no doubt


def misplaced(files: Collection[str], read: Collection[str]) -> Iterator[Diagnostic]:
    """file-not-read for each, with where it belongs. `read` are the files that are read."""
    for path in sorted(files):
        if path in read or not path.casefold().endswith((*_ENDINGS, *_WRITTEN)):
            continue
        name = PurePosixPath(path).name.casefold()
        place = None if name.startswith(_ABOUT) else _place(PurePosixPath(path), frozenset(files))
        if place is not None and place != path:
            yield Diagnostic(
                code="file-not-read",
                message=f"{path} is not read where it lies.",
                span=Span.of_file(path),
                help=f"Save it as plain text: {place}."
                if path.casefold().endswith(_WRITTEN)
                else f"Call it {place}."
                if PurePosixPath(place).parent == PurePosixPath(path).parent
                else f"Move it to {place}.",
            )


def _place(path: PurePosixPath, files: frozenset[str]) -> str | None:
    """Where a file that is not read belongs; None where it may well be none of ours."""
    folder, *rest = path.parts
    if not rest:
        return _place_at_the_top(path, files)
    kind = next((known for known in _READ if _is_near(folder, known)), _ROOT.get(folder.casefold()))
    if kind not in _READ or folder in _ELSEWHERE:
        return None
    stem, ending = _bare(rest[-1]), _READ[kind]
    if kind != "guides":
        return f"{kind}/{stem}{ending}"
    if len(rest) == 1:
        return f"guides/{stem}.md"
    if path.suffix.casefold() in YAML and _top_kind(stem) == "palette":
        return f"palette/{rest[-2]}.yaml"
    own = f"{'/'.join(path.parts[:-1])}/guide.md"
    if own in files and len(rest) == 2 and folder == kind:
        return None  # notes beside a guide
    if stem.casefold() != "guide":
        # Alone in its folder it is that folder's guide; of several each is one by itself.
        beside = [one for one in files if PurePosixPath(one).parent == path.parent and one.endswith(_ENDINGS)]
        return f"guides/{rest[-2]}/guide.md" if len(beside) == 1 else f"guides/{stem}.md"
    return f"guides/{rest[-2]}/guide.md"


def _place_at_the_top(path: PurePosixPath, files: frozenset[str]) -> str | None:
    stem = _bare(path.name)
    is_yaml = any(ending in path.name.casefold() for ending in YAML)
    meant = _top_kind(stem)
    if meant is not None:
        place = f"{meant}.yaml"
        return f"palette/{stem}.yaml" if place in files and meant == "palette" else place
    return None if is_yaml or path.suffix.casefold() == ".txt" else f"guides/{stem}.md"


def _top_kind(stem: str) -> str | None:
    return next((known for known in ("site", "palette") if _is_near(stem, known)), _ROOT.get(stem.casefold()))


def _bare(name: str) -> str:
    """A file's name without its endings, of which it may have two: guide.md.txt."""
    for _ in range(2):
        ending = next((one for one in (*_ENDINGS, *_WRITTEN) if name.casefold().endswith(one)), "")
        name = name[: len(name) - len(ending)] or name
    return name


def _is_near(name: str, known: str) -> bool:
    """Whether a name is a known one but for case and a slip or two."""
    folded = name.casefold()
    most = 2 if len(known) > _LONG else 1
    return folded == known or (len(folded) > _NEAR + 1 and 1 <= distance(folded, known, most) <= most)
