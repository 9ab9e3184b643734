"""What the columns of a table of steps hold, by what stands in them, where their headings do not tell."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from guidegen.base.units import MINUTE
from guidegen.reading.drafts.amounts import coats_in
from guidegen.reading.drafts.fields import CANS, Field
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.records import Cue
from guidegen.reading.drafts.sentences import tokens_of
from guidegen.reading.drafts.techniques import technique_said
from guidegen.words.spoken_words import SpokenWords

# So many rows show what a column holds.
_MOST_ROWS = 40
# A column is of a kind where so many of its cells are, and of none where so few are.
_MOST = 0.6
_OF_POTS = frozenset({"paint", "instead", "mind", "step"})
_FEW = 0.3
_CLOCK = re.compile(r"(?:\d{1,2}:)?\d{1,3}:[0-5]\d")
_RATIO = re.compile(r"(?:^|.* )\d(?:[.,]\d)? ?(?::|zu|to) ?\d(?:[.,]\d)?(?!\d)(?:$| .*)")
_TIME = re.compile(
    r"(?:\S+ ){0,2}\d+(?:[.,]\d+)? ?(?:min\.?|mins|minutes|minuten|h|hrs?|hours?|std\.?|stunden?)",
    re.IGNORECASE,
)
_PLUS = re.compile(r"\b(?:plus|with|mixed|and|added|second|2|mit|dazu|zweite)\b|\+", re.IGNORECASE)


def columns_by_content(
    rows: Sequence[Sequence[str]],
    headings: Sequence[str],
    told: Mapping[int, Field],
    finder: PotFinder,
    words: SpokenWords,
) -> dict[int, Field]:
    """The columns that the headings told, with those that show by their cells what they hold."""
    width = min(100, max((len(row) for row in rows), default=0))
    cells = {
        at: [cell for row in rows[:_MOST_ROWS] if at < len(row) and (cell := row[at].strip())]
        for at in range(width)
    }

    def share(at: int, fits: Callable[[str], object]) -> float:
        return sum(bool(fits(cell)) for cell in cells[at]) / max(1, len(cells[at]))

    def named(cell: str) -> object:
        return len(cell.split()) <= 12 and (
            finder.near(cell) or finder.find(tokens_of([Cue(cell, 1)]), misheard=False)
        )

    def keys() -> set[str]:
        return {field.key for field in fields.values()}

    pots = {at: share(at, named) for at in cells}
    fields = dict(told)
    # “Pause” above minutes is no stop.
    fields = {at: one for at, one in fields.items() if one.key != "stop" or share(at, _is_time) < _MOST}
    loose = [at for at in cells if pots[at] >= _MOST and getattr(told.get(at), "key", "") not in _OF_POTS]
    fields = {at: one for at, one in fields.items() if at not in loose}  # “mixed with” above pots
    if loose:
        # “Mix” above ratios, “colour” above brown and red: another column has the pots.
        fields = {at: one for at, one in fields.items() if one.key != "paint" or pots.get(at, 0) > _FEW}
    kinds: tuple[tuple[str, Callable[[str], object]], ...] = (
        ("at", _CLOCK.fullmatch),
        ("parts", _RATIO.match),
        ("dry", _is_time),
        ("technique", lambda cell: _tells_how(cell.lower(), finder, words)),
    )
    for at in sorted(set(cells) - set(fields)):
        if pots[at] >= _MOST and cells[at]:
            heading = headings[at] if at < len(headings) else ""
            further = "paint" in keys()
            key = "instead" if further and not _PLUS.search(heading) else "paint"
            fields[at] = Field(key, 2 if further and key == "paint" else 1, MINUTE)
            continue
        for key, fits in kinds:
            if key not in keys() and share(at, fits) >= _MOST:
                fields[at] = Field(key, 1, MINUTE)
                break
    if "paint" in keys() and not {"step", "area"} & keys():
        wordy = (
            at for at in cells if at not in fields and share(at, re.compile(r"[^\W\d_]{3}").search) >= _MOST
        )
        if (first := next(wordy, None)) is not None:
            fields[first] = Field("step", 1, MINUTE)
    told_more = [at for at in cells if at not in fields and share(at, re.compile(r"\S+ \S+").match) >= _MOST]
    if "mind" not in keys():
        fields |= {at: Field("mind", 1, MINUTE) for at in told_more[:1]}
    return dict(sorted(fields.items()))


def _is_time(cell: str) -> bool:
    """A time with its unit, or minutes that end in 0 or 5, as written times do."""
    return bool(_TIME.fullmatch(cell) or re.fullmatch(r"\d*[05]", cell))


def _tells_how(cell: str, finder: PotFinder, words: SpokenWords) -> bool:
    kinds = finder.kind_words() | CANS
    return bool(technique_said(cell, words)) or coats_in(cell, words) > 1 or cell in kinds


def first_row_of_pots(rows: Sequence[Sequence[str]], finder: PotFinder) -> int | None:
    """The first row of which a whole cell is a pot's name, or that has pots in one of several cells: above it, if
    anywhere, stand the headings.
    """
    return next(
        (
            at
            for at, row in enumerate(rows)
            if any(finder.exact(cell.strip()) for cell in row if cell.strip())
            or (
                sum(bool(cell.strip()) for cell in row) > 2
                and any(
                    finder.find(tokens_of([Cue(cell, 1)]), misheard=False) for cell in row if cell.strip()
                )
            )
        ),
        None,
    )
