"""Every kind of message once as it is said in full, and once where the same thing is written well.

Each file under cases/messages has remarks, then `=== content` with the files of a content folder (see folders.py)
and `=== says` with the full text that comes of it, and both once more for content in which there is nothing to mend.
The files of cases/messages/town.txt are there in every case, unless it brings its own.
A case whose words changed is written anew and fails all the same, so that the difference is looked at.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

import pytest
from support.content_folders import lay_out
from support.paths import CASES

from guidegen.base.codes import CODES
from guidegen.base.diagnostic import Diagnostic
from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.reporting.text import as_text

FOLDER = CASES / "messages"
TOWN = FOLDER / "town.txt"

# Told by the imaging of a build, which `check` does not open photos for.
BY_BUILD = {"bad-photo", "animated-photo", "small-photo", "photo-names-somebody"}

_SECTION = re.compile(r"^=== content\n(.*?)^=== says\n(.*?)(?=^=== content\n|\Z)", re.MULTILINE | re.DOTALL)


class Section(NamedTuple):
    """Some content and what is said of it."""

    content: str
    says: str


def sections_of(case: str) -> tuple[str, list[Section]]:
    """The remarks of a case, and its sections."""
    remarks = case[: case.index("=== content\n")]
    return remarks, [Section(*found.groups()) for found in _SECTION.finditer(case)]


def written(remarks: str, sections: list[Section]) -> str:
    return remarks + "\n".join(f"=== content\n{one.content}=== says\n{one.says}" for one in sections)


def told(slug: str, folder: Path, content: str) -> tuple[Diagnostic, ...]:
    lay_out(folder, TOWN.read_text(encoding="utf-8"))
    lay_out(folder, content)
    if slug not in BY_BUILD:
        return check(folder).diagnostics
    order = Order(content=folder, out=folder.parent / "site", cache=folder.parent / "cache")
    return build(order).diagnostics


def said(diagnostics: tuple[Diagnostic, ...]) -> str:
    return as_text(diagnostics, shown=lambda file: file, most=99) or "Nothing to mend.\n"


SLUGS = sorted(path.stem for path in FOLDER.glob("*.txt") if path != TOWN)


@pytest.mark.parametrize("slug", SLUGS)
def test_what_is_said(slug: str, tmp_path: Path):
    path = FOLDER / f"{slug}.txt"
    case = path.read_text(encoding="utf-8")
    remarks, sections = sections_of(case)
    assert len(sections) == 2, f"{path.name} needs one content that is told about, and one that is not"
    faulty = told(slug, tmp_path / "faulty" / "content", sections[0].content)
    sound = told(slug, tmp_path / "sound" / "content", sections[1].content)
    new = written(
        remarks,
        [
            Section(sections[0].content, said(faulty) + "\n"),
            Section(sections[1].content, said(sound)),
        ],
    )
    if new != case:
        path.write_text(new, encoding="utf-8")
    assert slug in {diagnostic.code for diagnostic in faulty}
    assert said(sound) == "Nothing to mend.\n"
    assert new == case, f"{path.name} was written anew: look at what changed"


def test_every_kind_has_a_case():
    assert set(SLUGS) == set(CODES)


@pytest.mark.parametrize("slug", SLUGS)
def test_a_case_tells_of_nothing_else(slug: str):
    """What follows from a mistake is kept quiet, so a case shows its own kind alone."""
    _, sections = sections_of((FOLDER / f"{slug}.txt").read_text(encoding="utf-8"))
    ends = {line.rpartition(" ")[2] for line in sections[0].says.splitlines()}
    assert ends & set(CODES) == {slug}
