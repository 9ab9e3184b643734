"""`guidegen start`: a content folder, a guide or a plan to begin from, and a palette out of a paint list."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

import click

from guidegen.base.errors import GuidegenError
from guidegen.base.listed import list_of_words
from guidegen.commands.drafting import Wanted
from guidegen.commands.editors import help_files, with_help_line, write_help_files
from guidegen.commands.paint_list import add_to_palette, palette_from
from guidegen.terminal.asking import may_ask
from guidegen.terminal.common import content_option, is_content

if TYPE_CHECKING:
    from guidegen.model.site import Archive

EXAMPLE = """\b
Examples:
  guidegen start
  guidegen start club --palette-from paints.csv
  guidegen start guides/ferry-watch
  guidegen start guides/ferry-watch --from film.vtt --from notes.md --photos evening
  guidegen start plans/regatta --content club
  guidegen start --editor-help
"""

# A title that says the same in YAML with and without quotation marks: letters, digits and a few signs.
_PLAIN = re.compile(r"[^\W\d_][\w '’(),.!–-]*(?<! )")


@dataclass(frozen=True, slots=True)
class _Inside:
    """Something to be made inside a content folder: `kind` is guides, plans or shared, `name` as typed."""

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
    help="Make the palette from a paint list, or add it to the one there: .xlsx, CSV, GIMP palette, names.",
)
@click.option(
    "--from",
    "files",
    type=click.Path(path_type=Path),
    multiple=True,
    metavar="FILE",
    help="Draft the guide from captions (.vtt, .srt), notes (.txt, .md, .docx), a table (.csv, .tsv, .xlsx), the "
    "bench's log.csv; may be given several times.",
)
@click.option(
    "--photos",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Put the photos of an evening to the steps, by the time they were taken.",
)
@click.option(
    "--figure", default="", metavar="CHART", help="The chart that comes along whose areas are painted."
)
@click.option("--into", is_flag=True, help="Add the photos to the guide that is there.")
@click.option("--no-ask", is_flag=True, help="Ask nothing on a terminal; begin with examples.")
@click.option(
    "--editor-help",
    is_flag=True,
    help="Only write the files by which an editor explains every key, into a content folder that is there.",
)
@content_option
@click.pass_context
def command(
    ctx: click.Context,
    path: Path | None,
    list_file: Path | None,
    content: Path,
    files: tuple[Path, ...],
    photos: Path | None,
    *,
    figure: str,
    into: bool,
    no_ask: bool,
    editor_help: bool,
) -> None:
    """Make a content folder to begin from, with comments that explain it; PATH is its name, content if left out.

    guides/NAME, plans/NAME or shared/NAME makes a guide, a plan or a list of steps in the content folder that is
    there. --from drafts a guide out of what you have: captions of a film, notes, a table. --palette-from adds the
    paints of a list to a palette that is there. On a terminal a few questions are asked, and Enter alone will do.
    Nothing of yours is ever overwritten.
    """
    given = ctx.get_parameter_source("content") is click.core.ParameterSource.COMMANDLINE
    if editor_help:
        write_help_files(path or content)
        return
    ask = not no_ask and may_ask()
    inside = _inside(path, content, given=given)
    drafts = bool(files or photos is not None or figure or into)
    _refuse_together(inside, path if given else None, list_file, drafts=drafts)
    if inside is not None:
        wanted = Wanted(files=files, photos=photos, figure=figure)
        _start_inside(inside, wanted, into=into, drafts=drafts, ask=ask)
    else:
        _start_folder(path or content, list_file, ask=ask)


def _refuse_together(
    inside: _Inside | None, beside: Path | None, list_file: Path | None, *, drafts: bool
) -> None:
    """Raises GuidegenError for what does not go together; `beside` is a path that was named beside --content."""
    if drafts and (inside is None or inside.kind != "guides"):
        raise GuidegenError(
            "--from, --photos, --figure and --into go with a guide.", "Name it: guidegen start guides/NAME."
        )
    if inside is not None and list_file is not None:
        raise GuidegenError(
            "--palette-from goes with a content folder, not with a guide or a plan.",
            "Leave out one of the two.",
        )
    if inside is None and beside is not None:
        raise GuidegenError(
            f"Both “{beside}” and --content name a folder to make.", "Name it once: guidegen start FOLDER."
        )


def _start_folder(folder: Path, list_file: Path | None, *, ask: bool) -> None:
    """Make a content folder, or add a list's paints to the palette of one that is there."""
    if list_file is not None and is_content(folder):
        add_to_palette(folder, list_file)
    else:
        _start_content(folder, list_file, ask=ask)


def _start_inside(inside: _Inside, wanted: Wanted, *, into: bool, drafts: bool, ask: bool) -> None:
    """Make a guide, a plan or a list of steps in a content folder that is there."""
    if into:
        _add_photos(inside, wanted.files, wanted.photos)
    elif drafts:
        _draft_guide(inside, wanted, ask=ask)
    else:
        {"guides": _start_guide, "plans": _start_plan, "shared": _start_shared}[inside.kind](inside, ask=ask)


def _inside(path: Path | None, content: Path, *, given: bool) -> _Inside | None:
    """What `guides/NAME`, `plans/NAME` or `shared/NAME` asks for, with or without the content folder before it."""
    parts = PurePath(path).parts if path is not None else ()
    if len(parts) < 2 or parts[-2] not in ("guides", "plans", "shared"):
        return None
    kind, name = parts[-2:]
    name = re.sub(r"\.(md|yaml)$", "", name)
    folder = content
    if len(parts) > 2:
        there = Path(*parts[:-2])
        folder = content / there if given else there
    if not folder.is_dir():
        raise GuidegenError(
            f"There is no content folder “{folder}” for it.",
            "Make one with guidegen start, or name yours with --content.",
        )
    return _Inside(folder, kind, name)


def _start_content(folder: Path, list_file: Path | None, *, ask: bool) -> None:
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise GuidegenError(f"“{folder}” is there already and is no folder.", "Choose another name.")
    if folder.is_dir() and any(not found.name.startswith(".") for found in folder.iterdir()):
        raise GuidegenError(
            f"“{folder}” has files in it already, and nothing is overwritten.",
            "Choose another name; for one more guide write guidegen start guides/NAME.",
        )
    title = "Painting guides" if folder.name in ("content", "") else _title(folder.name)
    guide = "guide.md" if list_file is not None else "guides/first-guide/guide.md"
    palette = _text("palette.yaml") if list_file is None else palette_from(list_file)
    author = ""
    if ask:
        from guidegen.commands.answers import about_site

        title, author = about_site(title, author)
    texts = {
        "site.yaml": _text("site.yaml", title=title, author=author or None),
        "palette.yaml": palette,
        "guides/first-guide/guide.md": _text(guide, title="A first guide"),
    }
    files = {folder / file: with_help_line(file, text) for file, text in texts.items()} | help_files(folder)
    _write(files, folder, new=True)
    _say_next(
        f"Put your paints into {folder / 'palette.yaml'}."
        if list_file is None
        else f"Look through {folder / 'palette.yaml'}: what a list can't say is left out.",
        f"Then write {folder / 'guides/first-guide/guide.md'} anew.",
        f"guidegen build{_option(folder)} --open shows the site.",
    )


def _new_guide(asked: _Inside, archive: Archive) -> Path:
    """The file of a guide that is not there yet."""
    from guidegen.base.paths import slug

    name = slug(asked.name)
    there = [asked.content / "guides" / f"{name}.md", asked.content / "guides" / name / "guide.md"]
    if name in archive.addresses or any(file.exists() for file in there):
        raise GuidegenError(f"There is a guide “{name}” already.", "Choose another name.")
    return there[1]


def _draft_guide(asked: _Inside, wanted: Wanted, *, ask: bool) -> None:
    from guidegen.commands.draft_summary import say_summary
    from guidegen.commands.drafting import draft_guide, learn_names, photo_bytes

    archive = _archive(asked.content)
    file = _new_guide(asked, archive)
    drafted = draft_guide(archive, _title(asked.name), wanted, ask=ask)
    beside = {file.parent / name: photo_bytes(photo) for name, photo in drafted.photos.items()}
    text = with_help_line(file.relative_to(asked.content).as_posix(), drafted.text, asked.content)
    _write({file: text, **beside}, asked.content, quiet=True)
    say_summary(drafted.draft, file, archive.palette)
    if drafted.learned:
        learn_names(asked.content, archive.palette, drafted.learned)
    _say_next(
        f"Read {file} through; what was doubtful stands in comments.",
        f"guidegen preview{_option(asked.content)} shows the page while you write.",
    )


def _add_photos(asked: _Inside, files: tuple[Path, ...], photos: Path | None) -> None:
    from guidegen.base.paths import slug
    from guidegen.commands.drafting import add_photos

    if photos is None:
        raise GuidegenError("--into adds photos to a guide.", "Say where they lie: --photos FOLDER.")
    add_photos(asked.content, _archive(asked.content), slug(asked.name), files, photos)


def _start_guide(asked: _Inside, *, ask: bool) -> None:
    archive = _archive(asked.content)
    file = _new_guide(asked, archive)
    values: dict[str, object] = {"title": _title(asked.name)}
    if ask:
        from guidegen.commands.answers import about_guide

        values = about_guide(archive, _title(asked.name), 5)
    path = file.relative_to(asked.content).as_posix()
    _write({file: with_help_line(path, _text("guide.md", **values), asked.content)}, asked.content)
    _say_next(
        f"Write your steps into {file}; photos lie beside it.",
        f"guidegen preview{_option(asked.content)} shows the page while you write.",
    )


def _start_plan(asked: _Inside, *, ask: bool) -> None:
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
    values: dict[str, object] = {"title": _title(asked.name), "guide": guides[0].slug}
    if ask:
        from guidegen.commands.answers import about_plan

        values = about_plan(archive, _title(asked.name), guides[0].slug)
    _write(
        {file: with_help_line(f"plans/{name}.yaml", _text("plan.yaml", **values), asked.content)},
        asked.content,
    )
    _say_next(
        f"Say in {file} which figures you paint, by which guide, and when.",
        f"guidegen plan {name}{_option(asked.content)} shows the sittings.",
    )


def _start_shared(asked: _Inside, *, ask: bool) -> None:
    """Nothing is asked: a list has only its name."""
    from guidegen.base.paths import slug

    del ask
    name = slug(asked.name)
    file = asked.content / "shared" / f"{name}.yaml"
    if file.exists() or any(shared.name == name for shared in _archive(asked.content).shared):
        raise GuidegenError(f"There is a list “{name}” already.", "Choose another name.")
    _write(
        {file: with_help_line(f"shared/{name}.yaml", _text("shared.yaml", called=name), asked.content)},
        asked.content,
    )
    _say_next(
        f"Write your steps into {file}.",
        f"- insert: {name} puts them among the steps of a guide.",
    )


def _archive(content: Path) -> Archive:
    from guidegen.reading.content.archive import read_archive

    return read_archive(content)[0]


def _option(content: Path) -> str:
    """` --content DIR` as it is typed, '' for a folder that commands find by themselves."""
    if content in (Path("content"), Path()):
        return ""
    return f' --content "{content}"' if " " in str(content) else f" --content {content}"


def _title(name: str) -> str:
    """A title out of a file's name: `ferry-watch` is Ferry watch; what has blanks or capitals is left as it is."""
    text = " ".join(re.sub(r"[-_]+", " ", name).split()) if name == name.lower() and " " not in name else name
    return text[:1].upper() + text[1:]


def _text(name: str, **values: object) -> str:
    """A text to begin from, with today's date, and titles that YAML reads as they are."""
    import datetime as dt

    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from guidegen.base.own_files import own_templates
    from guidegen.reading.paint_lists.palette_file import double_quoted

    environment = Environment(
        loader=FileSystemLoader(own_templates() / "start"),
        undefined=StrictUndefined,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701  it is Markdown and YAML, and titles are quoted
    )
    quoted_values = {
        key: double_quoted(value) if isinstance(value, str) and not _PLAIN.fullmatch(value) else value
        for key, value in values.items()
    }
    today = dt.datetime.now().astimezone().date().isoformat()
    return environment.get_template(name).render(date=today, **quoted_values)


def _write(
    files: Mapping[Path, str | bytes], content: Path, *, new: bool = False, quiet: bool = False
) -> None:
    """Write new files into a content folder, or none; with `new` the folder itself is made.

    Raises GuidegenError where one is there already or would lie elsewhere, MachineError where the disk refuses.
    """
    from guidegen.writing.fresh import put_files, put_folder, refuse_links
    from guidegen.writing.trouble import writing

    refuse_links(files, content)
    data = {file: text.encode() if isinstance(text, str) else text for file, text in files.items()}
    with writing(content if new else next(iter(files)), "Nothing was made."):
        if new:
            put_folder(content, {file.relative_to(content).as_posix(): each for file, each in data.items()})
        else:
            put_files(data)
    if quiet:
        return
    # What begins with a dot is for the editor, and nobody has to open it.
    click.echo(
        "Made " + list_of_words([str(file) for file in files if not file.parent.name.startswith(".")]) + "."
    )


def _say_next(*lines: str) -> None:
    click.echo("Next:")
    for line in lines:
        click.echo(f"    {line}")
