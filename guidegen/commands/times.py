"""`guidegen times`: what each step of a guide really took, beside the times that are written."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.terminal.common import content_option, json_option, print_json, shown_from

if TYPE_CHECKING:
    from guidegen.building.check import Checked
    from guidegen.computing.guide.measured_times import StepTimes
    from guidegen.model.guide import Guide, Step

EXAMPLE = """\b
Examples:
  guidegen times ferry-watch
  guidegen times ferry-watch --json
  guidegen times ferry-watch --write
"""


@click.command(epilog=EXAMPLE)
@click.argument("guide")
@content_option
@click.option("--write", is_flag=True, help="Put the measured times into the guide's file.")
@json_option
def command(guide: str, content: Path, *, write: bool, as_json: bool) -> None:
    """Say what each step really took: the written times beside those of all batches under made:.

    GUIDE is the guide's address, its title, or the path of its folder or guide.md. Times are fitted over all batches
    that say how many minutes a step took; a step that none has timed is told as it is written.
    With --write the guide says from then on what was measured, to five seconds; nothing else of its file changes. Steps
    of shared lists stay as they are, and so does a step that by its minutes would take no time for a figure.
    """
    from guidegen.building.check import check
    from guidegen.commands.guide_asked import guide_asked
    from guidegen.computing.guide.measured_times import measured_times, minutes

    checked = check(content, drafts=True)
    found = guide_asked(checked, guide, content, sound=True)
    steps = measured_times(found)
    changes = _written(checked, found, steps, content) if write else []
    if as_json:
        rows = [
            {
                "step": one.step,
                "once_min": minutes(one.once),
                "each_min": minutes(one.each),
                "measured_once_min": minutes(one.measured_once),
                "measured_each_min": minutes(one.measured_each),
                "sessions": one.sessions,
            }
            for one in steps
        ]
        print_json({"steps": rows})
    else:
        click.echo("\n".join(changes if write else _lines(steps)))


def _written(checked: Checked, guide: Guide, found: Sequence[StepTimes], content: Path) -> list[str]:
    """Put the measured times into the guide's file; the lines that say what was done. Ends with 1 where it may not be."""
    from guidegen.commands.at_hand import leave
    from guidegen.reading.editing.fixes import with_fixes
    from guidegen.reading.editing.step_times import TIME_KEYS, time_fixes
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    to_do = [
        (step, one, one.to_write)
        for step, one in zip(guide.steps, found, strict=True)
        if one.to_write and one.to_write != (one.once, one.each)
    ]
    changed = [(step, one, new) for step, one, new in to_do if step.shared is None]
    if changed:
        source, place = checked.archive.sources[guide.file], Path(os.path.realpath(content), guide.file)
        shown = shown_from(content)(guide.file)
        if not may_be_rewritten(place):
            leave(f"“{shown}” is a link, or must not be written to.", "Write the times into it by hand.")
        fixes = [fix for step, _, new in changed for fix in time_fixes(source, step, *new)]
        with writing(shown, "Look at who may write to it."):
            after, applied = with_fixes(source, place.read_bytes(), fixes, may_add=TIME_KEYS)
            if len(applied) == len(fixes):
                rewrite(place, after)
        if len(applied) < len(fixes):
            leave(f"The times of “{shown}” cannot be told apart from the rest.", "Write them by hand.")
    return list(_told(changed, to_do, found))


def _told(
    changed: Sequence[tuple[Step, StepTimes, tuple[int, int]]],
    to_do: Sequence[tuple[Step, StepTimes, tuple[int, int]]],
    found: Sequence[StepTimes],
) -> Iterator[str]:
    from guidegen.reporting.cells import harmless

    if changed:
        yield "Written:"
    for _, one, new in changed:
        yield harmless(f"  {one.step}: {_in_words(one.once, one.each)} → {_in_words(*new)}")
    for step, one, new in to_do:
        if step.shared is not None:
            yield harmless(
                f"“{one.step}” comes from the shared list “{step.shared}” and stays as it is: "
                f"measured {_in_words(*new)}."
            )
    for one in found:
        if one.sessions and one.to_write is None:
            yield harmless(f"“{one.step}” stays as it is: by its minutes a figure takes no time.")
    if not any(one.sessions for one in found):
        yield "Nothing to write: no batch under made: says how long a step took."
    elif not changed:
        yield "Nothing to write."


def _in_words(once: int, each: int) -> str:
    from guidegen.base.units import print_duration

    parts = [f"{word} {print_duration(ms)}" for word, ms in (("once", once), ("each", each)) if ms]
    return ", ".join(parts) or "no time"


def _lines(steps: Sequence[StepTimes]) -> list[str]:
    from guidegen.computing.guide.measured_times import rounded
    from guidegen.reporting.cells import harmless

    rows = [("Step", "Written", "Measured", "Sessions")] + [
        (
            harmless(one.step),
            _in_words(one.once, one.each),
            "not timed yet"
            if one.measured_once is None or one.measured_each is None
            else _in_words(rounded(one.measured_once), rounded(one.measured_each)),
            str(one.sessions),
        )
        for one in steps
    ]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]
