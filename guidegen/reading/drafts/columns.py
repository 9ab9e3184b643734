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
_WORD = re.compile(r"[^\W\d_]{3}")
_WORDS = re.compile(r"\S+ \S+")

_Fits = Callable[[str], object]


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
    pots = {at: _share(column, lambda cell: _is_named(cell, finder)) for at, column in cells.items()}
    fields = _borne_out(told, cells, pots)
    kinds: tuple[tuple[str, _Fits], ...] = (
        ("at", _CLOCK.fullmatch),
        ("parts", _RATIO.match),
        ("dry", _is_time),
        ("technique", lambda cell: _tells_how(cell.lower(), finder, words)),
    )
    for at in sorted(set(cells) - set(fields)):
        if pots[at] >= _MOST:
            fields[at] = _further_pots(headings[at] if at < len(headings) else "", fields)
            continue
        known = _keys(fields)
        fitting = (key for key, fits in kinds if key not in known and _share(cells[at], fits) >= _MOST)
        if key := next(fitting, ""):
            fields[at] = Field(key, 1, MINUTE)
    return dict(sorted(_with_told(fields, cells).items()))


def _share(column: Sequence[str], fits: _Fits) -> float:
    return sum(bool(fits(cell)) for cell in column) / max(1, len(column))


def _keys(fields: Mapping[int, Field]) -> set[str]:
    return {field.key for field in fields.values()}


def _borne_out(
    told: Mapping[int, Field], cells: Mapping[int, Sequence[str]], pots: Mapping[int, float]
) -> dict[int, Field]:
    """What the headings told, but for what the cells contradict; `pots` tells how many of a column's are pots."""
    # “Pause” above minutes is no stop.
    fields = {
        at: one
        for at, one in told.items()
        if one.key != "stop" or _share(cells.get(at, ()), _is_time) < _MOST
    }
    loose = [at for at in cells if pots[at] >= _MOST and getattr(told.get(at), "key", "") not in _OF_POTS]
    fields = {at: one for at, one in fields.items() if at not in loose}  # “mixed with” above pots
    if loose:
        # “Mix” above ratios, “colour” above brown and red: another column has the pots.
        fields = {at: one for at, one in fields.items() if one.key != "paint" or pots.get(at, 0) > _FEW}
    return fields


def _further_pots(heading: str, fields: Mapping[int, Field]) -> Field:
    """What a column of pots is for: the paint, one that is mixed in, or another that will do."""
    further = "paint" in _keys(fields)
    key = "instead" if further and not _PLUS.search(heading) else "paint"
    return Field(key, 2 if further and key == "paint" else 1, MINUTE)


def _with_told(fields: Mapping[int, Field], cells: Mapping[int, Sequence[str]]) -> dict[int, Field]:
    """The columns with those that only words tell of: what a step is called, and what to mind."""
    found, known = dict(fields), _keys(fields)
    if "paint" in known and not {"step", "area"} & known:
        for at in _mostly(_WORD.search, found, cells)[:1]:
            found[at] = Field("step", 1, MINUTE)
    if "mind" not in known:
        for at in _mostly(_WORDS.match, found, cells)[:1]:
            found[at] = Field("mind", 1, MINUTE)
    return found


def _mostly(fits: _Fits, fields: Mapping[int, Field], cells: Mapping[int, Sequence[str]]) -> list[int]:
    """The columns that are not known yet and most of whose cells fit."""
    return [at for at in cells if at not in fields and _share(cells[at], fits) >= _MOST]


def _is_named(cell: str, finder: PotFinder) -> bool:
    """Whether a cell names a pot, in few words."""
    return len(cell.split()) <= 12 and bool(
        finder.near(cell) or finder.find(tokens_of([Cue(cell, 1)]), misheard=False)
    )


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
