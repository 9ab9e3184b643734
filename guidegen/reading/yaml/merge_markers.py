"""What a version control system leaves in a file that two people changed: no part of it is to be read."""

from __future__ import annotations

import re
from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.reading.yaml.quoting import shortened

# Seven signs begin the line, and a name may follow: gitattributes(5), conflict-marker-size. Between the first version
# and the second, the one that both come from may stand.
# Compiled where one is found.
_CONFLICT = r"(?ms)^<{7}(?: [^\n]*)?\n(?P<first>.*?)(?:^\|{7}(?: [^\n]*)?\n.*?)?^={7}\n(?P<second>.*?)^>{7}(?: [^\n]*)?$"
# Somebody who merged a whole branch knows after so many.
_MOST = 20
_MOST_LINES = 8


def merge_markers(source: Source) -> Iterator[Diagnostic]:
    """merge-marker for each place that has two versions, with both of them."""
    if "<<<<<<<" not in source.text:
        return
    for number, found in enumerate(re.finditer(_CONFLICT, source.text)):
        if number == _MOST:
            return
        end = source.text.find("\n", found.start())
        yield Diagnostic(
            code="merge-marker",
            message="Two people changed this place, and nobody has decided yet.",
            span=source.span(found.start(), end),
            help="Keep one of the two, or some of each, and take the lines of <, = and > out.",
            notes=(_version("One", found["first"]), _version("The other", found["second"])),
        )


def _version(which: str, text: str) -> str:
    lines = [shortened(line) for line in text.splitlines() if line.strip()]
    if not lines:
        return f"{which} has nothing here."
    more = f" and {len(lines) - _MOST_LINES} more lines" if len(lines) > _MOST_LINES else ""
    return f"{which}: {' · '.join(lines[:_MOST_LINES])}{more}"
