"""A draft of a guide out of captions, notes, tables and photos, and photos into a guide: `guidegen start guides/NAME`."""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.errors import GuidegenError, MachineError
from guidegen.commands.at_hand import bytes_of, known_help, leave
from guidegen.terminal.common import counted, tell_some

if TYPE_CHECKING:
    from guidegen.base.source import Span
    from guidegen.model.guide import Guide, Step
    from guidegen.model.paint import Palette
    from guidegen.model.site import Archive
    from guidegen.reading.drafts.bench_log import Logged
    from guidegen.reading.drafts.photos import Shot
    from guidegen.reading.drafts.records import Draft
    from guidegen.reading.drafts.sources import FromFile

# How many doubtful names are asked about, and how many photos of a folder are looked at.
MOST_ASKED = 12
MOST_PHOTOS = 300
_PHOTOS = (".jpg", ".jpeg", ".heic", ".heif", ".png", ".webp", ".avif", ".tif", ".tiff")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a draft is to be made of. `figure` is the name of a chart that comes along, '' for none."""

    files: tuple[Path, ...] = ()
    photos: Path | None = None
    figure: str = ""


@dataclass(slots=True, kw_only=True)
class Drafted:
    """A guide's text with the photos that lie beside it, and the draft it came from, None for a guide as it was.

    `learned` are names as they were heard with the pot that each means, which are to be kept in the palette.
    """

    text: str
    photos: dict[str, Path]
    draft: Draft | None
    learned: dict[str, str] = field(default_factory=dict)


def draft_guide(archive: Archive, title: str, wanted: Wanted, *, ask: bool) -> Drafted:
    """The text of a draft. Ends with 1 where a file is not there or holds nothing that could be a step."""
    from guidegen.reading.drafts.sources import as_draft, draft_of

    sources = read_sources(archive.palette, wanted)
    ready = [source for source in sources if source.guide]
    if ready:
        if len(sources) > 1 or wanted.photos is not None:
            raise GuidegenError(
                f"{ready[0].name} is a guide already, so nothing else goes with it.", "Name it alone."
            )
        return Drafted(text=as_draft(ready[0].guide), photos={}, draft=None)
    from guidegen.reading.drafts.guide_text import Heading, give_titles, guide_text

    draft = draft_of(sources)
    if draft is None or not draft.steps:
        names = ", ".join(str(file) for file in wanted.files)
        leave(
            f"Nothing in {names or 'it'} tells of a step." if wanted.files else "Photos alone make no guide.",
            "Name captions, notes or a table with --from, and keep the paints that are named in the palette.",
        )
    give_titles(draft)
    learned = _ask(draft, archive.palette) if ask else {}
    photos = _photos(draft, wanted.photos, archive, sources)
    site_language = archive.site.language.split("-")[0].lower()
    heading = Heading(
        title=title,
        date=dt.datetime.now().astimezone().date().isoformat(),
        language=draft.language if draft.language != site_language else "",
        figure=wanted.figure,
        remarks=(f"Drafted from {', '.join(file.name for file in wanted.files)}: read it through.",),
    )
    return Drafted(text=guide_text(draft, heading), photos=photos, draft=draft, learned=learned)


def read_sources(palette: Palette, wanted: Wanted) -> list[FromFile]:
    """The files read, in order; what could not be made out in them is told on standard error."""
    from guidegen.reading.drafts.sources import read_source

    areas = _chart_areas(wanted.figure)
    found = []
    for file in wanted.files:
        source = read_source(file.name, _bytes_of(file), palette, areas)
        tell_some([f"{file}, line {problem.line}: {problem.message}" for problem in source.problems])
        found.append(source)
    return found


def _chart_areas(figure: str) -> tuple[str, ...]:
    if not figure:
        return ()
    from guidegen.base.source import Source
    from guidegen.reading.content.chart import read_chart
    from guidegen.reading.content.discover import starter_chart, starter_charts

    if figure not in starter_charts():
        leave(f"There is no chart “{figure}”.", known_help(figure, starter_charts(), "There is none."))
    source = starter_chart(figure)
    chart = read_chart(source)[0] if isinstance(source, Source) else None
    return chart.areas if chart is not None else ()


def _bytes_of(file: Path) -> bytes:
    from guidegen.reading.drafts.sources import ENDINGS, LARGEST_FILE

    if file.is_file() and file.suffix.lower() not in ENDINGS:
        leave(
            f"“{file}” is of no kind that a draft is made from.", f"These can be read: {', '.join(ENDINGS)}."
        )
    return bytes_of(file, LARGEST_FILE, noun="file", ask="Are these captions, notes or a table?")


def _ask(draft: Draft, palette: Palette) -> dict[str, str]:
    """Ask about names that were put right; Enter keeps what stands there. Those that the palette is to learn."""
    from guidegen.commands.answers import ask_pot
    from guidegen.terminal.asking import agrees

    confirmed: dict[str, str] = {}
    for heard, name in list(draft.likely.items())[:MOST_ASKED]:
        chosen = ask_pot(f"Heard “{heard}”. Which paint is it?", palette, name)
        if palette.find(heard) is None:
            confirmed[heard] = chosen
        if chosen != name:
            draft.likely[heard] = chosen
            for step in draft.steps:
                if any(f'"{heard}"' in doubt for doubt in step.doubts):
                    step.paints = [chosen if paint == name else paint for paint in step.paints]
                    step.parts = {chosen if paint == name else paint: n for paint, n in step.parts.items()}
                    step.instead = [
                        (chosen if paint == name else paint, note) for paint, note in step.instead
                    ]
    keep = confirmed and agrees("Keep these in the palette as aliases?")
    return confirmed if keep else {}


def learn_names(content: Path, palette: Palette, learned: Mapping[str, str]) -> None:
    """Write names as they were heard into the palette, as aliases of the pots they mean; tell what was written where."""
    from guidegen.model.paint import Mix, Paint
    from guidegen.reading.editing.palette_values import NewValues, with_values
    from guidegen.reporting.cells import harmless
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    names: dict[Span, list[str]] = {}
    for heard, name in learned.items():
        pot = palette.find(name)
        if isinstance(pot, Paint | Mix) and (span := pot.places.get("name")) is not None:
            names.setdefault(span, []).append(" ".join(heard.split()))
    for file in sorted({span.file for span in names}):
        place = Path(os.path.realpath(content)) / file
        wanted = [NewValues(name=at, aliases=tuple(said)) for at, said in names.items() if at.file == file]
        said = ", ".join(f"“{alias}”" for one in wanted for alias in one.aliases)
        with writing(place):
            after = with_values(file, place.read_bytes(), wanted) if may_be_rewritten(place) else None
            if after is not None:
                rewrite(place, after)
        told = "as aliases" if after is not None else "not learned, since it could not be written for certain"
        click.echo(harmless(f"{content / file}: {said} {told}."))


# Photos


def _photos(
    draft: Draft, folder: Path | None, archive: Archive, sources: Sequence[FromFile]
) -> dict[str, Path]:
    """Propose photos for the steps; those that are proposed, by the name under which they will lie beside the guide."""
    if folder is None:
        return {}
    from guidegen.reading.drafts.photos import put_photos

    shots, files = shots_of(folder, archive.site.timezone)
    log = [one for source in sources for one in source.log]
    draft.remarks += put_photos(draft.steps, shots, log)
    return {name: files[name] for step in draft.steps for name in step.photos}


def shots_of(folder: Path, zone: str) -> tuple[list[Shot], dict[str, Path]]:
    """The photos of a folder with their times by the site's clock; those without a time are told."""
    from zoneinfo import ZoneInfo

    from guidegen.imaging.load import read_bytes
    from guidegen.imaging.photo_time import taken
    from guidegen.imaging.trouble import Trouble
    from guidegen.reading.drafts.photos import Shot

    if not folder.is_dir():
        leave(f"There is no folder “{folder}” with photos.", "Name the folder that they lie in.")
    found = sorted(
        file for file in folder.iterdir() if file.suffix.lower() in _PHOTOS and not file.name.startswith(".")
    )
    if len(found) > MOST_PHOTOS:
        leave(
            f"There are {len(found):,} photos in “{folder}”, {MOST_PHOTOS} at most are looked at.",
            "Choose some.",
        )
    shots, files = [], {}
    for file in found:
        data = read_bytes(file)
        about = data if isinstance(data, Trouble) else taken(data)
        if isinstance(about, Trouble):
            click.echo(f"    {file.name} {about.what}; it was left out.", err=True)
        elif about.when is None:
            click.echo(f"    {file.name} does not say when it was taken, so it was left out.", err=True)
        else:
            when = about.when
            local = when.astimezone(ZoneInfo(zone)).replace(tzinfo=None) if when.tzinfo else when
            shots.append(Shot(file.name, local, about.sharpness))
            files[file.name] = file
    return shots, files


def photo_bytes(file: Path) -> bytes:
    """A photo to be put beside a guide. Raises MachineError where it cannot be read any more."""
    try:
        return file.read_bytes()
    except OSError as error:
        raise MachineError(f"“{file}” cannot be read: {error.strerror}.") from error


# Photos into a guide that is there


def add_photos(content: Path, archive: Archive, name: str, files: tuple[Path, ...], folder: Path) -> None:
    """Put photos beside a guide and name them in its steps; what stands in the guide stays as it is."""
    from guidegen.writing.fresh import put_files, refuse_links
    from guidegen.writing.rewrite import rewrite
    from guidegen.writing.trouble import writing

    guide, place = _rewritable(content, archive, name)
    log = [one for source in read_sources(archive.palette, Wanted(files=files)) for one in source.log]
    shots, photos = shots_of(folder, archive.site.timezone)
    fresh, remarks = _proposed(guide, shots, log)
    lines = place.read_bytes().decode("utf-8").split("\n")
    named = {}
    for at in sorted(fresh, key=lambda one: -guide.steps[one].span.line):
        if _name_photo(lines, guide, guide.steps[at], *fresh[at]):
            named[at] = fresh[at][0]
    if not named:
        click.echo("No photo was added: no step without one can be told by the photos' times.")
        return
    put = {content / Path(guide.file).parent / file: photo_bytes(photos[file]) for file in named.values()}
    refuse_links(put, content)
    with writing(content / guide.file):
        put_files(put)
        rewrite(place, "\n".join(lines).encode())
    click.echo(f"Added {counted(len(named), 'photo')} to {content / guide.file}; say in alt what each shows.")
    for at, file in sorted(named.items()):
        click.echo(f"    {guide.steps[at].title}: {file}")
    for remark in remarks:
        click.echo(f"    {remark}")


def _rewritable(content: Path, archive: Archive, name: str) -> tuple[Guide, Path]:
    """A guide and its file; where there is none, or it cannot be written, that is told."""
    from guidegen.writing.rewrite import may_be_rewritten

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
    return guide, place


def _proposed(
    guide: Guide, shots: Sequence[Shot], log: Sequence[Logged]
) -> tuple[dict[int, tuple[str, list[str]]], list[str]]:
    """A photo, and others of it, for each step that has none yet, by its place; and what was unsure, as remarks."""
    from guidegen.reading.drafts.photos import put_photos
    from guidegen.reading.drafts.records import DraftStep

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
    return fresh, remarks


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
