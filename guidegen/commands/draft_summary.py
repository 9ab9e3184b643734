"""What `guidegen start … --from` tells of a draft: its steps, its paints, and what was never said."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.terminal.common import counted

if TYPE_CHECKING:
    from guidegen.model.paint import Palette
    from guidegen.reading.drafts.records import Draft

# How many steps are named where something of them was never said.
_MOST_NAMED = 4


def say_summary(draft: Draft | None, place: Path, palette: Palette) -> None:
    """Print what became of a draft, None for a guide that was taken over as it is."""
    from guidegen.reporting.cells import harmless

    if draft is None:
        click.echo(f"Made {place}, a draft until you take out draft: yes.")
        return
    stops = len(draft.entries) - len(draft.steps)
    and_stops = f" and {counted(stops, 'stop')}" if stops else ""
    click.echo(f"Made {place}, a draft of {counted(len(draft.steps), 'step')}{and_stops}.")
    used = {name for step in draft.steps for name in step.paints}
    likely = {name for name in draft.likely.values() if name in used}
    unknown = {name for name in used if palette.find(name) is None}
    click.echo(
        f"Paints: {len(used - likely - unknown)} sure, {len(likely)} likely, {len(unknown)} not known."
    )
    for heard, name in draft.likely.items():
        click.echo(harmless(f"    “{heard}” was taken for {name}"))
    for name in sorted(unknown):
        click.echo(harmless(f"    “{name}” is not in the palette"))
    missing = list(never_said(draft))
    if missing:
        click.echo("Never said: " + "; ".join(harmless(one) for one in missing) + ".")


def never_said(draft: Draft) -> Iterator[str]:
    """What a reader of the guide would miss, in few words each."""
    from guidegen.model.technique import TECHNIQUES, Role, technique_of

    steps = draft.steps
    techniques = [technique_of(step.technique) for step in steps]
    if not any("undercoat" in one.name for one in techniques):
        yield "no undercoat"
    if not any(one.role is Role.FINISH and "varnish" in one.name for one in techniques):
        yield "no varnish"
    bare = [
        step
        for step in steps
        if not step.paints
        and not step.as_before
        and TECHNIQUES.get(step.technique, techniques[0]).role is not Role.GROUND
    ]
    if bare:
        yield "no paint in " + _named([step.title for step in bare])
    handled = [step for step in steps if "spray" not in step.technique and not step.brush]
    if handled:
        yield f"no brush in {counted(len(handled), 'step')}"
    wet = [
        step.title
        for step, one in zip(steps, techniques, strict=True)
        if not step.dry and (one.role in (Role.FILM, Role.FINISH) or "undercoat" in one.name)
    ]
    if wet:
        yield f"no drying time after {_named(wet)}"
    untimed = [step for step in steps if not step.each]
    if untimed:
        yield (
            "no time for each figure"
            if len(untimed) == len(steps)
            else f"no time for each figure in {_named([step.title for step in untimed])}"
        )
    mixed = [step.title for step in steps if len(step.paints) > 1 and not step.parts]
    if mixed:
        yield f"no parts of the mixture in {_named(mixed)}"


def _named(titles: list[str]) -> str:
    if len(titles) > _MOST_NAMED:
        return f"{len(titles)} steps"
    return ", ".join(f"“{title}”" for title in titles)
