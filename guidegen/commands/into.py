"""Photos of an evening, added to a guide that is there: `guidegen start guides/NAME --into --photos FOLDER`."""

from __future__ import annotations

import os
import re
from pathlib import Path

import click

from guidegen.base.errors import GuidegenError, MachineError
from guidegen.commands.at_hand import known_help, leave
from guidegen.commands.common import counted
from guidegen.commands.drafting import Wanted, read_sources, shots_of
from guidegen.model.guide import Guide, Step
from guidegen.model.site import Archive


def add_photos(content: Path, archive: Archive, name: str, files: tuple[Path, ...], folder: Path) -> None:
    """Put photos beside a guide and name them in its steps; what stands in the guide stays as it is."""
    from guidegen.reading.drafts.photos import put_photos
    from guidegen.reading.drafts.records import DraftStep
    from guidegen.writing.fresh import put_files, refuse_links
    from guidegen.writing.rewrite import may_be_rewritten, rewrite

    guide = archive.guide(name)
    if guide is None:
        leave(
            f"There is no guide “{name}” that can be read.",
            known_help(
                name, [one.slug for one in archive.guides], "Make one with guidegen start guides/NAME."
            ),
        )
    place = Path(os.path.realpath(content)) / guide.file
    if not may_be_rewritten(place):
        raise GuidegenError(
            f"“{content / guide.file}” cannot be written.",
            "Look at who may write it, and whether it is a link.",
        )
    log = [one for source in read_sources(archive.palette, Wanted(files=files)) for one in source.log]
    shots, photos = shots_of(folder, archive.site.timezone)
    steps = [
        DraftStep(title=step.title, photos=[photo.file for photo in step.photos] or [])
        for step in guide.steps
    ]
    had = [bool(step.photos) for step in steps]
    remarks = put_photos(steps, shots, log)
    fresh = {
        at: (drafted.photos[0], drafted.other_photos)
        for at, (drafted, before) in enumerate(zip(steps, had, strict=True))
        if drafted.photos and not before
    }
    lines = place.read_bytes().decode("utf-8").split("\n")
    named = {}
    for at in sorted(fresh, key=lambda one: -guide.steps[one].span.line):
        if _name_photo(lines, guide, guide.steps[at], *fresh[at]):
            named[at] = fresh[at][0]
    if not named:
        click.echo("No photo was added: no step without one can be told by the photos' times.")
        return
    put = {content / Path(guide.file).parent / file: photos[file].read_bytes() for file in named.values()}
    refuse_links(put, content)
    try:
        put_files(put)
        rewrite(place, "\n".join(lines).encode())
    except FileExistsError as error:
        raise GuidegenError(f"“{error.filename}” is there already, and nothing is overwritten.") from error
    except OSError as error:
        raise MachineError(f"“{error.filename or place}” cannot be written: {error.strerror}.") from error
    click.echo(f"Added {counted(len(named), 'photo')} to {content / guide.file}; say in alt what each shows.")
    for at, file in sorted(named.items()):
        click.echo(f"    {guide.steps[at].title}: {file}")
    for remark in remarks:
        click.echo(f"    {remark}")


def _name_photo(lines: list[str], guide: Guide, step: Step, file: str, others: list[str]) -> bool:
    """Write a photo's line into a step, where the step stands in the guide itself and its form is plain."""
    from guidegen.reading.yaml.quoting import typed

    if step.shared is not None or step.span.file != guide.file:
        return False
    at = step.span.line - 1
    line = lines[at].rstrip("\r")
    ending = "\r" if lines[at].endswith("\r") else ""
    value = f"photo: {{file: {typed(file)}, alt: {typed(step.title)}}}"
    block = re.fullmatch(r"(\s*-\s+)\w+:\s.*", line)
    if block:
        indent = " " * len(block[1])
        more = f"{indent}# more of it: {', '.join(others)}"[:400]
        lines[at + 1 : at + 1] = [f"{indent}{value}{ending}", *([more + ending] if others else [])]
        return True
    flow = re.fullmatch(r"(\s*-\s+\{.*)\}(\s*(?:#.*)?)", line)
    if flow and flow[1].count("{") == flow[1].count("}") + 1:
        lines[at] = f"{flow[1]}, {value}}}{flow[2]}{ending}"
        return True
    return False
