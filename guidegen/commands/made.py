"""`guidegen made`: a batch that was painted, written down in its guide with the pots that it was painted with."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.terminal.common import content_option, counted

if TYPE_CHECKING:
    from guidegen.computing.guide.computed_guide import ComputedGuide

EXAMPLE = """\b
Examples:
  guidegen made ferry-watch --figures 10
  guidegen made ferry-watch --figures 4 --by odda --date 2026-05-01
"""


@click.command(epilog=EXAMPLE)
@click.argument("guide")
@click.option(
    "--figures", type=click.IntRange(1, 10_000), required=True, metavar="N", help="How many figures it had."
)
@click.option(
    "--by", default="", metavar="NAME", help="Who painted it: a key of the site's people, or a name."
)
@click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="D",
    help="When it was done, as in 2026-05-01.  [default: today]",
)
@content_option
def command(guide: str, figures: int, by: str, day: dt.datetime | None, content: Path) -> None:
    """Write down in a guide that a batch was painted, with each pot's name, edition and colour of that day.

    GUIDE is the guide's address, its title, or the path of its folder or guide.md. The guide's page says what has
    changed since: a pot that is another edition today, or of another colour. Ends with 1 where the guide has errors.
    """
    from guidegen.building.check import check
    from guidegen.commands.at_hand import leave
    from guidegen.commands.guide_asked import guide_asked
    from guidegen.computing.guide.computed_guide import compute_guide
    from guidegen.reading.editing.batches import with_batch
    from guidegen.reporting.cells import harmless
    from guidegen.writing.plain import read_plain
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    checked = check(content, drafts=True)
    found = guide_asked(checked, guide, content, sound=True)
    batch = _batch(
        compute_guide(found, checked.palette_tools),
        figures,
        by,
        (day or dt.datetime.now(dt.UTC).astimezone()).date(),
    )
    file = checked.content / found.file
    after = with_batch(found.file, read_plain(file), batch) if may_be_rewritten(file) else None
    if after is None:
        leave(f"Nobody knows where to write in {found.file}.", f"Add it to made: by hand: - {batch}")
    with writing(found.file):
        rewrite(file, after)
    click.echo(f"{harmless(found.file)}: {counted(figures, 'figure')} written down under made.")


def _batch(computed: ComputedGuide, figures: int, by: str, day: dt.date) -> str:
    from guidegen.reading.editing.written import in_braces, yaml_text

    used = []
    for paint in (need.paint for need in computed.needs):
        name = f"{paint.range} / {paint.name}" if paint.range else paint.name
        pairs = [("paint", yaml_text(name))]
        pairs += [("edition", yaml_text(paint.edition))] if paint.edition else []
        pairs += [("colour", yaml_text(paint.colour))] if paint.colour else []
        used.append(in_braces(pairs))
    pairs = [("date", day.isoformat()), ("figures", str(figures))]
    pairs += [("by", yaml_text(" ".join(by.split())))] if by.strip() else []
    return in_braces([*pairs, ("used", f"[{', '.join(used)}]")] if used else pairs)
