"""The lines of notes: what is a heading, how far a line is set in, and whether it is all prose."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from guidegen.reading.drafts.pots import PotFinder

MOST_LINES = 20_000
LONGEST_LINE = 4_000
_MARKER = re.compile(
    r"(?P<in>[ \t]*)(?P<mark>(?:(?:step|schritt|stage)\s*\d{1,3}\s*[.):–—-]?\s|\d{1,3}[.)]|\(?\d{1,2}\)|[a-z]\)|[-*•·–—+])(?:\s+|(?=\S))(?:\[[ xX]?\]\s*)?)?(?P<text>.*)",
    re.IGNORECASE,
)
_HEADING = re.compile(r"(#{1,6})\s+(.*?)\s*#*")
_BOLD = re.compile(r"\s*(?:\*\*|__)([^*_]{2,60}?):?(?:\*\*|__):?\s*")
# “A/B 2:1, then 1:1 on the shoulders”: the same pots anew.
_RATIO_AGAIN = re.compile(
    r"(?P<pots>[^,:;()]{3,60}?)(?P<ratio>\s+\(?\d\s*:\s*\d\)?),?\s+(?P<then>then|dann|danach)\s+(?=\d\s*:\s*\d)",
    re.IGNORECASE,
)
# A diary's line begins with the time of day.
_TIME_OF_DAY = re.compile(
    r"(?:[01]?\d|2[0-3])[:.][0-5]\d(?:\s*(?:uhr|h|am|pm)\b)?\s*(?:[-–:,]\s*)?(?=[^\W\d_])", re.IGNORECASE
)
_COLUMNS = re.compile(r"(?<=\S)(?:\t+| {2,})(?=\S)")


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A line of notes: how far it is set in, its marker, the level of a heading (0 for none), its words."""

    depth: int
    mark: str
    level: int
    text: str
    line: int


def note_lines(text: str) -> Iterator[NoteLine]:
    lines = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for number, line in enumerate(lines[:MOST_LINES], 1):
        bold = _BOLD.fullmatch(line[:LONGEST_LINE])
        if bold:
            yield NoteLine(0, "", 3, bold[1], number)
            continue
        plain = re.sub(r"\*\*|__|`", "", line[:LONGEST_LINE])
        heading = _HEADING.fullmatch(plain.strip())
        if heading:
            yield NoteLine(0, "", len(heading[1]), heading[2], number)
            continue
        found = _MARKER.fullmatch(plain)
        words = found["text"].strip() if found else ""
        if found and words and not re.fullmatch(r"[-=_*~ ]*", plain):
            depth = len(found["in"].expandtabs(4))
            mark = re.sub(r"^[a-z]+\s*(?=\d)", "", (found["mark"] or "").strip().lower())
            yield NoteLine(depth, mark, 0, words, number)


def with_headings(items: Sequence[NoteLine], names: Callable[[str], object]) -> list[NoteLine]:
    """The lines with those as headings that stand above a list, a few words and no pot: “Shadows” above three items."""
    found: list[NoteLine] = []
    for at, item in enumerate(items):
        after = items[at + 1] if at + 1 < len(items) else None
        alone = not (item.level or item.mark or item.depth) and after is not None and bool(after.mark)
        apart = at == 0 or item.line > items[at - 1].line + 1
        words = item.text.rstrip(":").strip()
        few = len(words.split()) <= 4 and re.search(r"[.:;,!?]|\d", words) is None
        found.append(
            replace(item, level=3, text=words) if alone and apart and few and not names(words) else item
        )
    return found


def without_title(items: list[NoteLine], names: Callable[[str], object]) -> list[NoteLine]:
    """The lines without the title of all of them: a heading that stands alone, or a first line apart from the rest."""
    headings = [item for item in items if item.level]
    highest = [item for item in headings if item.level == min(one.level for one in headings)]
    if len(highest) == 1 and items and items[0] is highest[0]:
        return items[1:]
    if len(items) > 2 and not (items[0].level or items[0].mark or names(items[0].text)):
        apart = items[1].line > items[0].line + 1 and items[2].line == items[1].line + 1
        return items[1:] if apart and not re.search(r"[.:;!?]$|\d", items[0].text) else items
    return items


def written_out(text: str, finder: PotFinder) -> str:
    """A line without what is cut short at the bench: o/n, and “wash: silt on the boots”."""
    for short, means in finder.words.pairs("notes", "short"):
        text = re.sub(rf"(?<![\w/])(?:{short})(?:(?<=/)|(?![\w/]))", str(means), text, flags=re.IGNORECASE)
    text = _TIME_OF_DAY.sub("", text, count=1) if _TIME_OF_DAY.match(text) else text
    text = _RATIO_AGAIN.sub(r"\g<pots>\g<ratio>, \g<then> \g<pots> ", text)
    title, colon, rest = text.partition(":")
    kind = title.strip().lower()
    if not colon or kind not in finder.kind_words():
        return text

    def named(word: re.Match[str]) -> str:
        full = f"{word[0]} {kind}"
        return full if finder.exact(full) is not None else word[0]

    return f"{title}:" + re.sub(rf"[^\W\d_]+(?! +{kind}\b)", named, rest, flags=re.IGNORECASE)


def in_columns(text: str) -> str:
    """Columns that are set with blanks or tabs, as a title and what belongs to it."""
    cells = _COLUMNS.split(text)
    return f"{cells[0].rstrip(':')}: {', '.join(cells[1:])}" if len(cells) > 2 else text


def is_prose(items: Sequence[NoteLine]) -> bool:
    """Whether the notes are sentences rather than a list."""
    plain = [item for item in items if not item.level]
    if not plain or any(item.level > 1 for item in items):
        return False
    marked = sum(bool(item.mark) for item in plain)
    long = sum(len(item.text.split()) > (8 if ". " in item.text else 18) for item in plain)
    return marked * 4 < len(plain) and long * 3 >= len(plain)
