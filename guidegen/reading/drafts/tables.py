"""Steps out of a table: a row a step, under headings in English or German, below a title if there is one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guidegen.base.csv_cells import plain_cell
from guidegen.model.paint import Kind
from guidegen.reading.drafts.columns import columns_by_content, first_row_of_pots
from guidegen.reading.drafts.fields import Field, StepFields, field_of
from guidegen.reading.drafts.pot_roles import Sentence
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.records import Cue, Draft, DraftStep, DraftStop
from guidegen.reading.drafts.sentences import tokens_of
from guidegen.reading.drafts.step_openings import stops_here
from guidegen.reading.drafts.step_places import technique_again
from guidegen.reading.drafts.techniques import kind_of, technique_said, usual_technique
from guidegen.reading.paint_lists.csv_list import Line, cell_at
from guidegen.reading.paint_lists.rows import Problem, tidy
from guidegen.words.spoken_words import SpokenWords, language_of_words

_TITLE_LINES = 12
MOST_ROWS = 2_000
_STOP = re.compile(r"\W*(?:stop|stopp|halt|milestone|haltepunkt)\b\W*(.*)", re.IGNORECASE)
_MIXED = re.compile(r"mix|mixture|mischung|rezept|recipe", re.IGNORECASE)
_GERMAN_HEADINGS = frozenset(
    {
        "schritt", "farbe", "trocknen", "trockenzeit", "technik", "pinsel", "bereich", "verdünnung", "arbeitsschritt", "mischung",
    }
)  # fmt: skip
# Keys that are put in last, since they belong to a paint of the row.
_LATE = ("parts", "thin", "instead")


@dataclass(frozen=True, slots=True)
class _Head:
    """Which row has the headings, and what each column holds."""

    row: int
    fields: dict[int, Field]


def headings_found(lines: Sequence[Line]) -> int:
    """How many columns of a table are known."""
    head = _head(lines)
    return len(head.fields) if head else 0


def language_of_table(lines: Iterable[Line]) -> str:
    """The language of a table, by the little words in it and its headings."""
    words = [
        word for line in lines for cell in line.cells[:40] for word in re.findall(r"[^\W\d_]+", cell.lower())
    ]
    return "de" if _GERMAN_HEADINGS & set(words) else language_of_words(words[:5_000])


def read_step_table(
    lines: Sequence[Line], finder: PotFinder, words: SpokenWords
) -> tuple[Draft, tuple[Problem, ...]]:
    """The draft of a table, and what could not be read of it."""
    head = _head_by_content(lines, _head(lines), finder, words)
    if head is None:
        shown = (
            ", ".join(f"“{tidy(cell)}”" for cell in lines[0].cells if cell.strip())[:120]
            if lines
            else "nothing"
        )
        message = f"No row says what the columns are, as in step,technique,paint,dry; the first has {shown or 'nothing'}."
        return Draft(language=words.code), (Problem(lines[0].number if lines else 1, message),)
    put = StepFields(finder, words)
    draft = Draft(language=words.code, likely=put.likely, unknown=put.unknown)
    problems: list[Problem] = []
    for line in lines[head.row + 1 :]:
        if line.broken:
            problems.append(Problem(line.number, "A quotation mark is not closed, or stands inside a cell."))
        elif len(draft.entries) >= MOST_ROWS:
            problems.append(
                Problem(line.number, f"There are more than {MOST_ROWS:,} rows; the rest was left out.")
            )
            break
        else:
            _row(line, head, put, draft)
    return draft, tuple(problems)


def _row(line: Line, head: _Head, put: StepFields, draft: Draft) -> None:
    cells = [(field, cell_at(line.cells, at)[:2_000]) for at, field in head.fields.items()]
    held = {field.key: value for field, value in cells if value}
    first = next((cell for cell in map(str.strip, line.cells) if re.search(r"[^\W\d_]", cell)), "")
    painted = held.get("paint", "")
    stopped = _STOP.fullmatch(first) if painted in {"", first} else None
    if not held and stopped is None:
        return
    if (
        stopped is None
        and not held.keys() & {"technique", "dry"}
        and not (painted and put.finder.find(tokens_of([Cue(painted, 1)]), misheard=False))
        and (done := next((cell for cell in line.cells if _calls_it_done(cell, put.words)), ""))
    ):
        stopped = re.fullmatch("(.*)", done.strip())
    if stopped is not None:
        name = stopped[1].strip(" .:–—-") or next((v for k, v in held.items() if k != "step"), "")
        draft.entries.append(DraftStop(name=name or put.words.text("stop", "name")))
        return
    if not painted and not held.keys() & {"step", "technique"}:
        return
    step = DraftStep()
    for late in (False, True):
        for field, value in cells:
            if (field.key in _LATE) is late and (value or field.key == "paint"):
                put.put(step, field, value)
    settle(step, put, " ".join(held.values()).lower(), draft.steps)
    draft.entries.append(step)
    stop = held.get("stop", "")
    if stop and stop.casefold() not in {"no", "nein", "-", "0"}:
        yes = stop.casefold() in {"yes", "ja", "x", "1", "stop", "halt", "stopp", "✓"}
        draft.entries.append(DraftStop(name=put.words.text("stop", "name") if yes else stop))
    elif any(_calls_it_done(held.get(key, ""), put.words) for key in ("mind", "technique")):
        draft.entries.append(DraftStop(name=put.words.text("stop", "name")))


def _calls_it_done(text: str, words: SpokenWords) -> bool:
    low = " ".join(token.low for token in tokens_of([Cue(text, 1)])).strip(" .!*-–—=#")
    return stops_here(Sentence(text=text, low=low), words)


def settle(step: DraftStep, put: StepFields, text: str, earlier: Sequence[DraftStep] = ()) -> None:
    """A technique where none was written: by the title, by what else stands there, by what is in the pots, and by what
    these painted in `earlier` steps.
    """
    pots = [pot for name in step.paints if (pot := put.finder.exact(name)) is not None]
    text = " ".join(token.low for token in tokens_of([Cue(text, 1)]))
    if not step.technique:
        title = step.title.lower()
        if {kind_of(pot) for pot in pots} & {Kind.PRIMER, Kind.VARNISH}:
            title = f"{title} {text}"  # the way it is laid may stand anywhere
        said = technique_said(title, put.words, pots) or technique_said(text, put.words, pots)
        step.technique, step.technique_said = said or usual_technique(pots, text), bool(said)
        if step.technique == "base coat" and not said:
            step.technique = technique_again(step, earlier, pots, put.words, text)
    elif step.technique.split()[-1] in {"undercoat", "varnish"} and not pots:
        return
    if step.technique == "tidy up" and not step.paints:
        step.as_before = True
    if len(step.parts) != len(step.paints):
        step.parts = {name: step.parts.get(name, "1") for name in step.paints} if step.parts else {}
    if len(step.paints) < 2:
        step.parts = {}


def _head(lines: Sequence[Line]) -> _Head | None:
    best: _Head | None = None
    for at, line in enumerate(lines[:_TITLE_LINES]):
        fields: dict[int, Field] = {}
        for place, cell in enumerate(line.cells[:100]):
            field = field_of(tidy(plain_cell(cell)), column=True)
            if field is not None and field in fields.values() and _MIXED.fullmatch(cell.strip()):
                field = field._replace(key="parts")  # beside a column of paints: in which parts
            if field is not None and field not in fields.values():
                fields[place] = field
        keys = {field.key for field in fields.values()}
        told = len(fields) > 1 and keys & {"paint", "step", "technique"}
        if told and (best is None or len(fields) > len(best.fields)):
            best = _Head(at, fields)
    return best


def _with_merged(head: _Head, rows: Sequence[Sequence[str]], finder: PotFinder) -> _Head:
    """The headings with those that go over several columns of pots, and the row below that names the columns of one."""
    top, below = rows[head.row], rows[head.row + 1] if head.row + 1 < len(rows) else ()
    first = next((at for at, cell in enumerate(top) if cell.strip()), 0)
    over = [at for at in range(first + 1, min(100, len(top))) if not top[at].strip()]
    under = [at for at, cell in enumerate(below) if cell.strip()]
    named = under and all(at in over or at + 1 in over for at in under)
    row = head.row + 1 if named and not any(finder.exact(below[at].strip()) for at in under) else head.row
    fields = dict(head.fields)
    for at in over:
        cells = [cell for one in rows[row + 1 :] if at < len(one) and (cell := one[at].strip())]
        told = fields.get(at - 1)
        if (
            told
            and told.key == "paint"
            and sum(finder.near(cell) is not None for cell in cells) * 2 > len(cells)
        ):
            fields[at] = told._replace(number=told.number + 1)
    return _Head(row, fields)


def _head_by_content(
    lines: Sequence[Line], head: _Head | None, finder: PotFinder, words: SpokenWords
) -> _Head | None:
    """The headings with the columns that only show by their cells what they hold, or columns without any heading."""
    rows = [line.cells for line in lines]
    if head is not None:
        head = _with_merged(head, rows, finder)
    else:
        first = first_row_of_pots(rows[: _TITLE_LINES + 1], finder)
        if first is None:
            return None
        head = _Head(first - 1, {})
    headings = rows[head.row] if head.row >= 0 else ()
    fields = columns_by_content(rows[head.row + 1 :], headings, head.fields, finder, words)
    return (
        _Head(head.row, fields) if any(one.key == "paint" for one in fields.values()) or head.fields else None
    )
