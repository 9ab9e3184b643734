"""`guidegen check --fix`: what can be mended safely is, and everything is checked again."""

from __future__ import annotations

import os
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from guidegen.reading.editing.fixes import AppliedFix, with_fixes
from guidegen.reporting.cells import harmless
from guidegen.writing.rewrite import may_be_rewritten, rewrite
from guidegen.writing.trouble import writing

if TYPE_CHECKING:
    from guidegen.base.diagnostic import Diagnostic, Fix
    from guidegen.building.check import Checked
    from guidegen.reporting.text import Shown

# What is mended can bring to light what was hidden behind it, a few times over and never for ever.
MOST_ROUNDS = 10


class Fixed(NamedTuple):
    """What came of it: everything checked anew, and what was mended in which file, in the order it was done."""

    checked: Checked
    applied: tuple[tuple[str, AppliedFix], ...]


def apply_fixes(content: Path) -> Fixed:
    """Mend what is safe to mend, again as long as more of it comes to light. Raises MachineError as the disk does."""
    from guidegen.building.check import check_with_photos

    done: list[tuple[str, AppliedFix]] = []
    checked = check_with_photos(content)
    for _ in range(MOST_ROUNDS):
        now = list(_fix_once(checked))
        if not now:
            break
        done += now
        checked = check_with_photos(content)
    return Fixed(checked, tuple(done))


def _fix_once(checked: Checked) -> Iterator[tuple[str, AppliedFix]]:
    root = Path(os.path.realpath(checked.content))
    for file, fixes in sorted(_fixes(checked.diagnostics).items()):
        place = root / file
        source = checked.archive.sources.get(file)
        if source is None or not may_be_rewritten(place):
            continue
        try:
            with writing(file):
                data = place.read_bytes()
                after, applied = with_fixes(source, data, fixes, may_add=_keys_of_their_own(fixes))
                if applied:
                    rewrite(place, after)
        except UnicodeDecodeError:
            continue  # it was written to since it was read
        for one in applied:
            yield file, one


def _keys_of_their_own(fixes: Iterable[Fix]) -> frozenset[str]:
    """The keys that shared a line with another and get one, or a comma, of their own."""
    return frozenset(key for fix in fixes for key in re.findall(r"(?:\n *|, )([a-z_]+):(?= )", fix.text))


def _fixes(diagnostics: Iterable[Diagnostic]) -> dict[str, list[Fix]]:
    """The fixes by file; first those that let it be read as it is meant, since the others go by what is read."""
    by_file: dict[str, list[Fix]] = defaultdict(list)
    first: dict[str, list[Fix]] = defaultdict(list)
    for diagnostic in diagnostics:
        if diagnostic.fix is not None:
            chosen = first if diagnostic.code == "bad-yaml" else by_file
            chosen[diagnostic.fix.span.file].append(diagnostic.fix)
    return {**by_file, **first}


def _change(one: AppliedFix) -> str:
    before, after = one.before.strip(), one.fix.text.strip()
    if not before and not after:
        return f"set in by {len(one.fix.text)}" if one.fix.text else "no longer set in"
    if before == after:
        return "spaces put in the place of tabs" if "\t" in one.before else "set in otherwise"
    return f"{before} → {after}"


def fixes_text(applied: Iterable[tuple[str, AppliedFix]], shown: Shown) -> str:
    """What was mended, a line each: where, what stood there, what stands there now. Empty where nothing was."""
    rows = [(f"{shown(file)}, line {one.fix.span.line}", _change(one)) for file, one in applied]
    wide = max((len(place) for place, _ in rows), default=0)
    lines = (harmless(f"    {place:{wide}}     {change}") for place, change in rows)
    return "".join(f"{line}\n" for line in ("Mended:", *lines)) if rows else ""
