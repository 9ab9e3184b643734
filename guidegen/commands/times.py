"""`guidegen times`: what each step of a guide really took, beside the times that are written."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.commands.common import content_option, json_option, show

if TYPE_CHECKING:
    from guidegen.computing.guide.measured_times import StepTimes

EXAMPLE = """\b
Examples:
  guidegen times ferry-watch
  guidegen times ferry-watch --json
"""


@click.command(epilog=EXAMPLE)
@click.argument("guide")
@content_option
@json_option
def command(guide: str, content: Path, *, as_json: bool) -> None:
    """Say what each step really took: the written times beside those of all batches under made:.

    GUIDE is the guide's address, its title, or the path of its folder or guide.md. Times are fitted over all batches
    that say how many minutes a step took; a step that none has timed is told as it is written.
    """
    from guidegen.base.diagnostic import has_errors
    from guidegen.base.exit_codes import FAULTS
    from guidegen.building.check import check
    from guidegen.building.standalone import concerning
    from guidegen.commands.send import address_asked
    from guidegen.computing.guide.measured_times import measured_times, minutes

    checked = check(content, drafts=True)
    address = address_asked(checked, guide)
    found = checked.archive.guide(address)
    concerned = concerning(checked, address)
    if found is None or has_errors(concerned):
        show(concerned, content)
        raise SystemExit(FAULTS)
    steps = measured_times(found)
    if as_json:
        from guidegen.reporting.as_json import dumped

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
        click.echo(dumped({"steps": rows}), nl=False)
    else:
        click.echo("\n".join(_lines(steps)))


def _lines(steps: Sequence[StepTimes]) -> list[str]:
    from guidegen.base.units import print_duration
    from guidegen.reporting.cells import harmless

    def told(once: int | None, each: int | None) -> str:
        if once is None or each is None:
            return "not timed yet"
        parts = [f"{word} {print_duration(ms)}" for word, ms in (("once", once), ("each", each)) if ms]
        return ", ".join(parts) or "no time"

    rows = [("Step", "Written", "Measured", "Sessions")] + [
        (
            harmless(one.step),
            told(one.once, one.each),
            told(_rounded(one.measured_once), _rounded(one.measured_each)),
            str(one.sessions),
        )
        for one in steps
    ]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def _rounded(ms: int | None) -> int | None:
    """To five seconds: nobody's hands are more exact."""
    return None if ms is None else round(ms / 5_000) * 5_000
