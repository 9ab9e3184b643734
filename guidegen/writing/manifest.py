"""The one dot-file in a site that lists guidegen's files there, and so what it may replace and remove."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from itertools import starmap
from json.encoder import encode_basestring_ascii as _quoted
from pathlib import Path
from typing import NamedTuple

from guidegen.base.errors import MachineError, OutputRefusedError
from guidegen.base.stamp import Stamp
from guidegen.writing.plain import read_plain
from guidegen.writing.stat_cache import load_json, save_json

MANIFEST = ".guidegen-manifest.json"
FORMAT = 1


class Entry(NamedTuple):
    """One file: what it was made from, and what it came out as. No times, so the same site has the same manifest."""

    key: str
    sha256: str
    size: int


# A file that a build was about to write or remove: ours, whatever it holds by now.
PENDING = Entry("", "", -1)


class Manifest(NamedTuple):
    """Our files by their path in the site, what wrote them, and the hash of the manifest's own bytes."""

    files: Mapping[str, Entry]
    version: str
    digest: str


def read_manifest(out: Path) -> Manifest:
    """The manifest of a site, empty if it has none.

    Raises OutputRefusedError for one that is broken or from a later version: without it nobody can tell our files
    from the author's, and a file that is not known to be ours is never touched.
    """
    try:
        data = read_plain(out / MANIFEST)
    except FileNotFoundError:
        return Manifest({}, "", "")
    except OSError as error:
        raise MachineError(
            f"“{out / MANIFEST}” cannot be read ({error.strerror}), so guidegen cannot tell its files from yours.",
            "Make it readable, or build elsewhere with --out.",
        ) from error
    try:
        saved = json.loads(data)
        if isinstance(saved["format"], int) and saved["format"] > FORMAT:
            raise OutputRefusedError(
                f"“{out}” was last written by a later guidegen, {saved['guidegen']}.",
                "Update guidegen, or build elsewhere with --out.",
            )
        # Nothing is done with a value but to compare it, so an odd one does no harm.
        files = dict(zip(saved["files"], starmap(Entry, saved["files"].values()), strict=True))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise OutputRefusedError(
            f"The list of guidegen's own files in “{out}”, {MANIFEST}, is damaged, so it cannot tell them from yours.",
            f"Remove “{out}” if nothing in it is yours, or build elsewhere with --out.",
        ) from error
    return Manifest(files, str(saved.get("guidegen")), hashlib.sha256(data).hexdigest())


def manifest_bytes(files: Mapping[str, Entry], version: str) -> bytes:
    """The manifest as it is written: sorted, so that the same site has the same bytes."""
    listed = ",".join([_line(path, files[path]) for path in sorted(files)])
    text = f'{{"format":{FORMAT},"guidegen":{_quoted(version)},"files":{{{listed}}}}}\n'
    return text.encode("ascii")


def _line(path: str, entry: Entry) -> str:
    return f"{_quoted(path)}:[{_quoted(entry.key)},{_quoted(entry.sha256)},{entry.size}]"


def load_looks(memory: Path | None, manifest: Manifest) -> dict[str, tuple[int, int, int]]:
    """What `save_looks` kept for this manifest: each file's stamp without its size, by path; empty if there is nothing.

    The memory lies apart from the site, since times differ from build to build. It only holds for the manifest it
    was saved with, and is an array in the manifest's order: a site may have fifty thousand files.
    """
    saved = load_json(memory)
    looks = saved.get("looks")
    if saved.get("manifest") != manifest.digest or not isinstance(looks, list):
        return {}
    if len(looks) != 3 * len(manifest.files):
        return {}
    return dict(
        zip(sorted(manifest.files), zip(looks[::3], looks[1::3], looks[2::3], strict=True), strict=True)
    )


def save_looks(memory: Path | None, digest: str, stamps: Iterable[Stamp]) -> None:
    """Save how our files look, in the order of their sorted paths, for the manifest of that hash."""
    looks = [number for stamp in stamps for number in stamp[1:]]
    save_json(memory, {"manifest": digest, "looks": looks})
