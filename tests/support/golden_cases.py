"""Golden cases: small content folders as readable text, each beside what guidegen has to say about it.

A file of cases looks like this; `triggers` cases have the file's slug among what is said, `passes` cases have not:

    @@@ triggers: a colour after a blank
    === palette.yaml
    paints:
      - {name: Oilskin Ochre, colour: #b8862f}
    --- expected
    palette.yaml:2:33-2:40 bad-colour The colour … | Put it in quotes …
        palette.yaml:1:1 a second place, if there is one

A mismatch rewrites the file, to be looked at and kept or mended, and the test still fails.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from support.paths import CASES

from guidegen.base.diagnostic import Diagnostic

DIAGNOSTICS = CASES / "diagnostics"

Diagnose = Callable[[Path], Iterable[Diagnostic]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One folder and what is expected of it, a line each."""

    title: str
    files: dict[str, str]
    expected: str


def slug_of(path: Path) -> str:
    """The diagnostic that a file of cases is about: its name up to the first dot."""
    return path.name.partition(".")[0]


def cases_of(path: Path) -> list[Case]:
    """The cases in a file."""
    cases = []
    for text in re.split(r"^@@@ ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]:
        title, _, rest = text.partition("\n")
        files_text, _, expected = rest.partition("--- expected\n")
        pieces = re.split(r"^=== (.+)\n", files_text, flags=re.MULTILINE)
        files = dict(zip(pieces[1::2], pieces[2::2], strict=True))
        cases.append(Case(title=title, files=files, expected=expected.strip("\n")))
    return cases


def text_of(cases: Iterable[Case]) -> str:
    """The file of some cases."""
    return "\n".join(
        f"@@@ {case.title}\n"
        + "".join(f"=== {name}\n{content}" for name, content in case.files.items())
        + f"--- expected\n{case.expected}\n".replace("\n\n", "\n")
        for case in cases
    )


def lay_out(files: dict[str, str], folder: Path) -> Path:
    """Write the files of a case."""
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, encoding="utf-8", newline="")
    return folder


def said(diagnostics: Iterable[Diagnostic]) -> str:
    """Diagnostics, a line each, with second places set in below."""
    lines = []
    for one in diagnostics:
        place = one.span
        lines.append(
            f"{place.file}:{place.line}:{place.column}-{place.end_line}:{place.end_column} "
            f"{one.code} {one.message} | {one.help}"
        )
        lines += [f"    {r.span.file}:{r.span.line}:{r.span.column} {r.message}" for r in one.related]
    return "\n".join(lines)


def run(path: Path, diagnose: Diagnose, room: Path) -> None:
    """Run the cases of a file; rewrite it and fail where what is said has changed."""
    cases = cases_of(path)
    now = []
    for number, case in enumerate(cases):
        found = tuple(diagnose(lay_out(case.files, room / str(number))))
        codes = {one.code for one in found}
        assert (slug_of(path) in codes) == case.title.startswith("triggers"), f"{case.title}:\n{said(found)}"
        now.append(replace(case, expected=said(found)))
    if now != cases:
        path.write_text(text_of(now), encoding="utf-8")
    assert now == cases, f"{path.name} was rewritten: look at what changed in it."
    kinds = {case.title.partition(":")[0] for case in cases}
    assert kinds == {"triggers", "passes"}, (
        f"{path.name} needs a case that triggers it and one that does not."
    )
