"""`guidegen start`: a content folder, a guide or a plan to begin from, and a palette out of a paint list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

import click

from guidegen.base.errors import GuidegenError, MachineError
from guidegen.commands.at_hand import leave
from guidegen.commands.common import content_option

if TYPE_CHECKING:
    from guidegen.model.site import Archive

EXAMPLE = """\b
Examples:
  guidegen start
  guidegen start club --palette-from paints.csv
  guidegen start guides/ferry-watch
  guidegen start plans/regatta --content club
"""

# A paint list is text; what is larger than this is something else.
LARGEST_LIST = 10_000_000

# What is told of a paint list at most, so that a long one does not hide what to do next.
MOST_TOLD = 20

# A title that says the same in YAML with and without quotation marks: letters, digits and a few signs.
_PLAIN = re.compile(r"[^\W\d_][\w '’(),.!–-]*(?<! )")

# Above the paints of a list that has no colour for them.
NO_COLOUR = 'Without a colour. Add one, as in colour: "b8862f", and take the # away.'

# What shows that a folder is somebody's content.
_MARKS = ("site.yaml", "palette.yaml", "palette", "guides")


@dataclass(frozen=True, slots=True)
class _Inside:
    """Something to be made inside a content folder: `kind` is guides or plans, `name` as typed."""

    content: Path
    kind: str
    name: str


@click.command(epilog=EXAMPLE)
@click.argument("path", required=False, type=click.Path(path_type=Path))
@click.option(
    "--palette-from",
    "list_file",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Make the palette from a paint list: CSV, or a GIMP palette.",
)
@content_option
@click.pass_context
def command(ctx: click.Context, path: Path | None, list_file: Path | None, content: Path) -> None:
    """Make a content folder to begin from, with comments that explain it; PATH is its name, content if left out.

    guides/NAME or plans/NAME makes a guide or a plan in the content folder that is there. Nothing is ever overwritten.
    """
    given = ctx.get_parameter_source("content") is click.core.ParameterSource.COMMANDLINE
    inside = _inside(path, content if given else None)
    if inside is not None:
        if list_file is not None:
            raise GuidegenError(
                "--palette-from goes with a new content folder, not with a guide or a plan.",
                "Leave out one of the two.",
            )
        _start_guide(inside) if inside.kind == "guides" else _start_plan(inside)
        return
    if path is not None and given:
        raise GuidegenError(
            f"Both “{path}” and --content name a folder to make.", "Name it once: guidegen start FOLDER."
        )
    _start_content(path or content, list_file)


def _inside(path: Path | None, content: Path | None) -> _Inside | None:
    """What `guides/NAME` or `plans/NAME` asks for, with or without the content folder before it."""
    parts = PurePath(path).parts if path is not None else ()
    if len(parts) < 2 or parts[-2] not in ("guides", "plans"):
        return None
    kind, name = parts[-2:]
    name = re.sub(r"\.(md|yaml)$", "", name)
    if len(parts) > 2:
        there = Path(*parts[:-2])
        folder = there if content is None else content / there
    elif content is not None:
        folder = content
    else:
        folder = next((place for place in (Path("content"), Path()) if _is_content(place)), Path("content"))
    if not folder.is_dir():
        raise GuidegenError(
            f"There is no content folder “{folder}” for it.",
            "Make one with guidegen start, or name yours with --content.",
        )
    return _Inside(folder, kind, name)


def _is_content(folder: Path) -> bool:
    return any((folder / mark).exists() for mark in _MARKS)


def _start_content(folder: Path, list_file: Path | None) -> None:
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise GuidegenError(f"“{folder}” is there already and is no folder.", "Choose another name.")
    if folder.is_dir() and any(not found.name.startswith(".") for found in folder.iterdir()):
        raise GuidegenError(
            f"“{folder}” has files in it already, and nothing is overwritten.",
            "Choose another name; for one more guide write guidegen start guides/NAME.",
        )
    title = "Painting guides" if folder.name in ("content", "") else _title(folder.name)
    guide = "guide.md" if list_file is not None else "guides/first-guide/guide.md"
    palette = _text("palette.yaml") if list_file is None else _palette_from(list_file)
    _write(
        {
            folder / "site.yaml": _text("site.yaml", title=title),
            folder / "palette.yaml": palette,
            folder / "guides/first-guide/guide.md": _text(guide, title="A first guide"),
        }
    )
    _say_next(
        f"Put your paints into {folder / 'palette.yaml'}."
        if list_file is None
        else f"Look through {folder / 'palette.yaml'}: what a list can't say is left out.",
        f"Then write {folder / 'guides/first-guide/guide.md'} anew.",
        f"guidegen build{_option(folder)} --open shows the site.",
    )


def _start_guide(asked: _Inside) -> None:
    from guidegen.base.paths import slug

    name = slug(asked.name)
    there = [asked.content / "guides" / f"{name}.md", asked.content / "guides" / name / "guide.md"]
    known = _archive(asked.content).addresses
    if name in known or any(file.exists() for file in there):
        raise GuidegenError(f"There is a guide “{name}” already.", "Choose another name.")
    file = there[1]
    _write({file: _text("guide.md", title=_title(asked.name))})
    _say_next(
        f"Write your steps into {file}; photos lie beside it.",
        f"guidegen preview{_option(asked.content)} shows the page while you write.",
    )


def _start_plan(asked: _Inside) -> None:
    from guidegen.base.paths import slug

    name = slug(asked.name)
    file = asked.content / "plans" / f"{name}.yaml"
    archive = _archive(asked.content)
    if file.exists() or any(plan.slug == name for plan in archive.plans):
        raise GuidegenError(f"There is a plan “{name}” already.", "Choose another name.")
    guides = sorted(archive.guides, key=lambda guide: (guide.draft, guide.slug))
    if not guides:
        raise GuidegenError(
            "A plan says by which guide figures are painted, and there is no guide that can be read.",
            "Make one first: guidegen start guides/NAME.",
        )
    _write({file: _text("plan.yaml", title=_title(asked.name), guide=guides[0].slug)})
    _say_next(
        f"Say in {file} which figures you paint, by which guide, and when.",
        f"guidegen plan {name}{_option(asked.content)} shows the sittings.",
    )


def _archive(content: Path) -> Archive:
    from guidegen.reading.archive import read_archive

    return read_archive(content)[0]


def _option(content: Path) -> str:
    return (
        ""
        if content == Path("content")
        else f' --content "{content}"'
        if " " in str(content)
        else f" --content {content}"
    )


def _title(name: str) -> str:
    """A title out of a file's name: `ferry-watch` is Ferry watch; what has blanks or capitals is left as it is."""
    text = " ".join(re.sub(r"[-_]+", " ", name).split()) if name == name.lower() and " " not in name else name
    return text[:1].upper() + text[1:]


def _text(name: str, **values: str) -> str:
    """A text to begin from, with today's date, and titles that YAML reads as they are."""
    import datetime as dt

    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from guidegen.computing.palette_yaml import quoted
    from guidegen.rendering.environment import own_templates

    environment = Environment(
        loader=FileSystemLoader(own_templates() / "start"),
        undefined=StrictUndefined,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701  it is Markdown and YAML, and titles are quoted
    )
    told = {key: value if _PLAIN.fullmatch(value) else quoted(value) for key, value in values.items()}
    today = dt.datetime.now().astimezone().date().isoformat()
    return environment.get_template(name).render(date=today, **told)


def _palette_from(file: Path) -> str:
    """A palette file out of a paint list; what could not be taken over is told."""
    from guidegen.computing.palette_text import read_palette_text
    from guidegen.computing.palette_yaml import palette_yaml
    from guidegen.model.paint import COLOURLESS

    found = read_palette_text(_decoded(_bytes_of(file)))
    _tell_problems([f"line {problem.line}: {problem.message}" for problem in found.problems])
    if not found.paints:
        leave(f"“{file}” has no paint that could be taken over.", "It should be CSV or a GIMP palette.")
    count = len(found.paints)
    click.echo(f"{count} paint{'' if count == 1 else 's'} taken over from {file.name}.")
    ready = [paint for paint in found.paints if paint.colour or paint.kind in COLOURLESS]
    text = palette_yaml(ready, heading=[f"Your paints, taken over from {file.name}."])
    bare = [paint for paint in found.paints if paint not in ready]
    if bare:
        # The palette can be used at once, and nothing of the list is lost.
        _, _, entries = palette_yaml(bare).partition("\n")
        text += f"\n# {NO_COLOUR}\n" + "".join(f"#{line}\n" for line in entries.splitlines())
    return text


def _bytes_of(file: Path) -> bytes:
    if not file.is_file():
        leave(f"There is no paint list “{file}”.", "Check the name, and that you are in the right folder.")
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST_LIST + 1)
    except OSError as error:
        raise MachineError(f"“{file}” cannot be read: {error.strerror}.") from error
    if len(data) > LARGEST_LIST:
        leave(f"“{file}” is larger than {LARGEST_LIST:,} bytes.", "Is it a paint list?")
    return data


def _decoded(data: bytes) -> str:
    """Text as spreadsheets save it: UTF-8, UTF-16 with its mark, or the code page of Western Windows."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _tell_problems(problems: list[str]) -> None:
    from guidegen.reporting.cells import harmless

    for problem in problems[:MOST_TOLD]:
        click.echo(harmless(f"    {problem}"), err=True)
    if len(problems) > MOST_TOLD:
        click.echo(f"    and {len(problems) - MOST_TOLD} more", err=True)


def _write(files: Mapping[Path, str]) -> None:
    """Write new files, none where one is; Raises MachineError where the disk refuses."""
    for file, text in files.items():
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            with file.open("x", encoding="utf-8", newline="\n") as new:
                new.write(text)
        except FileExistsError as error:
            raise GuidegenError(f"“{file}” is there already, and nothing is overwritten.") from error
        except OSError as error:
            raise MachineError(f"“{file}” cannot be written: {error.strerror}.") from error
    click.echo("Made " + _listed(str(file) for file in files) + ".")


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _say_next(*lines: str) -> None:
    click.echo("Next:")
    for line in lines:
        click.echo(f"    {line}")
