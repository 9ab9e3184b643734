"""A member's shared lists as the archive will have them: the club's where they are the same, else under another name."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable
from itertools import count
from pathlib import Path

from guidegen.base.paths import slug
from guidegen.model.guide import Insert, Shared, Step
from guidegen.reading.yaml.nodes import tree_of
from guidegen.receiving.file_edits import Edits, rename_paints, rename_photo
from guidegen.receiving.guide_texts import Archived, Written, rename_inserts, safe_name
from guidegen.receiving.pots import PotMerge


def lists_written(
    shared: Iterable[Shared], archived: Archived, merge: PotMerge, by: str
) -> dict[str, Written]:
    """Every list by the member's name of it, those that others insert before these."""
    left = {one.name: one for one in shared}
    done: dict[str, Written] = {}
    while left:
        ready = [one for one in left.values() if not any(name in left for name in _inserts(one))]
        for one in ready or left.values():
            done[one.name] = _written(one, archived, merge, by, done)
        left = {name: one for name, one in left.items() if name not in done}
    return done


def _inserts(one: Shared) -> set[str]:
    return {slug(entry.name.text) for entry in one.entries if isinstance(entry, Insert)}


def _written(one: Shared, archived: Archived, merge: PotMerge, by: str, done: dict[str, Written]) -> Written:
    others = {written.name for written in done.values()}
    numbered = (slug(f"{by} {one.name} {number}") for number in count(2))
    for names in ((one.name, slug(f"{by} {one.name}")), numbered):
        for name in names:
            path = f"shared/{name}.yaml"
            if name in others:
                continue
            files = _files(one, path, archived, merge, done, by)
            if all(archived.holds(*file) for file in files.items()):
                return Written(came=one.span.file, name=name, already=True)
            if not _is_there(name, archived):
                new = {file: data for file, data in files.items() if not archived.holds(file, data)}
                return Written(came=one.span.file, name=name, files=new)
    raise AssertionError("numbers do not end")


def _is_there(name: str, archived: Archived) -> bool:
    return any(
        path.startswith("shared/") and slug(path.removeprefix("shared/").rpartition(".")[0]) == name
        for path in archived.club.archive.sources
    )


def _files(
    one: Shared, path: str, archived: Archived, merge: PotMerge, done: dict[str, Written], by: str
) -> dict[str, bytes | Path]:
    source = archived.own(one.span.file)
    edits = Edits(source=source, root=tree_of(source).root)
    files: dict[str, bytes | Path] = {}
    for step in (entry for entry in one.entries if isinstance(entry, Step)):
        rename_paints(edits, step, merge)
        for photo in step.photos:
            if photo.path is None:
                continue
            own = archived.folder / photo.path
            name = safe_name(posixpath.basename(photo.path), own, set())
            if (archived.club.content / "shared" / name).exists() and not archived.holds(
                f"shared/{name}", own
            ):
                name = f"{slug(by)}-{name}"
            files[f"shared/{name}"] = own
            rename_photo(edits, photo, name)
    rename_inserts(edits, {name: written.name for name, written in done.items()})
    files[path] = edits.text().encode()
    return files
